package learn

import (
	"fmt"
	"slices"

	"netrate/cmd/netrate/internal/say"
	"netrate/sim/fit"
)

// divisions returns what differs between jobs and between speeds, and how it grows with the
// speed. Rows of tables begin with blanks.
func (x *fitting) divisions() []string {
	var text []string
	tests, differ := 0, 0
	for _, l := range x.learnt {
		for i := range l.faults {
			f := &l.faults[i]
			for _, by := range f.divided() {
				tests++
				if by.difference.P < usualP {
					differ++
					text = append(text, fmt.Sprintf("%s, %s, by %s: %s", l.name, f.called, by.word, by.difference.Finding()), say.Indented(say.Columns(x.groupRows(by.division))))
				}
			}
			if f.growth != nil && f.growth.Low > 0 {
				text = append(text, fmt.Sprintf("%s, %s: %s", l.name, f.called, f.growth.Finding()))
			}
		}
	}
	if tests == 0 {
		return nil
	}
	text = append(text, fmt.Sprintf("Jobs and speeds were compared in %s, of which %s a difference; "+
		"by chance alone one test in twenty does.", say.Plural(tests, "test"), shows(differ)))
	if x.oneSpeedEach() {
		text = append(text, "Each job ran at one speed only: which of the two makes a difference cannot be told.")
	}
	return text
}

// namedDivision is a division and what it is by.
type namedDivision struct {
	word string
	*division
}

// divided returns the divisions of a fault; that by speed is left out if it is the one by
// job under another name.
func (f *faultLearnt) divided() []namedDivision {
	var all []namedDivision
	if f.jobs != nil {
		all = append(all, namedDivision{"job", f.jobs})
	}
	if f.speeds != nil && (f.jobs == nil || !slices.EqualFunc(f.jobs.groups, f.speeds.groups, sameCounts)) {
		all = append(all, namedDivision{"speed", f.speeds})
	}
	return all
}

func sameCounts(a, b fit.Group) bool { return a.Faults == b.Faults && a.Feeds == b.Feeds }

// oneSpeedEach reports whether there are several jobs and speeds, and no job has two speeds.
func (x *fitting) oneSpeedEach() bool {
	speeds := map[string]float64{}
	different := map[float64]bool{}
	for _, s := range x.stations {
		for _, c := range s.counts {
			if c.Feeds == 0 {
				continue
			}
			if before, met := speeds[c.Job]; c.Job == "" || c.Speed == 0 || met && before != c.Speed {
				return false
			}
			speeds[c.Job] = c.Speed
			different[c.Speed] = true
		}
	}
	return len(different) > 1
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

// groupRows returns the table of the groups of a division.
func (x *fitting) groupRows(d *division) [][]string {
	rows := [][]string{{"", "seen", "feeds", "one in", x.sure() + ": one in"}}
	for _, g := range d.groups {
		if rate, err := fit.NewRate(g.Faults, g.Feeds, x.level); err == nil {
			rows = append(rows, append([]string{g.Name}, rateCells(rate)...))
		}
	}
	return rows
}
