package model

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"netrate/sim"
)

// Watching changes nothing, the spans add up to the stops, and the good sets only grow, to
// the number of the whole shift.
func TestRecord(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyLine(t)
		if l.Job.Sets > 0 {
			l.Job, l.Shift = Job{}, 300
		}
		s, err := New(l)
		require.NoError(t, err)
		var plain, watched Outcome
		require.NoError(t, s.Run(5, 1, &plain))
		times := []sim.Seconds{0, l.Shift / 3, l.Shift / 2, l.Shift}
		stood, good, err := s.Record(5, 1, times, &watched)
		require.NoError(t, err)
		require.Equal(t, plain, watched)

		var total StopTotal
		end := sim.Seconds(0)
		for _, span := range stood {
			require.GreaterOrEqual(t, span.From, end, "spans overlap")
			require.Greater(t, span.To, span.From)
			end = span.To
			switch span.Phase {
			case Waiting:
				total.Waiting += span.To - span.From
			case Working:
				total.Working += span.To - span.From
			case Restarting:
				total.Restarting += span.To - span.From
			case Starving:
				total.Starved += span.To - span.From
			}
		}
		want := plain.Stopped()
		for _, d := range [][2]sim.Seconds{{want.Waiting, total.Waiting}, {want.Working, total.Working}, {want.Restarting, total.Restarting}, {want.Starved, total.Starved}} {
			require.InDelta(t, float64(d[0]), float64(d[1]), 1e-6)
		}
		require.IsNonDecreasing(t, good)
		require.Zero(t, good[0])
		require.Equal(t, plain.Sets.Good, good[3])
	})
}

func TestRecordOfOneStop(t *testing.T) {
	l := zeroBufferLine(3600, 1, zeroBufferFaults{1, 1, 1, 10}) // stops for 10 s after each cycle
	l.Crew.Walk, l.Restart = sim.Constant(3), sim.Constant(2)
	l.Shift = 17
	s, err := New(l)
	require.NoError(t, err)
	var o Outcome
	stood, good, err := s.Record(1, 0, []sim.Seconds{17}, &o)
	require.NoError(t, err)
	assert.Equal(t, []Span{
		{1, 4, "station 1", "double", Waiting},
		{4, 14, "station 1", "double", Working},
		{14, 16, "station 1", "double", Restarting},
	}, stood[:3])
	assert.Equal(t, []int64{0}, good)
}
