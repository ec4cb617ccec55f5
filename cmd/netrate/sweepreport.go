package main

import (
	"fmt"
	"math"
	"strconv"

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
func (s *sweep) report() (*plots.Report, error) {
	f, err := s.figure()
	if err != nil {
		return nil, err
	}
	r := s.page(s.points[0].study, s.again+s.flags())
	r.Title = s.Name + ": " + s.paths()
	r.Question = fmt.Sprintf("What does %s do to the net rate?", s.paths())
	r.Answer = partial(s.points[0].study) + s.finding()
	r.Sections = []plots.Section{{
		Heading: "Net rate by " + s.paths(),
		Figures: []*plots.Figure{f}, Tables: []plots.Table{s.shortTable()},
	}, leftOut()}
	return r, nil
}

// page returns what the reports of sweep and sensitivity have in common.
func (s *subject) page(study *model.Study, command string) *plots.Report {
	return &plots.Report{
		Lead: "The net rate is the good envelopes an hour of the whole shift. All lines were simulated on the " +
			"same luck, so that what differs is what was changed.",
		Assumptions: assumed(entrant{scenario: s.Scenario, line: s.Line}),
		Settings: []plots.Pair{
			{Name: "Command", Value: fmt.Sprintf("%s --seed %d --reps %d", command, study.Plan.Seed, len(study.Shifts))},
			{Name: "Scenario", Value: s.File},
			{Name: "SHA-256 of the scenario", Value: s.Digest},
			{Name: "Seed", Value: strconv.FormatUint(study.Plan.Seed, 10)},
			{Name: "Shifts of each line", Value: thousands(len(study.Shifts))},
			{Name: "netrate", Value: version()},
		},
		Cautions: plots.Cautions(),
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
