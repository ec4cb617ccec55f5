package output

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim"
)

// Longley's data, Journal of the American Statistical Association 62 (1967) 819–841; slopes
// and standard errors as certified by NIST, Statistical Reference Datasets, Longley (from
// memory).
func TestRegressionOfLongley(t *testing.T) {
	columns := []sim.Sample{
		{83.0, 88.5, 88.2, 89.5, 96.2, 98.1, 99.0, 100.0, 101.2, 104.6, 108.4, 110.8, 112.6, 114.2, 115.7, 116.9},
		{234289, 259426, 258054, 284599, 328975, 346999, 365385, 363112, 397469, 419180, 442769, 444546, 482704, 502601, 518173, 554894},
		{2356, 2325, 3682, 3351, 2099, 1932, 1870, 3578, 2904, 2822, 2936, 4681, 3813, 3931, 4806, 4007},
		{1590, 1456, 1616, 1650, 3099, 3594, 3547, 3350, 3048, 2857, 2798, 2637, 2552, 2514, 2572, 2827},
		{107608, 108632, 109773, 110929, 112075, 113270, 115094, 116219, 117388, 118734, 120445, 121950, 123366, 125368, 127852, 130081},
		{1947, 1948, 1949, 1950, 1951, 1952, 1953, 1954, 1955, 1956, 1957, 1958, 1959, 1960, 1961, 1962},
	}
	y := sim.Sample{60323, 61122, 60171, 61187, 63221, 63639, 64989, 63761, 66019, 67857, 68169, 66513, 68655, 69564, 69331, 70551}
	slopes, errs, ok := regress(columns, y)
	require.True(t, ok)
	for i, want := range [][2]float64{
		{15.0618722713733, 84.9149257747669},
		{-0.358191792925910e-01, 0.334910077722432e-01},
		{-2.02022980381683, 0.488399681651699},
		{-1.03322686717359, 0.214274163161675},
		{-0.511041056535807e-01, 0.226073200069370},
		{1829.15146461355, 455.478499142212},
	} {
		sd := columns[i].SD()
		assert.InEpsilon(t, want[0], slopes[i]/sd, 1e-8, "slope %d", i+1)
		assert.InEpsilon(t, want[1], errs[i]/sd, 1e-8, "error %d", i+1)
	}
}

// Of y = 3a + b + noise, with a uniform on (0, 2) and b on (0, 1), a brings 9/3 and b 1/12:
// the variance of a uniform number is its width squared over 12. What y does not depend on
// brings nothing but chance.
func TestContributions(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	inputs, y := make([][]float64, 4000), make(sim.Sample, 4000)
	for j := range inputs {
		inputs[j] = []float64{2 * rng.Float64(), rng.Float64(), rng.Float64(), 7}
		y[j] = 3*inputs[j][0] + inputs[j][1] + 0.5*rng.NormFloat64()
	}
	parts, ok := Contributions(inputs, y)
	require.True(t, ok)
	const sure = 3.5                                                        // standard errors: three checks of 99.9 % together
	assert.InDelta(t, 3.0, parts[0].Variance, sure*(parts[0].Error+3*0.02)) // the variance of a itself varies by some 2 %
	assert.InDelta(t, 1.0/12, parts[1].Variance, sure*(parts[1].Error+0.02/12))
	assert.InDelta(t, 0, parts[2].Variance, 1e-3)
	assert.Greater(t, parts[1].Variance, 5e-2, "a plain part goes unseen")
	assert.Equal(t, Contribution{}, parts[3])
	assert.InDelta(t, 3, parts[0].Slope, 0.05)
}

func TestTooFewToTell(t *testing.T) {
	_, ok := Contributions([][]float64{{1}, {2}, {3}, {4}}, sim.Sample{1, 2, 3, 4})
	assert.False(t, ok)
	_, ok = Contributions(nil, nil)
	assert.False(t, ok)
	same := [][]float64{{1, 2}, {2, 4}, {3, 6}, {4, 8}, {5, 10}, {6, 12}, {7, 14}}
	_, ok = Contributions(same, sim.Sample{1, 5, 2, 4, 3, 7, 6})
	assert.False(t, ok, "two inputs that always go together cannot be told apart")
	assert.Panics(t, func() { Contributions(same, sim.Sample{1}) })
}
