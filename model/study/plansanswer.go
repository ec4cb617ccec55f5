package study

import (
	"fmt"
	"math"
	"slices"
	"time"

	"netrate/model"
	"netrate/model/seasons"
	"netrate/model/worth"
	"netrate/sim"
	"netrate/sim/output"
)

// PlansAnswer is what plans came to. Where it names a plan it gives its index among them.
type PlansAnswer struct {
	Basis    Basis    `json:"rests_on"`
	Settings Settings `json:"settings"` // of the first; partial also if other plans are missing

	Plans   []PlansPlan `json:"plans"`   // that were simulated, the base first
	Asked   int         `json:"asked"`   // plans that were to be made
	Service Number      `json:"service"` // the probability with which each date shall be kept; 0 if it is not asked for
	Chosen  Index       `json:"chosen"`  // the cheapest of those that have the service; none if none has

	// Of the plans to choose from, where none has the service that is asked for; else none.
	Nearest  Index `json:"nearest"`  // whose date least sure is surest; of several the least late; of these the cheapest; what is dearer only if it is shown to keep dates more often, or to be less late by as much as matters
	Cheapest Index `json:"cheapest"` // for what is chosen and lateness, in the mean

	Change *PlansChange `json:"change,omitempty"` // of the order; nil where none is given and nothing is done yet

	ChosenAnew Index `json:"chosen_planned_anew"` // the cheapest with the service of those without the order that is given; none if none has, or none is given

	NotKept string `json:"order_as_it_was_cannot_hold,omitempty"` // why the plan is not set against going on in that order; "" where it is, or there is none

	Days *PlansDays `json:"days,omitempty"` // nil where no days were left out of what is chosen

	Over     []string       `json:"over,omitempty"`           // what is optional, and over when the plan begins: it is not tried
	Idle     []string       `json:"changes_nobody,omitempty"` // what is optional, and changes nobody in any shift: it is not tried
	Bought   []PlansPrice   `json:"bought,omitempty"`         // what was chosen in the plan that was promised, and is in force; its price, or its wages where it has none, is in no cost
	Open     []string       `json:"not_bought,omitempty"`     // what came nearest in the plan that was promised, without the service: it is not in force
	Promised *PlansPromised `json:"promised,omitempty"`       // what became of the dates of that plan; nil without one
	Revision int            `json:"revision,omitempty"`       // how many plans came before, each promised for the next
}

// PlansPlan is one plan.
type PlansPlan struct {
	Name    string   `json:"name"`
	Changes []string `json:"changes,omitempty"`          // from the base, in words
	Chosen  []string `json:"chosen,omitempty"`           // what is optional and in force
	Begin   string   `json:"jobs_begin"`                 // with what
	Cost    Number   `json:"cost_of_choices"`            // wages with them
	Wages   Number   `json:"wages_of_choices,omitempty"` // of what is chosen without a cost of its own, where the file has prices, in the mean

	Prices []PlansPrice `json:"prices,omitempty"` // of what is chosen

	Given bool       `json:"order_given"`
	Exact bool       `json:"exact"` // on paper no other plan is less late, or, if that is what is looked for, done sooner; else it was searched for, or another is better in the simulation
	Paper PlansPaper `json:"on_paper"`

	AllInTime PlansOften    `json:"all_dates_kept"`        // of jobs that have one that is not over, if any has
	Late      Mean          `json:"late_h_times_priority"` // of all jobs together, each times its priority; +Inf if one with a date is ever not finished
	LateCost  Number        `json:"lateness_cost"`         // in the mean; NaN where lateness has no price
	LateSets  Number        `json:"late_sets"`             // of all jobs that have a date, not done when it comes, in the mean
	Lacks     Number        `json:"not_delivered"`         // sets of which no envelope is delivered, good or not, in the mean: what is lost and not made again
	Last      PlansSpread   `json:"last_finished"`
	Hours     Number        `json:"last_finished_h"` // working time from the start, in the mean
	Weeks     []PlansWeek   `json:"weeks,omitempty"` // of a season
	Lines     []PlansLine   `json:"lines"`
	People    []PlansPerson `json:"people"`                    // while the plan lasts, 9 times in 10; if it never ends, as long as anybody comes
	Hand      *PlansHand    `json:"remakes_by_hand,omitempty"` // nil where none are
	NotRemade []string      `json:"not_remade,omitempty"`      // jobs without remakes, being not personalised, where those of others are made again
	Overruled []string      `json:"overruled,omitempty"`       // jobs that go first on the line that is at them, where the order that is given has them elsewhere or later
	Made      *seasons.Made `json:"-"`

	NotTaken   []PlansNotTaken   `json:"not_taken,omitempty"`  // lines that could run jobs and are not taken for them, with why
	Unattended []PlansUnattended `json:"unattended,omitempty"` // while the plan lasts, 9 times in 10: what nobody may do who is there

	Study *seasons.TogetherStudy `json:"-"`

	choice bool   // it is the base, with or without what is optional in it
	anew   bool   // it is without the order that is given
	kept   bool   // it is in the order of the plan before
	twin   string // of one planned anew, or in the order before, the plan that it is set against; "" of others

	Costs  *SeasonsCosts `json:"costs,omitempty"` // nil if the file has none, or not all jobs are ever finished
	priced *worth.Costs
	seed   uint64
}

