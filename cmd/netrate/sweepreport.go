package main

import (
	"fmt"
	"math"

	"netrate/model"
	"netrate/plots"
)

// doubtEntry returns a half-width as an entry of a table.
func doubtEntry(half float64) plots.Entry {
	if math.IsInf(half, 1) {
		return plots.Entry{Text: "not known"}
	}
	return plots.Entry{Number: half}
}

// report returns the sweep as a page.
func (s *sweep) report() (*report, error) {
	study := s.points[0].study
	o := s.opening(study, s.again+s.flags())
	o.title = s.Name + ": " + s.paths()
	o.question = fmt.Sprintf("What does %s do to the net rate?", s.paths())
	o.answer = partial(study) + s.finding()
	r := newReport(version(), o)
	r.add(plots.Section{
		Heading: "Net rate by " + s.paths(),
		Figures: []*plots.Figure{r.figure("sweep")(s.figure())}, Tables: []plots.Table{s.shortTable()},
	})
	r.add(leftOut())
	return r.done()
}

// opening returns what the reports of sweep and sensitivity begin with.
func (s *subject) opening(study *model.Study, command string) opening {
	return opening{
		lead: "The net rate is the good envelopes an hour of the whole " + period(study.Line) + ". All lines were simulated on the " +
			"same luck, so that what differs is what was changed.",
		command: fmt.Sprintf("%s --seed %d --reps %d", command, study.Plan.Seed, len(study.Shifts)),
		origins: []origin{{s.Scenario, s.source}}, plan: &study.Plan, word: period(study.Line), most: len(study.Shifts),
		assumptions: assumed(entrant{scenario: s.Scenario, line: s.Line}),
	}
}

// shortTable returns what of the table has room on a page.
func (s *sweep) shortTable() plots.Table {
	t := plots.Table{Name: "Net rates", Caption: "Net rate, good envelopes an hour, with its 95 % interval; how much less than the best, " +
		"with intervals that are right all at once; and how many of a million delivered are defective."}
	for _, r := range s.vary {
		t.Columns = append(t.Columns, plots.Column{Title: r.Path})
	}
	for _, title := range []string{"Net rate", "From the best", "Defective"} {
		t.Columns = append(t.Columns, plots.Column{Title: title, Kind: plots.Number})
	}
	for i := range s.points {
		var row []plots.Entry
		for _, v := range s.points[i].values {
			row = append(row, plots.Entry{Text: v.Text})
		}
		if p := s.points[i]; s.capped(p) {
			row[len(row)-1].Text += ", runs at " + exact(p.study.Line.RunSpeed()) + "/h"
		}
		e, behind := s.points[i].rates.Interval(level), "best"
		if i != s.best {
			behind = shownGain(s.behind[i].Difference)
		}
		t.Rows = append(t.Rows, append(row,
			plots.Entry{Text: plusMinus(measured(e.Mean, e.Half))}, plots.Entry{Text: behind},
			plots.Entry{Text: defects(s.points[i].study)}))
	}
	return t
}
