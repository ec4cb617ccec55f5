package runs

import (
	"context"
	"slices"

	"netrate/model"
	"netrate/sim"
	"netrate/sim/output"
)

// Study is what the replications of one line came to.
type Study struct {
	Line   *model.Line
	Plan   sim.Plan
	Ending sim.Ending    // why there are no more replications
	Shifts []Shift       // the figures of each replication, in order
	Each   int           // of draws of what is uncertain: the replications of each draw, one after the other; else 0
	Total  model.Outcome // the sum of all replications

	lines  []*Study   // if it is of several lines together, else nil
	jobs   []MixedJob // if it is of several jobs of one line, else nil
	course []int64    // of the first shifts, one after the other: good sets delivered by the end of each window
}

// Run runs replications of the line until the net rate is known as precisely as the plan
// asks, or its limits are reached, or ctx is done. After each replication, in order, it
// calls watch, if there is one, with the outcome, which watch must not keep.
//
// The study is the same bit for bit for any number of workers. Where ctx was done before
// the first replication was, the study has no shifts.
func Run(ctx context.Context, l *model.Line, plan sim.Plan, watch func(replication int, o *model.Outcome)) (*Study, error) {
	if err := within(1, plan); err != nil {
		return nil, err
	}
	study := &Study{Line: l, Plan: plan}
	worker := func() (func(int, *replication) error, error) {
		line, err := newReady(l)
		if err != nil {
			return nil, err
		}
		return func(number int, r *replication) error {
			err := line.run(plan.Seed, number, r)
			r.figure(l)
			return err
		}, nil
	}
	fold := func(number int, r *replication) float64 {
		if watch != nil {
			watch(number, &r.Outcome)
		}
		return study.takeFigured(r)
	}
	var err error
	_, study.Ending, err = sim.Replicate(ctx, plan, worker, fold)
	if err != nil {
		return nil, err
	}
	return study, nil
}

// long is a number of shifts whose figures take some megabytes.
const long = 1 << 16

// Fold takes the outcome of one more replication in, and returns its net rate.
func (s *Study) Fold(o *model.Outcome) float64 { return s.add(shiftOf(s.Line, o), o) }

func (s *Study) add(shift Shift, o *model.Outcome) float64 {
	if n := len(s.Shifts); n == long { // else what is kept would be copied again and again as it grows
		s.Shifts = slices.Grow(s.Shifts, max(0, s.Plan.Max-n))
	}
	s.Shifts = append(s.Shifts, shift)
	s.Total.Add(o)
	return shift.NetRate
}

// Kept returns a copy of a study that goes on to grow, as if it had been cancelled here.
func (s *Study) Kept() *Study {
	kept := *s
	kept.Ending = sim.Cancelled
	kept.Shifts, kept.course = slices.Clip(s.Shifts), slices.Clip(s.course)
	kept.Total.Stations = slices.Clone(s.Total.Stations)
	return &kept
}

// Only returns a study with the figures of one replication alone; with none if the study ended
// before it.
func (s *Study) Only(replication int) *Study {
	first := min(replication, len(s.Shifts))
	return &Study{Line: s.Line, Shifts: s.Shifts[first:min(first+1, len(s.Shifts))]}
}

// Shift is the figures of one replication.
type Shift struct {
	NetRate    float64 // good envelopes an hour of the shift
	Good       float64 // sets, by fate
	Defective  float64
	Diverted   float64
	Outsorted  float64
	Spoiled    float64
	OnLine     float64
	Running    float64 // seconds
	Waiting    float64
	Working    float64
	Refilling  float64 // of that, at work on stocks
	Restarting float64
	Stops      float64 // how many
	StockCalls float64 // calls to refill, empty or sweep
	CrewBusy   float64 // operator seconds, walking and working
	StockBusy  float64 // of that, with stocks
	Starved    float64 // seconds, for a channel too slow
	Remakes    float64 // personalised sets, or pieces of the only stream, to be made again
	Slow       float64 // seconds of Running that slow cycles took beyond others
	Breaks     float64 // seconds that the line stood for breaks
	Repairing  float64 // seconds of Working in which technicians were at work
	Finish     float64 // hours until a job is finished; 0 of a shift

	// What a sum on paper is set against, all in seconds.
	UsedUp    float64 // stood for stocks that were used up
	Documents float64 // stood for documents: the channel's faults, and one too slow
	Clearing  float64 // of the other faults: operators on the way and at work, also after the end, and a mean restart for each stop
	LeftOver  float64 // of that, and of the restart, what was left when the shift ended
}

