package sweeps

import (
	"fmt"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/plots"
)

// Report returns the sweep as a page.
func (s *sweep) Report() (*page.Report, error) {
	study := s.points[0].study
	o := page.OpeningOf(&s.Subject, study, s.Again+s.flags())
	o.Title = s.Name + ": " + s.paths()
	o.Question = fmt.Sprintf("What does %s do to the net rate?", s.paths())
	o.Answer = page.Partial(study) + s.finding()
	r := page.NewReport(desk.Version(), o)
	r.Add(plots.Section{
		Heading: "Net rate by " + s.paths(),
		Figures: []*plots.Figure{r.Figure("sweep")(s.figure())}, Tables: []plots.Table{s.shortTable()},
	})
	r.Add(page.LeftOut())
	return r.Done()
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
			row[len(row)-1].Text += ", runs at " + say.Exact(p.study.Line.RunSpeed()) + "/h"
		}
		e, behind := s.points[i].rates.Interval(say.Level), "best"
		if i != s.best {
			behind = shownGain(s.behind[i].Difference)
		}
		t.Rows = append(t.Rows, append(row,
			plots.Entry{Text: say.PlusMinus(say.Measured(e.Mean, e.Half))}, plots.Entry{Text: behind},
			plots.Entry{Text: defects(s.points[i].study)}))
	}
	return t
}
