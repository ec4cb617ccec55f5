package fit

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim"
)

// Certified lag-1 autocorrelations: NIST Statistical Reference Datasets, univariate.
func TestSerial(t *testing.T) {
	for name, want := range map[string]float64{
		"pidigits": -0.00355099287237972, "lottery": -0.120948622967393, "lew": -0.307304800605679,
		"mavro": 0.937989183438248, "michelson": 0.535199668621283,
	} {
		x, _ := numbers(t, "../testdata/nist_"+name+".txt")
		assert.InEpsilon(t, want, serial(x), 1e-9, name)
	}
	assert.InDelta(t, -0.5, serial([]float64{10000001, 10000003, 10000002}), 1e-9, "NumAcc1")
	for base, within := range map[float64]float64{1.2: 1e-9, 1000000.2: 1e-8, 10000000.2: 1e-6} {
		x := []float64{base}
		for range 500 {
			x = append(x, base-0.1, base+0.1)
		}
		assert.InDelta(t, -0.999, serial(x), within, "NumAcc2, 3 and 4")
	}
	assert.Zero(t, serial([]float64{4, 4, 4}))
}

// serial returns the correlation of each value with the next.
func serial(x []float64) float64 {
	products, squares := moments(x)
	if squares == 0 {
		return 0
	}
	return products / squares
}

func TestRanks(t *testing.T) {
	assert.Equal(t, []float64{3.5, 1, 5, 3.5, 2}, ranks([]int64{40, 7, 90, 40, 8}))
	assert.Equal(t, []float64{2, 2, 2}, ranks([]int64{5, 5, 5}))
}

// Stops at feeds 10, 12, 15 and 18 of 20, in windows of 5: counts 0, 1, 2, 1, mean 1 and
// variance 2/3. One stop at the end of each window: no variance. Gaps 10, 2, 3, 3: mean
// 4.5, variance 41/3.
func TestDispersionAndSpread(t *testing.T) {
	assert.InDelta(t, 2./3, dispersion([]int64{10, 12, 15, 18}, 20, 4), 1e-12)
	assert.Zero(t, dispersion([]int64{5, 10, 15, 20}, 20, 4))
	assert.InDelta(t, math.Sqrt(41./3)/4.5, spread([]int64{10, 12, 15, 18}), 1e-12)
	assert.Zero(t, spread([]int64{5, 10, 15, 20}))
}

// Stops on different feeds: the variance of the counts of 40 in four windows of 25 is
// hypergeometric, so that the mean dispersion is (100 − 40)/(100 − 1) = 0.606; were two
// stops to fall on one feed it would be 1.
func TestScatter(t *testing.T) {
	at, s := make([]int64, 40), seeded("scatter", 0)
	x := make([]float64, 10_000)
	for i := range x {
		scatter(at, 100, make([]float64, 40), s)
		for j := 1; j < len(at); j++ {
			require.Less(t, at[j-1], at[j])
		}
		require.True(t, at[0] >= 1 && at[39] <= 100)
		x[i] = dispersion(at, 100, 4)
	}
	assert.Less(t, math.Abs(off(x, 60./99)), z999)
	assert.Greater(t, math.Abs(off(x, 1)), z999)
	scatter(at, 40, make([]float64, 40), s)
	assert.Equal(t, int64(40), at[39], "a stop at every feed")
}

// The shares of random orders against all 720 orders of six gaps.
func TestOrderAgainstAllOrders(t *testing.T) {
	gaps := []int64{10, 30, 20, 50, 60, 40}
	seen := serial(ranks(gaps))
	above, below, all := 0.0, 0.0, 0.0
	var permute func(r []float64, n int)
	permute = func(r []float64, n int) {
		if n == 1 {
			all++
			if serial(r) >= seen-1e-9 {
				above++
			}
			if serial(r) <= seen+1e-9 {
				below++
			}
			return
		}
		for i := range n {
			permute(r, n-1)
			j := 0
			if n%2 == 0 {
				j = i
			}
			r[j], r[n-1] = r[n-1], r[j]
		}
	}
	permute(ranks(gaps), len(gaps))
	require.InDelta(t, 720, all, 0)
	want := 2 * min(above, below) / all
	b := Bursts{Stops: len(gaps)}
	b.ordered(series{newRow(Stretch{Gaps: gaps})}, draws, 1)
	margin := z999 * 2 * math.Sqrt(want/2*(1-want/2)/draws)
	assert.InDelta(t, want, b.CorrelationP, margin)
	assert.Greater(t, math.Abs(want/2-b.CorrelationP), margin, "one side taken for both goes unseen")
}

// independent returns gaps of a station that stops with the same probability at each feed.
func independent(n, replication int) []int64 {
	s, gap := seeded("independent", replication), sim.NewGap(0.001)
	gaps := make([]int64, n)
	for i := range gaps {
		gaps[i] = gap.Draw(s)
	}
	return gaps
}

// bursty returns gaps of a station with good and bad times: after each stop they change
// with a probability of one in six.
func bursty(n, replication int) []int64 {
	s := seeded("bursty", replication)
	good, bad := sim.NewGap(0.0004), sim.NewGap(0.01)
	gaps, isBad := make([]int64, n), false
	for i := range gaps {
		if s.Chance(1. / 6) {
			isBad = !isBad
		}
		gaps[i] = good.Draw(s)
		if isBad {
			gaps[i] = bad.Draw(s)
		}
	}
	return gaps
}

