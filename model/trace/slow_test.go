package trace

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/sim"
)

// The moments of cycles are those of slow ones too. One cycle a second, thirty at half the speed
// after each start: cycle 31 ends at 61 s, and the hundredth at 130 s, when the hopper is used up. An
// operator walks 15 s, fills it in 10 s, and the line starts 4 s later.
func TestMomentsOfSlowCycles(t *testing.T) {
	l := modeltest.CalmLine()
	l.Slow.Starting = model.Slowly{Cycles: 30, Share: 0.5}
	modeltest.FirstOf[*model.Feeder](l).Hopper.Capacity = 100
	s, err := Of(l, 1, 0)
	require.NoError(t, err)
	for cycle, at := range map[sim.Cycles]sim.Seconds{1: 2, 30: 60, 31: 61, 100: 130, 101: 161, 131: 220} {
		assert.InDelta(t, float64(at), float64(s.Moment(cycle)), 1e-9, "cycle %d", cycle)
		assert.Equal(t, cycle, s.Completed(at+1e-6))
		assert.Equal(t, cycle-1, s.Completed(at-1e-6))
	}
}

func TestNoTraceOfATrackAsLeft(t *testing.T) {
	l := modeltest.CalmLine()
	l.Begins = model.Begins{Before: 100, Track: true}
	_, err := Of(l, 1, 0)
	assert.ErrorContains(t, err, "is not traced")
}
