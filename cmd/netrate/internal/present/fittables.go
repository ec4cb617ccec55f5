package present

import (
	"fmt"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
	"netrate/sim/fit"
)

// Rates returns a row for each fault of a station.
func (f Fit) Rates() plots.Table {
	t := plots.Table{
		Name: "Rates", Caption: "Faults in feeds, and feeds for each fault, with the " + f.Sure() + " interval; where none was seen, the least number of them." + f.namelessCaption(),
		Columns: rateColumns("Station and fault"),
	}
	for _, s := range f.Stations {
		for _, fault := range s.Faults {
			t.Rows = append(t.Rows, rateRow(s.Name+", "+fault.Called, fault.Rate))
		}
	}
	return t
}

// namelessCaption says why there are fewer feeds than in the counts.
func (f Fit) namelessCaption() string {
	if f.Nameless().Stops == 0 {
		return ""
	}
	return " Feeds are those in which as many of the stops with a cause would have come, those without one being shared out."
}

func rateColumns(first string) []plots.Column {
	return []plots.Column{
		{Title: first},
		{Title: "Seen", Kind: plots.Number},
		{Title: "Feeds", Kind: plots.Number},
		{Title: "One in", Kind: plots.Number},
		{Title: "from", Kind: plots.Number},
		{Title: "to", Kind: plots.Number},
	}
}

func rateRow(name string, r fit.Rate) []plots.Entry {
	row := []plots.Entry{page.Words(name), page.Value(float64(r.Faults)), page.Value(float64(r.Feeds))}
	if r.Faults == 0 { // then the limit has all that is not known above it
		return append(row, page.Words("–"), oneIn(r.AtMost), page.Words("–"))
	}
	return append(row, oneIn(r.P), oneIn(r.High), oneIn(r.Low))
}

// oneIn returns the feeds for each fault as an entry of a table.
func oneIn(p float64) plots.Entry { return plots.Entry{Number: 1 / p, Shown: say.OneIn(p)} }

// ClearingTimes returns a row for each station whose stops have a distribution.
func (f Fit) ClearingTimes() plots.Table {
	t := plots.Table{
		Name: "Clearing times", Caption: "How long the line stood, ± one standard error. P is how often a record would lie so far off a fit that is right.",
		Columns: []plots.Column{
			{Title: "Station"},
			{Title: "Stops", Kind: plots.Number},
			{Title: "Cut off", Kind: plots.Number},
			{Title: "Kind"},
			{Title: "Mean", Unit: "s", Kind: plots.Number},
			{Title: "±", Unit: "s", Kind: plots.Number},
			{Title: "cv", Kind: plots.Number},
			{Title: "±", Kind: plots.Number},
			{Title: "P", Kind: plots.Number},
		},
	}
	for i := range f.Stations {
		s := &f.Stations[i]
		if s.Clearing.Chosen == nil {
			continue
		}
		t.Rows = append(t.Rows, clearingRow(s.Name, &s.Clearing))
		for k := range s.ByFault.Times {
			c := &s.ByFault.Times[k]
			t.Rows = append(t.Rows, clearingRow(s.Name+", "+c.Called, &c.FitClearing))
		}
	}
	return t
}

// clearingRow is the row of one distribution of clearing times that was chosen.
func clearingRow(name string, of *study.FitClearing) []plots.Entry {
	c := of.Chosen
	row := []plots.Entry{
		page.Words(name), page.Value(float64(len(of.Lengths))), page.Value(float64(of.CutOff)), page.Words(c.Kind.String()),
	}
	row = append(append(row, withError(float64(c.Mean()), float64(c.MeanSE()))...), withError(c.CV(), c.CVSE())...)
	p := page.Words("not tested")
	if c.Goodness.Tested {
		p = plots.Entry{Number: c.Goodness.P, Shown: say.Rounded(c.Goodness.P, -2)}
	}
	return append(row, p)
}

// withError returns a figure and its standard error, rounded alike; nothing for an error of 0,
// which is that of an assumption.
func withError(x, se float64) []plots.Entry {
	shown, half := say.Measured(x, se)
	if !(se > 0) {
		return []plots.Entry{{Number: x, Shown: shown}, page.Words("–")}
	}
	return []plots.Entry{{Number: x, Shown: shown}, {Number: se, Shown: half}}
}

// Divisions returns a table of each fault that differs between jobs or speeds or grows with the
// speed, and one of all that were compared and do not, which has no rows if there are none.
func (f Fit) Divisions() (shown []plots.Table, alike plots.Table) {
	alike = plots.Table{
		Name: "No difference shown", Caption: "P is how often chance alone would set jobs or speeds so far apart.",
		Columns: []plots.Column{{Title: "Station and fault"}, {Title: "Groups", Kind: plots.Number}, {Title: "P", Kind: plots.Number}},
	}
	for _, s := range f.Stations {
		for i := range s.Faults {
			fault := &s.Faults[i]
			for _, d := range fault.Divided() {
				if d.Differs() || fault.Grows() && fault.Speeds == d {
					shown = append(shown, division(s.Name, fault, d))
					continue
				}
				alike.Rows = append(alike.Rows, []plots.Entry{
					page.Words(s.Name + ", " + fault.Called + ", by " + d.By), page.Value(float64(len(d.Groups))),
					{Number: d.Difference.P, Shown: probability(d.Difference.P)},
				})
			}
		}
	}
	return shown, alike
}

// division returns a row for each job or speed.
func division(station string, fault *study.FitFault, d *study.FitDivision) plots.Table {
	t := plots.Table{
		Name: station + " " + fault.Called + " by " + d.By, Caption: fmt.Sprintf("%s, %s, by %s: %s", station, fault.Called, d.By, d.Difference.Finding()),
		Columns: rateColumns(say.Capital(d.By)), Names: 1,
	}
	if d.NoBursts {
		t.Caption += " Its bursts are left out, with their feeds."
	}
	if fault.Grows() && fault.Speeds == d {
		t.Caption += " " + fault.Growth.Finding()
	}
	for _, g := range d.Groups {
		t.Rows = append(t.Rows, rateRow(g.Name, g.Rate))
	}
	return t
}

// divided says how many comparisons the divisions come from, "" for none.
func (f Fit) divided() string {
	tests, differ := 0, 0
	for _, s := range f.Stations {
		for i := range s.Faults {
			for _, d := range s.Faults[i].Divided() {
				tests++
				if d.Differs() {
					differ++
				}
			}
		}
	}
	if tests == 0 {
		return ""
	}
	text := fmt.Sprintf("Jobs and speeds were compared in %s, of which %s a difference; "+
		"by chance alone one test in twenty does.", say.Plural(tests, "test"), showing(differ))
	if f.Log.OneSpeedEach() {
		text += " Each job ran at one speed only: it cannot be determined which of the two makes a difference."
	}
	return text
}

func showing(n int) string {
	switch n {
	case 0:
		return "none shows"
	case 1:
		return "1 shows"
	}
	return say.Thousands(n) + " show"
}
