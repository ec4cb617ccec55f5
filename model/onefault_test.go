package model

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What one misfeed or double costs, in the rules and in the engine: of many jobs of 400
// sets with about one fault each, those with exactly one. It costs less only where the job
// ends before its catch-up set, which is rare.
func TestOneFaultCosts(t *testing.T) {
	oneGoroutine(t)
	reader := func(at int, r Response) func(l *Line, a *Feeder) {
		return func(l *Line, a *Feeder) {
			blind(a, 0, 0)
			addReader(l, &Reader{Place: Place{Name: "reader", At: at}, Reads: "1", Sequence: true, OnMismatch: r})
		}
	}
	byHand := func(_ *Line, a *Feeder) { a.OnMisfeed, a.OnDouble = Stop, Stop }
	const often = 1.0 / 400
	for _, c := range []struct {
		name            string
		misfeed, double float64
		change          func(l *Line, a *Feeder)
		sets            int64
	}{
		{"in line, a misfeed", often, 0, func(*Line, *Feeder) {}, 2},
		{"in line, a double", 0, often, func(*Line, *Feeder) {}, 2},
		{"by hand, a misfeed", often, 0, byHand, 0},
		{"by hand, a double", 0, often, byHand, 0},
		{"a reader at the feeder, in line, a misfeed", often, 0, reader(0, Divert), 2},
		{"a reader at the feeder, in line, a double", 0, often, reader(0, Divert), 3},
		{"a reader at the feeder, by hand, a misfeed", often, 0, reader(0, Stop), 1},
		{"a reader 3 pitches on, in line, a misfeed", often, 0, reader(3, Divert), 3 + 2},
		{"a reader 3 pitches on, in line, a double", 0, often, reader(3, Divert), 3 + 3},
	} {
		t.Run(c.name, func(t *testing.T) {
			line := personal(2, Divert, func(l *Line, lanes []*Feeder) {
				faulty(l, 0, 0, 0)
				lanes[0].Misfeed, lanes[0].Double = c.misfeed, c.double
				c.change(l, lanes[0])
				l.Shift, l.Job = 0, Job{Sets: 400}
			})()
			assert.GreaterOrEqual(t, oneFault(t, slowly(line), c.sets), 40)
			assert.GreaterOrEqual(t, oneFault(t, engineRun(t, line), c.sets), 40)
		})
	}
}

// oneFault returns how many of 200 jobs have one misfeed or double, and fails the test
// unless each of them loses the given number of sets, except at most a tenth that lose fewer.
func oneFault(t *testing.T, run func(seed uint64, replication int) *Outcome, sets int64) int {
	t.Helper()
	jobs, fewer := 0, 0
	for replication := range 200 {
		o := run(31, replication)
		if o.Stations[0].Faults[Misfeed]+o.Stations[0].Faults[Double] != 1 {
			continue
		}
		jobs++
		lost := o.Sets.Started - o.Sets.Good
		assert.LessOrEqual(t, lost, sets)
		if lost < sets {
			fewer++
		}
	}
	assert.LessOrEqual(t, fewer, jobs/10)
	return jobs
}