// PlansPrice is what a choice costs: so often so much.
type PlansPrice struct {
	Name  string `json:"name"`
	Each  Number `json:"each"`
	Times int    `json:"times"`
	Per   string `json:"per,omitempty"` // day or shift; "" for all of it

	Of []seasons.StaffDay `json:"of,omitempty"` // the days or shifts that are chosen of it; none for all
}

// Called returns what it is called in the name of a plan.
func (x *PlansPrice) Called() string { return seasons.Called(x.Name, x.Of) }

// PlansPaper is what a plan is by the mean times of its jobs and changeovers, each as if all the crew
// were at its line, lengthened by one factor, and what no plan can be below by these times.
type PlansPaper struct {
	Hours      Number `json:"last_finished_h"` // working time from the start
	HoursBound Number `json:"last_finished_bound_h"`
	Late       Number `json:"late_h"` // hours of lateness, each times its priority, in the mean over what the factor may be
	LateBound  Number `json:"late_bound_h"`
	Factor     Number `json:"lengthened"`       // by which mean times are longer on paper, in the mean
	Tried      int    `json:"orders_simulated"` // how many orders were simulated, for the best of them; 0 where paper decided
	Best       bool   `json:"best_on_paper"`    // of the orders that were found it is the best on paper
}

// PlansOften is how often something comes about.
type PlansOften struct {
	Share Number `json:"share"`
	Low   Number `json:"low"` // its exact interval
	High  Number `json:"high"`
	Level Number `json:"level"`
}

// PlansSpread is when something is, by percentiles of the replications.
type PlansSpread struct {
	P5  PlansMoment `json:"p5"`
	P50 PlansMoment `json:"p50"`
	P90 PlansMoment `json:"p90"`
	P95 PlansMoment `json:"p95"`
}

func plansSpread(s sim.Sample, of func(float64) PlansMoment) PlansSpread {
	return PlansSpread{of(s.Quantile(0.05)), of(s.Quantile(0.5)), of(s.Quantile(0.9)), of(s.Quantile(0.95))}
}

// PlansMoment is a time of a plan. It is encoded as a text, such as "week 1 day 2 14:20", or "never".
type PlansMoment struct{ At sim.Seconds } // from the start of week 1; +Inf for never

// Never reports whether it does not come, since nobody is there any more.
func (m PlansMoment) Never() bool { return math.IsInf(float64(m.At), 1) }

// Parts returns the week and the day, both from 1, and the time of day, of a moment that comes.
func (m PlansMoment) Parts() (week, day, hour, minute int) {
	at := int(math.Round(float64(m.At) / 60))
	return at/(7*24*60) + 1, at/(24*60)%7 + 1, at / 60 % 24, at % 60
}

// Time returns the moment where the first week begins at a date: by the clock on the wall of its zone.
func (m PlansMoment) Time(starts time.Time) time.Time {
	at := int(math.Round(float64(m.At) / 60))
	return time.Date(starts.Year(), starts.Month(), starts.Day()+at/(24*60), at/60%24, at%60, 0, 0, starts.Location())
}

