package lines

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/small"
	"netrate/model"
	"netrate/model/study"
	"netrate/sim"
)

// With yearly volumes of jobs a strategy is for all of them: the file's own delivers the very net rate
// that run has, and the best what run has of a file that says so.
func TestStrategyAtVolumes(t *testing.T) {
	plan := sim.Plan{Seed: 3, Min: 20, Max: 20}
	ran := func(policy string) study.LineAnswer {
		sc, _ := small.CostJobs(t, "run: {min: 50", policy+"run: {min: 50")
		a, err := study.MixRun{Alternative: page.AlternativeOf(sc, "Two jobs"), Plan: plan}.Ask(t.Context(), nil)
		require.NoError(t, err)
		return a.Line
	}
	sc, _ := small.CostJobs(t, "run: {min: 50", "run: {min: 50")
	mix, err := page.AlternativeOf(sc, "Two jobs").Mix()
	require.NoError(t, err)
	q := study.Strategies{Line: sc.Line, Mix: mix, MaxDefective: new(0.01), Volume: sc.Costs.Envelopes(), Plan: plan}
	a, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)

	own, asRun := a.Own(), ran("")
	assert.Equal(t, asRun.NetRate, own.NetRate)
	assert.Equal(t, asRun.Jobs, own.Jobs)
	require.Len(t, own.Exposures, 2)
	assert.Nil(t, own.Exposure)
	best := a.Leading()
	assert.Equal(t, "all feeders: misfeed ship, double ship", best.Otherwise)
	assert.True(t, a.Shown)
	shipped := ran("policy: {misfeed: ship, double: ship}\n")
	assert.Equal(t, shipped.NetRate, best.NetRate)
	assert.Equal(t, shipped.Jobs, best.Jobs)
	assert.InEpsilon(t, float64(shipped.Exposures[0].Year.Volume), float64(best.Exposures[0].Year.Volume), 1e-9, "of its job")

	// The letter's feeder is used by both jobs and the card's by one, which has a third of the envelopes;
	// all ship a misfeed in 900 and a double in 9,000.
	card := mix.Shares[0]
	assert.InEpsilon(t, (1+card)*1e6*(1.0/900+1.0/9000), float64(best.Defective.PerMillion), 0.005)

	q.Never = []model.Forbidden{{Fault: model.Misfeed, Response: model.Ship}}
	kept, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	for _, x := range kept.Strategies {
		assert.NotContains(t, x.Otherwise, "misfeed ship")
	}
	assert.Equal(t, best.NetRate, *kept.Never[0].NetRate, "its price is that of the best with it")
}
