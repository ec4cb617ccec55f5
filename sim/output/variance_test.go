package output

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/stat/distuv"

	"netrate/sim"
)

// Yield of dyestuff in grams, six batches with five samples each: Davies, Statistical Methods
// in Research and Production (1947), table 6.3; mean squares 11271.5 and 2451.25 are printed
// there (from memory).
func TestComponentsOfDyestuff(t *testing.T) {
	c := ANOVA([]sim.Sample{
		{1545, 1440, 1440, 1520, 1580},
		{1540, 1555, 1490, 1560, 1495},
		{1595, 1550, 1605, 1510, 1560},
		{1445, 1440, 1595, 1465, 1545},
		{1595, 1630, 1515, 1635, 1625},
		{1520, 1455, 1450, 1480, 1445},
	})
	assert.InDelta(t, 1527.5, c.Mean, 1e-9)
	assert.InDelta(t, 2451.25, c.Within, 1e-9)
	assert.InDelta(t, (11271.5-2451.25)/5, c.Between, 1e-9)
}

// Four judges and six targets: Shrout and Fleiss, Psychological Bulletin 86 (1979), table 2;
// the mean squares 11.24 and 6.26 and ICC(1,1) = 0.17 are printed there, the interval −0.13 to
// 0.72 is that of later programs (from memory). An end below 0 is reported as 0.
func TestShareOfShroutAndFleiss(t *testing.T) {
	groups := []sim.Sample{{9, 2, 5, 8}, {6, 1, 3, 2}, {8, 4, 6, 8}, {7, 1, 2, 6}, {10, 5, 6, 9}, {6, 2, 4, 7}}
	c := ANOVA(groups)
	assert.InDelta(t, 6.26, c.Within, 0.005)
	assert.InDelta(t, 11.24, 4*c.Between+c.Within, 0.005)
	assert.InDelta(t, 0.17, c.Share(), 0.005)
	low, high := c.ShareInterval(0.95)
	assert.Zero(t, low)
	assert.InDelta(t, 0.72, high, 0.005)
	settled := c.Settled(groups)
	assert.InDelta(t, c.Mean, settled.Mean(), 1e-12)
	assert.InDelta(t, math.Sqrt(c.Lasting), settled.SD(), 1e-12)
}

// The interval of the share holds the true one as often as it says, and one at a lower level
// does not.
func TestShareIntervalHolds(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	const rounds, between, within = 2000, 1.0, 2.0
	held, narrow := int64(0), int64(0)
	for range rounds {
		groups := make([]sim.Sample, 12)
		for i := range groups {
			mean := distuv.Normal{Sigma: math.Sqrt(between), Src: rng}.Rand()
			for range 4 {
				groups[i] = append(groups[i], distuv.Normal{Mu: mean, Sigma: math.Sqrt(within), Src: rng}.Rand())
			}
		}
		c := ANOVA(groups)
		for level, n := range map[float64]*int64{0.95: &held, 0.8: &narrow} {
			if low, high := c.ShareInterval(level); low <= 1.0/3 && 1.0/3 <= high {
				*n++
			}
		}
	}
	low, high := ExactInterval(held, rounds, 0.999)
	assert.True(t, low <= 0.95 && 0.95 <= high, "%d of %d", held, rounds)
	_, high = ExactInterval(narrow, rounds, 0.999)
	assert.Less(t, high, 0.95)
}

func TestComponentsAtTheEnds(t *testing.T) {
	alike := ANOVA([]sim.Sample{{1, 3}, {3, 1}})
	assert.Zero(t, alike.Between)
	assert.Zero(t, alike.Share())
	assert.Equal(t, sim.Sample{2, 2}, alike.Settled([]sim.Sample{{1, 3}, {3, 1}}))
	_, high := alike.ShareInterval(0.95)
	assert.Less(t, high, 1.0)

	apart := ANOVA([]sim.Sample{{1, 1}, {3, 3}})
	assert.InDelta(t, 1, apart.Share(), 1e-15)
	low, high := apart.ShareInterval(0.95)
	assert.InDelta(t, 1, low, 1e-15)
	assert.InDelta(t, 1, high, 1e-15)

	still := ANOVA([]sim.Sample{{2, 2}, {2, 2}})
	assert.Zero(t, still.Share())
	low, high = still.ShareInterval(0.95)
	assert.Zero(t, low)
	assert.Zero(t, high)

	single := ANOVA([]sim.Sample{{1}, {3}}) // what is chance cannot be told
	assert.Zero(t, single.Within)
	assert.InDelta(t, 2, single.Between, 1e-15)
	assert.InDelta(t, 2, single.Lasting, 1e-15)
	low, high = single.ShareInterval(0.95)
	assert.Zero(t, low)
	assert.Equal(t, 1.0, high)

	assert.Panics(t, func() { ANOVA([]sim.Sample{{1, 2}}) })
	assert.Panics(t, func() { ANOVA([]sim.Sample{{1, 2}, {2, 3, 4}}) })
	assert.Panics(t, func() { alike.ShareInterval(1) })
}
