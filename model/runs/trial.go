package runs

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"netrate/model"
	"netrate/sim"
)

// Trial is an acceptance run: so long at work, in shifts of the line one after the other, of which
// the last may be shorter. Each begins as every shift of the line does. Trials of another First have
// other random events.
type Trial struct {
	Line   *model.Line // that works for a shift
	Length sim.Seconds
	Window sim.Seconds   // after each of which what is delivered is counted
	Each   []sim.Seconds // how long each of its shifts is, where they are not those of the line; their sum is Length
	First  int           // the number of the first trial: trial k is in the shifts from k·Shifts() on
	Drawn  float64       // draw the line anew in each replication, with faults that come this many times as often; 0 for neither
}

// TrialRun is what one trial came to.
type TrialRun struct {
	Outcome model.Outcome // of all its shifts together
	Good    []int64       // good sets delivered by the end of each whole window
	Shifts  []TrialSums   // what it has come to by the end of each shift
}

// TrialSums is what is counted in a trial up to a moment.
type TrialSums struct {
	Good      int64 // sets delivered
	Sets      int64 // started
	Stops     int64 // for faults, see [model.Cause.ForFault]
	Cleared   int64 // faults
	Defective int64 // sets delivered
	TakenOut  int64 // sets diverted or outsorted
	Clearing  sim.Seconds
}

// sumsOf returns what is counted of an outcome.
func sumsOf(o *model.Outcome) TrialSums {
	x := TrialSums{Good: o.Sets.Good, Sets: o.Sets.Started, Defective: o.Sets.Defective, TakenOut: o.Sets.Diverted + o.Sets.Outsorted}
	for i := range o.Stations {
		s := &o.Stations[i]
		for cause, stops := range s.Stops {
			if model.Cause(cause).ForFault() {
				x.Stops += stops.Count
			}
		}
		x.Clearing += s.Clearing.Working
		x.Cleared += s.Clearing.Done
	}
	return x
}

// Windows returns the number of whole windows.
func (t *Trial) Windows() int { return int(float64(t.Length/t.Window) + 1e-9) }

// Shifts returns the number of shifts, the last of which may be shorter.
func (t *Trial) Shifts() int {
	if t.Each != nil {
		return len(t.Each)
	}
	return max(1, int(math.Ceil(float64(t.Length/t.Line.Shift)-1e-9)))
}

// start returns when a shift begins.
func (t *Trial) start(shift int) sim.Seconds {
	if t.Each != nil {
		begins := sim.Seconds(0)
		for _, length := range t.Each[:shift] {
			begins += length
		}
		return begins
	}
	return sim.Seconds(float64(shift) * float64(t.Line.Shift)) // converted, so that it is rounded before it is added
}

// length returns how long a shift is.
func (t *Trial) length(shift int) sim.Seconds {
	switch {
	case t.Each != nil:
		return t.Each[shift]
	case shift == t.Shifts()-1:
		return t.Length - t.start(shift)
	}
	return t.Line.Shift
}

// Run runs as many trials as the plan has replications at most. After each, in order, it calls watch,
// which must not keep it. They are the same bit for bit for any number of workers.
func (t *Trial) Run(ctx context.Context, plan sim.Plan, watch func(replication int, r *TrialRun)) (sim.Ending, error) {
	if t.Line.Job.Sets > 0 || !(t.Line.Shift > 0) {
		return 0, errors.New("a trial is of a line that works for a shift")
	}
	if !(t.Length > 0 && t.Window > 0) {
		return 0, fmt.Errorf("a trial of %v s in windows of %v s", float64(t.Length), float64(t.Window))
	}
	if t.Each != nil && !(math.Abs(float64(t.start(len(t.Each))-t.Length)) < 1e-6) {
		return 0, fmt.Errorf("a trial of %v s, of which the shifts come to %v s", float64(t.Length), float64(t.start(len(t.Each))))
	}
	plan.Min, plan.Precision = plan.Max, 0
	worker := func() (func(int, *TrialRun) error, error) {
		w := &trying{Trial: t, seed: plan.Seed}
		if t.Drawn > 0 {
			return w.run, nil // which draws the line
		}
		return w.run, w.take(t.Line)
	}
	_, ending, err := sim.Replicate(ctx, plan, worker, func(replication int, r *TrialRun) float64 {
		watch(replication, r)
		return 0
	})
	return ending, err
}