// UnmarshalText reads what MarshalText writes.
func (m *PlansMoment) UnmarshalText(text []byte) error {
	if string(text) == "never" {
		m.At = sim.Seconds(math.Inf(1))
		return nil
	}
	var week, day, hour, minute int
	if n, err := fmt.Sscanf(string(text), "week %d day %d %d:%d", &week, &day, &hour, &minute); n != 4 || err != nil ||
		week < 1 || day < 1 || day > 7 || hour < 0 || hour > 23 || minute < 0 || minute > 59 {
		return fmt.Errorf("%q is no moment of a plan, such as week 1 day 2 14:20", text)
	}
	m.At = sim.Seconds((((week-1)*7+day-1)*24+hour)*3600 + minute*60)
	return nil
}

// MarshalText returns the moment as text.
func (m PlansMoment) MarshalText() ([]byte, error) {
	if m.Never() {
		return []byte("never"), nil
	}
	week, day, hour, minute := m.Parts()
	return fmt.Appendf(nil, "week %d day %d %02d:%02d", week, day, hour, minute), nil
}

// PlansLine is what one line does.
type PlansLine struct {
	Name string     `json:"name"`
	Busy Mean       `json:"busy_h"` // at its jobs, their changeovers and stops included, but not while it is down
	Jobs []PlansJob `json:"jobs"`   // in their order

	There Number `json:"there_h"` // working time until the last job is finished, but not while it is down, in the mean

	down []model.Stretch // in working time
}

// Down returns when the line is down, in hours of working time.
func (x *PlansLine) Down() (all [][2]float64) {
	for _, d := range x.down {
		all = append(all, [2]float64{float64(d.From) / 3600, float64(d.To) / 3600})
	}
	return all
}

// PlansJob is one job.
type PlansJob struct {
	Name       string       `json:"name"`
	Product    string       `json:"job"`
	Sets       int64        `json:"sets"`
	Begun      PlansSpread  `json:"begun"`           // its changeover, or its first set where it has none
	Waits      *PlansWait   `json:"waits,omitempty"` // for somebody who may change over; nil if it does not
	First      PlansMoment  `json:"first_set_p50"`
	Free       *PlansMoment `json:"line_free_p50,omitempty"` // for the next job; nil if that is when this one is finished
	Finished   PlansSpread  `json:"finished"`
	Unfinished Number       `json:"not_finished"` // share of the replications, since nobody is there any more
	Due        *PlansMoment `json:"due,omitempty"`
	InTime     *PlansOften  `json:"date_kept,omitempty"`           // nil where it has none
	Running    bool         `json:"running,omitempty"`             // a line is at it when the plan begins
	DateOver   bool         `json:"date_over,omitempty"`           // when the plan begins, while others are not: it counts as lateness alone
	StartBy    *PlansMoment `json:"start_by_for_90,omitempty"`     // the latest time that was found such that, if its changeover does not begin before it and all else is as planned, the date is kept 9 times in 10; nil if there is none or it was not looked for
	StartKept  *PlansOften  `json:"date_kept_from_then,omitempty"` // how often it is kept then, in the replications in which that was tried
	TooLate    bool         `json:"starts_too_late,omitempty"`     // the date is kept less often than 9 times in 10 as planned, so that there is no such time
	AtBench    Number       `json:"missed_at_bench,omitempty"`     // share of the replications in which its line was free in time, and its remakes were made too late
	Priority   Number       `json:"priority"`
	LateCost   Number       `json:"lateness_cost"` // in the mean; NaN where lateness has no price
	Late       Number       `json:"late_h"`        // in the mean, by the clock on the wall; +Inf if it is ever not finished
	LateSets   Number       `json:"late_sets"`     // not done at its date, in the mean
	Lacks      Number       `json:"not_delivered"` // sets of it of which no envelope is delivered, good or not, in the mean
	Index      int          `json:"-"`             // in the plan

	waiting [][2]float64
}

// LineFree returns when, in the median, the line is free for its next job.
func (x *PlansJob) LineFree() PlansMoment {
	if x.Free == nil {
		return x.Finished.P50
	}
	return *x.Free
}

