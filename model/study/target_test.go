package study

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model/runs"
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
	m := metBy(s, 1030, nil)
	assert.Equal(t, Number(0.5), m.Share)
	assert.InDelta(t, 0.368, float64(m.Low), 0.004)
	assert.InDelta(t, 0.632, float64(m.High), 0.004)
	assert.InDelta(t, 1030-1029.5, float64(m.Short), 1e-9)
	assert.Nil(t, metBy(s, 0, nil), "no target")
	assert.Equal(t, Number(1), metBy(s, 1, nil).Share)
	assert.Zero(t, metBy(s, 1, nil).Short)
}

// What wins a target back does so on paper, to the envelope, and the mildest change stands first.
func TestTargetIsWonBack(t *testing.T) {
	l := sweepLine(1, 12000)
	require.Empty(t, l.Check())
	const short = 300
	ways := wonBack(l, short)
	require.NotEmpty(t, ways)
	for i, w := range ways {
		assert.InDelta(t, l.Analytic().NetRate+short, movedRate(l, w.Path, float64(w.Factor)), 0.01, w.Name)
		if i > 0 {
			assert.LessOrEqual(t, w.Factor, ways[i-1].Factor)
		}
	}
	assert.Empty(t, wonBack(l, 1e6), "more than any of them can")
}

// The shifts of one draw of what is uncertain go together: of 100 draws of four, half of which reach
// the target in all shifts and half in none, 200 of 400 independent shifts would be a share of 0.45 to
// 0.55, and the share of the line as it truly is may be anything. Where the draws are alike the exact
// interval of all shifts is what there is.
func TestTargetMetByDraws(t *testing.T) {
	study := func(rate func(draw, k int) float64) *runs.Study {
		s := &runs.Study{Each: 4}
		for i := range 400 {
			s.Shifts = append(s.Shifts, runs.Shift{NetRate: rate(i/4, i%4)})
		}
		return s
	}
	apart := metBy(study(func(draw, _ int) float64 { return float64(draw % 2) }), 1, nil)
	assert.Equal(t, Number(0.5), apart.Share)
	assert.Zero(t, apart.Low)
	assert.Equal(t, Number(1), apart.High)
	alike := metBy(study(func(_, k int) float64 { return float64(k % 2) }), 1, nil)
	independent := study(func(_, k int) float64 { return float64(k % 2) })
	independent.Each = 0
	assert.Equal(t, metBy(independent, 1, nil), alike)
	assert.InDelta(t, 0.45, float64(alike.Low), 0.005)
}
