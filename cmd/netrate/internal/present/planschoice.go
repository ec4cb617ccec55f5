package present

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
)

// choice says what is chosen for the service that is asked for, or what comes nearest to it.
func (s Plans) choice(x *study.PlansPlan) (text string) {
	if s.Service == 0 {
		return ""
	}
	defer func() {
		if len(s.Over) > 0 {
			text += say.Capital(say.List(s.Over)) + map[bool]string{true: " is", false: " are"}[len(s.Over) == 1] + " over by now, and not tried. "
		}
		text += idleStaff(s.Plans[0].Made.Plan, s.Idle, " and not tried")
	}()
	asked := say.Exact(100*float64(s.Service)) + " %"
	tried, which, found := "", "The", ""
	if s.Days != nil {
		found = " found"
	}
	if s.Settings.Partial {
		tried, which = s.notAllTried()+". Of those that were, ", "the"
	}
	switch {
	case !dated(x) && len(x.Chosen) == 0:
		return fmt.Sprintf("No job has a date: none can be kept with a probability of %s, and nothing is chosen for it. ", asked)
	case s.Chosen < 0:
		return s.nearest(x, asked)
	case s.Chosen == 0 && !s.Settings.Partial:
		without := "without anything that is optional"
		if len(s.Bought) > 0 {
			without = "with what is bought, without anything more that is optional"
		}
		return fmt.Sprintf("Each date is kept with a probability of %s %s. ", asked, without) + s.sure(x, asked)
	}
	return fmt.Sprintf("%s%s cheapest choice%s that keeps each date with a probability of %s is %s: %s. ", tried, which, found, asked, s.planName(x), s.price(x)) + s.sure(x, asked)
}

// nearest says that no choice has the service, which comes nearest, and which is the cheapest.
func (s Plans) nearest(x *study.PlansPlan, asked string) string {
	text := "No choice among those that are optional keeps each date with a probability of " + asked
	if s.Settings.Partial {
		text = s.notAllTried() + "; none of those that were keeps each date with a probability of " + asked
		if s.choices() == 1 {
			return fmt.Sprintf("No choice was tried but the base, in which not each date is kept with a probability of %s. ", asked)
		}
	}
	if len(s.Bought) > 0 && s.choices() == 1 && !s.Settings.Partial {
		return fmt.Sprintf("Not each date is kept with a probability of %s, and nothing is left to choose. ", asked)
	}
	least := &s.Plans[s.Cheapest]
	switch {
	case s.Nearest == 0 && s.Cheapest == 0:
		return fmt.Sprintf("%s. None is shown to come nearer than the base, which is the cheapest: %s. ", text, s.price(x))
	case s.Nearest == 0:
		return fmt.Sprintf("%s. The cheapest is %s: %s. None is shown to come nearer than the base: %s. ", text, s.planName(least), s.price(least), s.price(x))
	case s.Cheapest == s.Nearest:
		return fmt.Sprintf("%s. %s comes nearest, and is the cheapest: %s. ", text, say.Capital(s.planName(x)), s.price(x))
	}
	return fmt.Sprintf("%s. The cheapest is %s: %s; it keeps all dates in %s of the replications. %s comes nearest: %s. ",
		text, s.planName(least), s.price(least), plansOften(least.AllInTime), say.Capital(s.planName(x)), s.price(x))
}

// notAllTried says which choices were tried before the run was interrupted.
func (s Plans) notAllTried() string {
	var tried []string
	for i := range s.Plans {
		if x := &s.Plans[i]; x.IsChoice() {
			tried = append(tried, s.planName(x))
		}
	}
	return "Not all choices were tried, only " + say.List(tried)
}

// dated reports whether some job has a date.
func dated(x *study.PlansPlan) bool {
	return slices.ContainsFunc(x.Jobs(), func(j *study.PlansJob) bool { return j.Due != nil })
}

// choices returns among how many plans there is a choice.
func (s Plans) choices() (n int) {
	for i := range s.Plans {
		if s.Plans[i].IsChoice() {
			n++
		}
	}
	return n
}

// sure says so if the service may be missed after all, by the intervals.
func (s Plans) sure(x *study.PlansPlan, asked string) string {
	var open []string
	for _, j := range inOrder(x) {
		if j.InTime != nil && !j.DateOver && j.InTime.Low < s.Service {
			open = append(open, j.Name)
		}
	}
	if len(open) == 0 {
		return ""
	}
	return fmt.Sprintf("With %s that is not certain: the interval of %s reaches below %s. ", say.Plural(s.Settings.Reps, "replication"), listedFew(open), asked)
}

// planName returns what a plan is called in a sentence.
func (s Plans) planName(x *study.PlansPlan) string {
	if x.Name == page.BaseName {
		return "the base"
	}
	return "“" + s.name(x) + "”"
}

// price returns what a plan costs, in words.
func (s Plans) price(x *study.PlansPlan) string {
	late := "lateness without end"
	switch cost := float64(x.LateCost); {
	case math.IsNaN(cost):
		late = "lateness without a price"
	case !math.IsInf(cost, 1):
		late = s.withUnit(meanSum(float64(x.LateCost))) + " for lateness, in the mean"
	}
	var parts []string // that add up
	for i := range x.Prices {
		p := &x.Prices[i]
		each := exactSum(float64(p.Each))
		if p.Per != "" {
			each = say.Plural(p.Times, p.Per) + " at " + each
		}
		parts = append(parts, p.Name+", "+each)
	}
	chosen := s.withUnit(chosenSum(x)) + " for what is chosen"
	if x.Wages > 0 {
		parts = slices.DeleteFunc(parts, func(text string) bool { return strings.HasSuffix(text, ", 0") })
		parts = append(parts, meanSum(float64(x.Wages))+" of wages")
	}
	if len(parts) > 1 || x.Wages > 0 || slices.ContainsFunc(x.Prices, func(p study.PlansPrice) bool { return p.Per != "" }) {
		chosen += " (" + strings.Join(parts, "; ") + ")"
	}
	return chosen + " and " + late
}
