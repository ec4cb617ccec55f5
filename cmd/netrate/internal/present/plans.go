package present

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/study"
	"netrate/plots"
	"netrate/sim"
)

// Plans is the plans of a scenario, as they are said and drawn.
type Plans struct {
	*study.PlansAnswer
	Origin  page.Origin
	Plan    sim.Plan
	Starts  time.Time // midnight of the first day, in its zone; the zero time if it is not known
	Command string    // that does it again, without the seed and the number of replications
}

// PlansNotes says what the figures of a plan are and are not.
const PlansNotes = plansWork +
	"The order is chosen on paper: by the mean times of each job and changeover, as if the whole crew were at its line, all lengthened by one factor, so that " +
	"a first plan ends on paper about when it ends in nine of ten replications. The dates are those of the simulation."

const plansWork = "Each line does its jobs in this order, whenever the one before is done. Nights, breaks, and shifts in which nobody is there are left out; " +
	"a job goes on in the next shift. All lines share the crew, which also changes them over; each replication draws what is uncertain anew. "

// notes says what the figures of the plan that is shown are and are not.
func (s Plans) notes() string {
	notes := PlansNotes
	if s.shown().Given {
		notes = plansWork + "The order is the one that the file gives. The dates are those of the simulation."
	}
	if s.shown().Made.Plan.Closing.Closing == model.Beside {
		notes += " A line begins its next job while remakes of the one before are made by hand beside it; a job is finished when its last one is made, at one bench for all lines, " +
			"first come, first served. On paper a job ends when its line is free."
	}
	return notes
}

// shown returns the plan whose jobs are listed.
func (s Plans) shown() *study.PlansPlan { return &s.Plans[s.Shown()] }

// Text returns the plan as a terminal has it.
func (s Plans) Text() string {
	x := s.shown()
	var tables []plots.Table
	if len(s.Plans) > 1 {
		tables = append(tables, s.overview())
	}
	tables = append(tables, s.Jobs(x))
	title := say.Shortened(s.Origin.Scenario.Name, 50) + " (" + say.Plural(s.Settings.Reps, "replication") + ")"
	if s.Settings.Partial {
		title = "PARTIAL ANSWER, interrupted: " + title
	}
	return Screen(title, s.Finding(), tables...) + "\n" + say.Wrapped(s.notes(), say.Prose()) + page.BasisNote(s.Basis) +
		say.Wrapped("To repeat it:", say.Prose()) + "  " + s.again() + "\n" + page.Caution()
}

func (s Plans) again() string {
	return fmt.Sprintf("%s --seed %d --reps %d", s.Command, s.Plan.Seed, s.Settings.Reps)
}

// Finding returns what the plan comes to, in a few sentences.
func (s Plans) Finding() string {
	x := s.shown()
	text := s.choice(x) + s.unfinished(x)
	if worst := s.worst(x); worst != nil {
		text += fmt.Sprintf("All dates are kept in %s of the replications. The date least sure is that of %s, kept in %s. ", plansOften(x.AllInTime), worst.Name, plansOften(*worst.InTime))
	}
	switch {
	case x.Last.P50.Never():
		return strings.TrimSpace(text + s.change())
	case x.Last.P90.Never():
		return fmt.Sprintf("%sThe last job is finished by %s in half of them.", text, s.Moment(x.Last.P50)) + s.change()
	}
	text += fmt.Sprintf("The last job is finished by %s in half of them, by %s in nine of ten. ", s.Moment(x.Last.P50), s.Moment(x.Last.P90))
	return text + s.paper(x) + s.change()
}

// choice says what is chosen for the service that is asked for, or what comes nearest to it.
func (s Plans) choice(x *study.PlansPlan) string {
	if s.Service == 0 {
		return ""
	}
	asked := say.Exact(100*float64(s.Service)) + " %"
	tried, which := "", "The"
	if s.Settings.Partial {
		tried, which = "Not all choices were tried. Of those that were, ", "the"
	}
	switch {
	case s.Chosen < 0:
		return s.nearest(x, asked)
	case s.Chosen == 0 && !s.Settings.Partial:
		return fmt.Sprintf("Each date is kept with a probability of %s without anything that is optional. ", asked) + s.sure(x, asked)
	}
	return fmt.Sprintf("%s%s cheapest choice that keeps each date with a probability of %s is %s: %s. ", tried, which, asked, plansName(x), plansPrice(x)) + s.sure(x, asked)
}

