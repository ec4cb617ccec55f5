package fit

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"
)

// Ages at repair to 1500 hours. Source: NIST/SEMATECH e-Handbook 8.2.2.3, whose R code
// prints the estimate 0.516494 of 1 − shape, the mean time between failures 310.234 at
// the end and its 80 % limits 157.7138 and 548.5566. The test figures 37.22808 (P below
// 0.98901), −1.32695 (0.09226) and 33 of 45 are of 8.2.3.4 (from memory), recomputed.
func TestDrift(t *testing.T) {
	times, _ := numbers(t, "testdata/nist_repairs.csv")
	d, err := Drift(times, 1500, 0.80)
	require.NoError(t, err)
	assert.InDelta(t, 0.516494, 1-d.Shape, 5e-7)
	assert.InDelta(t, 310.234, d.Between, 5e-4)
	assert.InDelta(t, 157.7138, d.Low, 5e-5)
	assert.InDelta(t, 548.5566, d.High, 5e-5)
	assert.InDelta(t, 0.2913003, 10/math.Pow(1500, d.Shape), 5e-8, "its factor of the power law")
	assert.InDelta(t, 0.537229, d.Shape*10/9, 5e-7, "plain maximum likelihood")
	assert.InDelta(t, 37.22808, d.Handbook, 5e-6)
	assert.InDelta(t, 2*(1-0.98901), d.HandbookP, 1.1e-5)
	assert.InDelta(t, -1.32695, d.Laplace, 5e-6)
	assert.InDelta(t, 2*0.09226, d.LaplaceP, 1.1e-5)
	assert.Equal(t, 33, d.Longer)
	assert.Equal(t, 45, d.Pairs)
	assert.InDelta(t, 2*distuv.UnitNormal.Survival(11/math.Sqrt(31.25)), d.LongerP, 1e-12, "33 and half of a pair of equal ones; mean 22.5, variance 31.25: Kendall's, computed")
}

// Independent stops show a trend in one record of twenty, by each of the tests; stops
// twice as frequent at the end as on average are seen.
func TestDriftHoldsItsLevel(t *testing.T) {
	const records, stops, end = 1000, 20, 100.0
	var steady, rising [3]int
	for i := range records {
		s := seeded("drift", i)
		times := make([]float64, 0, stops)
		for at := end * s.Exponential() / stops; at < end; at += end * s.Exponential() / stops {
			times = append(times, at)
		}
		count := func(times []float64, hits *[3]int) {
			d, err := Drift(times, end, 0.95)
			require.NoError(t, err)
			for j, p := range []float64{d.LaplaceP, d.HandbookP, d.LongerP} {
				if p <= 0.05 {
					hits[j]++
				}
			}
		}
		count(times, &steady)
		for j, at := range times {
			times[j] = end * math.Sqrt(at/end) // shape 2
		}
		count(times, &rising)
	}
	for j, test := range []string{"Laplace", "handbook", "order of gaps"} {
		assert.True(t, shared(steady[j], records, 0.05, 3), "%s: %d of %d", test, steady[j], records)
		assert.False(t, shared(rising[j], records, 0.05, 3), "%s: a trend goes unseen", test)
	}
}

func TestDriftFinding(t *testing.T) {
	for want, times := range map[string][]float64{
		"No trend in the stops is shown (P = 0.9966).":                                              {10, 30, 50, 70, 90},
		"The stops become rarer (P = 0.0011): one mean for the whole time says too little.":         {1, 2, 4, 8, 16, 32},
		"The stops become more frequent (P = 0.0003): one mean for the whole time says too little.": {75, 82, 88, 92, 95, 97},
	} {
		d, err := Drift(times, 100, 0.95)
		require.NoError(t, err)
		assert.Equal(t, want, d.Finding())
	}
}

func TestDriftRefuses(t *testing.T) {
	for name, c := range map[string]struct {
		times []float64
		end   float64
		wrong string
	}{
		"too few":       {[]float64{1, 2, 3}, 10, "there are 3 stops, want at least 5 to see a trend"},
		"out of order":  {[]float64{1, 2, 5, 4, 6}, 10, "stop 4 is at 4, want more than 0, not before the stop before, and not after the end, 10"},
		"after the end": {[]float64{1, 2, 3, 4, 6}, 5, "stop 5 is at 6, want more than 0, not before the stop before, and not after the end, 5"},
		"NaN":           {[]float64{math.NaN(), 2, 3, 4, 6}, 7, "stop 1 is at NaN, want more than 0, not before the stop before, and not after the end, 7"},
		"end NaN":       {[]float64{1, 2, 3, 4, 6}, math.NaN(), "stop 1 is at 1, want more than 0, not before the stop before, and not after the end, NaN"},
		"all at end":    {[]float64{5, 5, 5, 5, 5}, 5, "all stops came at the end: no trend can be fitted"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := Drift(c.times, c.end, 0.95)
			assert.EqualError(t, err, c.wrong)
		})
	}
	d, err := Drift([]float64{1, 2, 3, 4, 5}, 6, 0.9999)
	require.NoError(t, err)
	assert.True(t, math.IsInf(d.High, 1), "too few stops for an upper limit")
}
