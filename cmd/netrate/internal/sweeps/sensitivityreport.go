package sweeps

import (
	"fmt"
	"strings"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/plots"
)

// Report returns the effects as a page.
func (s *sensitivity) Report() (*page.Report, error) {
	o := page.OpeningOf(&s.Subject, s.Base, s.command())
	o.Title = s.Name + ": what matters"
	o.Question = "Which rate or time is worth most to improve?"
	o.Answer = page.Partial(s.Base) + s.finding()
	r := page.NewReport(desk.Version(), o)
	r.Add(plots.Section{
		Heading: "What each rate and time is worth",
		Text: "Each was moved alone, and at the end of the table all of a kind at once. What two of them are worth together is not the sum: a line that stops less " +
			"gains less from shorter stops. " + s.impossible(),
		Figures: []*plots.Figure{r.Figure("sensitivity")(s.tornado())}, Tables: []plots.Table{s.shortTable()},
	})
	r.Add(page.LeftOut())
	return r.Done()
}

// impossible returns why some moves were not simulated, or "" if all were.
func (s *sensitivity) impossible() string {
	var all []string
	for _, effects := range [][]model.Effect{s.Effects, s.Kinds} {
		for _, x := range effects {
			for _, m := range []model.Move{x.Lower, x.Higher} {
				if m.Impossible != nil {
					all = append(all, fmt.Sprintf("%s, %s: %s.", effectName(x), m.Value, m.Impossible))
				}
			}
		}
	}
	if len(all) == 0 {
		return ""
	}
	return "Not simulated, because they cannot be: " + strings.Join(all, " ")
}

// shortTable returns what of the table has room on a page.
func (s *sensitivity) shortTable() plots.Table {
	lower, higher := s.headings()
	t := plots.Table{
		Name:    "Effects",
		Caption: "Gain in good envelopes an hour, with 95 % intervals that are right all at once; ~ nothing is shown.",
		Columns: []plots.Column{{Title: "Rate or time"}, {Title: "Now", Kind: plots.Number}, {Title: say.Capital(lower), Kind: plots.Number}, {Title: say.Capital(higher), Kind: plots.Number}},
	}
	for _, effects := range [][]model.Effect{s.Effects, s.Kinds} {
		for _, x := range effects {
			now := "–"
			if x.Kind == "" {
				now = x.Levers[0].Value
			}
			t.Rows = append(t.Rows, []plots.Entry{{Text: effectName(x)}, {Text: now}, {Text: moveWords(x.Lower)}, {Text: moveWords(x.Higher)}})
		}
	}
	return t
}