func shiftOf(l *model.Line, o *model.Outcome) Shift {
	stopped, crew := o.Stopped(), o.Crew()
	s := Shift{
		NetRate:    o.NetRate(),
		Good:       float64(o.Sets.Good),
		Defective:  float64(o.Sets.Defective),
		Diverted:   float64(o.Sets.Diverted),
		Outsorted:  float64(o.Sets.Outsorted),
		Spoiled:    float64(o.Sets.Spoiled),
		OnLine:     float64(o.Sets.OnLine),
		Running:    float64(o.Time.Running),
		Waiting:    float64(stopped.Waiting),
		Working:    float64(stopped.Working),
		Refilling:  float64(o.Refilling()),
		Restarting: float64(stopped.Restarting),
		Stops:      float64(stopped.Count),
		StockCalls: float64(crew.Stock.Calls),
		CrewBusy:   float64(crew.Stock.Busy() + crew.Clearing.Busy()),
		StockBusy:  float64(crew.Stock.Busy()),
		Starved:    float64(stopped.Starved),
		Remakes:    float64(o.Remakes()),
		Slow:       float64(o.Time.Slow.Total()),
		Breaks:     float64(o.Time.Breaks),
		Repairing:  float64(o.Repairing()),
		Finish:     float64(o.Job.Finish) / 3600,
		LeftOver:   float64(o.LeftOver.Work + o.LeftOver.Restart),
	}
	s.besidePaper(l, o)
	return s
}

// besidePaper fills in what a sum on paper is set against.
func (s *Shift) besidePaper(l *model.Line, o *model.Outcome) {
	s.Documents, s.Clearing = 0, float64(o.LeftOver.Work)
	for i := range o.Stations {
		station := &o.Stations[i]
		usedUp := station.Stops[model.CauseStock].Total()
		s.UsedUp += float64(usedUp)
		stops, stood := int64(0), -usedUp
		for c, t := range station.Stops {
			stood += t.Total()
			if model.Cause(c) != model.CauseStock {
				stops += t.Count
			}
		}
		if l.Stations[i].Kind().Role == model.Gathers {
			s.Documents += float64(stood)
			continue
		}
		s.Clearing += float64(station.Clearing.Busy()) + float64(station.Repair.Busy()) + float64(float64(stops)*float64(l.Restart.Mean()))
	}
}

// figures returns the figures that add up over lines and parts of a shift: all but the finish.
func (s *Shift) figures() [25]*float64 {
	return [...]*float64{
		&s.NetRate, &s.Good, &s.Defective, &s.Diverted, &s.Outsorted, &s.Spoiled, &s.OnLine,
		&s.Running, &s.Waiting, &s.Working, &s.Refilling, &s.Restarting, &s.Starved,
		&s.Stops, &s.StockCalls, &s.CrewBusy, &s.StockBusy, &s.Remakes,
		&s.UsedUp, &s.Documents, &s.Clearing, &s.LeftOver, &s.Breaks, &s.Repairing, &s.Slow,
	}
}

// add adds the figures of another line, or of another part of the shift.
func (s *Shift) add(b *Shift) {
	to, from := s.figures(), b.figures()
	for i := range to {
		*to[i] += *from[i]
	}
}

// times returns the figures of a part of a shift.
func (s Shift) times(part float64) Shift {
	for _, x := range s.figures() {
		*x *= part
	}
	return s
}

