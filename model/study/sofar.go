package study

import (
	"math"

	"netrate/model/runs"
	"netrate/sim"
)

// Sofar is how far a question has come, as its callback hears after each replication or
// draw, in order and on the goroutine that asked.
type Sofar[A any] struct {
	Done, Most int  // replications, or draws of what is uncertain; there may be fewer than Most in the end
	Expected   int  // how many are expected in the end; 0 if that is not known
	Lines      int  // that are still run in each replication, each at each of its jobs; 0 of questions that do not say
	Ahead      int  // replications expected still, all lines together, where lines drop out of a selection; 0 if that is not known
	Draws      bool // draws are counted, not replications

	// Answer works out the answer so far, which may be kept. It costs about as much as the
	// answer at the end and can be called only before the callback returns.
	Answer func() *A

	// Replication returns a study of each line or line group that the question runs, in the order
	// of the answer, with the figures of the last replication alone; without any of a line that is
	// run no further. It is nil where draws are counted, and of questions whose answers have no
	// table of replications.
	Replication func() []*runs.Study

	// Season returns the weeks of the last season; nil of other questions.
	Season func() []SeasonsRow
}

// A pace foresees when a run is precise enough, from the net rates so far.
type pace struct {
	n        int
	mean, m2 float64 // Welford's sums
}

// take takes in the net rate of a replication.
func (p *pace) take(rate float64) {
	p.n++
	d := rate - p.mean
	p.mean += d / float64(p.n)
	p.m2 += float64(d * (rate - p.mean))
}

// follow takes in the last replication of the first alternative, which a plan's precision is of.
func (p *pace) follow(so standing) {
	if last := so.last(); len(last) > 0 && len(last[0].Shifts) > 0 {
		p.take(last[0].Shifts[0].NetRate)
	}
}

// expected returns how many replications the run of a plan will take, as far as is known; 0 if it is
// not.
func (p *pace) expected(plan sim.Plan) int {
	const least = 10
	if plan.Precision == 0 {
		return plan.Max
	}
	if p.n < least || !(p.mean > 0) {
		return 0
	}
	half := 1.96 * math.Sqrt(p.m2/float64(p.n-1)) // of one replication
	times := half / (plan.Precision * p.mean)
	need := times * times
	if !(need < float64(plan.Max)) {
		return plan.Max
	}
	batches := int(math.Ceil(need / sim.Batch))
	return min(max(batches*sim.Batch, plan.First()), plan.Max)
}
