package present

import (
	"fmt"
	"math"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
)

// Without says what a plan with something chosen brings against one without it: dates, lateness, and what both cost.
func (s Plans) Without(x, none *study.PlansPlan) string {
	text := fmt.Sprintf("With %s all dates are kept in %s of the replications, without in %s. With: %s. Without: %s.", say.List(x.Chosen),
		SeasonsOften(x.AllInTime.Share), SeasonsOften(none.AllInTime.Share), s.price(x), s.price(none))
	if !dated(x) {
		text = fmt.Sprintf("With %s: %s. Without: %s.", say.List(x.Chosen), s.price(x), s.price(none))
	}
	switch less := none.All() - x.All(); {
	case math.IsNaN(less) || math.IsInf(less, 0):
	case math.Abs(less) < 0.5:
		text += " Both come to as much."
	default:
		text += fmt.Sprintf(" That is %s %s with it.", s.withUnit(meanSum(math.Abs(less))), map[bool]string{true: "less", false: "more"}[less > 0])
	}
	if s.Moment(x.Last.P50) == s.Moment(none.Last.P50) {
		return text + " The last job ends no sooner and no later."
	}
	return text + fmt.Sprintf(" In half of them the last job ends by %s instead of %s.", s.Moment(x.Last.P50), s.Moment(none.Last.P50))
}
