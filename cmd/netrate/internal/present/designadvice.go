package present

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/sim"
)

// sentences joins sentences, of which some may be empty.
func sentences(all ...string) string {
	return strings.Join(slices.DeleteFunc(all, func(s string) bool { return s == "" }), " ")
}

// nothing returns why nothing is to be bought.
func (d Design) nothing() string {
	if d.Best != 0 {
		return d.nothingMatters()
	}
	m := d.Comparison.Money
	if m == nil || !d.Goal.InMoney() {
		return d.goalWords() + " is that of the line as it is."
	}
	next := d.nearest()
	text := fmt.Sprintf("%s pays. A thousand cost %s %s on the line as it is, and %s with what comes nearest, %s (%s)",
		d.noPurchase(), designCost(m, 0), m.Currency, designCost(m, next), d.Finalists[next].Name, d.bought(&d.Finalists[next]))
	if d.Goal == study.DesignValue {
		text += ", whose net present value is " + designValue(m, next)
	}
	return text + "."
}

// nothingMatters returns that what is best is ahead of the line as it is by less than matters.
func (d Design) nothingMatters() string {
	best := &d.Finalists[d.Best]
	called := fmt.Sprintf("%s (%s)", best.Name, d.bought(best))
	zone := d.zone()
	switch {
	case d.inValue():
		return fmt.Sprintf("%s pays by what matters. What is worth most, %s, is ahead of the line as it is by %s, and less than %s counts as equal.", d.noPurchase(), called, d.lead(), zone)
	case d.Comparison.Money != nil && d.Goal.InMoney():
		return fmt.Sprintf("%s pays by what matters. What costs least, %s, saves %s, and less than %s counts as equal.", d.noPurchase(), called, d.lead(), zone)
	}
	return fmt.Sprintf("what delivers most, %s, is ahead of the line as it is by %s, and less than %s counts as equal.", called, d.lead(), zone)
}

// noPurchase says of what none pays: where nothing costs anything there is no purchase.
func (d Design) noPurchase() string {
	if slices.ContainsFunc(d.Finalists, func(x study.DesignOne) bool { return x.Price > 0 }) {
		return "no purchase"
	}
	return "no change"
}

// nearest returns the design, other than the line as it is, of which a thousand cost least.
func (d Design) nearest() int {
	m, next := d.Comparison.Money, 1
	for i := 2; i < len(d.Finalists); i++ {
		if m.Lines[i].AllIn.Mean < m.Lines[next].AllIn.Mean {
			next = i
		}
	}
	return next
}

// lead returns by how much the best is ahead of what is advised.
func (d Design) lead() string {
	if d.asCompared() {
		return aheadBy(d.leadEstimate()) + d.unit()
	}
	return aheadBy(d.leadEstimate()) + d.unit() + d.means()
}

// asCompared reports whether the lead of the best is that of the comparison, in which nothing is drawn.
func (d Design) asCompared() bool { return d.Comparison.Uncertainty == nil && !d.Goal.InMoney() }

// leadEstimate returns by how much the best is ahead of what is advised, in the unit of the goal.
func (d Design) leadEstimate() sim.Estimate {
	switch {
	case d.asCompared():
		return d.Comparison.Compared[d.Advice][d.Best].Difference
	case d.Goal.InMoney():
		return d.saved(d.Behind.Estimate())
	}
	return d.Behind.Estimate()
}

// bestWord returns what the design is called in which the search ended: the best if that is shown, else the leader, as
// in a comparison.
func (d Design) bestWord() string {
	switch {
	case d.Goal == study.DesignOperators:
	case d.Advice == d.Best && !d.Promised, d.Advice != d.Best && !say.Differs(d.leadEstimate()):
		return "leader"
	}
	return "best"
}

// aheadBy returns a lead, without a sign if it is shown to be one.
func aheadBy(e sim.Estimate) string {
	if say.Differs(e) && e.Mean > 0 {
		return say.Size(e)
	}
	return say.Gap(e)
}

// means says that a figure is one with what is uncertain at its mean.
func (d Design) means() string {
	if d.Comparison.Uncertainty == nil {
		return ""
	}
	return " (with what is uncertain at its mean)"
}

