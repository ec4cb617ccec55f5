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

// Finding returns what the plan comes to, in a few sentences.
func (s Plans) Finding() string {
	x := s.shown()
	text := s.tooLate(x) + s.datesOver(x) + s.hopeless(x.Made.Plan) + s.bought() + s.choice(x) + s.overruled(x) + s.unfinished(x)
	if worst := s.worst(x); worst != nil {
		text += fmt.Sprintf("All %s are kept in %s of the replications%s. ", map[bool]string{true: "other dates", false: "dates"}[s.datesOver(x) != ""], plansOften(x.AllInTime), leastSure(x, worst)) + plansLate(x)
	}
	switch {
	case x.Last.P50.Never():
		return strings.TrimSpace(text + s.unattended(x) + s.bench(x) + s.change() + s.promised())
	case x.Last.P90.Never():
		return strings.TrimSpace(fmt.Sprintf("%sThe last job is finished by %s in half of them. ", text, s.Moment(x.Last.P50))+s.unattended(x)+s.bench(x)) + s.change() + s.promised()
	}
	text += fmt.Sprintf("The last job is finished by %s in half of them, by %s in nine of ten. ", s.Moment(x.Last.P50), s.Moment(x.Last.P90))
	return text + s.unattended(x) + s.bench(x) + s.paper(x) + s.change() + s.promised()
}

// tooLate says that all dates are over when the plan begins, as they are if a time was mistyped.
func (s Plans) tooLate(x *study.PlansPlan) string {
	from, dated := x.Made.Plan.From, 0
	for _, j := range x.Jobs() {
		switch {
		case j.Due == nil:
		case j.Due.At > from:
			return ""
		default:
			dated++
		}
	}
	if dated == 0 {
		return ""
	}
	return fmt.Sprintf("All its dates are over when the plan begins, on %s. ", s.Moment(study.PlansMoment{At: from}))
}

// datesOver names the dates that are over when the plan begins, which no choice keeps any more.
func (s Plans) datesOver(x *study.PlansPlan) string {
	var dates []string
	for _, j := range x.Jobs() {
		if j.DateOver {
			dates = append(dates, j.Name+", due "+s.Moment(*j.Due)+",")
		}
	}
	switch len(dates) {
	case 0:
		return ""
	case 1:
		return "The date of " + dates[0] + " is over when the plan begins. It is set aside: it counts as lateness, and “each date” is each of the others. "
	}
	return "The dates of " + strings.TrimSuffix(say.List(dates), ",") + ", are over when the plan begins. They are set aside: they count as lateness, and “each date” is each of the others. "
}

// overruled says where the order that is given does not hold, since a line is at a job already.
func (s Plans) overruled(x *study.PlansPlan) string {
	if len(x.Overruled) == 0 {
		return ""
	}
	var at []string
	for _, name := range x.Overruled {
		for _, line := range x.Lines {
			if len(line.Jobs) > 0 && line.Jobs[0].Name == name {
				at = append(at, plansLine(line.Name)+" is at "+name)
			}
		}
	}
	return "The order that is given cannot hold for what is begun: " + say.List(at) + ", and goes on with it first. "
}

