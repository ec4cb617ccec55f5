package present

import (
	"fmt"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/seasons"
	"netrate/model/study"
)

// Finding returns what the plan comes to, in a few sentences.
func (s Plans) Finding() string {
	x := s.shown()
	text := s.tooLate(x) + s.datesOver(x) + hopeless(x.Made.Plan, s.Moment) + notTaken(x.NotTaken) + s.bought() + s.choice(x) + s.overruled(x) + s.unfinished(x)
	if worst := s.worst(x); worst != nil {
		text += fmt.Sprintf("All %s are kept in %s of the replications%s. ", map[bool]string{true: "other dates", false: "dates"}[s.datesOver(x) != ""], plansOften(x.AllInTime), leastSure(x, worst)) + plansLate(x)
	}
	switch {
	case x.Last.P50.Never():
		return strings.TrimSpace(text + s.unattended(x) + s.twiceSaid(x) + s.bench(x) + s.daysTried() + s.change() + s.notKept() + s.promised())
	case x.Last.P90.Never():
		return strings.TrimSpace(fmt.Sprintf("%sThe last job is finished by %s in half of them. ", text, s.Moment(x.Last.P50))+s.unattended(x)+s.twiceSaid(x)+s.bench(x)) + s.daysTried() + s.change() + s.notKept() + s.promised()
	}
	text += fmt.Sprintf("The last job is finished by %s in half of them, by %s in nine of ten. ", s.Moment(x.Last.P50), s.Moment(x.Last.P90))
	return text + s.unattended(x) + s.twiceSaid(x) + s.bench(x) + s.found(x) + s.change() + s.notKept() + s.promised()
}

// found says how the plan was found, and how good it is among all.
func (s Plans) found(x *study.PlansPlan) string { return s.paper(x) + s.daysTried() }

// twiceSaid says who is there in two shifts of a day.
func (s Plans) twiceSaid(x *study.PlansPlan) string {
	if all := s.twice(x); all != nil {
		return all[0] + ". "
	}
	return ""
}

// tooLate says that all dates are over when the plan begins, as they are if a time was mistyped.
func (s Plans) tooLate(x *study.PlansPlan) string {
	from, dated := x.Made.Plan.From, 0
	for _, j := range inOrder(x) {
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
	for _, j := range inOrder(x) {
		if j.DateOver {
			dates = append(dates, called(j.Name)+", due "+s.Moment(*j.Due)+",")
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

// unfinished says which jobs are not finished, and why.
func (s Plans) unfinished(x *study.PlansPlan) string {
	var always, often []string
	for _, j := range inOrder(x) {
		switch {
		case j.Unfinished == 1:
			always = append(always, j.Name)
		case j.Unfinished > 0:
			often = append(often, fmt.Sprintf("%s is not finished in %s of the replications", called(j.Name), SeasonsOften(j.Unfinished)))
		}
	}
	if len(always) > 0 {
		often = slices.Insert(often, 0, listed(always)+map[bool]string{true: " is", false: " are"}[len(always) == 1]+" not finished")
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
	for _, j := range inOrder(x) {
		if j.InTime != nil && !j.DateOver && j.InTime.Share == worst.InTime.Share {
			names = append(names, j.Name)
		}
	}
	if len(names) == 1 {
		return fmt.Sprintf(". The date least sure is that of %s, kept in %s", called(worst.Name), plansOften(*worst.InTime))
	}
	return fmt.Sprintf(". The dates least sure are those of %s, each kept in %s", listed(names), plansOften(*worst.InTime))
}

// worst returns the job whose date, not over, is kept least often; nil if none has one.
func (s Plans) worst(x *study.PlansPlan) (worst *study.PlansJob) {
	for _, j := range inOrder(x) {
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
	bounds := fmt.Sprintf("On paper no plan takes less than %s h, nor has less lateness than %s: bounds by the times on paper, not of the simulation, which leave out %s.",
		hours(p.HoursBound), hours(p.LateBound), boundLeavesOut(x))
	tried := plansTried(x)
	switch {
	case x.Exact && x.Made.Plan.Shortest:
		return fmt.Sprintf("On paper it is exactly the best plan, none is done sooner there: %s; %s.%s", takes, late, tried)
	case x.Exact && p.Late == 0:
		return fmt.Sprintf("On paper it is exactly the best plan: no date is missed, and %s.%s %s", takes, tried, none)
	case x.Exact:
		return fmt.Sprintf("On paper it is exactly the best plan, none has less lateness there: %s; %s.%s %s", late, takes, tried, none)
	case !p.Best:
		return fmt.Sprintf("On paper another plan is better than this one, whose lateness there, with means, in hours times priorities, is %s, and which takes %s h of working time.%s %s",
			hours(p.Late), hours(p.Hours), tried, bounds)
	}
	return fmt.Sprintf("It was searched for, and may not be the best: on paper %s; %s.%s %s", takes, late, tried, bounds)
}

// plansTried says how many orders were simulated to choose the plan, after a space; nothing if paper decided.
func plansTried(x *study.PlansPlan) string {
	if x.Paper.Tried == 0 {
		return ""
	}
	return fmt.Sprintf(" To choose it, %s simulated with the same random events, those that did well more often, and the best was taken.", say.Plural(x.Paper.Tried, "order")+map[bool]string{true: " was", false: " were"}[x.Paper.Tried == 1])
}

// boundLeavesOut says what is not in the bounds on paper.
func boundLeavesOut(x *study.PlansPlan) string {
	var all []string
	if len(x.Made.Plan.Down) > 0 {
		all = append(all, "the time in which a line is down")
	}
	if p := x.Made.Plan; p.Calendar.HasOwnBreaks() || slices.ContainsFunc(p.Staffed, func(s seasons.Staffed) bool { return !s.Optional && len(s.Absent) > 0 }) {
		all = append(all, "when nobody is there who may do some work")
	}
	return strings.Join(append(all, "which changeovers can follow each other"), ", and ")
}

// plansLate says how many sets are late, and of which job most; nothing where none are.
func plansLate(x *study.PlansPlan) string {
	if x.LateSets == 0 {
		return ""
	}
	most := &study.PlansJob{}
	for _, j := range inOrder(x) {
		if j.LateSets > most.LateSets {
			most = j
		}
	}
	text := fmt.Sprintf("Late, not done at their date, are %s in the mean", fewSets(x.LateSets))
	if most.LateSets < x.LateSets {
		text += fmt.Sprintf(", the most, %s, of %s", countOf(most.LateSets), called(most.Name))
	} else {
		text += ", all of " + called(most.Name)
	}
	return text + ". "
}

// plansOften returns how often something comes about, with its interval.
func plansOften(x study.PlansOften) string {
	return fmt.Sprintf("%s (%s)", SeasonsOften(x.Share), say.Between(float64(x.Low), float64(x.High)))
}
