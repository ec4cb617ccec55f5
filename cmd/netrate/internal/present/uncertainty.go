package present

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/runs"
	"netrate/model/study"
)

// uncertainCalled returns what an uncertain input is, in words, with the variant or file that sets it.
func uncertainCalled(d model.UncertainInput) string {
	name := uncertainNumber(d)
	if d.Owner != "" && !d.Common {
		name += " (" + d.Owner + ")"
	}
	return name
}

// uncertainNumber returns which number of its line an uncertain input is, in words.
func uncertainNumber(d model.UncertainInput) string {
	name := strings.NewReplacer("_", " ", ".", " ").Replace(d.Name)
	if attribute, is := strings.CutPrefix(d.Name, "line.attributes."); is {
		name = "sets with " + strings.TrimSuffix(attribute, ".share")
	}
	if d.Station != "" {
		name = d.Station + ", " + name
	}
	if d.Line != "" {
		name = d.Line + ": " + strings.TrimPrefix(name, "line ")
	}
	if d.Part != model.NoPart {
		name += ", " + d.Part.String()
	}
	return name
}

// uncertainValue returns a value that a number uncertain may have, with its unit.
func uncertainValue(d model.UncertainInput, x float64) string {
	switch {
	case d.Part == model.MeanPart:
		return threeDigits(x) + " s"
	case d.Part == model.CVPart || d.Name == "growth" || d.Name == "material":
		return threeDigits(x)
	case x < nearNothing:
		return "0"
	case x > 0.02:
		return fmt.Sprintf("%.3g %%", 100*x)
	}
	return "1/" + say.Rounded(1/x, max(0, say.Magnitude(1/x)-3))
}

// uncertainRange returns what an uncertain input is on average, and from what to what it may be: of a
// guess from its least to its most, of data the interval of 95 %.
func uncertainRange(d model.UncertainInput) string {
	low, high, level := 0.0, 1.0, ""
	if d.Of.FromData() {
		low, high, level = (1-study.Level)/2, (1+study.Level)/2, " (95 %)"
	}
	return fmt.Sprintf("on average %s, from %s to %s%s", uncertainValue(d, d.Of.Expected()), uncertainValue(d, d.Of.Quantile(low)), uncertainValue(d, d.Of.Quantile(high)), level)
}

// nearNothing is a probability that no line lives to see.
const nearNothing = 1e-8

// threeDigits returns a number above 0 with three digits.
func threeDigits(x float64) string {
	if !(x > 0) {
		return "0"
	}
	if m := say.Magnitude(x); m >= 2 {
		return say.Rounded(x, m-2)
	}
	return strconv.FormatFloat(x, 'g', 3, 64)
}

// Uncertain says how far the figure is known that a line is judged by: its net rate or, of a job,
// the time until it is finished.
type Uncertain struct {
	*study.Uncertainty
	whose func(model.UncertainInput) string // of several lines, which have an input, where others have another; nil of one line
}

// UncertaintyIn returns how far a figure is known, to be said and drawn.
func UncertaintyIn(u *study.Uncertainty) Uncertain { return Uncertain{Uncertainty: u} }

// called returns what an uncertain input is, in words, and whose where that is not clear.
func (d Uncertain) called(x model.UncertainInput) string {
	if d.whose != nil {
		if whose := d.whose(x); whose != "" {
			return uncertainNumber(x) + " (" + whose + ")"
		}
	}
	return uncertainCalled(x)
}

// uncertaintyBetween returns how far the difference between the leader and its rival is known.
func uncertaintyBetween(a *study.ComparisonAnswer) Uncertain {
	return Uncertain{a.Uncertainty.Rival.Uncertainty, func(x model.UncertainInput) string { return whose(a, x) }}
}

// whose returns which lines have an uncertain input, where not all that are compared have it; else
// nothing.
func whose(a *study.ComparisonAnswer, x model.UncertainInput) string {
	var have []string
	for i := range a.Lines {
		if slices.ContainsFunc(a.Lines[i].Draws.Line.UncertainInputs, func(d model.UncertainInput) bool { return d.Unknown() == x.Unknown() }) {
			have = append(have, a.Lines[i].Name)
		}
	}
	switch len(have) {
	case 1:
		return have[0]
	case len(a.Lines):
		return ""
	}
	return "shared by " + say.List(have)
}

// longRun returns the ends of the interval of the long run.
func (d Uncertain) longRun() (low, high float64) {
	return float64(d.LongRun.Low), float64(d.LongRun.High)
}

// singles returns between what nine replications in ten lie.
func (d Uncertain) singles() (low, high float64) { return float64(d.P5), float64(d.P95) }

// unit returns the unit of the figure.
func (d Uncertain) unit() string {
	if d.Job {
		return " h"
	}
	return " an hour"
}

// Of returns the figure that is shown.
func (d Uncertain) Of() func(*runs.Shift) float64 {
	if d.Job {
		return study.Finish
	}
	return func(s *runs.Shift) float64 { return s.NetRate }
}

// knownTo returns a half-width in words.
func knownTo(half float64) string { return "± " + say.TwoDigitsOr0(half) }

// UncertaintyEnds returns the ends of an interval, with two digits of its half-width.
func UncertaintyEnds(low, high float64) (from, to string) {
	places := 0
	if half := (high - low) / 2; half > 1e-9 && !math.IsInf(half, 0) { // less is rounding
		places = say.Magnitude(half) - 1
	}
	return say.Rounded(low, places), say.Rounded(high, places)
}

// fromTo returns an interval, or one figure where no uncertainty is shown.
func fromTo(from, to string) string {
	if from == to {
		return from
	}
	return from + " to " + to
}

// signedEnds returns the ends of an interval of a difference.
func signedEnds(low, high float64) (from, to string) {
	from, to = UncertaintyEnds(low, high)
	sign := func(x float64, text string) string {
		if x > 0 {
			return "+" + text
		}
		return text
	}
	return sign(low, from), sign(high, to)
}

// mostOf returns what the largest share of something is called.
func mostOf(share study.Number) string {
	if share > 0.5 {
		return "Most"
	}
	return "The largest part"
}
