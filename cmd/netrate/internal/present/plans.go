package present

import (
	"cmp"
	"fmt"
	"strings"
	"time"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
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
	Made    time.Time // when it was asked for, for files that say so
	Command string    // that does it again, without the seed and the number of replications
}

// PlansNotes says what the figures of a plan are and are not.
const PlansNotes = plansWork +
	"Orders are found on paper: by the mean times of each job and changeover, as if the whole crew were at its line, all lengthened by one factor, for how much longer " +
	"the lines are at them in the mean. If dates are missed, orders that are good on paper, and others near the best of them, are simulated, and the best is taken. The dates are those of the simulation."

const plansWork = "Each line does its jobs in this order, whenever the one before is done. Nights, breaks, and shifts in which nobody is there are left out; " +
	"a job goes on in the next shift. All lines share the crew, which also changes them over; each replication draws what is uncertain anew. "

// notes says what the figures of the plan that is shown are and are not.
func (s Plans) notes() string {
	notes := PlansNotes
	if s.shown().Given {
		notes = plansWork + "The order is the one that the file gives. The dates are those of the simulation."
	}
	if s.shown().Made.Plan.Calendar.HasOwnBreaks() {
		notes += " In a break of one alone the others work on, and what only that one may do waits."
	}
	return notes + handNotes(s.shown()) + costsNote(s.shown())
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
	if s.Promised != nil {
		tables = append(tables, s.promises())
	}
	tables = append(tables, s.money()...)
	if len(x.Weeks) > 0 {
		tables = append(tables, s.weekly(x))
	}
	tables = append(tables, s.Jobs(x))
	if x.Hand != nil {
		tables = append(tables, s.work(x))
	}
	title := say.Shortened(s.Origin.Scenario.Name, 50) + " (" + say.Plural(s.Settings.Reps, "replication") + ")"
	if s.Settings.Partial {
		title = "PARTIAL ANSWER, interrupted: " + title
	}
	return Screen(title, s.Finding()+s.Costs(x), tables...) + "\n" + say.Wrapped(s.notes(), say.Prose()) + page.BasisNote(s.Basis) +
		say.Wrapped("To repeat it:", say.Prose()) + "  " + s.again() + "\n" + page.Caution()
}

func (s Plans) again() string {
	return fmt.Sprintf("%s --seed %d --reps %d", s.Command, s.Plan.Seed, s.Settings.Reps)
}

// Moment returns a time of a plan: "Tue 24 Mar 14:20", or "week 1 day 2 14:20" where dates are not
// known, or "never".
func (s Plans) Moment(m study.PlansMoment) string {
	if !s.Starts.IsZero() && !m.Never() && s.oneWeek() {
		return m.Time(s.Starts).Format("Mon 15:04")
	}
	return momentOf(m, s.Starts)
}

// momentOf returns a time with its date, or with its week if starts is the zero time.
func momentOf(m study.PlansMoment, starts time.Time) string {
	if starts.IsZero() || m.Never() {
		text, _ := m.MarshalText()
		return string(text)
	}
	return m.Time(starts).Format("Mon 2 Jan 15:04")
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

// Document returns the plans as JSON has them.
func (s Plans) Document(version string) any { return page.DocumentOf(version, s.Origin, s.PlansAnswer) }

// plansLeftOut returns what a plan leaves out, and how sure its dates are not.
func plansLeftOut(x *study.PlansPlan) plots.Section {
	money := "Money is that of what is chosen and of lateness, where they have a price: wages, material and overtime that nobody chose are not in it. "
	if x.Costs != nil {
		money = "Money is that of the hours and of what is used: the price of the lines, their upkeep and what a late job costs are not in it. "
		if len(x.Weeks) == 0 {
			money = "Money is that of the hours, of what is used, of what is chosen and of lateness, where these have a price: the price of the lines and their upkeep are not in it. "
		}
	}
	return plots.Section{
		Heading: "What the plan leaves out",
		Text: "Orders are found on paper, by mean times that one factor lengthens for all: how much lines wait for the crew may differ from order to order. So those that are good on paper are simulated, and the best there is taken; one that was not found could do better. " +
			"The factor does not stretch what is waited for, such as a time before which a job does not begin, a line that is down, or somebody who may change over. " +
			"What no plan can be below on paper leaves these out, and which changeovers can follow each other.\n\n" +
			"A job is not split between lines, nor broken off for another. Each begins " + x.Begin + "; one that a line is at when the plan is made anew begins as if it were the first. " +
			plansSkills(x) + " " + money +
			"In the night of a change to or from summer time an hour is counted as any other.\n\n" +
			"Faults are independent of each other, except for streaks of misfeeds at one feeder, and for bad lots and bad days where they are given: " +
			"real weeks may differ more than these.\n\n" +
			"The rates in the scenario decide the answer: dates from rates from memory are dates from memory.",
	}
}

// Report returns the plans as a page.
func (s Plans) Report(version string) (*page.Report, error) {
	x, about := s.shown(), s.Origin.Scenario
	answer, rest, how := s.onSheet(x)
	lead := s.partial() + "Simulated: " + say.Plural(s.Settings.Reps, "replication") + " of each plan."
	r := page.NewReport(version, page.Opening{
		Title: about.Name, Question: cmp.Or(about.Question, "Which line does which job, and when?"),
		Answer: answer, Lead: lead, Command: s.again(), Origins: []page.Origin{s.Origin}, Plan: &s.Plan, Word: "replication", Most: s.Settings.Reps,
		Assumptions: page.AssumedOf(about),
	})
	whole := r.Figure("plan")(plots.Week(s.gantt(x, drawsPeople(x))))
	brief := s.gantt(x, peopleOnSheet(x))
	brief.NoList = true
	r.Page.Decision = s.sheet(x, r.Unlisted(plots.Week(brief)), brief.Letter)
	plan := plots.Section{Heading: "The plan: " + s.name(x), Text: rest, Tables: []plots.Table{s.Jobs(x)}}
	notes := s.notes()
	if drawsPeople(x) {
		notes += " " + peopleNote(x) + "."
	}
	if drawsPeople(x) && !peopleOnSheet(x) || len(x.Jobs()) > mostOnSheet {
		plan.Figures = append(plan.Figures, whole)
	}
	if len(x.Weeks) > 0 {
		plan.Tables = append(plan.Tables, s.weekly(x))
	}
	if s.Promised != nil {
		plan.Tables = append(plan.Tables, s.promises())
	}
	r.Add(plan)
	if len(s.Plans) > 1 {
		r.Add(plots.Section{Heading: "What could be chosen", Tables: append([]plots.Table{s.overview()}, s.money()...)})
	} else if money := s.money(); len(money) > 0 {
		r.Add(plots.Section{Heading: "What it costs", Tables: money})
	}
	r.Add(plots.Section{Heading: "Who works, and how long", Tables: []plots.Table{s.work(x), s.people(x)}})
	r.Add(plots.Section{Heading: "How it was found", Text: strings.TrimSpace(how + "\n\n" + notes)})
	r.Add(plansLeftOut(x))
	return r.Done()
}
