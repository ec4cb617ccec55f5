package runs

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/sim"
	"netrate/sim/output"
)

// In the line without buffers the effect of every parameter follows from E = 1 / (1 + Σ pᵢ dᵢ),
// times in cycles: halved or doubled, pᵢ or dᵢ changes one term of the sum. All intervals
// together hold the truth in 99.9 % of cases, and one that is 5 % off is seen.
//
// Source: the formula of TestZeroBufferLine; the differences are computed, no print found.
func TestSensitivitiesOfZeroBufferLine(t *testing.T) {
	const perHour, factor = 3600.0, 2.0
	faults := []modeltest.ZeroBufferFaults{{Stations: 2, Fault: 0.01, Caught: 1, Down: 20}, {Stations: 1, Fault: 0.002, Caught: 1, Down: 60}, {Stations: 1, Fault: 0.0005, Caught: 1, Down: 40}}
	l := modeltest.ZeroBufferLine(perHour, 1, faults...)
	l.Shift = 20_000
	sum := 0.0
	terms := map[string]float64{}
	for _, f := range faults {
		for range f.Stations {
			name := l.Stations[len(terms)].Where().Name
			terms[name] = f.Fault * float64(f.Down)
			sum += terms[name]
		}
	}
	change := func(term, factor float64) float64 {
		return perHour/(1+sum+term*(factor-1)) - perHour/(1+sum)
	}
	s, err := Sensitivities(t.Context(), Work{Line: l}, sim.Plan{Seed: 3, Min: 300, Max: 300}, factor, 0.999, nil)
	require.NoError(t, err)
	require.Len(t, s.Effects, 8, "double and clear of four stations")
	for _, e := range s.Effects {
		term := terms[e.Parameters[0].Station]
		for factor, m := range map[float64]Move{1 / factor: e.Lower, factor: e.Higher} {
			want := change(term, factor)
			d := m.NetRate.Difference
			assert.InDelta(t, want, d.Mean, d.Half, "%s times %v", e.Parameters[0].Path(), factor)
		}
	}
	best := s.Effects[0].Lower.NetRate.Difference
	want := change(terms["station 1"], 0.5)
	assert.Greater(t, 1.05*want, best.High(), "an effect 5 %% off goes unseen: this test cannot fail")

	for _, e := range s.Effects {
		assert.Equal(t, terms[e.Parameters[0].Station] == 0.2, e.Rival || &e.Parameters[0] == &s.Effects[0].Parameters[0],
			"%s: alike are only the two stations with the largest term", e.Parameters[0].Path())
	}
	require.Len(t, s.Kinds, 2, "doubles and clearing times")
	for _, e := range s.Kinds {
		d := e.Lower.NetRate.Difference
		assert.InDelta(t, change(sum, 0.5), d.Mean, d.Half, e.Kind)
	}
}

// The first effect gains most, and every comparison has its share of the uncertainty.
func TestSensitivitiesAreRanked(t *testing.T) {
	l := modeltest.ReferenceLine()
	l.Shift = 3600
	s, err := Sensitivities(t.Context(), Work{Line: l}, sim.Plan{Seed: 1, Min: 64, Max: 64, Workers: 2}, 2, 0.95, nil)
	require.NoError(t, err)
	require.Len(t, s.Effects, len(l.Parameters()))
	for i, e := range s.Effects {
		if i > 0 {
			assert.LessOrEqual(t, e.Lower.NetRate.Difference.Mean, s.Effects[i-1].Lower.NetRate.Difference.Mean)
		}
		assert.InDelta(t, 1-0.05/float64(2*(len(s.Effects)+len(s.Kinds))), e.Higher.NetRate.Difference.Level, 1e-12)
	}
	var kinds []string
	for _, k := range s.Kinds {
		kinds = append(kinds, k.Kind)
	}
	assert.ElementsMatch(t, []string{"misfeeds", "doubles", "jams", "clearing times", "refilling and emptying times"}, kinds)
	assert.Equal(t, referenceLineOfAnHour(), l, "the line is as it was")
}

