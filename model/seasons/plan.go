package seasons

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"netrate/model"
	"netrate/model/order"
	"netrate/model/setup"
	"netrate/sim"
	"netrate/sim/tape"
)

// Plan is jobs with dates, for some lines that share a crew. Its times are in seconds from the start
// of the first week, by the clock on the wall.
type Plan struct {
	Lines    []*model.Line
	Crew     model.Crew
	Calendar *Calendar
	Products []*setup.Product
	Change   *setup.Changeover
	Closing  model.Job
	Jobs     []PlanJob
	Staffed  []Staffed
	Down     []LineDown
	Shortest bool        // looks for the plan that is done soonest; else for that with the least lateness
	Late     float64     // what it costs that a job of priority 1 is late, an hour; 0 if it has no price
	From     sim.Seconds // when it begins
}

// PlanJob is one job of a plan.
type PlanJob struct {
	Name      string
	Product   int
	Sets      int64       // that are left to do
	NotBefore sim.Seconds // its changeover does not begin before
	Due       sim.Seconds // +Inf for no date
	Priority  float64     // how many times as bad it is that it is late as for a job of priority 1
	Lines     []int       // that may do it; nil for all
	InHand    int         // the line that is at it when the plan begins; -1 for none
}

// LineDown is when a line cannot be used.
type LineDown struct {
	Line int
	Window
}

// Check returns everything that is wrong with the plan.
func (p *Plan) Check() error {
	errs := p.Calendar.Check()
	if len(p.Jobs) == 0 {
		errs = append(errs, errors.New("the plan has no job"))
	}
	if p.Crew.Varies() {
		errs = append(errs, errors.New("the crew changes within a shift, or has breaks: say of a plan under staff who is there, and put breaks into the calendar"))
	}
	if p.Crew.People != nil {
		errs = append(errs, errors.New("what each operator may do is stated: a plan takes all to be able to do all"))
	}
	fits := setup.Cover(p.Lines, p.Products)
	for _, j := range p.Jobs {
		var reasons []string
		runs := false
		for i := range p.Lines {
			if f := fits[j.Product][i]; f.Runs && j.may(i) {
				runs = true
			} else if j.may(i) {
				reasons = append(reasons, f.Reasons...)
			}
		}
		if !runs {
			errs = append(errs, &Unfit{p.Products[j.Product].Name, fmt.Sprintf("no line that may do job %s can run it: %v", j.Name, first(reasons))})
		}
	}
	if len(errs) == 0 {
		if h := p.Horizon(); len(h.windows) == 0 {
			errs = append(errs, errors.New("nobody is ever there"))
		}
	}
	return errors.Join(errs...)
}

func first(reasons []string) string {
	if len(reasons) == 0 {
		return "none may"
	}
	return reasons[0]
}

func (j *PlanJob) may(line int) bool { return j.Lines == nil || slices.Contains(j.Lines, line) }

// Chosen returns the plan with some of its optional staffings in force, by their numbers among all,
// and what these cost.
func (p *Plan) Chosen(options []int) (*Plan, float64) {
	own, cost := *p, 0.0
	own.Staffed = nil
	for i, s := range p.Staffed {
		if s.Optional && !slices.Contains(options, i) {
			continue
		}
		if s.Optional {
			cost += s.Cost
		}
		s.Optional = false
		own.Staffed = append(own.Staffed, s)
	}
	return &own, cost
}

// Horizon returns the working time from the start of the plan on.
func (p *Plan) Horizon() *Horizon {
	var in []Staffed
	for _, s := range p.Staffed {
		if !s.Optional {
			in = append(in, s)
		}
	}
	return NewHorizon(p.Calendar, p.Crew.Operators, in, p.From)
}

// Made is a plan that was made: which line does which job, and when on paper.
type Made struct {
	Plan    *Plan
	Horizon *Horizon
	order.Assignment
	Factor float64 // by which each job and changeover takes longer than its mean on paper
}

// pilotRuns is how many times a first plan is simulated, for how much longer all takes than by mean
// times.
const pilotRuns = 40

// Make gives each job to a line, in an order, by times on paper, all longer by one factor. With it
// the last job of a first plan ends on paper about when it ends in nine tenths of some
// replications, where lines wait for the crew and all varies: only about, since the factor does not
// stretch what is waited for, a job's NotBefore and lines that are down. See [order.Shop.Assign] for
// what is searched; what comes of the plan is for [Made.Together] to say.
//
// Times are those of [Plan.Paper], or nil to have them found. Of how says the seed and the workers
// count; the error is that of ctx if it is done first.
func (p *Plan) Make(ctx context.Context, how sim.Plan, times *Paper) (*Made, error) {
	return p.made(ctx, how, times, (*order.Shop).Assign)
}

// Keep is Make with an order that is given, such as that of an earlier plan.
func (p *Plan) Keep(ctx context.Context, how sim.Plan, times *Paper, orders [][]int) (*Made, error) {
	return p.made(ctx, how, times, func(s *order.Shop) order.Assignment { return s.Value(orders) })
}

