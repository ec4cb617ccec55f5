package seasons

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

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
	Begins   model.Begins // how each job does
	Jobs     []PlanJob
	Order    [][]int   // of each line, its jobs in their order, if that is given: each job once; nil to have it found
	Known    [][][]int // orders like that, which are tried among those that are found
	Staffed  []Staffed
	Down     []LineDown
	Shortest bool        // looks for the plan that is done soonest; else for that with the least lateness
	Late     float64     // what it costs that a job of priority 1 is late, an hour; 0 if it has no price
	From     sim.Seconds // when it begins

	Weeks     []string      // the names of the weeks of a season; nil of a plan that is none
	OnBench   []OpenRemakes // that lie at the bench beside the lines when it begins, in the order in which they are made
	Overruled []int         // jobs that go first on the line that is at them, where Order had them elsewhere or later
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
	Week      int         // of a season, from 1; 0 for none
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
		errs = append(errs, errors.New("the crew changes within a shift, or has breaks: say of a plan under staff who is there, and put breaks into the calendar, with who for those of one alone"))
	}
	errs = append(errs, p.Calendar.unknown(&p.Crew)...)
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
	aside := p.notTaken(fits)
	errs = append(errs, p.misplaced(fits, aside)...)
	if len(errs) == 0 {
		if h := p.Horizon(); len(h.windows) == 0 {
			why := "nobody is ever there"
			if p.From > 0 {
				why = "nobody is there any more when the plan begins"
			}
			errs = append(errs, errors.New(why))
		}
		errs = append(errs, p.never(fits, aside)...)
	}
	return errors.Join(errs...)
}

// Misplaced is a job that stands in the order of a plan at a line that cannot do it.
type Misplaced struct{ Why string }

func (e *Misplaced) Error() string { return e.Why }

// misplaced returns what is wrong with an order that is given.
func (p *Plan) misplaced(fits [][]*setup.Fit, aside []NotTaken) (errs []error) {
	for i, jobs := range p.Order {
		for _, n := range jobs {
			j := &p.Jobs[n]
			switch f := fits[j.Product][i]; {
			case !j.may(i):
				errs = append(errs, &Misplaced{fmt.Sprintf("%s may not do %s: only %s may", p.Lines[i].Name, j.Name, p.names(j.Lines))})
			case !f.Runs:
				errs = append(errs, &Misplaced{fmt.Sprintf("%s cannot do %s: %s", p.Lines[i].Name, j.Name, first(f.Reasons))})
			case isNotTaken(aside, i, n) && p.taken(fits, aside, n): // else it is said of the job
				lacks := aside[slices.IndexFunc(aside, func(x NotTaken) bool { return x.Line == i && x.Job == n })].Lacks
				errs = append(errs, &Misplaced{fmt.Sprintf("%s cannot do %s: %s", p.Lines[i].Name, j.Name, nobodyMay(lacks[0]))})
			}
		}
	}
	return errs
}

// names returns the names of lines by their numbers.
func (p *Plan) names(lines []int) string {
	var all []string
	for _, i := range lines {
		all = append(all, p.Lines[i].Name)
	}
	return strings.Join(all, " or ")
}

func first(reasons []string) string {
	if len(reasons) == 0 {
		return "none may"
	}
	return reasons[0]
}

func (j *PlanJob) may(line int) bool { return j.Lines == nil || slices.Contains(j.Lines, line) }

// Chosen returns the plan with some of its optional staffings in force, by their numbers among all,
// and what each of these costs.
func (p *Plan) Chosen(options []int) (*Plan, []Price) {
	own, prices := *p, []Price(nil)
	own.Staffed = nil
	for i, s := range p.Staffed {
		if s.Optional && !slices.Contains(options, i) {
			continue
		}
		if s.Optional {
			prices = append(prices, p.price(&s))
		}
		s.Chosen = s.Chosen || s.Optional
		s.Optional = false
		own.Staffed = append(own.Staffed, s)
	}
	return &own, prices
}

// ChosenNamed returns the plan with some of its optional staffings in force, by their names, and what each of these
// costs. It is an error if nothing optional is named so.
func (p *Plan) ChosenNamed(names []string) (*Plan, []Price, error) {
	var options []int
	for _, name := range names {
		i := slices.IndexFunc(p.Staffed, func(s Staffed) bool { return s.Optional && s.Name == name })
		if i < 0 {
			return nil, nil, fmt.Errorf("nothing that is optional under staff is named %q", name)
		}
		options = append(options, i)
	}
	own, prices := p.Chosen(options)
	return own, prices, nil
}

// Horizon returns the working time from the start of the plan on.
func (p *Plan) Horizon() *Horizon {
	var in []Staffed
	for _, s := range p.Staffed {
		if !s.Optional {
			in = append(in, s)
		}
	}
	return NewHorizon(p.Calendar, &p.Crew, in, p.From)
}