// equal says what the best has more than what is advised, for what, and why that is advised all the same;
// of the best what may count as equal to it.
func (d Design) equal() string {
	if d.Advice == d.Best {
		return d.mayBeEqual()
	}
	best, advice := &d.Finalists[d.Best], &d.Finalists[d.Advice]
	price, changes := best.Price-advice.Price, len(best.Choices)-len(advice.Choices)
	var which, more string
	switch {
	case d.Goal.InMoney() && changes > 0:
		which, more = "that with the fewest changes", "with "+say.Plural(changes, "change")+" more"
	case price > 0 && d.Goal.InMoney():
		which, more = "with as many changes the cheapest", "for "+d.sum(price)+" more"
	case price > 0:
		which, more = "the cheapest", "for "+d.sum(price)+" more"+d.operatorsMore()
	case best.Operators > advice.Operators:
		which, more = "at one price that with the fewest operators", "at the same price"+d.operatorsMore()
	default:
		which, more = "at one price that with the fewest changes", "at the same price"
	}
	is := fmt.Sprintf("The best, %s, is ahead of it by %s, %s", best.Name, d.lead(), more)
	if d.bestWord() != "best" {
		is = fmt.Sprintf("The leader of the search, %s, is not shown to be ahead of it (%s), %s", best.Name, d.lead(), more)
	}
	return fmt.Sprintf("%s: less than %s counts as equal, and of equals %s is advised.", is, d.zone(), which)
}

// operatorsMore says how many operators more the best has than what is advised; "" if as many or fewer.
func (d Design) operatorsMore() string {
	more := d.Finalists[d.Best].Operators - d.Finalists[d.Advice].Operators
	if more <= 0 {
		return ""
	}
	return " and with " + say.Plural(more, "operator") + " more"
}

// mayBeEqual names the cheapest design that may count as equal to the best and is not shown to; "" if there is
// none. Where inputs are drawn the interval is of more than that, and nothing is said.
func (d Design) mayBeEqual() string {
	if d.Comparison.Uncertainty != nil || d.Goal.InMoney() {
		return ""
	}
	for i := range d.Finalists {
		x := &d.Finalists[i]
		less := d.Finalists[d.Best].Price - x.Price
		if i == d.Best || !x.Within || !(less > 0) || -x.Better.Mean > d.Indifference {
			continue
		}
		return fmt.Sprintf("%s, for %s less, is behind it by %s%s: whether that is less than the %s that count as equal is not settled, and more --reps may settle it.",
			x.Name, d.sum(less), aheadBy(d.Comparison.Compared[i][d.Best].Difference), d.unit(), d.zone())
	}
	return ""
}

// pays says whether what is advised pays for itself, where that is not what was looked for; "" without costs. Of others
// it is known only of those that were compared.
func (d Design) pays() string {
	m := d.Comparison.Money
	if m == nil || d.Goal.InMoney() {
		return ""
	}
	own, cost := m.Lines[0].AllIn.Mean, m.Lines[d.Advice].AllIn.Mean
	none := true
	for i := range m.Lines {
		none = none && m.Lines[i].AllIn.Mean >= own
	}
	each := fmt.Sprintf("a thousand cost %s %s with the price in it, where the line as it is takes %s", designCost(m, d.Advice), m.Currency, designCost(m, 0))
	switch {
	case d.Advice == 0 && none:
		return fmt.Sprintf("%s pays, of the designs compared.", say.Capital(d.noPurchase()))
	case d.Advice == 0:
		return ""
	case cost < own:
		return say.Capital(each) + "."
	case none && len(m.Lines) > 2:
		return "That does not pay, nor does any other of the designs compared: " + each + ". Whether another combination would was not looked for: that takes a goal in money."
	}
	return "That does not pay: " + each + "."
}

// certainty returns how sure the choice is; "" of the fewest operators, of whom that is said with them.
func (d Design) certainty() string {
	if d.Goal == study.DesignOperators {
		return ""
	}
	if !d.Promised {
		return d.unsettled(d.zone() + d.unit())
	}
	text := fmt.Sprintf("With %s confidence no other design is better by more than %s", say.Exact(100*float64(d.Confidence))+" %", d.tolerance()+d.unit())
	if d.Tolerance > d.Indifference {
		best := d.Finalists[d.Best].Name
		text += fmt.Sprintf(": %s by no more than %s, and none is ahead of %s by more than %s", best, d.roundedUp(d.Tolerance-d.Indifference), best, d.zone())
	}
	return text + "."
}

// tolerance returns by how much no design is better than what is advised.
func (d Design) tolerance() string {
	if d.Tolerance <= d.Indifference {
		return d.zone()
	}
	return d.roundedUp(d.Tolerance)
}

