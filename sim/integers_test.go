package sim

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Means and shares of 200,000 draws, within 3.29 standard errors (99.9 %) of what they
// must be. The mean of a geometric number that starts from 1 is 1/p, its variance (1-p)/p²
// (any text on probability); that of a table is by hand.
func TestIntegerDistributionDraws(t *testing.T) {
	geometric, err := NewGeometric(2.5)
	require.NoError(t, err)
	table, err := NewTable([]int64{1, 2, 6}, []float64{50, 30, 20})
	require.NoError(t, err)
	cases := []struct {
		name     string
		whole    IntegerDistribution
		mean, sd float64
		ones     float64 // share of 1
	}{
		{"always", Always(3), 3, 0, 0},
		{"geometric", geometric, 2.5, math.Sqrt(0.6) / 0.4, 0.4},
		{"table", table, 2.3, math.Sqrt(0.5 + 4*0.3 + 36*0.2 - 2.3*2.3), 0.5},
	}
	const n = 200_000
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			s := NewStream("whole", c.name)
			s.Seed(1, 0)
			sum, ones := 0.0, 0.0
			for range n {
				x := c.whole.Draw(s)
				sum += float64(x)
				if x == 1 {
					ones++
				}
			}
			assert.InDelta(t, c.mean, c.whole.Mean(), 1e-12)
			assert.InDelta(t, c.mean, sum/n, 3.29*c.sd/math.Sqrt(n)+1e-9)
			assert.InDelta(t, c.ones, ones/n, 3.29*math.Sqrt(c.ones*(1-c.ones)/n))
		})
	}
}

func TestIntegerDistributionMost(t *testing.T) {
	table, err := NewTable([]int64{4, 9, 2}, []float64{1, 0, 1})
	require.NoError(t, err)
	most, ok := table.Most()
	assert.True(t, ok)
	assert.Equal(t, int64(4), most, "what has no weight cannot be")
	geometric, err := NewGeometric(2)
	require.NoError(t, err)
	_, ok = geometric.Most()
	assert.False(t, ok)
	one, err := NewGeometric(1)
	require.NoError(t, err)
	assert.Equal(t, Always(1), one)
}

func TestIntegerDistributionRefuses(t *testing.T) {
	for _, mean := range []float64{0.9, math.NaN(), math.Inf(1)} {
		_, err := NewGeometric(mean)
		require.ErrorContains(t, err, "want 1 or more")
	}
	cases := []struct {
		values  []int64
		weights []float64
		want    string
	}{
		{nil, nil, "at least one"},
		{[]int64{1}, []float64{1, 2}, "as many of both"},
		{[]int64{0}, []float64{1}, "want 1 or more"},
		{[]int64{1}, []float64{math.NaN()}, "want 0 or more"},
		{[]int64{1}, []float64{-1}, "want 0 or more"},
		{[]int64{1}, []float64{0}, "want more than 0"},
	}
	for _, c := range cases {
		_, err := NewTable(c.values, c.weights)
		require.ErrorContains(t, err, c.want)
	}
}

// A block holds the numbers that are drawn one by one: the stream is taken as far.
func TestIntegerDistributionFill(t *testing.T) {
	geometric, err := NewGeometric(2.5)
	require.NoError(t, err)
	table, err := NewTable([]int64{1, 2, 6}, []float64{50, 30, 20})
	require.NoError(t, err)
	for _, whole := range []IntegerDistribution{Always(3), geometric, table} {
		one, many := NewStream("whole", "fill"), NewStream("whole", "fill")
		one.Seed(1, 0)
		many.Seed(1, 0)
		var want []int64
		for range 1000 {
			want = append(want, whole.Draw(one))
		}
		got := make([]int64, 1000)
		whole.Fill(many, got[:300])
		whole.Fill(many, got[300:])
		assert.Equal(t, want, got, "%T", whole)
		assert.Equal(t, one.Uint64(), many.Uint64(), "%T", whole)
	}
}