// Made is a plan that was made: which line does which job, and when on paper.
type Made struct {
	Plan    *Plan
	Horizon *Horizon
	order.Assignment
	Times  *Paper  // by which it was made
	Factor float64 // by which each job and changeover takes longer than its mean on paper, in the mean
	Other  bool    // another order is better on paper
	Tried  int     // how many orders were simulated to find this one; 0 if none was, as paper decided

	parts []float64 // of the factor, that it was in replications of a first plan
}

// pilotRuns is how many times a first plan is simulated, for how much longer all takes than by mean
// times.
const pilotRuns = 40

// Make gives each job to a line, in the order that is given or else in one that is found by times on paper. These are
// longer than the means of [Plan.Paper] by one factor: that by which the line of a first plan that has most to do is at
// its jobs for longer, in the mean of some replications, as lines wait for the crew. How late a job is on paper is the
// mean over what the factor was in these replications. Where a line stands since it is down, or since nobody is there
// who may do what it calls for, is no part of the factor, nor are waits for somebody who may change over and a job's
// NotBefore: paper knows when these are. Of a bench beside the lines it knows the work of all jobs, and how long each
// takes there by itself, not what jobs wait there for each other. See [order.Shop.Near] for what is searched.
//
// Orders that are good on paper, and others near the best of them, are then simulated, and the best is taken; what
// comes of the plan is for [Made.Together] to say.
//
// Times are those of [Plan.Paper], or nil to have them found. Of how says the seed, the workers, and how often the
// plan will be simulated, Max, count; the error is that of ctx if it is done first.
func (p *Plan) Make(ctx context.Context, how sim.Plan, times *Paper) (m *Made, err error) {
	if err := p.Check(); err != nil {
		return nil, err
	}
	if times == nil {
		if times, err = p.Paper(ctx, how.Seed); err != nil {
			return nil, err
		}
	}
	m = &Made{Plan: p, Horizon: p.Horizon(), Times: times}
	shop := p.shop(m.Horizon, times)
	if !shop.Possible() {
		return nil, errors.New("a job can be done by no line")
	}
	first := p.found(shop)
	m.Assignment = first[0]
	if m.Factor, m.parts, err = m.lengthened(ctx, how, shop); err != nil {
		return nil, err
	}
	paper := m.inTheMean(shop)
	found := p.found(paper)
	if m.Assignment = found[0]; p.Order != nil {
		return m, nil
	}
	return m, m.choose(ctx, how, paper, slices.Concat(found, first))
}

// found returns the order that is given, or else some that are found, the best on paper first.
func (p *Plan) found(shop *order.Shop) []order.Assignment {
	if p.Order != nil {
		return []order.Assignment{shop.Value(p.Order)}
	}
	return shop.Near(mostNear)
}

// Keep is Make with an order that is given, such as that of an earlier plan.
func (p *Plan) Keep(ctx context.Context, how sim.Plan, times *Paper, orders [][]int) (*Made, error) {
	own := *p
	own.Order = orders
	return own.Make(ctx, how, times)
}

// OnPaper returns when the changeovers of jobs begin and when they end in another order, in working time,
// by the times on paper of a plan that was made. The order must pass [Plan.Check].
func (m *Made) OnPaper(orders [][]int) [][]Window {
	shop := m.Plan.shop(m.Horizon, m.Times).Lengthened(m.Factor)
	all := make([][]Window, len(orders))
	for i, jobs := range orders {
		from, to := shop.Dates(i, jobs)
		for k := range jobs {
			all[i] = append(all[i], Window{from[k], to[k]})
		}
	}
	return all
}

// simulated simulates the plan so often. It is no part of the answer, and on no tape.
func (m *Made) simulated(ctx context.Context, how sim.Plan, runs int) (*TogetherStudy, error) {
	study, err := RunTogether(tape.Here(ctx), m.Together(), sim.Plan{Seed: how.Seed, Min: runs, Max: runs, Workers: how.Workers}, nil)
	if err == nil && study.Ending == sim.Cancelled {
		err = context.Cause(ctx)
	}
	return study, err
}

// lengthened simulates the plan and returns by which factor the line that has most to do is longer at its jobs than on
// paper, in the mean, and in some of the replications as a part of that: low ones, the median and high ones.
func (m *Made) lengthened(ctx context.Context, how sim.Plan, shop *order.Shop) (factor float64, parts []float64, err error) {
	study, err := m.simulated(ctx, how, pilotRuns)
	if err != nil {
		return 0, nil, err
	}
	paper := 0.0
	for i, jobs := range m.Order {
		paper = max(paper, float64(shop.Work(i, jobs)))
	}
	worked := m.worked(study)
	if factor = worked.Mean() / paper; !(factor > 1) || math.IsInf(factor, 1) {
		factor = 1
	}
	sorted := worked.Sorted()
	for _, p := range [...]float64{0.1, 0.3, 0.5, 0.7, 0.9} {
		if part := sorted.Quantile(p) / paper / factor; !math.IsInf(part, 0) && !math.IsNaN(part) {
			parts = append(parts, part)
		}
	}
	if parts == nil {
		parts = []float64{1}
	}
	return factor, parts, nil
}

