package present

import (
	"fmt"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/sim/fit"
)

// rateRows returns the table of the rates.
func (f Fit) rateRows() [][]string {
	rows := [][]string{f.rateHead()}
	for _, s := range f.Stations {
		for _, fault := range s.Faults {
			rows = append(rows, append([]string{s.Name + ", " + fault.Called}, rateCells(fault.Rate)...))
		}
	}
	return rows
}

func (f Fit) rateHead() []string {
	return []string{"", "seen", "feeds", "one in", f.Sure() + ": one in"}
}

func rateCells(r fit.Rate) []string {
	return []string{say.Thousands(r.Faults), say.Thousands(r.Feeds), say.OneIn(r.P), interval(r)}
}

// clearRows returns the table of the lengths of stops.
func (f Fit) clearRows() [][]string {
	rows := [][]string{{"", "stops", "cut off", "kind", "mean, s", "cv", "P"}}
	for _, s := range f.Stations {
		c := s.Clearing.Chosen
		if c == nil {
			continue
		}
		cv := "1"
		if se := c.CVSE(); se > 0 {
			cv = say.PlusMinus(say.Measured(c.CV(), se))
		}
		p := "–"
		if c.Goodness.Tested {
			p = say.Rounded(c.Goodness.P, -2)
		}
		rows = append(rows, []string{
			s.Name, say.Thousands(len(s.Clearing.Lengths)), say.Thousands(s.Clearing.CutOff), c.Kind.String(), meanOf(c), cv, p,
		})
	}
	return rows
}

// groupRows returns the table of the groups of a division.
func (f Fit) groupRows(d *study.FitDivision) [][]string {
	rows := [][]string{f.rateHead()}
	for _, g := range d.Groups {
		rows = append(rows, append([]string{g.Name}, rateCells(g.Rate)...))
	}
	return rows
}

// divisions returns what differs between jobs and between speeds, and how it grows with the
// speed. Rows of tables begin with blanks.
func (f Fit) divisions() []string {
	var text []string
	tests, differ := 0, 0
	for _, s := range f.Stations {
		for i := range s.Faults {
			fault := &s.Faults[i]
			for _, d := range fault.Divided() {
				tests++
				if d.Differs() {
					differ++
					text = append(text, fmt.Sprintf("%s, %s, by %s: %s", s.Name, fault.Called, d.By, d.Difference.Finding()), say.Indented(say.Columns(f.groupRows(d))))
				}
			}
			if fault.Grows() {
				text = append(text, fmt.Sprintf("%s, %s: %s", s.Name, fault.Called, fault.Growth.Finding()))
			}
		}
	}
	if tests == 0 {
		return nil
	}
	text = append(text, fmt.Sprintf("Jobs and speeds were compared in %s, of which %s a difference; "+
		"by chance alone one test in twenty does.", say.Plural(tests, "test"), shows(differ)))
	if f.Log.OneSpeedEach() {
		text = append(text, "Each job ran at one speed only: which of the two makes a difference cannot be told.")
	}
	return text
}

func shows(n int) string {
	switch n {
	case 0:
		return "none shows"
	case 1:
		return "1 shows"
	}
	return say.Thousands(n) + " show"
}
