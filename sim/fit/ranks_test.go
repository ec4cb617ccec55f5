package fit

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim"
)

// Bottle caps of three machines a day: Kruskal and Wallis, J. Amer. Statist. Assoc. 47 (1952)
// 583–621, Table 1.1, with H = 5.656 and a true probability of 0.049 (from memory; H by hand: the
// rank sums are 24, 14 and 40).
func TestDifferInRankPublished(t *testing.T) {
	d, err := DifferInRank([][]float64{{340, 345, 330, 342, 338}, {339, 333, 344}, {347, 343, 349, 355}}, 1)
	require.NoError(t, err)
	assert.InDelta(t, 5.656, d.H, 0.0005)
	assert.Equal(t, 2, d.DF)
	assert.InDelta(t, 0.049, d.P, 0.007, "three standard errors of 9999 deals")
}

// Two groups with ties, by hand: 1 2 2 and 2 3 have ranks 1 3 3 and 3 5, with sums 7 and 8, so that
// H = 12/30 × (49/3 + 64/2) − 18 = 4/3, and 5/3 after the correction 1 − 24/120 for three equal
// values of five. Of the ten ways to deal out the ranks to the group of two, {1, 3} three times,
// {1, 5}, {3, 3} three times and {3, 5} three times, sums of 4 and 8 are as far out: six of ten.
func TestDifferInRankTies(t *testing.T) {
	d, err := DifferInRank([][]float64{{1, 2, 2}, {2, 3}}, 1)
	require.NoError(t, err)
	assert.InDelta(t, 5.0/3, d.H, 1e-12)
	assert.InDelta(t, 0.6, d.P, 0.015)
}

func TestDifferInRankRefuses(t *testing.T) {
	_, err := DifferInRank([][]float64{{1}}, 1)
	assert.ErrorContains(t, err, "at least 2")
	_, err = DifferInRank([][]float64{{1}, {}}, 1)
	assert.ErrorContains(t, err, "no values")
	d, err := DifferInRank([][]float64{{7, 7}, {7}}, 1)
	require.NoError(t, err)
	assert.Equal(t, 1.0, d.P, "all the same")
}

// Of 1,000 pairs of groups from one distribution 5 % have a P below 0.05, within 3.29 standard
// errors, whether P is simulated or not; of groups of which one is half as long again most do.
func TestDifferInRankLevel(t *testing.T) {
	long, err := sim.NewLognormal(60, 0.8)
	require.NoError(t, err)
	s := sim.NewStream("test", "ranks")
	s.Seed(1, 0)
	group := func(n int, times float64) (g []float64) {
		for range n {
			g = append(g, times*float64(long.Draw(s)))
		}
		return g
	}
	shown := func(n, rounds int, times float64) (below int) {
		for k := range rounds {
			d, err := DifferInRank([][]float64{group(n, 1), group(2*n, times)}, uint64(k))
			require.NoError(t, err)
			if d.P < 0.05 {
				below++
			}
		}
		return below
	}
	assert.InDelta(t, 50, shown(fewRanks, 1000, 1), 3.29*6.9)
	assert.InDelta(t, 10, shown(10, 200, 1), 3.29*3.1)
	assert.Greater(t, shown(60, 200, 1.5), 150)
}