// shop returns the plan as a matter of times alone.
func (p *Plan) shop(h *Horizon, times *Paper) *order.Shop {
	shop := &order.Shop{Shortest: p.Shortest, First: slices.Repeat([]int{-1}, len(p.Lines))}
	for i := range p.Lines {
		if times.beside != nil {
			shop.Beside, shop.Tail = append(shop.Beside, slices.Clone(times.beside[i])), append(shop.Tail, slices.Clone(times.tail[i]))
		}
		shop.Time = append(shop.Time, slices.Clone(times.time[i]))
		var change [][]sim.Seconds
		for _, row := range times.change[i] {
			change = append(change, slices.Clone(row))
		}
		shop.Change = append(shop.Change, change)
	}
	for _, x := range p.NotTaken() {
		shop.Time[x.Line][x.Job] = sim.Seconds(math.Inf(1))
	}
	for j, job := range p.Jobs {
		shop.Release = append(shop.Release, h.Worked(job.NotBefore))
		if job.InHand >= 0 {
			shop.First[job.InHand] = j
		}
	}
	shop.Late = p.late(h)
	shop.Tight = p.tight(h)
	down := p.down(h)
	stands := p.stands(h, times, down)
	shop.Changed = p.changed(h, times, down, stands != nil)
	if stands != nil {
		shop.Ends = func(line, job int, from, length sim.Seconds) sim.Seconds {
			return past(stands[line][job], from, length)
		}
	}
	return shop
}

// late returns the hours that a job is late, times its priority: what counts in the search. What is never
// finished is later than all that is, and the later the more of it is left.
func (p *Plan) late(h *Horizon) func(job int, finished sim.Seconds) float64 {
	due := make([]sim.Seconds, len(p.Jobs))
	for j := range p.Jobs {
		due[j] = h.Worked(p.Jobs[j].Due)
	}
	return func(job int, finished sim.Seconds) float64 {
		j := &p.Jobs[job]
		if math.IsInf(float64(j.Due), 1) || finished <= due[job] {
			return 0
		}
		at := h.At(finished)
		if math.IsInf(float64(at), 1) {
			at = sim.Seconds(MostWeeks*week) + finished - h.Length()
		}
		return j.Priority * float64(max(0, at-j.Due)) / 3600
	}
}

// near is the part of the time to its date that a job leaves if it is no matter whether it leaves more.
const near = 0.25

// tight returns how near jobs come to their dates: what lacks to a quarter of the time to it, as a part of
// that time, since the longer the time to a date the less sure it is.
func (p *Plan) tight(h *Horizon) func(job int, finished sim.Seconds) float64 {
	due := make([]sim.Seconds, len(p.Jobs))
	for j := range p.Jobs {
		due[j] = h.Worked(p.Jobs[j].Due)
	}
	return func(j int, finished sim.Seconds) float64 {
		if p.Jobs[j].Priority == 0 || math.IsInf(float64(p.Jobs[j].Due), 1) || finished > due[j] || due[j] == 0 {
			return 0
		}
		return max(0, near-float64(due[j]-finished)/float64(due[j]))
	}
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

// IdleDowns returns the times in which a line is down while nobody works anyway, from the start of the plan on: they
// change nothing, and may be meant for another day or hour.
func (p *Plan) IdleDowns() []LineDown {
	h := p.Horizon()
	return slices.DeleteFunc(slices.Clone(p.Down), func(d LineDown) bool {
		return d.To <= p.From || h.Worked(d.From) < h.Worked(d.To)
	})
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
		Lines: p.Lines, Crew: p.Crew, Products: p.Products, Change: p.Change, Closing: p.Closing, Begins: p.Begins,
		Staff: m.Horizon.staffing(), Down: p.down(m.Horizon), Order: m.Order, Draws: true,
		InHand: slices.Repeat([]int{-1}, len(p.Lines)),
	}
	bench := p.bench()
	t.Bench = p.BenchWork()
	for j, job := range p.Jobs {
		t.Jobs = append(t.Jobs, Job{Product: job.Product, Sets: job.Sets, NotBefore: m.Horizon.Worked(job.NotBefore), AtBench: bench[job.Name]})
		if job.InHand >= 0 && len(m.Order[job.InHand]) > 0 && m.Order[job.InHand][0] == j {
			t.InHand[job.InHand] = job.Product
		}
	}
	return t
}
