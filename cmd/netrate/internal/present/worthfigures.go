package present

import (
	"fmt"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

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
	if _, i := a.Recommended(); i > 0 || a.Favourite > 0 {
		if i == 0 {
			i = a.Favourite
		}
		s.Figures = append(s.Figures, r.Figure("cost")(costFigure(a, i)))
	}
	return s
}

// worthYear says what a year is.
func worthYear(a *study.WorthAnswer) string {
	switch {
	case a.ByLine:
		return "A year is as many hours as the line takes whose volume takes most, each at its net rate beside the others, and the crew is paid for all of them."
	case a.Shared:
		return "A year is as many hours as its volume takes at the net rate of all lines together, whichever line makes it, and the crew is paid once."
	case !a.Mixed:
		return "A year is as many hours as its volume takes at the net rate."
	}
	return "A year is as many hours as the volumes of its jobs take, each at the net rate that the line has for it, and overtime is that of all together."
}

// npvFigure draws how the net present values spread.
func npvFigure(a *study.WorthAnswer, shown []int) (*plots.Figure, error) {
	i, r := a.Favourite, presentValues(a)
	d := plots.DistributionData{
		Head: plots.Head{
			Title: fmt.Sprintf("%s is worth %s %s, from %s in nine draws in ten", say.Capital(a.Lines[i].Of.InWords()), r.words(a.Worth.Gains[i].NPV.Mean()),
				a.Currency, r.nineInTen(a.Worth.Gains[i].NPV)),
			Subtitle: fmt.Sprintf("Net present value against %s over %s at %s %%, %s; %s draws", a.Lines[0].Of.InWords(), say.Plural(a.Life, "year"),
				say.Exact(100*float64(a.Rate)), a.Currency, say.Thousands(a.Draws)),
		},
		Axis: "net present value, " + a.Currency,
		Of:   plots.Runs{One: "draw", Many: "draws"},
		Mark: &plots.Threshold{Name: "worth nothing: 0"},
	}
	for _, i := range shown {
		if i > 0 {
			npv := a.Worth.Gains[i].NPV
			chance := a.Worth.Gains[i].Chance
			d.Variants = append(d.Variants, plots.Variant{
				Name: a.Lines[i].Name, Role: roleOf(i, a.Cheapest), Values: npv, Spread: page.SpreadOf(npv), Mean: npv.Interval(study.Level),
				Says: r.words(npv.Mean()), Beyond: worthChance(chance) + " above 0",
			})
		}
	}
	d.Subtitle += leftOut(a, shown)
	return plots.Distribution(d)
}

// leftOut says which lines a figure leaves out; nothing if none.
func leftOut(a *study.WorthAnswer, shown []int) string {
	var names []string
	for i := range a.Lines {
		if !slices.Contains(shown, i) {
			names = append(names, a.Lines[i].Name)
		}
	}
	return leftOutOf(names)
}

// mostLeftOut is how many lines that a figure leaves out are named in it.
const mostLeftOut = 5

// leftOutOf says in a subtitle which lines a figure leaves out; nothing if none.
func leftOutOf(names []string) string {
	if len(names) == 0 {
		return ""
	}
	return "; left out: " + firstOf(names)
}

// firstOf lists names; of many the first ones, and how many more there are.
func firstOf(names []string) string {
	if n := len(names); n > mostLeftOut {
		return fmt.Sprintf("%s and %d others, which the tables have", strings.Join(names[:mostLeftOut-1], ", "), n-mostLeftOut+1)
	}
	return say.List(names)
}

// breakEvenFigure draws the net present value against the yearly volume.
func breakEvenFigure(a *study.WorthAnswer, shown []int) (*plots.Figure, error) {
	x := &a.Lines[a.Favourite]
	d := plots.SweepData{
		Head: plots.Head{
			Title:    fmt.Sprintf("%s: %s", say.Capital(x.Of.InWords()), worthPays(a, a.Favourite)),
			Subtitle: "Net present value against " + a.Lines[0].Of.InWords() + " by yearly volume, " + a.Currency + ", means of the same draws" + leftOut(a, shown),
		},
		Parameter: "good envelopes a year",
		Axis:      "net present value, " + a.Currency,
		Zero:      "worth nothing",
		Planned:   plannedVolume(a),
	}
	if x.Against.Pays == study.WorthPaysFrom {
		at, verb := float64(x.Against.BreakEven.P50), "pays"
		if worthCheaper(a, a.Favourite) {
			verb = "is cheaper"
		}
		d.Marks = []plots.Crossing{{X: at, Name: fmt.Sprintf("%s %s from %s on", x.Name, verb, say.TwoDigits(at))}}
	}
	for _, i := range shown {
		if i == 0 {
			continue
		}
		curve := plots.SweepCurve{Name: a.Lines[i].Name, Role: roleOf(i, a.Cheapest)}
		for _, at := range a.Curve(i) {
			curve.Points = append(curve.Points, plots.SweepPoint{X: at.Volume, Y: at.NPV})
		}
		d.Curves = append(d.Curves, curve)
	}
	return plots.Sweep(d)
}

// plannedVolume returns the yearly volume that is planned for, as a range.
func plannedVolume(a *study.WorthAnswer) *plots.PlannedRange {
	low, high := a.Worth.Volume.Quantile(0.05), a.Worth.Volume.Quantile(0.95)
	name := "the volume of the file, " + Averaged(a.Worth.Volume)
	if high > low {
		name = "the volume of the file, from " + nineInTen(a.Worth.Volume) + " in nine draws of ten"
	}
	return &plots.PlannedRange{Low: low, High: high, Name: name}
}

// costFigure draws what makes a line dearer or cheaper than the base, by parts, from no difference on.
func costFigure(a *study.WorthAnswer, i int) (*plots.Figure, error) {
	base, x, r := &a.Lines[0], &a.Lines[i], running(a)
	from, to := float64(base.PerThousand.Mean), float64(x.PerThousand.Mean)
	var steps []plots.Step
	for _, s := range a.Steps(i) {
		name := s.Part
		if name == "" {
			name = "all else"
		}
		steps = append(steps, plots.Step{Name: name, Amount: s.Change, Says: cents(s.Change)})
	}
	steps = append(steps, plots.Step{Name: "running cost", Amount: to - from, Total: true, Says: cents(to - from)})
	return plots.Waterfall(plots.WaterfallData{
		Head: plots.Head{
			Title: fmt.Sprintf("%s: a thousand good envelopes cost %s to run, with %s %s", say.Capital(x.Of.InWords()),
				r.words(a.Worth.Lines[i].PerThousand.Mean()), base.Of.InWords(), r.words(a.Worth.Lines[0].PerThousand.Mean())),
			Subtitle: fmt.Sprintf("%s per thousand good envelopes, more or less than with %s, the price apart; means of the draws", a.Currency, base.Of.InWords()),
		},
		Axis: a.Currency + " per thousand, against " + base.Of.InWords(), Steps: steps, Costs: true,
	})
}

// cents returns a change of a cost with its sign, to the cent.
func cents(change float64) string {
	text := say.WithMinus(say.Rounded(change, -2))
	if change >= 0.005 {
		return "+" + text
	}
	return text
}
