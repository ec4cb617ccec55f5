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

// Trace asks how single shifts of a line went, whole: see [trace.Shift].
type Trace struct {
	Line        *model.Line // that works for a shift
	Seed        uint64
	First, Last int // numbers of replications, from 0: those between are traced too
}

// TraceAnswer is the shifts, in order.
type TraceAnswer struct {
	Shifts []*trace.Shift
}

// Ask runs the shifts one after the other; after each it calls told, if there is one, with how
// many are done. When ctx is cancelled the error is its cause: of some of the shifts there is no
// answer.
func (q Trace) Ask(ctx context.Context, told func(done int)) (*TraceAnswer, error) {
	switch {
	case q.Line == nil:
		return nil, errors.New("the trace of no line is asked")
	case q.First < 0 || q.Last < q.First || q.Last-q.First >= MostTraced:
		return nil, fmt.Errorf("shifts %d to %d are asked, want from 1 to %d of them, from 0 on", q.First, q.Last, MostTraced)
	}
	a := &TraceAnswer{}
	for n := q.First; n <= q.Last; n++ {
		if ctx.Err() != nil {
			return nil, context.Cause(ctx)
		}
		s, err := trace.Of(q.Line, q.Seed, n)
		if err != nil {
			return nil, err
		}
		if a.Shifts = append(a.Shifts, s); told != nil {
			told(n - q.First + 1)
		}
	}
	return a, nil
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
