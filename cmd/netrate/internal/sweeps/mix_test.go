package sweeps

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/small"
	"netrate/model/study"
	"netrate/sim"
)

// With yearly volumes of jobs, a sweep and a sensitivity analysis are of the line at all of them: they
// begin from the very net rate that run has, and what they change they change for every job. The
// line as it stands is half as fast again.
func TestSweepsAtVolumes(t *testing.T) {
	sc, _ := small.CostJobs(t, "run: {min: 50", "run: {min: 50")
	of := page.AlternativeOf(sc, "Two jobs")
	plan := sim.Plan{Seed: 3, Min: 20, Max: 20}
	ran, err := study.MixRun{Alternative: of, Plan: plan}.Ask(t.Context(), nil)
	require.NoError(t, err)
	mix, err := of.Mix()
	require.NoError(t, err)

	about := desk.Subject{Scenario: sc, Mix: mix}
	q, err := newSweep(about, []string{"crew.operators=1,2"})
	require.NoError(t, err)
	q.Plan = plan
	swept, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.Equal(t, ran.Line.NetRate, swept.Points[0].NetRate)
	assert.True(t, swept.Points[1].Change.Shown(), "a second operator")
	assert.Equal(t, study.SweepRising, swept.Shape, "a third may bring more: two are not called enough")
	assert.Equal(t, study.Number(11_000), swept.Points[0].Speed, "of the faster job")

	moved, err := (&study.SensitivityAnalysis{Line: sc.Line, Mix: mix, Plan: plan}).Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.Equal(t, ran.Line.NetRate, moved.NetRate)
	paths := map[string]bool{}
	for _, x := range moved.Effects {
		paths[x.Paths[0]] = true
	}
	assert.True(t, paths["stations.card.misfeed"], "of a feeder that one of the jobs uses")
	assert.True(t, paths["stations.letter.misfeed"])
}

// Other yearly volumes of the jobs are other costs of the same shifts: at each value all is as if the
// file had said it. By hand the hours of a year are those of each job at its own rate.
func TestVolumesAreSwept(t *testing.T) {
	sc, _ := small.CostJobs(t, "run: {min: 50", "run: {min: 50")
	about := &desk.Subject{Scenario: sc}
	plan := sim.Plan{Seed: 3, Min: 20, Max: 20}
	ask := func(values string) *study.CostSweepAnswer {
		q, err := newCostSweep(about, []string{"costs.volumes.adverts=" + values})
		require.NoError(t, err)
		q.Plan = plan
		a, err := q.Ask(t.Context(), nil)
		require.NoError(t, err)
		return a
	}
	swept, alone := ask("1000000,9000000"), ask("9000000,10000000")
	last := &swept.Points[1]
	assert.Equal(t, alone.Points[0].NetRate, last.NetRate)
	assert.Equal(t, alone.Points[0].AllIn, last.AllIn)
	assert.NotEqual(t, swept.Points[0].NetRate, last.NetRate, "the volumes are without effect")

	envelopes, hours := 0.0, 0.0
	for _, j := range swept.Study.Jobs() {
		volume := map[string]float64{"adverts": 9e6, "statements": sc.Costs.Volumes["statements"].Mean()}[j.Study.Line.Name]
		envelopes, hours = envelopes+volume, hours+volume/j.Study.NetRates().Mean()
	}
	assert.InEpsilon(t, envelopes/hours, float64(last.NetRate.Mean), 0.002, "a mean of ratios is not the ratio of means")
}
