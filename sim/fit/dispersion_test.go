package fit

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim"
)

// counted returns counts of one feed each: 0 faults so often, 1 fault so often, and so on.
func counted(frequency ...int) (counts []Count) {
	for n, times := range frequency {
		for range times {
			counts = append(counts, Count{int64(n), 1})
		}
	}
	return counts
}

// The shapes of published counts: red mites on apple leaves, Bliss and Fisher (1953), who give
// k = 1.0246, and accidents of munition workers, Greenwood and Yule (1920). The data and that figure
// are from memory, the other digits computed apart from this package.
func TestDispersePublishedCounts(t *testing.T) {
	for name, c := range map[string]struct {
		counts []Count
		mean   float64
		k, log float64
	}{
		"mites":     {counted(70, 38, 17, 10, 9, 3, 2, 1), 1.146667, 1.024592, -222.437154},
		"accidents": {counted(447, 132, 42, 21, 3, 2), 0.465224, 0.865116, -592.267097},
	} {
		t.Run(name, func(t *testing.T) {
			d, err := Disperse(c.counts, 0.95)
			require.NoError(t, err)
			assert.InEpsilon(t, c.mean, d.Rate, 1e-6)
			assert.InEpsilon(t, c.k, 1/(d.CV*d.CV), 1e-5)
			assert.InDelta(t, c.log, d.Log, 1e-6)
			assert.Less(t, d.P, 1e-6)
			assert.Less(t, d.Low, d.CV)
			assert.Greater(t, d.High, d.CV)
			assert.InEpsilon(t, (d.High-d.Low)/3.92, d.SE, 0.15, "two ways to say how far it is known")
		})
	}
}

// simulated returns counts of days with gamma factors.
func simulated(random *sim.Stream, days int, rate, cv float64) (counts []Count) {
	for day := range days {
		feeds := int64(20_000 + 5000*(day%3))
		f := 1.0
		if cv > 0 {
			f = random.Gamma(1/(cv*cv)) * cv * cv
		}
		counts = append(counts, Count{random.Binomial(feeds, rate*f), feeds})
	}
	return counts
}

// Of counts by chance alone the P is 0.05 or less in one of twenty; of factors the interval holds the
// CV in nineteen, and the P is small.
func TestDisperseHolds(t *testing.T) {
	random := sim.NewStream("dispersion", "test")
	random.Seed(1, 0)
	const rounds = 300
	low, held, seen := 0, 0, 0
	for range rounds {
		d, err := Disperse(simulated(random, 25, 0.0005, 0), 0.95)
		require.NoError(t, err)
		if d.P <= 0.05 {
			low++
		}
		if d, err = Disperse(simulated(random, 25, 0.0005, 0.5), 0.95); err != nil {
			t.Fatal(err)
		}
		if d.Low <= 0.5 && 0.5 <= d.High {
			held++
		}
		if d.P <= 0.05 {
			seen++
		}
	}
	// Half a chi-square is for many counts: of 25 it is cautious (2.4 % of 2,000 rounds).
	assert.Less(t, float64(low)/rounds, 0.05+3.29*math.Sqrt(0.05*0.95/rounds))
	assert.Positive(t, low)
	assert.InDelta(t, 0.95, float64(held)/rounds, 3.29*math.Sqrt(0.05*0.95/rounds))
	assert.Greater(t, seen, rounds*9/10)
}

