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
	Hours  [][]float64 // mean hours of each job on each line, as if all the crew were there; +Inf where it cannot be
	Factor float64     // by which each job and changeover takes longer than that on paper
}

// paperRuns is how many times a job is simulated on each line for its mean time.
const paperRuns = 8

// pilotRuns is how many times a first plan is simulated, for how much longer all takes than by mean
// times.
const pilotRuns = 40

// Make gives each job to a line, in an order, by times on paper: the mean time of each job on each
// line, simulated by itself with the whole crew, and of each changeover, all longer by one factor.
// With it the last job of a first plan ends on paper about when it ends in nine tenths of some
// replications, where lines wait for the crew and all varies: only about, since the factor does not
// stretch what is waited for, a job's NotBefore and lines that are down. See [order.Shop.Assign] for what is searched; what comes of
// the plan is for [Made.Together] to say.
func (p *Plan) Make(seed uint64) (*Made, error) {
	shop, made, err := p.shop(seed)
	if err != nil {
		return nil, err
	}
	made.Assignment = shop.Assign()
	if err := made.lengthen(shop, seed); err != nil {
		return nil, err
	}
	made.Assignment = shop.Assign()
	return made, nil
}

// lengthen has all jobs and changeovers take longer on paper.
func (m *Made) lengthen(shop *order.Shop, seed uint64) error {
	study, err := RunTogether(context.Background(), m.Together(), sim.Plan{Seed: seed, Min: pilotRuns, Max: pilotRuns}, nil)
	if err != nil {
		return err
	}
	if m.Factor = max(1, 3600*study.Finished.Quantile(0.9)/float64(m.Last)); m.Last <= 0 {
		m.Factor = 1
	}
	for _, times := range append(slices.Concat(shop.Change...), shop.Time...) {
		for j := range times {
			times[j] *= sim.Seconds(m.Factor)
		}
	}
	return nil
}

// Keep returns the plan with an order that is given, such as that of an earlier plan.
func (p *Plan) Keep(seed uint64, orders [][]int) (*Made, error) {
	shop, made, err := p.shop(seed)
	if err != nil {
		return nil, err
	}
	made.Assignment = shop.Value(orders)
	if err := made.lengthen(shop, seed); err != nil {
		return nil, err
	}
	made.Assignment = shop.Value(orders)
	return made, nil
}

// shop returns the plan as a matter of times alone.
func (p *Plan) shop(seed uint64) (*order.Shop, *Made, error) {
	if err := p.Check(); err != nil {
		return nil, nil, err
	}
	h := p.Horizon()
	made := &Made{Plan: p, Horizon: h}
	shop := &order.Shop{Shortest: p.Shortest}
	for i, line := range p.Lines {
		x := paper{plan: p, line: line.AttendedBy(p.Crew).AtMeans(), setups: make([]*setup.Setup, len(p.Products)), changes: map[[2]int]sim.Seconds{}}
		times, err := x.times(i, seed)
		if err != nil {
			return nil, nil, err
		}
		shop.Time, shop.Change = append(shop.Time, times), append(shop.Change, x.between(i))
		hours := make([]float64, len(times))
		for j, t := range times {
			hours[j] = float64(t) / 3600
		}
		made.Hours = append(made.Hours, hours)
	}
	shop.First = slices.Repeat([]int{-1}, len(p.Lines))
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
	if !shop.Possible() {
		return nil, nil, errors.New("a job can be done by no line")
	}
	return shop, made, nil
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

// past returns when work ends that stands still in some stretches.
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

// paper is a line on paper: its times for all jobs of a plan.
type paper struct {
	plan    *Plan
	line    *model.Line
	setups  []*setup.Setup
	changes map[[2]int]sim.Seconds
}

// times returns the mean time of each job on the line; +Inf where it cannot be.
func (x *paper) times(line int, seed uint64) ([]sim.Seconds, error) {
	times := make([]sim.Seconds, len(x.plan.Jobs))
	sims := make([]*model.Sim, len(x.plan.Products))
	for j, job := range x.plan.Jobs {
		times[j] = sim.Seconds(math.Inf(1))
		if !job.may(line) || job.InHand >= 0 && job.InHand != line {
			continue
		}
		if sims[job.Product] == nil {
			made, reasons := (&Season{Line: x.line, Closing: x.plan.Closing}).setUp(x.plan.Products[job.Product])
			if len(reasons) > 0 {
				if _, unfit := errors.AsType[*Unfit](reasons[0]); unfit {
					continue
				}
				return nil, errors.Join(reasons...)
			}
			s, err := model.New(made.Line)
			if err != nil {
				return nil, fmt.Errorf("%s: %w", x.line.Name, err)
			}
			sims[job.Product], x.setups[job.Product] = s, made
		}
		sum := sim.Seconds(0)
		for r := range paperRuns {
			var out model.Outcome
			if err := sims[job.Product].RunJob(seed, r, job.Sets, &out); err != nil {
				return nil, fmt.Errorf("%s: %s: %w", x.line.Name, job.Name, err)
			}
			sum += out.Job.Finish
		}
		times[j] = sum / paperRuns
	}
	return times, nil
}

// between returns the mean time of the changeover from each job, and from what the line is set up for
// at the start, to each.
func (x *paper) between(line int) [][]sim.Seconds {
	jobs := x.plan.Jobs
	all := make([][]sim.Seconds, len(jobs)+1)
	start := -1
	for _, job := range jobs {
		if job.InHand == line {
			start = job.Product
		}
	}
	for i := range all {
		from := start
		if i < len(jobs) {
			from = jobs[i].Product
		}
		for k, job := range jobs {
			switch {
			case x.setups[job.Product] == nil || from >= 0 && x.setups[from] == nil:
				all[i] = append(all[i], 0) // it cannot be
			case i == len(jobs) && job.InHand == line:
				all[i] = append(all[i], 0) // it is under way
			case i == k:
				all[i] = append(all[i], 0)
			default:
				all[i] = append(all[i], x.change(from, job.Product))
			}
		}
	}
	return all
}

// change returns the mean time of a changeover between products; from -1 for none.
func (x *paper) change(from, to int) sim.Seconds {
	pair := [2]int{from, to}
	if t, known := x.changes[pair]; known {
		return t
	}
	t := sim.Seconds(0)
	if x.plan.Change != nil {
		var before *setup.Setup
		if from >= 0 {
			before = x.setups[from]
		}
		t = sim.Seconds(setup.Totals(x.plan.Change.Items(before, x.setups[to]), x.plan.Crew.AtLeastOne(), 1, meanReplications).Mean())
	}
	x.changes[pair] = t
	return t
}
