package output

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/sim"
	"netrate/sim/portable"
)

// With 9 observations, 1 to 9, a new one lies below the first with probability 1/10: an interval of
// 80 % is from the first to the last, and one of 60 % from the second to the last but one. Of 95 %
// they say too little, and Student's 97.5 % point for 8 degrees of freedom is 2.306 (Fisher and
// Yates, Statistical Tables, table III).
func TestAnother(t *testing.T) {
	s := sim.Sample{1, 2, 3, 4, 5, 6, 7, 8, 9}
	half := 2.306 * math.Sqrt(7.5*(1+1.0/9))
	for level, want := range map[float64][2]float64{0.8: {1, 9}, 0.6: {2, 8}, 0.95: {5 - half, 5 + half}} {
		low, high := Another(s, level)
		assert.InDelta(t, want[0], low, 2e-3, "%g", level)
		assert.InDelta(t, want[1], high, 2e-3, "%g", level)
	}
	low, high := Another(sim.Sample{0, 0, 0, 0, 0, 0, 0, 0, 0, 100}, 0.9) // one far out is within
	assert.Less(t, low, 0.0)
	assert.Equal(t, 100.0, high)
	assert.Panics(t, func() { Another(sim.Sample{1}, 0.95) })
}

// An interval of true means, made of groups of which each mean has chance in it, holds another true
// mean as often as it says: for few groups and many, of one observation and several, that differ much
// less or much more than chance makes them. Made of what is left when the variance of chance is
// subtracted, it holds one far less often.
func TestLongRunHolds(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	const rounds, most, observations = 150, 500, 16
	for _, between := range []float64{0.01, 0.1, 0.3, 1, 10} { // of the variance of an observation within its group
		spread := math.Sqrt(between)
		held, subtracted := map[[2]int]sim.Sample{}, map[[2]int]sim.Sample{}
		for range rounds {
			all := grouped(rng, most, observations, []float64{0}, []float64{spread}, 0, 1)[0]
			for _, groups := range []int{20, 50, 100, 500} {
				for _, each := range []int{1, 4, 16} {
					var some []sim.Sample
					for g := range groups {
						some = append(some, all[g*observations:][:each])
					}
					c := ANOVA(some)
					share := func(means sim.Sample) float64 {
						low, high := Another(means, 0.95)
						return portable.NormalBelow(high/spread) - portable.NormalBelow(low/spread)
					}
					at := [2]int{groups, each}
					held[at] = append(held[at], share(c.LongRun(some)))
					subtracted[at] = append(subtracted[at], share(c.drawnTo(c.Between+c.Within/float64(each*groups), some)))
				}
			}
		}
		for at, shares := range held {
			assert.GreaterOrEqual(t, shares.Interval(0.999).High(), 0.93, "%d groups of %d, between %g", at[0], at[1], between)
		}
		if between == 0.1 {
			assert.Less(t, subtracted[[2]int{50, 4}].Mean(), 0.9, "subtracting would do: this test cannot fail")
		}
	}
}

// What is taken for lasting is the mean over what both mean squares may be, which a sum over a grid of
// both finds too: of the yields of dyestuff, and of the generated example of Box and Tiao, Bayesian
// Inference in Statistical Analysis (1973), section 5.1.2, with six groups of five and mean squares of
// 8.3363 and 14.9459, in which less than nothing is left (both from memory).
func TestLastingShare(t *testing.T) {
	density := func(degrees, x float64) float64 { return math.Exp(degrees/2*math.Log(x) - x/2) } // of the logarithm of χ²
	for name, squares := range map[string][2]float64{"dyestuff": {11271.5, 2451.25}, "generated": {8.3363, 14.9459}} {
		sum, all := 0.0, 0.0
		for i := range 700 {
			for k := range 700 {
				x, y := math.Exp(-12+18*float64(i)/700), math.Exp(-2+8*float64(k)/700)
				whole, chance := 5*squares[0]/x, 24*squares[1]/y
				if d := density(5, x) * density(24, y); whole >= chance {
					sum, all = sum+d*(whole-chance), all+d
				}
			}
		}
		want := sum / all / squares[0] * 3 / 5 // the mean of 5/χ²(5) is 5/3
		assert.InEpsilon(t, want, lastingShare(squares[1]/squares[0], 6, 5), 1e-3, name)
	}
	assert.Equal(t, 1.0, lastingShare(0, 100, 4))
	assert.Equal(t, 1.0, lastingShare(0.9, 100, 1))
	assert.InDelta(t, 0.75, lastingShare(0.25, 100_000, 4), 1e-3, "known well, what is left is taken")
	for _, chance := range []float64{1, 1.2, 2, 50, 1e9, math.Inf(1), math.NaN()} {
		share := lastingShare(chance, 40, 4)
		assert.True(t, share > 0 && !math.IsInf(share, 1), "%g: %g", chance, share)
	}
}
