package fit

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"
)

// Sources: Newcombe, Stat. Med. 17 (1998) 857–872, Table I; R 4.2.2, binom.test, the
// example of its manual; NIST/SEMATECH e-Handbook 7.2.4.1 (from memory), its digits
// computed.
func TestNewRate(t *testing.T) {
	for _, c := range []struct {
		faults, feeds    int64
		level, low, high float64
	}{
		{81, 263, 0.95, 0.252737, 0.367622},
		{15, 148, 0.95, 0.057844, 0.161650},
		{0, 20, 0.95, 0, 0.168433},
		{1, 29, 0.95, 0.000873, 0.177644},
		{682, 925, 0.95, 0.707668264, 0.765406558},
		{4, 20, 0.90, 0.071353884, 0.401028117},
	} {
		r, err := NewRate(c.faults, c.feeds, c.level)
		require.NoError(t, err)
		assert.InDelta(t, float64(c.faults)/float64(c.feeds), r.P, 1e-15)
		assert.InDelta(t, c.low, r.Low, 1e-6)
		assert.InDelta(t, c.high, r.High, 1e-6)
	}
}

// Where nothing was seen: the rule of three, exact, 1 − 0.05^(1/n); for rare faults the
// one-sided Poisson limit for none, 2.995732, and Garwood's interval for 1, 2, 3, 5, 10.
// All computed, equal to R; the rule is Hanley and Lippman-Hand, JAMA 249 (1983)
// 1743–1745 (from memory).
func TestRateOfRareFaults(t *testing.T) {
	for feeds, want := range map[int64]float64{14: 0.192636, 30: 0.095034, 100: 0.029513, 1000: 0.002991, 3000: 0.000998} {
		r, err := NewRate(0, feeds, 0.95)
		require.NoError(t, err)
		assert.InDelta(t, want, r.AtMost, 1e-6)
		assert.Less(t, r.AtMost, r.High, "one-sided and two-sided taken for each other go unseen")
	}
	const feeds = 1_000_000_000
	for faults, want := range map[int64][2]float64{
		0: {0, 3.6889}, 1: {0.0253, 5.5716}, 2: {0.2422, 7.2247}, 3: {0.6187, 8.7673}, 5: {1.6235, 11.6683}, 10: {4.7954, 18.3904},
	} {
		r, err := NewRate(faults, feeds, 0.95)
		require.NoError(t, err)
		assert.InDelta(t, want[0], feeds*r.Low, 5e-5)
		assert.InDelta(t, want[1], feeds*r.High, 5e-5)
	}
	none, err := NewRate(0, feeds, 0.95)
	require.NoError(t, err)
	assert.InDelta(t, 2.995732, feeds*none.AtMost, 1e-5)
}

func TestNewRateRefuses(t *testing.T) {
	for name, c := range map[string]struct {
		faults, feeds int64
		level         float64
		wrong         string
	}{
		"no feeds":        {0, 0, 0.95, "there are 0 faults in 0 feeds, want 0 ≤ faults ≤ feeds and at least one feed"},
		"more than feeds": {11, 10, 0.95, "there are 11 faults in 10 feeds, want 0 ≤ faults ≤ feeds and at least one feed"},
		"less than none":  {-1, 10, 0.95, "there are -1 faults in 10 feeds, want 0 ≤ faults ≤ feeds and at least one feed"},
		"level in %":      {1, 10, 95, "the level is 95, want above 0.5 and below 1"},
		"level NaN":       {1, 10, math.NaN(), "the level is NaN, want above 0.5 and below 1"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := NewRate(c.faults, c.feeds, c.level)
			assert.EqualError(t, err, c.wrong)
		})
	}
}

// Four groups of 83 of 86, 90 of 93, 129 of 136 and 70 of 82: chi-square 12.6004 at 3
// degrees, P 0.005585. Source: manual of R's prop.test, from Fleiss, Statistical Methods
// for Rates and Proportions (1981), p. 139.
func TestDiffer(t *testing.T) {
	groups := []Group{{"1", 83, 86}, {"2", 90, 93}, {"3", 129, 136}, {"4", 70, 82}}
	d, err := Differ(groups, 1)
	require.NoError(t, err)
	assert.InDelta(t, 12.6004, d.ChiSquare, 5e-5)
	assert.Equal(t, 3, d.DF)
	assert.InDelta(t, 0.005585, d.P, 5e-7)
	assert.False(t, d.Simulated)
	for i, g := range groups { // good feeds for faults: the same
		groups[i].Faults = g.Feeds - g.Faults
	}
	turned, err := Differ(groups, 1)
	require.NoError(t, err)
	assert.InDelta(t, d.ChiSquare, turned.ChiSquare, 1e-9)
}