// choice says what is chosen for the service that is asked for, or what comes nearest to it.
func (s Plans) choice(x *study.PlansPlan) (text string) {
	if s.Service == 0 {
		return ""
	}
	if len(s.Over) > 0 {
		defer func() {
			text += say.Capital(say.List(s.Over)) + map[bool]string{true: " is", false: " are"}[len(s.Over) == 1] + " over by now, and not tried. "
		}()
	}
	asked := say.Exact(100*float64(s.Service)) + " %"
	tried, which := "", "The"
	if s.Settings.Partial {
		tried, which = "Not all choices were tried. Of those that were, ", "the"
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
	return fmt.Sprintf("%s%s cheapest choice that keeps each date with a probability of %s is %s: %s. ", tried, which, asked, plansName(x), s.price(x)) + s.sure(x, asked)
}

// nearest says that no choice has the service, which comes nearest, and which is the cheapest.
func (s Plans) nearest(x *study.PlansPlan, asked string) string {
	text := "No choice among those that are optional keeps each date with a probability of " + asked
	if s.Settings.Partial {
		text = "Not all choices were tried; none of those that were keeps each date with a probability of " + asked
	}
	if len(s.Bought) > 0 && s.choices() == 1 && !s.Settings.Partial {
		return fmt.Sprintf("Not each date is kept with a probability of %s, and nothing is left to choose. ", asked)
	}
	least := &s.Plans[s.Cheapest]
	switch {
	case s.Nearest == 0 && s.Cheapest == 0:
		return fmt.Sprintf("%s. None is shown to come nearer than the base, which is the cheapest: %s. ", text, s.price(x))
	case s.Nearest == 0:
		return fmt.Sprintf("%s. The cheapest is %s: %s. None is shown to come nearer than the base: %s. ", text, plansName(least), s.price(least), s.price(x))
	case s.Cheapest == s.Nearest:
		return fmt.Sprintf("%s. %s comes nearest, and is the cheapest: %s. ", text, say.Capital(plansName(x)), s.price(x))
	}
	return fmt.Sprintf("%s. The cheapest is %s: %s; it keeps all dates in %s of the replications. %s comes nearest: %s. ",
		text, plansName(least), s.price(least), plansOften(least.AllInTime), say.Capital(plansName(x)), s.price(x))
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
	for _, j := range x.Jobs() {
		if j.InTime != nil && !j.DateOver && j.InTime.Low < s.Service {
			open = append(open, j.Name)
		}
	}
	if len(open) == 0 {
		return ""
	}
	if len(open) > 3 {
		open = append(open[:3], say.Plural(len(open)-3, "other job"))
	}
	return fmt.Sprintf("With %s that is not certain: the interval of %s reaches below %s. ", say.Plural(s.Settings.Reps, "replication"), say.List(open), asked)
}

// plansName returns what a plan is called in a sentence.
func plansName(x *study.PlansPlan) string {
	if x.Name == page.BaseName {
		return "the base"
	}
	return "“" + x.Name + "”"
}

// price returns what a plan costs, in words.
func (s Plans) price(x *study.PlansPlan) string {
	late := "lateness without end"
	if !math.IsInf(float64(x.LateCost), 1) {
		late = s.inCurrency(float64(x.LateCost)) + " for lateness, in the mean"
	}
	var parts []string // that add up
	for _, p := range x.Prices {
		each := say.Exact(float64(p.Each))
		if p.Per != "" {
			each = say.Plural(p.Times, p.Per) + " at " + each
		}
		parts = append(parts, p.Name+", "+each)
	}
	chosen := s.inCurrency(float64(x.Cost)) + " for what is chosen"
	if x.Wages > 0 {
		parts = slices.DeleteFunc(parts, func(text string) bool { return strings.HasSuffix(text, ", 0") })
		parts = append(parts, say.Rounded(float64(x.Wages), 0)+" of wages")
	}
	if len(parts) > 1 || x.Wages > 0 || slices.ContainsFunc(x.Prices, func(p study.PlansPrice) bool { return p.Per != "" }) {
		chosen += " (" + strings.Join(parts, "; ") + ")"
	}
	return chosen + " and " + late
}

// unfinished says which jobs are not finished, and why.
func (s Plans) unfinished(x *study.PlansPlan) string {
	var always, often []string
	for _, j := range x.Jobs() {
		switch {
		case j.Unfinished == 1:
			always = append(always, j.Name)
		case j.Unfinished > 0:
			often = append(often, fmt.Sprintf("%s is not finished in %s of the replications", j.Name, SeasonsOften(j.Unfinished)))
		}
	}
	if len(always) > 0 {
		often = slices.Insert(often, 0, say.List(always)+map[bool]string{true: " is", false: " are"}[len(always) == 1]+" not finished")
	}
	if len(often) == 0 {
		return ""
	}
	why := "the plan looks no further ahead"
	if h := x.Made.Horizon; h.Ends() {
		why = "nobody is there after " + s.Moment(study.PlansMoment{At: h.End()})
	}
	return say.List(often) + ": " + why + ". "
}

// leastSure names the date that is least sure, or those that are so alike; all that are always kept are alike.
func leastSure(x *study.PlansPlan, worst *study.PlansJob) string {
	if n := x.Study.Done; worst.InTime.Share == 1 && x.AllInTime.Share == 1 {
		return fmt.Sprintf(", in %d of %d", n, n)
	}
	var names []string
	for _, j := range x.Jobs() {
		if j.InTime != nil && !j.DateOver && j.InTime.Share == worst.InTime.Share {
			names = append(names, j.Name)
		}
	}
	if len(names) == 1 {
		return fmt.Sprintf(". The date least sure is that of %s, kept in %s", worst.Name, plansOften(*worst.InTime))
	}
	return fmt.Sprintf(". The dates least sure are those of %s, each kept in %s", say.List(names), plansOften(*worst.InTime))
}

// worst returns the job whose date, not over, is kept least often; nil if none has one.
func (s Plans) worst(x *study.PlansPlan) (worst *study.PlansJob) {
	for _, j := range x.Jobs() {
		if j.InTime != nil && !j.DateOver && (worst == nil || j.InTime.Share < worst.InTime.Share) {
			worst = j
		}
	}
	return worst
}

// paper says how good the plan is among all.
func (s Plans) paper(x *study.PlansPlan) string {
	p := x.Paper
	hours := func(h study.Number) string { return say.Rounded(float64(h), -1) }
	if x.Given {
		text := fmt.Sprintf("In the order that is given it takes %s h of working time on paper", hours(p.Hours))
		if p.Late > 0 {
			text += "; its lateness on paper, with means, in hours times priorities, is " + hours(p.Late)
		}
		return text + "."
	}
	takes := "it takes " + hours(p.Hours) + " h of working time"
	late := "its lateness on paper, with means, in hours times priorities, is " + hours(p.Late)
	none := "On paper no plan takes less than " + hours(p.HoursBound) + " h: a bound, which leaves out " + boundLeavesOut(x) + "."
	tried := plansTried(x)
	switch {
	case x.Exact && x.Made.Plan.Shortest:
		return fmt.Sprintf("On paper it is exactly the best plan, none is done sooner there: %s; %s.%s", takes, late, tried)
	case x.Exact && p.Late == 0:
		return fmt.Sprintf("On paper it is exactly the best plan: no date is missed, and %s.%s %s", takes, tried, none)
	case x.Exact:
		return fmt.Sprintf("On paper it is exactly the best plan, none has less lateness there: %s; %s.%s %s", late, takes, tried, none)
	case !p.Best:
		return fmt.Sprintf("On paper another plan is better: %s; %s.%s %s", late, takes, tried, none)
	}
	return fmt.Sprintf("It was searched for, and may not be the best: on paper %s; %s.%s On paper no plan takes less than %s h, nor has less lateness than %s: bounds, which leave out %s.",
		takes, late, tried, hours(p.HoursBound), hours(p.LateBound), boundLeavesOut(x))
}

// plansTried says of how many plans it is the best in the simulation, after a space; nothing if paper decided.
func plansTried(x *study.PlansPlan) string {
	none := "has less lateness"
	if x.Made.Plan.Shortest {
		none = "is done sooner"
	}
	if x.Paper.Tried == 0 {
		return ""
	}
	return fmt.Sprintf(" It is one of %d plans that are good on paper, each simulated with the same random events to choose it: none of them %s there.", x.Paper.Tried, none)
}

// boundLeavesOut says what is not in the bounds on paper.
func boundLeavesOut(x *study.PlansPlan) string {
	var all []string
	if len(x.Made.Plan.Down) > 0 {
		all = append(all, "the time in which a line is down")
	}
	for _, s := range x.Made.Plan.Staffed {
		if !s.Optional && len(s.Absent) > 0 {
			all = append(all, "when nobody is there who may change over")
			break
		}
	}
	return strings.Join(append(all, "which changeovers can follow each other"), ", and ")
}

// plansLate says how many sets are late, and of which job most; nothing where none are.
func plansLate(x *study.PlansPlan) string {
	if x.LateSets == 0 {
		return ""
	}
	most := &study.PlansJob{}
	for _, j := range x.Jobs() {
		if j.LateSets > most.LateSets {
			most = j
		}
	}
	text := fmt.Sprintf("Late, not done at their date, are %s in the mean", fewSets(x.LateSets))
	if most.LateSets < x.LateSets {
		text += fmt.Sprintf(", the most, %s, of %s", countOf(most.LateSets), most.Name)
	} else {
		text += ", all of " + most.Name
	}
	return text + ". "
}

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
		moved = say.List(c.Moved) + " to another line"
	}
	both := ""
	if s.Shown() > 0 {
		both = " both " + s.shown().Name + ","
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
	if len(best.Chosen) > 0 {
		needs = say.List(best.Chosen)
	}
	text = fmt.Sprintf("%s Planned anew it keeps each date so often with %s: %s", text, needs, s.price(best))
	if less := s.shown().All() - best.All(); !math.IsInf(less, 0) && !math.IsNaN(less) && math.Abs(less) >= 0.5 {
		text += fmt.Sprintf(", %s %s than the order that is given", s.inCurrency(math.Abs(less)), map[bool]string{true: "less", false: "more"}[less > 0])
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
		all = ", " + s.inCurrency(x.All()) + " in all"
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
		return "Planned anew, without the order that is given, the order stays as it is."
	}
	moved := "each job stays on its line"
	if len(c.Moved) > 0 {
		moved = say.List(c.Moved) + map[bool]string{true: " goes", false: " go"}[len(c.Moved) == 1] + " to another line"
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

// plansOften returns how often something comes about, with its interval.
func plansOften(x study.PlansOften) string {
	return fmt.Sprintf("%s (%s to %s)", SeasonsOften(x.Share), SeasonsOften(x.Low), SeasonsOften(x.High))
}