// Figure is one column of the shifts.
type Figure struct {
	Name string // as a column of a table is headed, words joined by underscores
	Unit string
	Of   func(*Shift) float64
}

// Figures returns the columns of the shifts, in order.
func Figures() []Figure {
	return []Figure{
		{"net_rate", "envelopes/h", func(s *Shift) float64 { return s.NetRate }},
		{"good", "sets", func(s *Shift) float64 { return s.Good }},
		{"defective", "sets", func(s *Shift) float64 { return s.Defective }},
		{"diverted", "sets", func(s *Shift) float64 { return s.Diverted }},
		{"outsorted", "sets", func(s *Shift) float64 { return s.Outsorted }},
		{"spoiled", "sets", func(s *Shift) float64 { return s.Spoiled }},
		{"on_line", "sets", func(s *Shift) float64 { return s.OnLine }},
		{"running", "s", func(s *Shift) float64 { return s.Running }},
		{"waiting", "s", func(s *Shift) float64 { return s.Waiting }},
		{"working", "s", func(s *Shift) float64 { return s.Working }},
		{"restarting", "s", func(s *Shift) float64 { return s.Restarting }},
		{"stops", "stops", func(s *Shift) float64 { return s.Stops }},
		{"stock_calls", "calls", func(s *Shift) float64 { return s.StockCalls }},
		{"crew_busy", "operator s", func(s *Shift) float64 { return s.CrewBusy }},
		{"channel_too_slow", "s", func(s *Shift) float64 { return s.Starved }},
		{"remakes", "remakes", func(s *Shift) float64 { return s.Remakes }},
		{"finish", "h", func(s *Shift) float64 { return s.Finish }},
		{"breaks", "s", func(s *Shift) float64 { return s.Breaks }},
		{"slow_cycles", "s", func(s *Shift) float64 { return s.Slow }},
	}
}

// Sample returns one figure of every shift, in order.
func (s *Study) Sample(figure func(*Shift) float64) sim.Sample {
	sample := make(sim.Sample, len(s.Shifts))
	for i := range s.Shifts {
		sample[i] = figure(&s.Shifts[i])
	}
	return sample
}

// IntervalOf returns the mean of a sample with a figure of every replication, and within what
// interval it is known. Of draws of what is uncertain that is the interval of the long run, which holds the mean
// of very many replications of the line as it truly is: its half-width is half of it, wherever the
// mean lies within.
func (s *Study) IntervalOf(figures sim.Sample, level float64) sim.Estimate {
	low, high, drawn := s.LongRun(figures, level)
	if !drawn {
		return figures.Interval(level)
	}
	return sim.Estimate{Mean: figures.Mean(), Half: (high - low) / 2, Level: level, N: len(figures)}
}

// LongRun returns between what the mean of very many replications of the line as it truly is may lie,
// of a sample with a figure of every replication; false unless they are of two draws or more of what
// is uncertain.
func (s *Study) LongRun(figures sim.Sample, level float64) (low, high float64, drawn bool) {
	if s.Each == 0 || len(figures) < 2*s.Each {
		return 0, 0, false
	}
	low, high = output.Another(s.settled(figures), level)
	return low, high, true
}

// Interval returns the mean of one figure of the shifts, as IntervalOf does.
func (s *Study) Interval(figure func(*Shift) float64, level float64) sim.Estimate {
	if s.Each > 0 {
		return s.IntervalOf(s.Sample(figure), level)
	}
	return sim.IntervalOf(len(s.Shifts), func(i int) float64 { return figure(&s.Shifts[i]) }, level)
}

// LineOf returns the line as one of the replications had it.
func (s *Study) LineOf(replication int) *model.Line {
	if s.Each == 0 {
		return s.Line
	}
	drawn, _ := s.Line.Drawn(s.Plan.Seed, replication/s.Each)
	return drawn
}

// NetRates returns the net rate of every shift, in order.
func (s *Study) NetRates() sim.Sample {
	return s.Sample(func(s *Shift) float64 { return s.NetRate })
}
