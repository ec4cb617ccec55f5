package present

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/sim"
)

// shownEscapes is how many causes of defective envelopes a sentence has room for.
const shownEscapes = 3

// StrategiesFinding returns which strategy is best, what that is worth, and whether it lets sets
// go of which nobody knows that they are right.
func StrategiesFinding(a *study.StrategiesAnswer) string {
	found := strategiesFound(a)
	if !a.Leading().ShipsUnread {
		return found
	}
	return found + " CAUTION: " + strategyCalled(a, a.Leader) + " ships personalised sets that could not be read or matched; they are not counted as defective."
}

// strategiesFound returns which strategy is best, and what that is worth.
func strategiesFound(a *study.StrategiesAnswer) string {
	best, rate := strategyCalled(a, a.Leader), strategyRate(a, a.Leader)
	if len(a.Own().Study.Shifts) < 2 {
		return "One " + page.Period(a.Line) + " alone shows no difference."
	}
	switch {
	case !a.Within:
		return fmt.Sprintf("No strategy of this line has %s. %s comes nearest, with %s, and delivers %s.",
			StrategiesAtMost(a), say.Capital(best), riskText(&a.Leading().Defective), rate)
	case !a.Shown:
		return strategiesOpen(a)
	case a.Leader == 0 && len(a.Strategies) == 1:
		return say.Capital(best) + " delivers most on paper: no other is worth a simulation."
	case a.Leader == 0:
		return fmt.Sprintf("Of the strategies with %s, %s delivers most: %s (95 %%%s).", StrategiesAtMost(a), best, rate, strategiesAtOnce(a))
	}
	return fmt.Sprintf("Of the strategies with %s, %s delivers most: %s, %s (95 %%%s).",
		StrategiesAtMost(a), best, rate, strategiesGain(a), strategiesAtOnce(a))
}

// strategiesOpen says which strategies may be the best.
func strategiesOpen(a *study.StrategiesAnswer) string {
	text := fmt.Sprintf("Of the strategies with %s, none is shown to be best (95 %%%s): %s leads with %s, and %s may be as good.",
		StrategiesAtMost(a), strategiesAtOnce(a), strategyCalled(a, a.Leader), strategyRate(a, a.Leader), strategiesRivals(a))
	if a.Leader != 0 && !slices.Contains(a.AsGood, 0) {
		text += fmt.Sprintf(" %s delivers %s.", say.Capital(strategyCalled(a, a.Leader)), strategiesGain(a))
	}
	return text + strategiesThriftiest(a)
}

// strategiesThriftiest says which of those that may be the best makes least again, if it is another.
func strategiesThriftiest(a *study.StrategiesAnswer) string {
	least := a.Thriftiest()
	if least == a.Leader {
		return ""
	}
	return fmt.Sprintf(" Of these, %s needs the fewest remakes: %s in a thousand sets, not %s.",
		strategyCalled(a, least), say.FewDigits(a.Strategies[least].Remade()), say.FewDigits(a.Leading().Remade()))
}

// strategiesGain says how much more the best delivers than the line's own strategy.
func strategiesGain(a *study.StrategiesAnswer) string {
	return moreWords(a.Over(0)) + " than " + strategyCalled(a, 0)
}

// strategiesRivals names those that may be as good as the best.
func strategiesRivals(a *study.StrategiesAnswer) string {
	var names []string
	for _, i := range a.AsGood {
		names = append(names, strategyCalled(a, i))
	}
	if n := len(names); n > 4 {
		names = append(names[:3], fmt.Sprintf("%d others", n-3))
	}
	return say.List(names)
}

// StrategiesAtMost says how many defective ones are accepted.
func StrategiesAtMost(a *study.StrategiesAnswer) string {
	if !a.LimitGiven {
		return fmt.Sprintf("no more defective envelopes than the file’s own (%s in a million)", strings.Replace(riskText(&a.Own().Defective), "<", "below ", 1))
	}
	return fmt.Sprintf("at most %s defective in a million", exactly(float64(a.Limit)))
}

// exactly returns a limit with as many digits as it was given with, but not more than nine.
func exactly(x float64) string {
	nine, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 9, 64), 64)
	return say.Grouped(strconv.FormatFloat(nine, 'f', -1, 64))
}

// strategiesHeadline returns the answer in few words.
func strategiesHeadline(a *study.StrategiesAnswer) string {
	best := say.Capital(strategyCalled(a, a.Leader))
	switch {
	case !a.Within:
		return best + " comes nearest to the limit, and none is within it"
	case !a.Shown:
		return best + " leads within the limit, but is not shown to be best"
	case a.Leader == 0:
		return best + " delivers most within the limit"
	}
	return fmt.Sprintf("%s delivers most within the limit, %s an hour than %s", best, moreWords(a.Over(0)), strategyCalled(a, 0))
}

func moreWords(d sim.Estimate) string {
	if d.Mean < 0 {
		return say.Size(d) + " less"
	}
	return say.Size(d) + " more"
}

// strategyCalled returns what a strategy is called in a sentence.
func strategyCalled(a *study.StrategiesAnswer, i int) string {
	if i == 0 {
		return "the file’s own strategy"
	}
	return "“" + a.Strategies[i].Name + "”"
}

// strategyRate returns the net rate of a strategy.
func strategyRate(a *study.StrategiesAnswer, i int) string {
	return netRate(a.Strategies[i].NetRate) + " good envelopes an hour"
}

// strategiesAtOnce says that intervals are right together, where there are several.
func strategiesAtOnce(a *study.StrategiesAnswer) string {
	if len(a.Strategies) == 2 {
		return ""
	}
	return ", all comparisons at once"
}
