package present

import (
	"fmt"
	"math"
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
)

// change says what it brings to plan anew.
func (s Plans) change() string {
	c := s.Change
	switch {
	case c == nil:
		return ""
	case s.Plans[0].Given:
		return " " + s.anew(c)
	case c.Same:
		return " The order stays as it was."
	}
	moved := "no job to another line"
	if len(c.Moved) > 0 {
		moved = listed(c.Moved) + " to another line"
	}
	both := ""
	if s.Shown() > 0 {
		both = " both " + s.name(s.shown()) + ","
	}
	return fmt.Sprintf(" Against the order as it was,%s the new plan moves %s%s, in the mean.", both, moved, plansGain(c))
}

// anew says what planning anew brings with the same choice, and which choice it would need.
func (s Plans) anew(c *study.PlansChange) string {
	text := s.given() + PlansAnew(c)
	if len(s.shown().Prices) > 0 {
		text = strings.Replace(text, "Planned anew, without", "Planned anew with the same choice, without", 1)
	}
	if !c.Same {
		text = strings.TrimSuffix(text, ".") + s.costsLess(c, s.shown()) + "."
	}
	if s.Service == 0 || s.ChosenAnew < 0 {
		return text
	}
	best := &s.Plans[s.ChosenAnew]
	if s.Chosen >= 0 && best.All() >= s.Plans[s.Chosen].All() {
		return text
	}
	needs := "nothing that is optional"
	if chosen := s.chosenItems(best); len(best.Chosen) > 0 {
		needs = say.List(chosen[len(s.Bought):])
	}
	text = fmt.Sprintf("%s Planned anew it keeps each date so often with %s: %s", text, needs, s.price(best))
	if less := s.shown().All() - best.All(); !math.IsInf(less, 0) && !math.IsNaN(less) && math.Abs(less) >= 0.5 {
		text += fmt.Sprintf(", %s %s than the order that is given", s.withUnit(meanSum(math.Abs(less))), map[bool]string{true: "less", false: "more"}[less > 0])
	}
	return text + "."
}

// given says what the order that is given costs, with what is chosen; nothing where neither choices nor lateness have
// a price.
func (s Plans) given() string {
	x := s.shown()
	if !hasPrice(x) {
		return ""
	}
	all := ""
	if x.Cost > 0 && x.LateCost > 0 && !math.IsInf(x.All(), 1) {
		all = ", " + s.withUnit(allSum(x)) + " in all"
	}
	return fmt.Sprintf("The order that is given costs %s%s. ", s.price(x), all)
}

// costsLess says how much less, or more, another order costs; nothing where nothing has a price.
func (s Plans) costsLess(c *study.PlansChange, x *study.PlansPlan) string {
	size, half := math.Abs(float64(c.Less.Mean)), float64(c.Less.Half)
	const what = "the choices and lateness together, without other costs,"
	switch {
	case !hasPrice(x) || math.IsNaN(half):
		return ""
	case size < 0.5 || size <= half:
		return "; " + what + " are not shown to cost less or more"
	}
	text := say.Rounded(size, 0)
	if half >= 0.5 {
		text += " ± " + say.Rounded(half, 0)
	}
	if unit := s.currency(); unit != "money" {
		text += " " + unit
	}
	if c.Less.Mean > 0 {
		return "; " + what + " cost " + text + " less, in the mean"
	}
	return "; " + what + " cost " + text + " more, in the mean"
}

// hasPrice reports whether what is chosen, or lateness, costs anything.
func hasPrice(x *study.PlansPlan) bool { return x.Cost > 0 || x.Made.Plan.Late > 0 }

// PlansAnew says what planning anew brings against the order that is given.
func PlansAnew(c *study.PlansChange) string {
	if c.Same {
		return "Planned anew, with the order that is given among those tried, no better one is found: it stays as it is."
	}
	moved := "each job stays on its line"
	if len(c.Moved) > 0 {
		moved = listed(c.Moved) + map[bool]string{true: " goes", false: " go"}[len(c.Moved) == 1] + " to another line"
	}
	in := ""
	if size := math.Abs(float64(c.InTime.Mean)); size >= 0.05 && size > float64(c.InTime.Half) {
		in = fmt.Sprintf("; %s more jobs are in time", say.Rounded(size, -1))
		if c.InTime.Mean < 0 {
			in = fmt.Sprintf("; %s fewer jobs are in time", say.Rounded(size, -1))
		}
	}
	return fmt.Sprintf("Planned anew, without the order that is given, %s%s%s, in the mean.", moved, in, plansGain(c))
}

// plansGain says how much sooner, and how much less late, jobs are in another order.
func plansGain(c *study.PlansChange) (text string) {
	if !math.IsNaN(float64(c.Hours.Half)) {
		text += "; " + differs(c.Hours, "the last job is finished %s h sooner by the clock on the wall", "the last job is finished %s h later by the clock on the wall", "the end of the last job is not shown to move")
	}
	if !math.IsNaN(float64(c.Late.Half)) {
		text += "; " + differs(c.Late, "lateness, hours times priorities, is %s less", "lateness, hours times priorities, is %s more", "lateness is not shown to change")
	}
	return text
}

// differs says a difference to a tenth, with its interval, or that none is shown.
func differs(d study.Mean, positive, negative, none string) string {
	size, half := math.Abs(float64(d.Mean)), float64(d.Half)
	if size < 0.05 || size <= half {
		return none
	}
	text := say.Rounded(size, -1)
	if half >= 0.05 {
		text += " ± " + say.Rounded(half, -1)
	}
	if d.Mean > 0 {
		return fmt.Sprintf(positive, text)
	}
	return fmt.Sprintf(negative, text)
}
