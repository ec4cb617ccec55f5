package output

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/sim"
	"netrate/sim/portable"
)

// grouped returns observations of systems whose true means in each group are normal, with noise of
// which a part is common to all.
func grouped(rng *rand.Rand, groups, each int, means, spreads []float64, common, own float64) []sim.Sample {
	all := make([]sim.Sample, len(means))
	for range groups {
		truth := make([]float64, len(means))
		for i := range truth {
			truth[i] = means[i] + spreads[i]*rng.NormFloat64()
		}
		for range each {
			shared := common * rng.NormFloat64()
			for i := range all {
				all[i] = append(all[i], truth[i]+shared+own*rng.NormFloat64())
			}
		}
	}
	return all
}

// Of two normal true means that are independent, the first is the larger with the probability
// Φ(difference of the means / root of the sum of the variances); 20,000 groups know that to
// 0.0035. Noise as large as the spreads would bring it to Φ(0.3) if it were not taken out.
func TestBestOfTwo(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	got := BestOf(grouped(rng, 20_000, 2, []float64{0.6, 0}, []float64{0.6, 0.8}, 3, 1), 2)
	want := portable.NormalBelow(0.6)
	assert.InDelta(t, want, got[0], 3.29*0.0035+0.005)
	assert.InDelta(t, 1, got[0]+got[1], 1e-12)
	assert.Greater(t, math.Abs(portable.NormalBelow(0.6/math.Sqrt2)-got[0]), 0.03, "noise that is left in goes unseen")
}

// Three that are alike are the best with a third each, and a fourth that is one of them shares.
func TestBestOfFour(t *testing.T) {
	all := grouped(rand.New(rand.NewPCG(3, 4)), 10_000, 3, []float64{1, 1, 1}, []float64{1, 1, 1}, 2, 1)
	for i, p := range BestOf(append(all, all[1]), 3) {
		want := [...]float64{1.0 / 3, 1.0 / 6, 1.0 / 3, 1.0 / 6}[i]
		assert.InDelta(t, want, p, 3.29*math.Sqrt(want*(1-want)/10_000)+0.005)
	}
}

// Where groups do not differ but by chance, what is not known is the mean of all and, of few groups,
// whether they differ: one standard error off, a system is ahead with less than Φ(1), and with more
// than a half.
func TestBestOfWithoutUncertainty(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	sum, rounds := 0.0, 200
	for range rounds {
		all := grouped(rng, 50, 4, []float64{1 / math.Sqrt(200), 0}, []float64{0, 0}, 5, math.Sqrt(0.5))
		sum += BestOf(all, 4)[0]
	}
	// The estimate is off by a standard error itself, so that on average Φ(1/√2) would be stated of
	// groups of which it is known that they do not differ.
	assert.Less(t, sum/float64(rounds), portable.NormalBelow(1/math.Sqrt2)-0.06, "that 50 groups may differ goes unseen")
	assert.Greater(t, sum/float64(rounds), 0.56)
}

// The eigenvalues of the matrix with 2 beside −1 are 2 − √2, 2 and 2 + √2: those of a string of
// three beads, as any textbook of vibrations has them (from memory).
func TestEigen(t *testing.T) {
	m := [][]float64{{2, -1, 0}, {-1, 2, -1}, {0, -1, 2}}
	values, vectors := eigen(m)
	assert.InDelta(t, 6, values[0]+values[1]+values[2], 1e-12)
	for j, x := range values {
		assert.InDelta(t, 0, (x-2)*(float64(x*x)-4*x+2), 1e-12)
		for i := range m {
			sum := 0.0
			for k := range m {
				sum += m[i][k] * vectors[k][j]
			}
			assert.InDelta(t, x*vectors[i][j], sum, 1e-12)
		}
	}
	root, inverse := rootOf(m)
	assert.InDeltaSlice(t, m[0], product(root, root)[0], 1e-12)
	assert.InDeltaSlice(t, []float64{0, 1, 0}, product(root, inverse)[1], 1e-12)
}