// roundedUp returns a bound of the goal's figure: of envelopes whole ones, of money to the cent or, of
// less, with two digits, and of net present values with three.
func (d Design) roundedUp(bound study.Number) string {
	x, places := float64(bound)*d.scale(), 0
	switch {
	case d.inValue():
		places = 2 - say.Magnitude(x)
	case d.Goal.InMoney():
		places = max(2, 1-say.Magnitude(x))
	}
	unit := math.Pow10(places)
	return say.Rounded(math.Ceil(x*unit)/unit, -places)
}

// unsettled says which designs may be as good as the best: of those that the choice did not drop,
// those that the comparison in other shifts does not show to be less than the zone ahead.
func (d Design) unsettled(zone string) string {
	than, rivals := "", 0
	if d.Advice != d.Best {
		than = " than " + d.Finalists[d.Best].Name
	}
	var names []string
	for i := range d.Finalists {
		if x := &d.Finalists[i]; x.Rival && i != d.Best {
			if rivals++; x.Better.High >= d.Indifference {
				names = append(names, x.Name)
			}
		}
	}
	if more := d.Left - rivals; more > 0 {
		names = append(names, say.Plural(more, "design")+" not in the table")
	}
	if names == nil {
		return fmt.Sprintf("The choice was not settled in the shifts that were allowed. In those of the table, which are others, nothing that was left of it is better%s by %s or more (95 %%).", than, zone)
	}
	return fmt.Sprintf("That is not settled: after all the shifts that were allowed %s may still be better%s by %s or more.", say.List(names), than, zone)
}

// operatorsFinding returns how few operators do.
func (d Design) operatorsFinding(best *study.DesignOne) string {
	reach, share := d.reach(d.Advice), say.Exact(100*float64(d.Share))+" %"
	crew := say.Plural(best.Operators, "operator")
	if best.Operators == 1 {
		crew = "One operator"
	}
	what := "the line as it is"
	if len(best.Choices) > 0 {
		what = d.bought(best)
	}
	switch {
	case !d.Reached:
		return fmt.Sprintf("No design reaches the target in %s of its shifts. What comes nearest is %s: %s.", share, what, reach)
	case !d.Promised:
		return sentences(fmt.Sprintf("%s may be enough, with %s: %s. Whether that is %s is not settled.", crew, what, reach, share), d.surelyEnough())
	case best.Operators == 1:
		return fmt.Sprintf("%s is enough, with %s: %s.", crew, what, reach)
	}
	return fmt.Sprintf("%s are enough, with %s: %s.", crew, what, reach)
}

// surelyEnough returns what is shown to be enough, where what is advised is not: the cheapest with the fewest
// operators; "" if nothing in the table is.
func (d Design) surelyEnough() string {
	found := -1
	for i := range d.Finalists {
		x := &d.Finalists[i]
		if !x.Within || x.Reaches.Low < d.Share {
			continue
		}
		if found < 0 || x.Operators < d.Finalists[found].Operators || x.Operators == d.Finalists[found].Operators && x.Price < d.Finalists[found].Price {
			found = i
		}
	}
	if found < 0 {
		return ""
	}
	x := &d.Finalists[found]
	with := say.Plural(x.Operators, "operator")
	if len(x.Choices) > 0 {
		with += ", and " + d.bought(x)
	}
	return fmt.Sprintf("%s is shown to be, with %s: %s.", say.Capital(x.Name), with, d.reach(found))
}

// reach returns how many of its shifts reach the target with a design. That all of some did shows no certainty.
func (d Design) reach(i int) string {
	r, shifts := d.Finalists[i].Reaches, say.Plural(len(d.Comparison.Lines[i].Study.Shifts), d.period())
	target := say.Rounded(float64(d.Target), 0) + " an hour"
	switch low, high := float64(r.Low), float64(r.High); r.Share {
	case 1:
		return fmt.Sprintf("all of its %s reach %s (95 %%: at least %s in the long run)", shifts, target, say.AtLeast(low))
	case 0:
		return fmt.Sprintf("none of its %s reaches %s (95 %%: at most %s in the long run)", shifts, target, say.AtMost(high))
	default:
		return fmt.Sprintf("%s of its %s reach %s (95 %%: %s)", say.ShareOf(float64(r.Share), 0, "under ", "over "), shifts, target, say.Between(low, high))
	}
}