// trying runs trials, one after the other.
type trying struct {
	*Trial
	seed  uint64
	sims  []*model.Sim // of the shifts; those that are as long have the same
	one   model.Outcome
	times []sim.Seconds
	good  []int64
}

// take makes the line ready to run.
func (w *trying) take(l *model.Line) error {
	w.sims = w.sims[:0]
	made := map[sim.Seconds]*model.Sim{}
	for k := range w.Shifts() {
		works := *l
		works.Shift = w.length(k)
		if made[works.Shift] == nil {
			one, err := model.New(&works)
			if err != nil {
				return err
			}
			made[works.Shift] = one
		}
		w.sims = append(w.sims, made[works.Shift])
	}
	return nil
}

// run runs one trial.
func (w *trying) run(replication int, to *TrialRun) error {
	replication += w.First
	if w.Drawn > 0 {
		drawn, _ := w.Line.Drawn(w.seed, replication)
		if err := w.take(Faultier(drawn, w.Drawn)); err != nil {
			return &model.ImpossibleDraw{Line: w.Line.Name, Draw: replication + 1, Why: err}
		}
	}
	to.Outcome, to.Good, to.Shifts = model.Outcome{}, to.Good[:0], to.Shifts[:0]
	n := w.Shifts()
	for k := range n {
		w.within(k)
		before := to.Outcome.Sets.Good
		if err := w.sims[k].Course(w.seed, replication*n+k, w.times, w.good, &w.one); err != nil {
			return err
		}
		for _, good := range w.good {
			to.Good = append(to.Good, before+good)
		}
		to.Outcome.Add(&w.one)
		to.Shifts = append(to.Shifts, sumsOf(&to.Outcome))
	}
	return nil
}

// within finds the ends of the windows that lie in a shift.
func (w *trying) within(shift int) {
	start := w.start(shift)
	end := start + w.length(shift)
	w.times, w.good = w.times[:0], w.good[:0]
	for i := int(float64(start/w.Window)+1e-9) + 1; i <= w.Windows(); i++ {
		at := sim.Seconds(float64(i) * float64(w.Window)) // converted, so that it is rounded before it is added
		if at > end+1e-6 {
			break
		}
		w.times, w.good = append(w.times, min(at-start, end-start)), append(w.good, 0)
	}
}

// WithoutBadLots returns a line of which no lot is bad: what is left if lots that are out of
// specification are never loaded. Its faults are those of lots that are not bad, where the file says
// how many are; lots that differ in another way are left as they are. It is the line itself if it has
// no bad lots.
func WithoutBadLots(l *model.Line) *model.Line {
	for i := range l.Stations {
		lots := model.LotsOf(l.Stations[i])
		if lots == nil || !lots.Given() || !(lots.Bad > 0 && lots.Times > 1) {
			continue
		}
		usual := 1 / (1 - lots.Bad + float64(lots.Bad*lots.Times))
		name := l.Stations[i].Where().Name
		l = faultier(l.Clone(), usual, func(station string) bool { return station == name })
		*model.LotsOf(l.Stations[i]) = model.Lots{}
	}
	return l
}

// Faultier returns a copy of a line with the rate of every fault multiplied by times. What
// is then impossible, such as a probability above 1, its Check says.
func Faultier(l *model.Line, times float64) *model.Line {
	if times == 1 {
		return l
	}
	return faultier(l, times, func(string) bool { return true })
}

// faultier is Faultier of some stations.
func faultier(l *model.Line, times float64, of func(station string) bool) *model.Line {
	rates := map[string][]model.FaultRate{}
	for _, s := range l.Stations {
		if name := s.Where().Name; of(name) {
			rates[name] = model.FaultRates(s)
		}
	}
	for _, v := range l.Parameters() {
		if slices.ContainsFunc(rates[v.Station], func(r model.FaultRate) bool { return r.Name == v.Name }) {
			l = l.Moved(v, times)
		}
	}
	return l
}