// newPlansPlan returns a plan that is not simulated.
func newPlansPlan(c *planned, m *seasons.Made) *PlansPlan {
	x := &PlansPlan{
		priced: c.Costs, choice: c.choice, anew: c.anew, kept: c.kept, twin: c.twin, NotRemade: c.Plan.NotRemade(), Name: c.Name, Changes: c.Changes,
		Given: c.Plan.Order != nil, Exact: m.Exact, Made: m, Begin: m.Plan.Begins.String(),
	}
	for _, p := range c.prices {
		x.Chosen = append(x.Chosen, p.Name)
		x.Prices = append(x.Prices, PlansPrice{p.Name, Number(p.Each), p.Times, string(p.Per), p.Of})
		x.Cost += Number(p.All())
	}
	for _, j := range c.Plan.Overruled {
		x.Overruled = append(x.Overruled, c.Plan.Jobs[j].Name)
	}
	x.Paper = PlansPaper{Number(m.Done / 3600), Number(m.Bounds.Last / 3600), Number(m.Cost), Number(m.Bounds.Cost), Number(m.Factor), m.Tried, !m.Other}
	return x
}

// counted returns the plan with what its simulation came to.
func (x PlansPlan) counted(s *seasons.TogetherStudy) PlansPlan {
	x.Study, x.Lines, x.LateSets, x.Lacks = s, nil, 0, 0
	p, h := x.Made.Plan, x.Made.Horizon
	at := func(worked float64) PlansMoment { return PlansMoment{h.At(sim.Seconds(worked))} }
	from := func(worked float64) PlansMoment { return PlansMoment{h.From(sim.Seconds(worked))} }
	late, kept := make(sim.Sample, s.Done), make([]bool, s.Done)
	for r := range kept {
		kept[r] = true
	}
	downs, isOver := x.Made.Together().Down, datesOver(p)
	for i, line := range p.Lines {
		own := PlansLine{Name: line.Name, Jobs: []PlansJob{}}
		if downs != nil {
			own.down = downs[i]
		}
		own.Busy, own.There = plansBusy(s, x.Made.Order[i], own.down), plansThere(s, own.down)
		for _, j := range x.Made.Order[i] {
			job, study := &p.Jobs[j], &s.Jobs[j]
			one := PlansJob{
				Name: job.Name, Product: p.Products[job.Product].Name, Sets: job.Sets, Index: j,
				Begun: plansSpread(changeStarts(study), from), Waits: plansWait(study, from), First: from(pastDown(study.First.Quantile(0.5), own.down)), Finished: plansSpread(study.Finished, at),
				Priority: Number(job.Priority), Unfinished: plansUnfinished(study.Finished, at), Running: job.InHand >= 0, waiting: waitingTimes(study),
			}
			if p.Closing.Closing == model.Beside {
				one.Free = &PlansMoment{h.At(sim.Seconds(study.Free.Quantile(0.5)))}
			}
			if !math.IsInf(float64(job.Due), 1) {
				one.DateOver = isOver(job.Due)
				one.dated(job, h, study, late, kept)
				if p.Late > 0 && job.Priority > 0 {
					one.LateCost = Number(p.Late*job.Priority) * one.Late
				}
				one.LateSets = lateSets(job, study, float64(h.Worked(job.Due)), own.down)
			}
			if p.Late == 0 {
				one.LateCost = noPrice
			}
			one.Lacks = Number(study.Lacks / float64(s.Done))
			x.LateSets, x.Lacks = x.LateSets+one.LateSets, x.Lacks+one.Lacks
			own.Jobs = append(own.Jobs, one)
		}
		x.Lines = append(x.Lines, own)
	}
	x.Hand = plansHand(x.Made, s, late, kept)
	x.Weeks = x.weeks()
	x.AllInTime = plansOften(kept)
	x.Late = plansMean(late)
	if x.LateCost = noPrice; p.Late > 0 {
		x.LateCost = Number(p.Late) * x.Late.Mean
	}
	x.Last, x.Hours = plansSpread(s.Finished, at), Number(s.Finished.Mean()/3600)
	x.spend(late)
	x.People = plansPeople(p, x.Last.P90.At)
	x.NotTaken = PlansNotTakenOf(p)
	x.Unattended = plansUnattended(x.Made, x.Last.P90.At)
	return x
}

// pastDown returns when a line is up that is to begin at some working time.
func pastDown(at float64, down []model.Stretch) float64 {
	for _, d := range down {
		if float64(d.From) <= at && at < float64(d.To) {
			at = float64(d.To)
		}
	}
	return at
}

