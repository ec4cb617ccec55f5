package study

import (
	"context"
	"errors"
	"fmt"

	"netrate/model"
	"netrate/model/runs"
	"netrate/model/trace"
)

// MostTraced is how many shifts may be traced at a time: they are kept whole.
const MostTraced = 1000

// Trace asks how single shifts went, whole: of a line, of a line group, or jobs of a line.
type Trace struct {
	Line        *model.Line      // that works for a shift or for a job
	Group       *model.LineGroup // instead of it
	Seed        uint64
	First, Last int // numbers of replications, from 0: those between are traced too
}

// TraceAnswer is the replications, in order.
type TraceAnswer struct {
	Traced []Traced
}

// Traced is one replication, whole.
type Traced struct {
	Shifts []*trace.Shift // of a line, one; of a line group, one a line; of a job, one a pass
	Job    *model.Outcome // of a job: all passes
}

// Number returns the number of the replication, from 0.
func (t *Traced) Number() int { return t.Shifts[0].Replication }

// Ask runs the replications one after the other; after each it calls told, if there is one, with how
// many are done. When ctx is cancelled the error is its cause: of some of them there is no answer.
func (q Trace) Ask(ctx context.Context, told func(done int)) (*TraceAnswer, error) {
	switch {
	case (q.Line == nil) == (q.Group == nil):
		return nil, errors.New("the trace of one line, or of one line group, is to be asked")
	case q.First < 0 || q.Last < q.First || q.Last-q.First >= MostTraced:
		return nil, fmt.Errorf("shifts %d to %d are asked, want from 1 to %d of them, from 0 on", q.First, q.Last, MostTraced)
	}
	a := &TraceAnswer{}
	for n := q.First; n <= q.Last; n++ {
		if ctx.Err() != nil {
			return nil, context.Cause(ctx)
		}
		t, err := q.one(n)
		if err != nil {
			return nil, err
		}
		if a.Traced = append(a.Traced, t); told != nil {
			told(n - q.First + 1)
		}
	}
	return a, nil
}

// one runs a replication.
func (q Trace) one(n int) (t Traced, err error) {
	switch {
	case q.Group != nil:
		t.Shifts, err = trace.OfGroup(q.Group, q.Seed, n)
	case q.Line.Job.Sets > 0:
		var j *trace.Job
		if j, err = trace.OfJob(q.Line, q.Seed, n); err == nil {
			t.Shifts, t.Job = j.Passes, &j.Outcome
		}
	default:
		var s *trace.Shift
		s, err = trace.Of(q.Line, q.Seed, n)
		t.Shifts = []*trace.Shift{s}
	}
	return t, err
}

// Shifts returns the shifts and passes of all of them, in order.
func (a *TraceAnswer) Shifts() []*trace.Shift {
	var all []*trace.Shift
	for i := range a.Traced {
		all = append(all, a.Traced[i].Shifts...)
	}
	return all
}

// NotableShifts are the numbers of some shifts of a study, as [Trace] takes them.
type NotableShifts struct {
	Median int `json:"median"` // whose net rate is nearest to the median
	Worst  int `json:"worst"`
	Best   int `json:"best"`
}

// NotableShiftsOf returns them, of a study with a shift at least; of shifts alike the first.
func NotableShiftsOf(s *runs.Study) NotableShifts {
	n := NotableShifts{Median: medianShift(s)}
	rates := s.NetRates()
	for i, rate := range rates {
		if rate < rates[n.Worst] {
			n.Worst = i
		}
		if rate > rates[n.Best] {
			n.Best = i
		}
	}
	return n
}
