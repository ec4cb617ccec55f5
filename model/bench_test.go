package model

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"netrate/sim"
)

// Where remakes are made changes nothing on the line. Beside it they take at least the time of
// each, and the job no longer than if nobody began before the line was done.
func TestRemakesBesideTheLine(t *testing.T) {
	waited, saved := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		l := anyLine(t)
		if !l.Personalised() || l.Job.Sets == 0 {
			return
		}
		perHour := rapid.Float64Range(1, 5000).Draw(t, "remakes an hour")
		run := func(c Closing) (o Outcome) {
			l.Job.Closing, l.Job.PerHour = c, perHour
			s, err := New(l)
			require.NoError(t, err)
			require.NoError(t, s.Run(5, 2, &o))
			return o
		}
		after, beside := run(ByHand), run(Beside)
		work := sim.Seconds(float64(beside.Job.ByHand) * 3600 / perHour)
		slack := 1e-9 * float64(after.Job.Finish)
		assert.LessOrEqual(t, float64(beside.Job.Finish), float64(after.Job.Finish)+slack)
		assert.GreaterOrEqual(t, float64(beside.Job.Finish)+slack, float64(max(beside.Time.Shift, work)))
		busy := sim.Seconds(rapid.Float64Range(0, 1e5).Draw(t, "busy"))
		s, err := New(l)
		require.NoError(t, err)
		s.BenchBusy(busy)
		var behind Outcome
		require.NoError(t, s.Run(5, 2, &behind))
		assert.LessOrEqual(t, float64(beside.Job.Finish), float64(behind.Job.Finish)+slack, "it is at other jobs first")
		assert.LessOrEqual(t, float64(behind.Job.Finish), float64(beside.Job.Finish+busy)+slack)
		if beside.Job.ByHand > 0 {
			assert.GreaterOrEqual(t, float64(behind.Job.Finish)+slack, float64(busy+work))
		}
		if beside.Job.Hand > 0 {
			waited++
		}
		if float64(beside.Job.Finish) < float64(after.Job.Finish)-slack {
			saved++
		}
		after.Job, beside.Job = JobOutcome{}, JobOutcome{}
		assert.Equal(t, after, beside)
	})
	assert.Positive(t, waited, "no job waited for its remakes")
	assert.Positive(t, saved, "no remake was made while the line ran")
}
