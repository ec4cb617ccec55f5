package present

import (
	"fmt"
	"math"
	"slices"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/study"
	"netrate/sim/portable"
)

// strategiesOtherwise says what the best answers otherwise than the file; "" if it is the file's own.
func strategiesOtherwise(a *study.StrategiesAnswer) string {
	if a.Leader == 0 {
		return ""
	}
	return fmt.Sprintf("%s differs from the file in its responses: %s. ", say.Capital(strategyCalled(a, a.Leader)), a.Leading().Otherwise)
}

// strategiesSources says where the defective envelopes of the best come from.
func strategiesSources(a *study.StrategiesAnswer) string {
	x := &a.Leading().Defective
	told := " " + strategiesExposed(a)
	if len(x.From) == 0 {
		low, high := float64(x.CountedLow), float64(x.CountedHigh)
		if x.Counted > 0 {
			return fmt.Sprintf("Its defective envelopes take two faults at once; by the count there are %s to %s in a million.", ppmText(low), ppmText(high)) + told
		}
		return fmt.Sprintf("No single fault lets a defective envelope through, and none was counted (95 %%: below %s in a million).", ppmText(high)) + told
	}
	var from []string
	for _, one := range x.From[:min(len(x.From), shownEscapes)] {
		from = append(from, fmt.Sprintf("%s %s", escapeName(one), ppmText(float64(one.PerMillion))))
	}
	if n := len(x.From) - shownEscapes; n > 0 {
		from = append(from, say.Plural(n, "other cause"))
	}
	text := "In a million, its defective envelopes come from " + say.List(from) + "."
	if x.Misread > 0 {
		text += fmt.Sprintf(" Of these, %s pass a reader that misreads.", ppmText(float64(x.Misread)))
	}
	switch {
	case x.FromCount:
		text += fmt.Sprintf(" That is for single faults; by the count there are %s to %s.", ppmText(float64(x.Low)), ppmText(float64(x.High)))
	case x.Below:
		text += fmt.Sprintf(" That is for single faults; two at once add no more than %s, by the count.", ppmText(float64(x.CountedHigh)))
	}
	return text + told
}

// strategiesExposed says how the defective envelopes of the best come; of several jobs those of each.
func strategiesExposed(a *study.StrategiesAnswer) string {
	best := a.Leading()
	if best.Exposure != nil {
		return exposureText(best.Exposure, page.Period(a.Line))
	}
	return "With it the line delivers " + exposuresBrief(best.Exposures, page.Period(a.Line)) + "."
}

// escapeName says what a defective envelope comes from: "letter, double unnoticed".
func escapeName(e study.RiskSource) string {
	how := "unnoticed"
	switch {
	case e.Shipped:
		how = "shipped"
	case e.Unfound:
		how = "never found"
	}
	if human := slices.ContainsFunc(model.Errors(), func(f model.Fault) bool { return f.String() == e.Fault }); human && !e.Unfound {
		return e.Station + ", " + e.Fault
	}
	return fmt.Sprintf("%s, %s %s", e.Station, e.Fault, how)
}

// strategiesDropped says how many strategies there are, and why most are not simulated.
func strategiesDropped(a *study.StrategiesAnswer) string {
	s, text := &a.OnPaper, ""
	if a.Personalised() && !a.AllowUnread {
		text = " Shipping sets that could not be read or matched was not considered, unless the file does it (--allow-unread considers it)."
	}
	return fmt.Sprintf("On paper, for %s of %s strategies no other is as good in everything. Within %s of the highest net rate at their risk or remakes: %s. Simulated: %s.",
		say.Thousands(s.Undominated), manyOf(float64(s.Considered)), say.Percent(model.Margin, 0.01), say.Thousands(s.Near), say.Thousands(len(a.Strategies))) + text
}

// manyOf returns a whole number that may be beyond all reading.
func manyOf(x float64) string {
	if x < 1e12 {
		return say.Thousands(int64(x))
	}
	power := math.Floor(portable.Log10(x))
	return fmt.Sprintf("%.1f × 10^%.0f", x/math.Pow10(int(power)), power)
}

// riskText returns a risk for a table.
func riskText(r *study.Risk) string {
	switch at := float64(r.PerMillion); {
	case r.FromCount && !math.IsInf(float64(r.High), 1):
		return say.Rough(at, float64(max(r.High-r.PerMillion, r.PerMillion-r.Low)))
	case r.Below:
		return "<" + ppmText(float64(r.CountedHigh))
	default:
		return ppmText(at)
	}
}