// The exact P of two groups, from the hypergeometric distribution: 3 of 4 against 1 of 4
// is 34/70 = 0.4857 (Fisher's tea, in the manual of R's fisher.test); the others are
// summed here.
func TestDifferWithFewFaults(t *testing.T) {
	assert.InDelta(t, 34.0/70, exactP(3, 4, 1, 4), 1e-12)
	for _, c := range [][4]int64{{3, 4, 1, 4}, {0, 40, 5, 60}, {2, 1000, 6, 500}, {8, 10, 15, 40}} {
		d, err := Differ([]Group{{"a", c[0], c[1]}, {"b", c[2], c[3]}}, 1)
		require.NoError(t, err)
		assert.True(t, d.Simulated)
		want := exactP(c[0], c[1], c[2], c[3])
		se := math.Sqrt(want * (1 - want) / draws)
		assert.InDelta(t, want, d.P, z999*se+1.0/draws, "%v", c)
		table := distuv.ChiSquared{K: 1}.Survival(d.ChiSquare)
		assert.Greater(t, math.Abs(table-d.P), z999*se+1.0/draws, "%v: the distribution for many faults goes unseen", c)
	}
}

// exactP sums the probabilities of all divisions whose chi-square is as large.
func exactP(k1, n1, k2, n2 int64) float64 {
	k, n := k1+k2, n1+n2
	seen := chiSquare([]int64{k1, k2}, []int64{n1, n2})
	logOf := func(n, k int64) float64 {
		a, _ := math.Lgamma(float64(n + 1))
		b, _ := math.Lgamma(float64(k + 1))
		c, _ := math.Lgamma(float64(n - k + 1))
		return a - b - c
	}
	sum := 0.0
	for i := max(0, k-n2); i <= min(k, n1); i++ {
		if chiSquare([]int64{i, k - i}, []int64{n1, n2}) >= seen-1e-9 {
			sum += math.Exp(logOf(n1, i) + logOf(n2, k-i) - logOf(n, k))
		}
	}
	return sum
}

// The faults dealt to a group vary less than if each fell by itself, for no feed has two:
// variance k·w(1−w)(n−k)/(n−1), hypergeometric. With 40 of 100 that is 0.606 of the
// binomial one.
func TestDealer(t *testing.T) {
	sizes := []int64{20, 20, 60}
	d, s := newDealer(sizes), seeded("dealer", 0)
	squares := make([]float64, 20_000)
	for i := range squares {
		got := d.out(40, s)
		assert.Equal(t, int64(40), got[0]+got[1]+got[2])
		squares[i] = float64((got[1] - 8) * (got[1] - 8))
	}
	want := 40 * 0.2 * 0.8 * 60 / 99
	assert.Less(t, math.Abs(off(squares, want)), z999)
	assert.Greater(t, math.Abs(off(squares, want*99/60)), z999, "faults that fall twice on a feed go unseen")
}

func TestDifferRefuses(t *testing.T) {
	for name, c := range map[string]struct {
		groups []Group
		wrong  string
	}{
		"one group":     {[]Group{{"a", 1, 10}}, "there are 1 groups, want at least 2"},
		"no faults":     {[]Group{{"a", 0, 10}, {"b", 0, 5}}, "there are 0 faults in 15 feeds in all, want some of both, faults and good feeds"},
		"faults alone":  {[]Group{{"a", 10, 10}, {"b", 5, 5}}, "there are 15 faults in 15 feeds in all, want some of both, faults and good feeds"},
		"wrong numbers": {[]Group{{"a", 11, 10}, {"b", 1, 0}}, "group \"a\": there are 11 faults in 10 feeds, want 0 ≤ faults ≤ feeds and at least one feed\ngroup \"b\": there are 1 faults in 0 feeds, want 0 ≤ faults ≤ feeds and at least one feed"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := Differ(c.groups, 1)
			assert.EqualError(t, err, c.wrong)
		})
	}
}
