package study

import (
	"context"
	"errors"
	"time"

	"netrate/model"
	"netrate/model/runs"
	"netrate/model/setup"
	"netrate/sim"
)

// Replay asks whether a line reproduces a log: the work of the log is simulated again and
// again, and the log is set among these records.
type Replay struct {
	Line      *model.Line      // drawn anew for each record, so far as it is uncertain
	File      string           // where the line was read, for messages
	Log       *Log             // whose counts say of which day they are
	DayStarts time.Duration    // when a day of the counts begins, from midnight
	Products  []*setup.Product // jobs that the line is set up for, where the log names them; may be empty
	Plan      sim.Plan         // Max is the number of records
}

// ReplayAnswer is a log beside what a line makes of the same work.
type ReplayAnswer struct {
	Line *model.Line
	Plan sim.Plan
	Log  *Log

	Period  string         // what a period is called: day, or period
	Work    string         // the station whose feeds are the work
	Periods []ReplayPeriod // those with work, in order
	Stocks  bool           // the log has stops for stocks; if not these are left out on both sides
	Out     []bool         // of each station of the line: its feeds are not counted, so it is left out
	Left    ReplayLeftOut
	Shared  int          // stops without a cause, which are compared with those of their stations in proportion
	Logged  runs.Replica // what the log has

	Drawn  []runs.Replica    // what the simulated records have
	Ending sim.Ending        // why there are no more; 0 of an answer so far
	Tests  []runs.RecordTest // none where nothing was simulated

	starts   time.Duration // of a day, from midnight
	products []*setup.Product
	feeds    map[feedsKey]int64
}

// ReplayPeriod is what the counts say of one period.
type ReplayPeriod struct {
	runs.Period
	Begins time.Time
	Said   []float64    // speeds that are written for it, each once, in rising order, cycles per hour
	Work   []ReplayWork // its sets by job and speed, as they were met

	idle bool // nothing was made
}

// ReplayLeftOut is the stops of the log that are not compared, by the reason.
type ReplayLeftOut struct {
	Before    int            // the first period
	Idle      int            // in a period without work
	Uncounted int            // at a station whose feeds are not counted
	Others    int            // for what is no fault or stock of such a station
	Strangers map[string]int // of each station that the line does not have
	CutOff    int            // these are compared, and were cut off
}

// Beside puts the log beside the line and simulates nothing: the answer says what would be
// compared. An error is a [LogError], a [LogUndated] or a [LogTimed].
func (q Replay) Beside() (*ReplayAnswer, error) {
	if q.Line == nil || q.Log == nil {
		return nil, errors.New("a replay is of one line and its log")
	}
	a := &ReplayAnswer{Line: q.Line, Plan: q.Plan, Log: q.Log, products: q.Products}
	if err := a.divide(q.DayStarts); err != nil {
		return nil, err
	}
	a.choose()
	if err := a.work(); err != nil {
		return nil, err
	}
	a.stretches()
	if err := a.anyJob(); err != nil {
		return nil, err
	}
	for _, s := range a.Line.Stations {
		a.Out = append(a.Out, len(s.Counts()) > 0 && a.Log.FeedsOf(s.Where().Name) == 0)
	}
	a.count()
	return a, a.anyStop(q.File)
}

// Ask answers the question. After each record told, unless it is nil, hears how far it has
// come. If ctx was done before the end, the answer is of the records until then, and its
// Ending says so. Errors are those of Beside and of the simulation.
func (q Replay) Ask(ctx context.Context, told func(Sofar[ReplayAnswer])) (*ReplayAnswer, error) {
	a, err := q.Beside()
	if err != nil {
		return nil, err
	}
	return a, a.simulate(ctx, told)
}

// DayStarts returns when a day of the counts begins, from midnight.
func (a *ReplayAnswer) DayStarts() time.Duration { return a.starts }

// simulate simulates the record and tests the log against it.
func (a *ReplayAnswer) simulate(ctx context.Context, told func(Sofar[ReplayAnswer])) error {
	r := &runs.Replay{Line: a.Line, Counts: a.Compares, Work: a.simulated()}
	for _, p := range a.Periods {
		r.Periods = append(r.Periods, p.Period)
	}
	a.Drawn, a.Tests = nil, nil
	drawn, ending, err := r.Run(ctx, a.Plan, func(record int, one *runs.Replica) {
		a.Drawn = append(a.Drawn, *one)
		if told != nil {
			told(Sofar[ReplayAnswer]{Done: record + 1, Most: a.Plan.Max, Answer: a.sofar})
		}
	})
	if err != nil {
		return err
	}
	a.Drawn, a.Ending = drawn, ending
	a.test()
	return nil
}

// sofar returns the answer by the records until now.
func (a *ReplayAnswer) sofar() *ReplayAnswer {
	so := *a
	so.test()
	return &so
}

// test tests the log against the records that were simulated, if there are any.
func (a *ReplayAnswer) test() {
	if len(a.Drawn) > 0 {
		a.Tests = runs.CompareRecords(a.Logged, a.Drawn, ShownP)
	}
}