func referenceLineOfAnHour() *model.Line {
	l := modeltest.ReferenceLine()
	l.Shift = 3600
	return l
}

// Each move is the line with that one parameter moved, on the random numbers of the line as it is.
func TestSensitivityIsOfMovedLines(t *testing.T) {
	l := referenceLineOfAnHour()
	plan := sim.Plan{Seed: 1, Min: 20, Max: 20}
	s, err := Sensitivities(t.Context(), Work{Line: l}, plan, 3, 0.95, nil)
	require.NoError(t, err)
	base, err := Run(t.Context(), l, plan, nil)
	require.NoError(t, err)
	assert.Equal(t, base, s.Base)
	v := s.Effects[0].Parameters[0]
	moved, err := Run(t.Context(), l.Moved(v, 1.0/3), plan, nil)
	require.NoError(t, err)
	want := output.Paired(base.NetRates(), moved.NetRates(), 0.95).Difference.Mean
	assert.Equal(t, want, s.Effects[0].Lower.NetRate.Difference.Mean)
}

// What cannot be moved so far is said, and the rest is moved all the same.
func TestSensitivitySaysWhatCannotBe(t *testing.T) {
	l := referenceLineOfAnHour()
	l.Stations[1].(*model.Feeder).Misfeed = 0.6
	s, err := Sensitivities(t.Context(), Work{Line: l}, sim.Plan{Seed: 1, Min: 4, Max: 4}, 2, 0.95, nil)
	require.NoError(t, err)
	impossible := 0
	for _, e := range s.Effects {
		require.NoError(t, e.Lower.Impossible)
		if e.Higher.Impossible != nil {
			impossible++
			assert.Equal(t, "stations.2.misfeed", e.Parameters[0].Path())
			assert.ErrorContains(t, e.Higher.Impossible, "misfeed is 1.2, want a probability")
			assert.Equal(t, "120 %", e.Higher.Value)
			assert.Zero(t, e.Higher.NetRate)
		}
	}
	assert.Equal(t, 1, impossible)
}

// Cancelled before the first replication, nothing is known and nothing is claimed.
func TestSensitivityOfNothing(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	s, err := Sensitivities(ctx, Work{Line: modeltest.ReferenceLine()}, sim.Plan{Min: 1, Max: 1}, 2, 0.95, nil)
	require.NoError(t, err)
	assert.Equal(t, sim.Cancelled, s.Base.Ending)
	assert.Empty(t, s.Base.Shifts)
	assert.Zero(t, s.Effects[0].Lower.NetRate.Difference.N)
}

// Of a mix, a move is made in every job, and the net rate is that of the jobs together: as if the line
// were moved first, and then set up for each.
func TestSensitivityOfAMix(t *testing.T) {
	l := referenceLineOfAnHour()
	volumes := map[string]float64{"few": 1e6, "all": 2e6}
	mix, err := mixOf(l, twoProducts(), volumes)
	require.NoError(t, err)
	plan := sim.Plan{Seed: 3, Min: 20, Max: 20, Workers: 2}
	s, err := Sensitivities(t.Context(), Work{Mix: mix}, plan, 2, 0.95, nil)
	require.NoError(t, err)
	base := mixedRun(t, 20, l)[0]
	assert.Equal(t, base.NetRates(), s.Base.NetRates())
	require.Len(t, s.Effects, len(l.Parameters()), "those of feeders that one job uses, too")
	for _, x := range s.Effects {
		v, has := l.Parameter(x.Parameters[0].Path())
		require.True(t, has)
		moved := mixedRun(t, 20, l.Moved(v, 0.5))[0]
		want := output.Paired(base.NetRates(), moved.NetRates(), 0.95).Difference.Mean
		assert.InDelta(t, want, x.Lower.NetRate.Difference.Mean, 1e-6, v.Path())
	}
}
