package present

import (
	"math"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
	"netrate/sim"
)

// Figures that are set against each other are rounded alike, so that their differences add up: what is
// 1,202,000 is not 1,200,000 beside a saving of 2,600.

// rounding is to which multiple of ten figures are rounded.
type rounding struct {
	place int // of the last digit, as a power of ten
	known bool
}

// alike returns how figures of some samples are rounded that are all rounded alike: with two digits of
// the least spread among them, or to the cent.
func alike(samples ...sim.Sample) rounding {
	r := rounding{place: math.MaxInt}
	for _, s := range samples {
		if len(s) < 2 || !(s.SD() > 1e-9*math.Abs(s.Mean())) { // less is rounding
			continue
		}
		r = rounding{min(r.place, max(-2, say.Magnitude(s.SD())-1)), true}
	}
	return r
}

// words returns a figure so rounded.
func (r rounding) words(x float64) string {
	text := say.Exact(x)
	if r.known {
		text = say.Rounded(x, r.place)
	}
	if strings.Trim(text, "-0.,") == "" {
		return "0"
	}
	return say.WithMinus(text)
}

// of returns a figure as it is shown.
func (r rounding) of(x float64) float64 {
	if !r.known {
		return x
	}
	step := math.Pow10(r.place)
	return math.Round(x/step) * step
}

// nineInTen returns between what nine draws in ten lie.
func (r rounding) nineInTen(s sim.Sample) string {
	return r.words(s.Quantile(0.05)) + " to " + r.words(s.Quantile(0.95))
}

// yearSums returns how the sums of a year are rounded: as the differences between lines are, which
// are known better than each sum, but to whole units and to five digits at most.
func yearSums(a *study.WorthAnswer) rounding {
	var differences, costs []sim.Sample
	most := 1.0
	for i := range a.Lines {
		costs = append(costs, a.Worth.Lines[i].Cost)
		most = max(most, math.Abs(a.Worth.Lines[i].Cost.Mean()))
		if i > 0 {
			differences = append(differences, a.Worth.Gains[i].Saving)
		}
		for k := range i {
			differences = append(differences, a.Worth.Cheaper(i, k))
		}
	}
	r := alike(differences...)
	certain := func(s sim.Sample) bool { return !alike(s).known && s.Mean() != 0 }
	switch {
	case slices.ContainsFunc(differences, certain):
		r.place = 0
	case !r.known:
		r = alike(costs...)
	}
	r.place = max(0, say.Magnitude(most)-mostDigits+1, r.place)
	return r
}

// mostDigits is how many digits the largest sum of a year has at most.
const mostDigits = 5

// ofEach returns the samples of a figure of all lines.
func ofEach(a *study.WorthAnswer, figure func(line int) sim.Sample) (all []sim.Sample) {
	for i := range a.Lines {
		all = append(all, figure(i))
	}
	return all
}

// allIn returns how the all-in costs of a thousand are rounded.
func allIn(a *study.WorthAnswer) rounding { return alike(ofEach(a, a.Worth.AllInPerThousand)...) }

// running returns how the running costs of a thousand are rounded.
func running(a *study.WorthAnswer) rounding {
	return alike(ofEach(a, func(i int) sim.Sample { return a.Worth.Lines[i].PerThousand })...)
}

// presentValues returns how net present values are rounded.
func presentValues(a *study.WorthAnswer) rounding {
	return alike(ofEach(a, func(i int) sim.Sample { return a.Worth.Gains[i].NPV })...)
}

// breakEvenPrices returns how these are rounded, of each line against each before it.
func breakEvenPrices(a *study.WorthAnswer) rounding {
	var all []sim.Sample
	for i := range a.Lines {
		for k := range i {
			all = append(all, a.Worth.BreakEvenPrice(i, k))
		}
	}
	return alike(all...)
}

// entry returns a figure as an entry of a table.
func (r rounding) entry(x float64) plots.Entry { return plots.Entry{Number: x, Shown: r.words(x)} }

// difference returns how far a figure is below another, as an entry: the difference of what is shown of
// both.
func (r rounding) difference(from, x float64) plots.Entry {
	return plots.Entry{Number: from - x, Shown: r.words(r.of(from) - r.of(x))}
}
