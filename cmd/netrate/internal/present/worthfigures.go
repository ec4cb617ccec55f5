package present

import (
	"fmt"
	"math"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// mostWaterfalls is how many lines have a waterfall each; of more, only those that are set against
// each other have or, of costs, the one that is worth most.
const mostWaterfalls = 5

// WorthSection says in a report what the lines cost, and what they are worth against the base;
// some of them are shown where there is no room for all.
func WorthSection(a *study.WorthAnswer, shown []int, r *page.Report) plots.Section {
	s := plots.Section{
		Heading: "What it is worth",
		Text: WorthFinding(a) + " " + WorthCaution(a) + "\n\n" +
			worthYear(a) + " Shifts are drawn anew from those simulated, the same for all lines, " +
			"and so are the places of all figures within their ranges: what differs between lines is what was changed. " +
			"Tax, inflation and financing are left out.",
		Tables: WorthTables(a),
	}
	s.Figures = append(s.Figures, r.Figure("npv")(npvFigure(a, shown)), r.Figure("break-even")(breakEvenFigure(a, shown)))
	for i := 1; i < len(a.Lines); i++ {
		if len(a.Lines) <= mostWaterfalls || i == a.Favourite {
			s.Figures = append(s.Figures, r.Figure(fmt.Sprintf("cost-%d-%s", i, say.Slug(a.Lines[i].Name)))(costFigure(a, i)))
		}
	}
	return s
}

// worthYear says what a year is.
func worthYear(a *study.WorthAnswer) string {
	if !a.Mixed {
		return "A year is as many hours as its volume takes at the net rate."
	}
	return "A year is as many hours as the volumes of its jobs take, each at the net rate that the line has for it, and overtime is that of all together."
}

// npvFigure draws how the net present values spread.
func npvFigure(a *study.WorthAnswer, shown []int) (*plots.Figure, error) {
	i := a.Favourite
	d := plots.DistributionData{
		Head: plots.Head{
			Title: fmt.Sprintf("%s is worth %s %s, from %s in nine draws in ten", say.Capital(a.Lines[i].Of.InWords()), Averaged(a.Worth.Gains[i].NPV),
				a.Currency, nineInTen(a.Worth.Gains[i].NPV)),
			Subtitle: fmt.Sprintf("Net present value against %s over %s at %s %%, %s; %s draws", a.Lines[0].Of.InWords(), say.Plural(a.Life, "year"),
				say.Exact(100*float64(a.Rate)), a.Currency, say.Thousands(a.Draws)),
		},
		Axis: "net present value, " + a.Currency,
		Of:   plots.Runs{One: "draw", Many: "draws"},
	}
	for _, i := range shown {
		if i > 0 {
			npv := a.Worth.Gains[i].NPV
			d.Variants = append(d.Variants, plots.Variant{Name: a.Lines[i].Name, Values: npv, Spread: page.SpreadOf(npv), Mean: npv.Interval(study.Level)})
		}
	}
	return plots.Distribution(d)
}

// breakEvenFigure draws the net present value against the yearly volume.
func breakEvenFigure(a *study.WorthAnswer, shown []int) (*plots.Figure, error) {
	x := &a.Lines[a.Favourite]
	d := plots.SweepData{
		Head: plots.Head{
			Title:    fmt.Sprintf("%s: %s", say.Capital(x.Of.InWords()), worthPays(a, x)),
			Subtitle: "Net present value against " + a.Lines[0].Of.InWords() + " by yearly volume, " + a.Currency + ", means of the same draws",
		},
		Parameter: "good envelopes a year",
		Axis:      "net present value, " + a.Currency,
	}
	for _, i := range shown {
		if i == 0 {
			continue
		}
		curve := plots.SweepCurve{Name: a.Lines[i].Name}
		for _, at := range a.Curve(i) {
			curve.Points = append(curve.Points, plots.SweepPoint{X: at.Volume, Y: at.NPV})
		}
		d.Curves = append(d.Curves, curve)
	}
	return plots.Sweep(d)
}

// costFigure draws how a line comes from the cost of the base to its own, by parts.
func costFigure(a *study.WorthAnswer, i int) (*plots.Figure, error) {
	base, x := &a.Lines[0], &a.Lines[i]
	from, to := float64(base.PerThousand.Mean), float64(x.PerThousand.Mean)
	steps := []plots.Step{{Name: base.Name, Amount: from, Total: true}}
	level, least := from, from
	for _, s := range a.Steps(i) {
		name := s.Part
		if name == "" {
			name = "all else"
		} else {
			level += s.Change
			least = min(least, level)
		}
		steps = append(steps, plots.Step{Name: name, Amount: s.Change})
	}
	steps = append(steps, plots.Step{Name: x.Name, Amount: to, Total: true})
	return plots.Waterfall(plots.WaterfallData{
		Head: plots.Head{
			Title:    fmt.Sprintf("%s: a thousand good envelopes cost %.2f, with %s %.2f", say.Capital(x.Of.InWords()), to, base.Of.InWords(), from),
			Subtitle: a.Currency + " per thousand good envelopes, the price apart; means of the draws",
		},
		Axis:  a.Currency + " per thousand",
		Steps: steps,
		From:  axisStart(min(least, to), max(from, to)),
	})
}

// axisStart returns a round number below the least so that small steps can be seen beside
// large totals, or 0 if they can be anyway.
func axisStart(least, most float64) float64 {
	if !(least > 0.8*most) {
		return 0
	}
	step := math.Pow10(say.Magnitude(most) - 1)
	return max(0, math.Floor((least-float64(2*(most-least)))/step)*step)
}
