package runs

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"netrate/model"
	"netrate/sim"
)

// Period is a stretch of a record: a number of sets that were made at one speed.
type Period struct {
	Name  string
	Sets  int64   // at least 1
	Speed float64 // asked for, cycles an hour; 0 for that of the line
}

// Stretch is a part of a period: a number of sets on one line at one speed.
type Stretch struct {
	Line  *model.Line // its stations are some of those of the record's line; nil for that line
	Sets  int64       // at least 1
	Speed float64     // asked for, cycles an hour; 0 for that of the line
}

// Replay is a record that is simulated again and again.
type Replay struct {
	Line    *model.Line
	Periods []Period
	Work    [][]Stretch                           // of each period; nil for its sets at its speed on the line
	Counts  func(station int, c model.Cause) bool // whether the record has stops at a station of the line for a cause
}

// StopSum is how often a line stood, and for how long.
type StopSum struct {
	Stops   int64
	Seconds sim.Seconds // waiting, walking, working and restarting together
}

// Add adds stops.
func (s *StopSum) Add(b StopSum) {
	s.Stops += b.Stops
	s.Seconds += b.Seconds
}

// Replica is a record, or one replication of it. It has only what the replay counts.
type Replica struct {
	Periods []StopSum               // of each period
	Causes  [][model.Causes]StopSum // of each station of the line
	Feeds   []int64                 // or insertions, of each station of the line
}

// NewReplica returns a record of a number of periods, in which nothing has happened.
func NewReplica(l *model.Line, periods int) Replica {
	n := len(l.Stations)
	return Replica{make([]StopSum, periods), make([][model.Causes]StopSum, n), make([]int64, n)}
}

// Add adds stops of a period.
func (r *Replica) Add(period, station int, c model.Cause, s StopSum) {
	r.Periods[period].Add(s)
	r.Causes[station][c].Add(s)
}

// Run simulates the record as many times as the plan has replications at most. Each stretch is
// a job of its own, with random streams of its own and remakes left open: it begins with an empty track
// and full hoppers. A period is a day, good or bad, for all its stretches; lots go on from one stretch to
// the next on the same line at the same speed. Where something of the line is uncertain each replication draws the line
// anew. After each replication, in order, Run calls watch with it, if there is one.
//
// The replicas are the same bit for bit for any number of workers; where ctx was done before
// the end they are those until then.
func (r *Replay) Run(ctx context.Context, plan sim.Plan, watch func(replication int, one *Replica)) ([]Replica, sim.Ending, error) {
	if err := r.check(); err != nil {
		return nil, 0, err
	}
	sums := len(r.Periods) + len(r.Line.Stations)*int(model.Causes)
	if err := sim.AtMostKept(mostSums/sums, 1, "", plan.Max, "record"); err != nil {
		return nil, 0, err
	}
	plan.Min, plan.Precision = plan.Max, 0
	var replicas []Replica
	worker := func() (func(int, *Replica) error, error) {
		w := &replayer{Replay: r, seed: plan.Seed}
		w.divide()
		if w.uncertain {
			return w.run, nil // which draws the line
		}
		return w.run, w.draw(0)
	}
	fold := func(replication int, one *Replica) float64 {
		replicas = append(replicas, *one) // each is made anew
		if watch != nil {
			watch(replication, one)
		}
		return 0
	}
	_, ending, err := sim.Replicate(ctx, plan, worker, fold)
	return replicas, ending, err
}

// check returns what is wrong with the periods.
func (r *Replay) check() error {
	var errs []error
	if len(r.Periods) == 0 {
		errs = append(errs, errors.New("the record has no period"))
	}
	for _, p := range r.Periods {
		if p.Sets < 1 {
			errs = append(errs, fmt.Errorf("%s has %d sets, want at least 1", p.Name, p.Sets))
		}
		if !(p.Speed >= 0) || math.IsInf(p.Speed, 0) {
			errs = append(errs, fmt.Errorf("%s has a speed of %v cycles an hour, want more than 0, or 0 for that of the line", p.Name, p.Speed))
		}
	}
	return errors.Join(errs...)
}

// replayer runs replications of a record, one after the other.
type replayer struct {
	*Replay
	seed      uint64
	work      [][]Stretch // of each period, with its line
	stations  map[string]int
	uncertain bool
	sims      map[lineAt]*model.Sim
	out       model.Outcome
}

// lineAt is a line at a speed that is asked for.
type lineAt struct {
	line  *model.Line
	speed float64
}

// divide finds the work of each period.
func (w *replayer) divide() {
	w.stations = map[string]int{}
	for i, s := range w.Line.Stations {
		w.stations[s.Where().Name] = i
	}
	for k, p := range w.Periods {
		of := []Stretch{{Sets: p.Sets, Speed: p.Speed}}
		if w.Work != nil {
			of = slices.Clone(w.Work[k])
		}
		for i := range of {
			of[i].Line = cmp.Or(of[i].Line, w.Line)
			w.uncertain = w.uncertain || len(of[i].Line.UncertainInputs) > 0
		}
		w.work = append(w.work, of)
	}
}

// draw makes the line as it is in a replication.
func (w *replayer) draw(replication int) error {
	w.sims = map[lineAt]*model.Sim{}
	drawn := map[*model.Line]*model.Line{}
	for _, of := range w.work {
		for _, p := range of {
			if w.sims[lineAt{p.Line, p.Speed}] != nil {
				continue
			}
			if drawn[p.Line] == nil {
				drawn[p.Line], _ = p.Line.Drawn(w.seed, replication)
			}
			line := *drawn[p.Line]
			line.Shift, line.Job, line.Begins = 0, model.Job{Sets: 1}, line.Begins.OfJob() // each stretch says how many
			if p.Speed > 0 {
				line.Speed = p.Speed
			}
			s, err := model.New(&line)
			if err != nil {
				return err
			}
			w.sims[lineAt{p.Line, p.Speed}] = s
		}
	}
	return nil
}

// run runs one replication.
func (w *replayer) run(replication int, to *Replica) error {
	if w.uncertain {
		if err := w.draw(replication); err != nil {
			return &model.ImpossibleDraw{Line: w.Line.Name, Draw: replication + 1, Why: err}
		}
	}
	*to = NewReplica(w.Line, len(w.Periods))
	all, number := 0, 0
	for _, of := range w.work {
		all += len(of)
	}
	for _, s := range w.sims {
		s.KeepLots(false)
	}
	for k, of := range w.work {
		day := replication*all + number
		for _, p := range of {
			s := w.sims[lineAt{p.Line, p.Speed}]
			s.OnDay(day)
			if err := s.RunJob(w.seed, replication*all+number, p.Sets, &w.out); err != nil {
				return fmt.Errorf("%s: %w", w.Periods[k].Name, err)
			}
			s.KeepLots(true)
			number++
			w.note(to, k)
		}
	}
	return nil
}

// note adds what happened in a stretch of a period.
func (w *replayer) note(to *Replica, period int) {
	for own := range w.out.Stations {
		station := &w.out.Stations[own]
		i := w.stations[station.Name]
		to.Feeds[i] += station.Attempts
		for c, t := range station.Stops {
			if w.Counts(i, model.Cause(c)) {
				to.Add(period, i, model.Cause(c), StopSum{t.Count, t.Total()})
			}
		}
	}
}