// What stations have in common is found, and told from what each has for itself.
func TestShare(t *testing.T) {
	random := sim.NewStream("shared", "test")
	random.Seed(1, 0)
	const rounds = 150
	mean := [3]float64{}
	low, seen := 0, 0
	for range rounds {
		var apart, together [][]Count
		for range 4 {
			apart = append(apart, simulated(random, 30, 0.001, 0.4))
			together = append(together, nil)
		}
		for day := range 30 {
			f := random.Gamma(4) / 4 // cv 0.5
			for i := range together {
				own := 1.0
				if i == 0 {
					own = random.Gamma(4) / 4
				}
				feeds := int64(20_000 + 1000*day)
				together[i] = append(together[i], Count{random.Binomial(feeds, 0.001*f*own), feeds})
			}
		}
		s, err := Share(apart, 1)
		require.NoError(t, err)
		if s.P <= 0.05 {
			low++
		}
		s, err = Share(together, 1)
		require.NoError(t, err)
		if s.P <= 0.05 {
			seen++
		}
		mean[0] += s.CV * s.CV / rounds
		mean[1] += s.Own[0] * s.Own[0] / rounds
		mean[2] += s.Own[1] * s.Own[1] / rounds
	}
	assert.InDelta(t, 0.05, float64(low)/rounds, 3.29*math.Sqrt(0.05*0.95/rounds), "alike by chance")
	assert.Greater(t, seen, rounds*95/100)
	assert.InDelta(t, 0.25, mean[0], 0.02, "shared")
	assert.InDelta(t, 0.25, mean[1], 0.05, "its own")
	assert.Less(t, mean[2], 0.02, "one that has none of its own")
}

// What cannot be fitted is an error, and nothing is NaN.
func TestDisperseRefuses(t *testing.T) {
	for _, counts := range [][]Count{nil, {{1, 5}}, {{0, 5}, {0, 5}}, {{-1, 5}, {1, 5}}, {{1, 0}, {1, 5}}} {
		_, err := Disperse(counts, 0.95)
		assert.Error(t, err)
	}
	_, err := Disperse([]Count{{1, 5}, {2, 5}}, math.NaN())
	assert.Error(t, err)
	for _, counts := range [][]Count{{{1, 5}, {1, 5}}, {{5, 5}, {0, 5}}, {{1000, 1000}, {0, 1e9}}, {{1, 1}, {0, 0}, {1, 1}}} {
		d, err := Disperse(counts, 0.95)
		require.NoError(t, err)
		for _, x := range []float64{d.Rate, d.CV, d.SE, d.Low, d.High, d.Log, d.Poisson, d.P} {
			assert.False(t, math.IsNaN(x), "%+v of %v", d, counts)
		}
	}
	_, err = Share([][]Count{{{1, 5}, {1, 5}, {1, 5}}}, 1)
	assert.Error(t, err)
	_, err = Share([][]Count{{{1, 5}, {1, 5}, {1, 5}}, {{1, 5}, {1, 5}}}, 1)
	assert.Error(t, err)
}

// Factors that are known are allowed for: days that differ by them alone are shown to have others in no
// more than one log of twenty, and the CV of the others is found; without them it is taken for too large.
func TestDisperseBeside(t *testing.T) {
	random := sim.NewStream("dispersion", "beside")
	random.Seed(1, 0)
	const rounds, known = 200, 0.16 // a CV of 0.4
	low, blind, held := 0, 0, 0
	for range rounds {
		counts := simulated(random, 25, 0.0005, math.Sqrt(known))
		beside := make([]float64, len(counts))
		for i := range beside {
			beside[i] = known
		}
		d, err := DisperseBeside(counts, beside, 0.95)
		require.NoError(t, err)
		if d.P <= 0.05 {
			low++
		}
		if d, err = Disperse(counts, 0.95); err == nil && d.P <= 0.05 {
			blind++
		}
		for i := range counts { // a CV of 0.6 beside
			counts[i].Faults = random.Binomial(counts[i].Feeds, 0.0005*random.Gamma(1/known)*known*random.Gamma(1/0.36)*0.36)
		}
		if d, err = DisperseBeside(counts, beside, 0.95); err == nil && d.Low <= 0.6 && 0.6 <= d.High {
			held++
		}
	}
	assert.Less(t, float64(low)/rounds, 0.05+3.29*math.Sqrt(0.05*0.95/rounds))
	assert.Greater(t, blind, rounds/2, "this test cannot fail")
	assert.InDelta(t, 0.95, float64(held)/rounds, 3.29*math.Sqrt(0.05*0.95/rounds))
	_, err := DisperseBeside([]Count{{1, 5}, {2, 5}}, []float64{0}, 0.95)
	require.Error(t, err)
	_, err = DisperseBeside([]Count{{1, 5}, {2, 5}}, []float64{0, math.NaN()}, 0.95)
	require.Error(t, err)
}