// nearest says that no choice has the service, which comes nearest, and which is the cheapest.
func (s Plans) nearest(x *study.PlansPlan, asked string) string {
	text := "No choice among those that are optional keeps each date with a probability of " + asked
	if s.Settings.Partial {
		text = "Not all choices were tried; none of those that were keeps each date with a probability of " + asked
	}
	least := &s.Plans[s.Cheapest]
	if s.Cheapest == s.Nearest {
		return fmt.Sprintf("%s. %s comes nearest, and is the cheapest: %s. ", text, say.Capital(plansName(x)), plansPrice(x))
	}
	return fmt.Sprintf("%s. The cheapest is %s: %s; it keeps all dates in %s of the replications. %s comes nearest: %s. ",
		text, plansName(least), plansPrice(least), plansOften(least.AllInTime), say.Capital(plansName(x)), plansPrice(x))
}

// sure says so if the service may be missed after all, by the intervals.
func (s Plans) sure(x *study.PlansPlan, asked string) string {
	var open []string
	for _, j := range x.Jobs() {
		if j.InTime != nil && j.InTime.Low < s.Service {
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

// plansPrice returns what a plan costs, in words.
func plansPrice(x *study.PlansPlan) string {
	late := "lateness without end"
	if !math.IsInf(float64(x.LateCost), 1) {
		late = say.Rounded(float64(x.LateCost), 0) + " for lateness, in the mean"
	}
	var parts []string // that add up
	for _, p := range x.Prices {
		each := say.Exact(float64(p.Each))
		if p.Per != "" {
			each = say.Plural(p.Times, p.Per) + " at " + each
		}
		parts = append(parts, p.Name+", "+each)
	}
	chosen := say.Rounded(float64(x.Cost), 0) + " for what is chosen"
	if len(parts) > 1 || slices.ContainsFunc(x.Prices, func(p study.PlansPrice) bool { return p.Per != "" }) {
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

// worst returns the job whose date is kept least often; nil if none has one.
func (s Plans) worst(x *study.PlansPlan) (worst *study.PlansJob) {
	for _, j := range x.Jobs() {
		if j.InTime != nil && (worst == nil || j.InTime.Share < worst.InTime.Share) {
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
			text += "; its lateness, hours times priorities, is " + hours(p.Late)
		}
		return text + "."
	}
	takes := "it takes " + hours(p.Hours) + " h of working time"
	none := ", and no plan less than " + hours(p.HoursBound) + " h"
	late := "its lateness, hours times priorities, is " + hours(p.Late)
	switch {
	case x.Exact && x.Made.Plan.Shortest:
		return fmt.Sprintf("On paper no other plan is done sooner: %s; %s.", takes, late)
	case x.Exact && p.Late == 0:
		return fmt.Sprintf("On paper no date is missed; %s%s.", takes, none)
	case x.Exact:
		return fmt.Sprintf("On paper no other plan has less lateness: %s; %s%s.", late, takes, none)
	}
	return fmt.Sprintf("It was searched for, and may not be the best: on paper %s%s; %s, and that of no plan less than %s.", takes, none, late, hours(p.LateBound))
}

// change says what it brings to plan anew.
func (s Plans) change() string {
	c := s.Change
	switch {
	case c == nil:
		return ""
	case s.Plans[0].Given:
		return " " + PlansAnew(c)
	}
	moved := "no job to another line"
	if len(c.Moved) > 0 {
		moved = say.List(c.Moved) + " to another line"
	}
	name := "the new plan"
	if s.Shown() > 0 {
		name = plansName(s.shown())
	}
	return fmt.Sprintf(" Against the order as it was, %s moves %s%s, in the mean.", name, moved, plansGain(c))
}

// PlansAnew says what planning anew brings against the order that is given.
func PlansAnew(c *study.PlansChange) string {
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
		text += "; " + differs(c.Hours, "the last job is finished %s h sooner by the clock on the wall", "the last job is finished %s h later by the clock on the wall", "when the last job is finished")
	}
	if !math.IsNaN(float64(c.Late.Half)) {
		text += "; " + differs(c.Late, "lateness, hours times priorities, is %s less", "lateness, hours times priorities, is %s more", "lateness")
	}
	return text
}

// differs says a difference to a tenth, with its interval, or that none is shown.
func differs(d study.Mean, positive, negative, what string) string {
	size, half := math.Abs(float64(d.Mean)), float64(d.Half)
	if size < 0.05 || size <= half {
		return "no difference is shown in " + what
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

// Moment returns a time of a plan: "Tue 24 Mar 14:20", or "week 1 day 2 14:20" where dates are not
// known, or "never".
func (s Plans) Moment(m study.PlansMoment) string {
	if s.Starts.IsZero() || m.Never() {
		text, _ := m.MarshalText()
		return string(text)
	}
	if s.oneWeek() {
		return m.Time(s.Starts).Format("Mon 15:04")
	}
	return m.Time(s.Starts).Format("Mon 2 Jan 15:04")
}

// Day returns the day of a time of a plan: "Tue 24 Mar", or "day 2" where dates are not known.
func (s Plans) Day(m study.PlansMoment) string {
	if s.Starts.IsZero() {
		week, day, _, _ := m.Parts()
		if week > 1 {
			return fmt.Sprintf("week %d day %d", week, day)
		}
		return fmt.Sprintf("day %d", day)
	}
	return m.Time(s.Starts).Format("Mon 2 Jan")
}

// oneWeek reports whether all of the plan that is shown is within its first week, so that days need no
// dates.
func (s Plans) oneWeek() bool {
	const week = 7 * 24 * 3600
	for i := range s.Plans {
		x := &s.Plans[i]
		if last := x.Last.P90; !last.Never() && last.At >= week || last.Never() && x.Made.Horizon.End() >= week {
			return false
		}
		for _, j := range x.Jobs() {
			if j.Due != nil && j.Due.At >= week {
				return false
			}
		}
	}
	return true
}

// overview returns a row for each plan.
func (s Plans) overview() plots.Table {
	t := plots.Table{
		Name: "Plans", Caption: "Each plan, with the same random numbers: how often all dates are kept, when the last job ends, in the median, and hours of lateness times priorities. The cost is that of what is chosen and of lateness, in the mean",
		Columns: []plots.Column{
			{Title: "Plan"},
			{Title: "All dates kept", Unit: "of replications", Kind: plots.Share, Decimals: 1},
			{Title: "Lateness", Unit: "h", Kind: plots.Number, Decimals: 1},
			{Title: "Last ends"},
			{Title: "9 in 10 by"},
			{Title: "Cost", Unit: "money", Kind: plots.Number},
		},
	}
	for i := range s.Plans {
		x := &s.Plans[i]
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(x.Name),
			{Number: float64(x.AllInTime.Share), Shown: plansOften(x.AllInTime)},
			plansHours(x.Late.Mean),
			page.Words(s.Moment(x.Last.P50)), page.Words(s.Moment(x.Last.P90)),
			plansCost(x),
		})
	}
	return t
}

// plansHours returns hours of lateness; those of what is not finished have no end.
func plansHours(h study.Number) plots.Entry {
	if math.IsInf(float64(h), 1) {
		return page.Words("no end")
	}
	return hours(h)
}

// plansCost returns what a plan costs.
func plansCost(x *study.PlansPlan) plots.Entry {
	if math.IsInf(x.All(), 1) {
		return page.Words("no end")
	}
	return plots.Entry{Number: x.All(), Shown: say.Rounded(x.All(), 0)}
}

// Jobs returns a row for each job of a plan, line by line.
func (s Plans) Jobs(x *study.PlansPlan) plots.Table {
	t := plots.Table{
		Name: "Jobs " + x.Name, Names: 2, Caption: "What each line does, in its order: " + x.Name + ". When jobs begin and end are medians; start by: its changeover, so that the date is kept 9 times in 10",
		Columns: []plots.Column{
			{Title: "Line"},
			{Title: "Job"},
			{Title: "Kind", Data: true},
			{Title: "Sets", Kind: plots.Number, Data: true},
			{Title: "Begins"},
			{Title: "Ends"},
			{Title: "9 in 10 by"},
			{Title: "Due"},
			{Title: "Kept", Kind: plots.Share, Decimals: 1},
			{Title: "Start by"},
		},
	}
	for _, line := range x.Lines {
		for _, j := range line.Jobs {
			row := []plots.Entry{
				page.Words(cmp.Or(line.Name, "the line")), page.Words(j.Name), page.Words(j.Product), page.Value(float64(j.Sets)),
				page.Words(s.Moment(j.Begun.P50)), page.Words(s.Moment(j.Finished.P50)), page.Words(s.Moment(j.Finished.P90)),
			}
			switch {
			case j.Due != nil && j.InTime == nil: // on paper
				row = append(row, page.Words(s.Moment(*j.Due)), plots.Entry{Number: math.NaN()}, page.Words(""))
			case j.InTime == nil:
				row = append(row, page.Words("none"), plots.Entry{Number: math.NaN()}, page.Words(""))
			default:
				by := "too late"
				if j.StartBy != nil {
					by = s.Moment(*j.StartBy)
				}
				row = append(row, page.Words(s.Moment(*j.Due)), plots.Entry{Number: float64(j.InTime.Share), Shown: SeasonsOften(j.InTime.Share)}, page.Words(by))
			}
			t.Rows = append(t.Rows, row)
		}
	}
	return t
}

// Document returns the plans as JSON has them.
func (s Plans) Document(version string) any { return page.DocumentOf(version, s.Origin, s.PlansAnswer) }

// plansLeftOut returns what a plan leaves out, and how sure its dates are not.
func plansLeftOut(x *study.PlansPlan) plots.Section {
	return plots.Section{
		Heading: "What the plan leaves out",
		Text: "The order is chosen on paper, by mean times that one factor lengthens for all: how much lines wait for the crew may differ from order to order, so another order could do better in the simulation. " +
			"The factor does not stretch what is waited for, such as a time before which a job does not begin, or a line that is down. " +
			"What no plan can be below leaves out when lines are down, and which changeovers can follow each other.\n\n" +
			"A job is not split between lines, nor broken off for another. Each begins " + x.Begin + "; one that a line is at when the plan is made anew begins as if it were the first. " +
			"All operators may do all. Money is that of what is chosen and of lateness, where they have a price: wages, material and overtime that nobody chose are not in it. " +
			"In the night of a change to or from summer time an hour is counted as any other.\n\n" +
			"Faults are independent of each other, except for streaks of misfeeds at one feeder, and for bad lots and bad days where they are given: " +
			"real weeks may differ more than these.\n\n" +
			"The rates in the scenario decide the answer: dates from rates from memory are dates from memory.",
	}
}

// Report returns the plans as a page.
func (s Plans) Report(version string) (*page.Report, error) {
	x, about := s.shown(), s.Origin.Scenario
	lead := "Simulated: " + say.Plural(s.Settings.Reps, "replication") + " of each plan."
	if s.Settings.Partial {
		lead = "PARTIAL ANSWER: the run was interrupted. " + lead
	}
	r := page.NewReport(version, page.Opening{
		Title: about.Name, Question: cmp.Or(about.Question, "Which line does which job, and when?"),
		Answer: strings.Replace(s.Finding(), ". The last job is", ".\n\nThe last job is", 1), Lead: lead, Command: s.again(), Origins: []page.Origin{s.Origin}, Plan: &s.Plan, Word: "replication", Most: s.Settings.Reps,
		Assumptions: page.AssumedOf(about),
	})
	r.Page.Decision = s.sheet(x, r.Figure("plan")(s.gantt(x, peopleOnSheet(x))))
	plan := plots.Section{
		Heading: "The plan: " + x.Name, Text: s.notes(),
		Tables: []plots.Table{s.Jobs(x), s.people(x)},
	}
	if drawsPeople(x) {
		plan.Text += " " + peopleNote + "."
	}
	if drawsPeople(x) && !peopleOnSheet(x) {
		if f := r.Figure("people")(s.gantt(x, true)); f != nil {
			plan.Figures = append(plan.Figures, f)
		}
	}
	r.Add(plan)
	if len(s.Plans) > 1 {
		r.Add(plots.Section{Heading: "Other plans", Tables: []plots.Table{s.overview()}})
	}
	r.Add(plansLeftOut(x))
	return r.Done()
}