// noPrice is what lateness costs where it has no price.
var noPrice = Number(math.NaN())

// datesOver returns whether a date is set aside, being over when the plan begins while that of another job is not.
func datesOver(p *seasons.Plan) func(due sim.Seconds) bool {
	some := slices.ContainsFunc(p.Jobs, func(j seasons.PlanJob) bool { return j.Due > p.From && !math.IsInf(float64(j.Due), 1) })
	return func(due sim.Seconds) bool { return some && due <= p.From }
}

// dated says of a job with a date how it is kept, and adds to the lateness of all.
func (x *PlansJob) dated(job *seasons.PlanJob, h *seasons.Horizon, study *seasons.TogetherJob, late sim.Sample, kept []bool) {
	x.Due = &PlansMoment{job.Due}
	due, sum := float64(h.Worked(job.Due)), 0.0
	in := make([]bool, len(kept))
	for r, finished := range study.Finished {
		if in[r] = finished <= due; in[r] {
			continue
		}
		kept[r] = kept[r] && x.DateOver // what is over is set aside
		if study.Free[r] <= due {
			x.AtBench += 1 / Number(len(kept))
		}
		hours := float64(max(0, h.At(sim.Seconds(finished))-job.Due)) / 3600
		sum += hours
		if job.Priority > 0 { // hours may have no end, and that of no weight is nothing
			late[r] += float64(job.Priority * hours)
		}
	}
	often := plansOften(in)
	x.InTime, x.Late = &often, Number(sum/float64(len(kept)))
}

// plansMean returns a mean of hours, of which some may be infinite.
func plansMean(hours sim.Sample) Mean {
	if sum := hours.Mean(); math.IsInf(sum, 0) || math.IsNaN(sum) {
		return Mean{Number(sum), Number(math.NaN())}
	}
	e := hours.Interval(Level)
	return Mean{Number(e.Mean), Number(e.Half)}
}

// plansUnfinished returns the share of replications in which something never ends.
func plansUnfinished(finished sim.Sample, at func(float64) PlansMoment) Number {
	n := 0
	for _, worked := range finished {
		if at(worked).Never() {
			n++
		}
	}
	return Number(n) / Number(len(finished))
}

func plansOften(is []bool) PlansOften {
	n := 0
	for _, x := range is {
		if x {
			n++
		}
	}
	low, high := output.ExactInterval(int64(n), int64(len(is)), Level)
	return PlansOften{Number(float64(n) / float64(len(is))), Number(low), Number(high), Level}
}

// Jobs returns the jobs of all lines.
func (x *PlansPlan) Jobs() (all []*PlansJob) {
	for i := range x.Lines {
		for k := range x.Lines[i].Jobs {
			all = append(all, &x.Lines[i].Jobs[k])
		}
	}
	return all
}

// with returns the answer while a plan is simulated: of the first as far as it has come.
func (a *PlansAnswer) with(q *Plans, x *PlansPlan, study *seasons.TogetherStudy) *PlansAnswer {
	part := *a
	if len(a.Plans) == 0 {
		part.Plans = []PlansPlan{x.counted(study.Kept())}
		if q.Anew != nil && x.Given {
			part.Plans = append(part.Plans, q.known())
		}
	}
	return part.sofar(q, sim.Cancelled)
}

// sofar completes an answer.
func (a *PlansAnswer) sofar(q *Plans, ending sim.Ending) *PlansAnswer {
	own := *a
	done := 0
	if len(own.Plans) > 0 {
		done = own.Plans[0].Study.Done
	}
	own.Settings = SettingsOf(q.Plan, done, ending)
	own.Settings.Partial = own.Settings.Partial || len(own.Plans) < own.Asked
	own.choose(q.Service)
	if len(own.Plans) == 0 {
		return &own
	}
	shown := &own.Plans[own.Shown()]
	for i := range own.Plans {
		switch x := &own.Plans[i]; {
		case x.anew && x.twin == shown.Name: // of the same choice
			own.Change = plansChange(shown, x)
		case x.kept && x.twin == shown.Name: // of the same choice
			own.Change = plansChange(x, shown)
		}
	}
	own.Promised = q.Promised.became(shown, q.Configurations[0].Plan)
	return &own
}
