package study

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/runs"
	"netrate/sim"
)

// The share of 60 shifts that reach the median of their rates is a half, with the exact interval of
// 30 in 60 at 95 %: 0.368 to 0.632. Source: Clopper and Pearson's interval by quantiles of the
// beta distribution; the two numbers follow from B(30, 31) by its normal approximation with
// continuity correction, 0.5 ± (1.96·√(0.25/60) + 1/120), to 0.004 (worked out by hand).
func TestTargetMet(t *testing.T) {
	s := &runs.Study{}
	for i := range 60 {
		s.Shifts = append(s.Shifts, runs.Shift{NetRate: 1000 + float64(i)})
	}
	m := metBy(s, 1030)
	assert.Equal(t, Number(0.5), m.Share)
	assert.InDelta(t, 0.368, float64(m.Low), 0.004)
	assert.InDelta(t, 0.632, float64(m.High), 0.004)
	assert.InDelta(t, 1030-1029.5, float64(m.Short), 1e-9)
	assert.Nil(t, metBy(s, 0), "no target")
	assert.Equal(t, Number(1), metBy(s, 1).Share)
	assert.Zero(t, metBy(s, 1).Short)
}

// What wins a target back does so on paper, by less than a tenth too much of the rate or time, and the
// mildest change stands first.
func TestTargetIsWonBack(t *testing.T) {
	l := sweepLine(1, 12000)
	require.Empty(t, l.Check())
	const short = 300
	want := l.Analytic().NetRate + short
	ways := helpsOnPaper(l, short)
	require.NotEmpty(t, ways)
	for i, w := range ways {
		assert.GreaterOrEqual(t, movedRate(l, w.Path, float64(w.Factor)), want, w.Name)
		assert.Less(t, movedRate(l, w.Path, 1.1*float64(w.Factor)), want, w.Name)
		if i > 0 {
			assert.LessOrEqual(t, w.Factor, ways[i-1].Factor)
		}
	}
	assert.Empty(t, helpsOnPaper(l, 1e6), "more than any of them can")
}

// The digits of a rate or a time are two, and no larger than it is.
func TestRoundedDown(t *testing.T) {
	l := sweepLine(1, 12000)
	clear, _ := l.Parameter("stations.letter.clear")
	misfeed, _ := l.Parameter("stations.letter.misfeed")
	for x, want := range map[float64]float64{49.32: 49, 36: 36, 0.5678: 0.56, 123: 120, 7: 7} {
		assert.InEpsilon(t, want, roundedDown(clear, x), 1e-12)
	}
	for n, want := range map[float64]float64{1363: 1400, 1400: 1400, 6401: 6500, 17.2: 18} {
		assert.InEpsilon(t, 1/want, roundedDown(misfeed, 1/n), 1e-12)
	}
}

// Put back into the line and simulated, what is said to win a target back reaches it. What does so on
// paper, where no operator is busy elsewhere, does not.
func TestTargetIsReachedWhereWonBack(t *testing.T) {
	simulated := func(l *model.Line) float64 {
		s, err := runs.Run(t.Context(), l, sim.Plan{Seed: 2, Min: 300, Max: 300}, nil)
		require.NoError(t, err)
		return s.NetRates().Mean()
	}
	missed, ways := 0, 0
	for _, more := range []float64{50, 100, 200} {
		l := sweepLine(1, 12000)
		a, err := Run{Alternative: Alternative{Name: "swept", Line: l, Target: 3850 + more}, Plan: sim.Plan{Seed: 1, Min: 200, Max: 200}}.Ask(t.Context(), nil)
		require.NoError(t, err)
		require.True(t, a.Target.Looked)
		for _, w := range a.Target.WonBack {
			v, _ := l.Parameter(w.Path)
			assert.GreaterOrEqual(t, simulated(l.Moved(v, float64(w.Factor))), float64(a.Target.Rate), w.Name)
			ways++
		}
		for _, w := range helpsOnPaper(l, float64(a.Target.Short)) {
			v, _ := l.Parameter(w.Path)
			if simulated(l.Moved(v, float64(w.Factor))) < float64(a.Target.Rate) {
				missed++
			}
		}
	}
	assert.Positive(t, ways)
	assert.Positive(t, missed, "paper would do: this test cannot fail")
}

// Ended before all was tried, what wins a target back is left open.
func TestTargetHelpIsEnded(t *testing.T) {
	l := sweepLine(1, 12000)
	before, err := runs.Run(t.Context(), l, sim.Plan{Seed: 1, Min: 20, Max: 20}, nil)
	require.NoError(t, err)
	for after := time.Duration(0); after < 30*time.Millisecond; after += time.Millisecond {
		ctx, end := context.WithTimeout(t.Context(), after)
		m := metBy(before, before.NetRates().Mean()+100)
		require.NoError(t, m.winBack(ctx, before, Basis{}, l, 1))
		assert.True(t, m.Looked || m.WonBack == nil)
		end()
	}
}

// The shifts of one draw of what is uncertain go together: of 100 draws of four, half of which reach
// the target in all shifts and half in none, 200 of 400 independent shifts would be a share of 0.45 to
// 0.55, and the share of the line as it truly is may be anything. Where the draws are alike the exact
// interval of all shifts is what there is.
func TestTargetMetByDraws(t *testing.T) {
	study := func(rate func(draw, k int) float64) *runs.Study {
		s := &runs.Study{Line: &model.Line{UncertainInputs: make([]model.UncertainInput, 1)}, Each: 4}
		for i := range 400 {
			s.Shifts = append(s.Shifts, runs.Shift{NetRate: rate(i/4, i%4)})
		}
		return s
	}
	apart := metBy(study(func(draw, _ int) float64 { return float64(draw % 2) }), 1)
	assert.Equal(t, Number(0.5), apart.Share)
	assert.Zero(t, apart.Low)
	assert.Equal(t, Number(1), apart.High)
	alike := metBy(study(func(_, k int) float64 { return float64(k % 2) }), 1)
	independent := study(func(_, k int) float64 { return float64(k % 2) })
	independent.Each = 0
	assert.Equal(t, metBy(independent, 1), alike)
	assert.InDelta(t, 0.45, float64(alike.Low), 0.005)
}