// made makes the plan by a way to assign jobs.
func (p *Plan) made(ctx context.Context, how sim.Plan, times *Paper, assign func(*order.Shop) order.Assignment) (m *Made, err error) {
	if err := p.Check(); err != nil {
		return nil, err
	}
	if times == nil {
		if times, err = p.Paper(ctx, how.Seed); err != nil {
			return nil, err
		}
	}
	m = &Made{Plan: p, Horizon: p.Horizon()}
	shop := p.shop(m.Horizon, times)
	if !shop.Possible() {
		return nil, errors.New("a job can be done by no line")
	}
	m.Assignment = assign(shop)
	if err := m.lengthen(ctx, shop, how); err != nil {
		return nil, err
	}
	m.Assignment = assign(shop)
	return m, nil
}

// lengthen has all jobs and changeovers take longer on paper. What it simulates is no part of the
// answer, and on no tape.
func (m *Made) lengthen(ctx context.Context, shop *order.Shop, how sim.Plan) error {
	pilot := sim.Plan{Seed: how.Seed, Min: pilotRuns, Max: pilotRuns, Workers: how.Workers}
	study, err := RunTogether(tape.Here(ctx), m.Together(), pilot, nil)
	switch {
	case err != nil:
		return err
	case study.Ending == sim.Cancelled:
		return context.Cause(ctx)
	}
	if m.Factor = max(1, study.Finished.Quantile(0.9)/float64(m.Last)); m.Last <= 0 {
		m.Factor = 1
	}
	for _, times := range append(slices.Concat(shop.Change...), shop.Time...) {
		for j := range times {
			times[j] *= sim.Seconds(m.Factor)
		}
	}
	return nil
}

// shop returns the plan as a matter of times alone.
func (p *Plan) shop(h *Horizon, times *Paper) *order.Shop {
	shop := &order.Shop{Shortest: p.Shortest, First: slices.Repeat([]int{-1}, len(p.Lines))}
	for i := range p.Lines {
		shop.Time = append(shop.Time, slices.Clone(times.time[i]))
		var change [][]sim.Seconds
		for _, row := range times.change[i] {
			change = append(change, slices.Clone(row))
		}
		shop.Change = append(shop.Change, change)
	}
	for j, job := range p.Jobs {
		shop.Release = append(shop.Release, h.Worked(job.NotBefore))
		if job.InHand >= 0 {
			shop.First[job.InHand] = j
		}
	}
	shop.Late = func(j int, finished sim.Seconds) float64 { return p.lateness(h, j, finished) }
	if down := p.down(h); down != nil {
		shop.Ends = func(line int, from, length sim.Seconds) sim.Seconds { return past(down[line], from, length) }
	}
	return shop
}

// lateness returns the hours that a job is late, times its priority: what counts in the search. What
// is never finished is later than all that is, and the later the more of it is left.
func (p *Plan) lateness(h *Horizon, job int, finished sim.Seconds) float64 {
	j := &p.Jobs[job]
	if math.IsInf(float64(j.Due), 1) || finished <= h.Worked(j.Due) {
		return 0
	}
	at := h.At(finished)
	if math.IsInf(float64(at), 1) {
		at = sim.Seconds(mostPlanned*week) + finished - h.Length()
	}
	return j.Priority * float64(max(0, at-j.Due)) / 3600
}

// down returns when each line is down, in working time; nil if none ever is.
func (p *Plan) down(h *Horizon) [][]model.Stretch {
	if len(p.Down) == 0 {
		return nil
	}
	of := make([][]Window, len(p.Lines))
	for _, d := range p.Down {
		of[d.Line] = append(of[d.Line], d.Window)
	}
	all := make([][]model.Stretch, len(p.Lines))
	for i := range of {
		all[i] = h.stretches(of[i])
	}
	return all
}

// past returns when work ends that stands still in some stretches: changeovers too, which the crew goes
// on with in the simulation.
func past(down []model.Stretch, from, length sim.Seconds) sim.Seconds {
	for _, d := range down {
		switch {
		case d.To <= from:
		case from+length <= d.From:
			return from + length
		default:
			length -= max(0, d.From-from)
			from = d.To
		}
	}
	return from + length
}

// Together returns the work as the plan has it.
func (m *Made) Together() *Together {
	p := m.Plan
	t := &Together{
		Lines: p.Lines, Crew: p.Crew, Products: p.Products, Change: p.Change, Closing: p.Closing,
		Staff: m.Horizon.staffing(), Down: p.down(m.Horizon), Order: m.Order, Draws: true,
		InHand: slices.Repeat([]int{-1}, len(p.Lines)),
	}
	for j, job := range p.Jobs {
		t.Jobs = append(t.Jobs, Job{Product: job.Product, Sets: job.Sets, NotBefore: m.Horizon.Worked(job.NotBefore)})
		if job.InHand >= 0 && len(m.Order[job.InHand]) > 0 && m.Order[job.InHand][0] == j {
			t.InHand[job.InHand] = job.Product
		}
	}
	return t
}
