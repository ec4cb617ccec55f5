package output

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/sim"
)

// By hand, from the definition.
func TestAmongDrawn(t *testing.T) {
	for name, c := range map[string]struct {
		x     float64
		drawn sim.Sample
		want  float64
	}{
		"above all":        {9, sim.Sample{1, 2, 3, 4}, 2.0 / 5},
		"below all":        {0, sim.Sample{1, 2, 3, 4}, 2.0 / 5},
		"one above":        {3.5, sim.Sample{1, 2, 3, 4}, 4.0 / 5},
		"in the middle":    {2.5, sim.Sample{1, 2, 3, 4}, 1},
		"as high as one":   {4, sim.Sample{1, 2, 3, 4}, 4.0 / 5},
		"all alike":        {7, sim.Sample{7, 7, 7, 7}, 1},
		"nothing is drawn": {7, nil, 1},
		"infinite":         {math.Inf(1), sim.Sample{1, 2, 3}, 2.0 / 4},
		"NaN is drawn":     {9, sim.Sample{1, math.NaN(), math.NaN()}, 1},
	} {
		t.Run(name, func(t *testing.T) { assert.InDelta(t, c.want, AmongDrawn(c.x, c.drawn), 1e-15) })
	}
	assert.True(t, math.IsNaN(AmongDrawn(math.NaN(), sim.Sample{1, 2})))
}

// Each of R + 1 figures that differ takes the place of x in turn, as chance would have it: a
// P at or below α comes as seldom as it should, and where α (R + 1) / 2 is whole, exactly so.
func TestAmongDrawnIsExact(t *testing.T) {
	for _, c := range []struct {
		draws int
		alpha float64
		exact bool
	}{{399, 0.05, true}, {399, 0.01, true}, {400, 0.05, false}, {19, 0.05, false}, {39, 0.05, true}} {
		var all sim.Sample
		for i := range c.draws + 1 {
			all = append(all, math.Sin(float64(i)))
		}
		hits := 0
		for i, x := range all {
			if AmongDrawn(x, slices.Concat(all[:i], all[i+1:])) <= c.alpha {
				hits++
			}
		}
		share := float64(hits) / float64(len(all))
		assert.LessOrEqual(t, share, c.alpha, "%d draws", c.draws)
		if c.exact {
			assert.InDelta(t, c.alpha, share, 1e-12, "%d draws", c.draws)
		}
	}
}

// By hand, from the definition; Bonferroni's procedure would pass over the second of "two of
// four".
func TestHolm(t *testing.T) {
	nan := math.NaN()
	for name, c := range map[string]struct {
		ps   []float64
		want []bool
	}{
		"two of four":             {[]float64{0.016, 0.04, 0.03, 0.005}, []bool{true, false, false, true}},
		"all":                     {[]float64{0.0125, 0.016, 0.025, 0.05}, []bool{true, true, true, true}},
		"the smallest is too big": {[]float64{0.013, 0.014, 0.015, 0.016}, []bool{false, false, false, false}},
		"one":                     {[]float64{0.05}, []bool{true}},
		"not known":               {[]float64{nan, 0.01, nan}, []bool{false, true, false}},
		"all not known":           {[]float64{nan, nan}, []bool{false, false}},
		"none":                    {nil, []bool{}},
	} {
		t.Run(name, func(t *testing.T) { assert.Equal(t, c.want, Holm(c.ps, 0.05)) })
	}
}