// fallen returns gaps in bursts: a third of them long, the others short, in no order.
func fallen(n, replication int) []int64 {
	s := seeded("fallen", replication)
	good, bad := sim.NewGap(0.0004), sim.NewGap(0.02)
	gaps := make([]int64, n)
	for i := range gaps {
		gaps[i] = bad.Draw(s)
		if s.Chance(1. / 3) {
			gaps[i] = good.Draw(s)
		}
	}
	return gaps
}

// Each test calls independent stops bursts in one record of twenty, and each finds its own
// kind of bursts in most. Where the gaps fall in no order, their order must show nothing.
func TestPatternHoldsItsLevel(t *testing.T) {
	const records = 100
	count := func(n int, gaps func(n, replication int) []int64) (hits [3]int) {
		for i := range records {
			b, err := pattern(gaps(n, i), 300, uint64(i))
			require.NoError(t, err)
			for j, p := range []float64{b.DispersionP, b.SpreadP, b.CorrelationP} {
				if p <= 0.05 {
					hits[j]++
				}
			}
		}
		return hits
	}
	steady, times, short := count(20, independent), count(40, bursty), count(20, fallen)
	for j, test := range []string{"windows", "gaps", "order"} {
		assert.True(t, shared(steady[j], records, 0.05, 4), "%s: %d of %d", test, steady[j], records)
		assert.False(t, shared(times[j], records, 0.05, 1), "%s: good and bad times go unseen: %d", test, times[j])
	}
	assert.False(t, shared(short[1], records, 0.05, 1), "bursts go unseen: %d", short[1])
	assert.True(t, shared(short[2], records, 0.05, 4), "order: %d of %d", short[2], records)
}

// Two jobs of which one has ten times the stops of the other for each feed, without a burst: as
// one stretch they seem to come in bursts nearly always, as two in one record of twenty. Where
// the rarer job has good and bad times, these are found.
func TestPatternWithinJobs(t *testing.T) {
	const records = 100
	rare := func(n, i int) []int64 {
		gaps := independent(n, 1000+i)
		for k := range gaps {
			gaps[k] *= 10
		}
		return gaps
	}
	significant := func(b Bursts, err error) bool {
		require.NoError(t, err)
		return min(b.DispersionP, b.SpreadP, b.CorrelationP) <= 0.05/3
	}
	apart, together, real := 0, 0, 0
	for i := range records {
		often, seldom := independent(60, i), rare(40, i)
		if significant(Pattern([]Stretch{{often, 300}, {seldom, 300}}, unlikely/3, uint64(i))) {
			apart++
		}
		if significant(pattern(append(append([]int64{}, often...), seldom...), 300, uint64(i))) {
			together++
		}
		if significant(Pattern([]Stretch{{often, 300}, {bursty(60, i), 300}}, unlikely/3, uint64(i))) {
			real++
		}
	}
	assert.True(t, shared(apart, records, 0.05, 1), "%d of %d", apart, records)
	assert.Greater(t, together, 90, "the old answer: two jobs are a burst")
	assert.Greater(t, real, 60)
}

// Of many stops the draws end when they have shown enough: P is that of all draws to a seventh,
// where it is large, and the same where it is small.
func TestPatternEndsEarly(t *testing.T) {
	many := 0
	for i := range 20 {
		b, err := pattern(independent(150, i), 300, uint64(i))
		require.NoError(t, err)
		if min(b.DispersionP, b.SpreadP, b.CorrelationP) <= 0.05/3 {
			many++
		}
	}
	assert.LessOrEqual(t, many, 4)
	b, err := pattern(bursty(300, 1), 300, 1)
	require.NoError(t, err)
	assert.Less(t, b.DispersionP, 0.001)
}

func TestPatternFinding(t *testing.T) {
	regular, turns := make([]int64, 40), make([]int64, 40)
	for i := range regular {
		regular[i] = 1000 + int64(i*i*i)%11
		turns[i] = regular[i] * (1 + 5*int64(i%2))
	}
	for _, c := range []struct {
		gaps  []int64
		start string
	}{
		{independent(60, 0), "The stops look independent: stops in windows vary "},
		{bursty(60, 0), "The stops come in bursts, or there are good and bad times: stops in windows vary "},
		{regular, "The stops come more regularly than independent ones: stops in windows vary "},
	} {
		b, err := pattern(c.gaps, 0, 1)
		require.NoError(t, err)
		assert.Contains(t, b.Finding(), c.start)
		again, err := pattern(c.gaps, 0, 1)
		require.NoError(t, err)
		assert.Equal(t, b, again)
	}
	b, err := pattern(turns, 0, 1)
	require.NoError(t, err)
	assert.Less(t, b.Correlation, -0.5)
	assert.Less(t, b.CorrelationP, 0.001)
	assert.Contains(t, Bursts{DispersionP: 0.5, SpreadP: 0.5, Correlation: -0.9, CorrelationP: 0.001}.Finding(), "Short and long gaps take turns")
}

func TestPatternRefuses(t *testing.T) {
	_, err := pattern([]int64{5, 0, 3}, -1, 1)
	assert.EqualError(t, err, "there are 3 stops, want at least 10 to see a pattern\ngap 2 is 0 feeds, want 1 or more\nthe feeds since the last stop are -1, want 0 or more")
	b, err := pattern([]int64{1, 1, 1, 1, 1, 1, 1, 1, 1, 1}, 0, 1)
	require.NoError(t, err, "a stop at every feed")
	assert.InDelta(t, 1, b.DispersionP, 0)
	assert.False(t, math.IsNaN(b.Correlation))
	assert.NotContains(t, b.Finding(), "NaN")
}

// pattern tests one stretch.
func pattern(gaps []int64, rest int64, seed uint64) (Bursts, error) {
	return Pattern([]Stretch{{gaps, rest}}, unlikely/3, seed)
}
