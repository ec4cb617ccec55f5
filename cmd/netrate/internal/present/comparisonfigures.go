package present

import (
	"fmt"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/plots"
	"netrate/sim"
)

// differences draws how each line differs from the base.
func (c Comparison) differences(sample string) (*plots.Figure, error) {
	var up, down int
	d := plots.DifferencesData{Axis: page.PerHour + ", against " + c.called(0)}
	for i := 1; i < len(c.Lines); i++ {
		e := c.Compared[0][i].Difference
		switch {
		case e.Low() > 0:
			up++
		case e.High() < 0:
			down++
		}
		d.Rows = append(d.Rows, plots.Difference{Name: c.Lines[i].Name, Role: roleOf(i, c.recommended()), Mean: e})
	}
	title := tally(up, down, len(d.Rows)-up-down, c.called(0))
	if len(d.Rows) == 1 {
		title = fmt.Sprintf("%s delivers %s than %s", say.Capital(c.called(1)), moreOrLess(d.Rows[0].Mean), c.called(0))
	}
	d.Head = plots.Head{
		Title:    title,
		Subtitle: "Mean difference of the net rate with the same random events, " + page.PerHour + "; 95 % intervals" + ComparisonAtOnce(c.ComparisonAnswer) + "; " + sample,
	}
	return plots.Differences(d)
}

// tally returns how many lines deliver more than the base, or less, or neither as far as is
// shown.
func tally(more, less, neither int, base string) string {
	switch more + less + neither {
	case more:
		return "All deliver more than " + base
	case less:
		return "All deliver less than " + base
	case neither:
		return "No difference from " + base + " is shown"
	}
	var parts []string
	for _, part := range []struct {
		n    int
		text string
	}{{more, " more"}, {less, " less"}, {neither, " not shown to differ"}} {
		if part.n > 0 {
			parts = append(parts, say.Thousands(part.n)+part.text)
		}
	}
	return "Against " + base + ": " + say.List(parts)
}

// moreOrLess returns "480 ± 25 an hour more", or that none is shown.
func moreOrLess(e sim.Estimate) string {
	switch {
	case e.Low() > 0:
		return say.Size(e) + " an hour more"
	case e.High() < 0:
		return say.Size(e) + " an hour less"
	}
	return "not shown to deliver more or less"
}
