package fit

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim"
)

// By hand: of 12 stops in ten periods of 100 feeds eight came in two periods, where 2.4 are expected; the
// logarithm of the likelihood ratio is 8 ln (8/2.4) + 4 ln (4/9.6) = 6.130. The counts are 3.3 off
// 1.2 in sum of squares: (2·2.8² + 4·0.2² + 4·1.2²) / (10 · 1.2 · 0.9) = 21.6 / 10.8 = 2.
func TestPeriodsByHand(t *testing.T) {
	counts := []Count{{1, 100}, {0, 100}, {0, 100}, {4, 100}, {4, 100}, {1, 100}, {0, 100}, {1, 100}, {0, 100}, {1, 100}}
	all, err := newPeriods([][]Count{counts})
	require.NoError(t, err)
	var best periodCandidate
	all[0].runs(0, func(c periodCandidate) {
		if c.closeness > best.closeness {
			best = c
		}
	})
	assert.Equal(t, PeriodCluster{First: 3, Last: 4, Stops: 8, Expected: 2.4}, best.PeriodCluster)
	assert.InDelta(t, 6.130, best.closeness, 0.001)
	b, err := PeriodPattern([][]Count{counts}, 0.05, 1)
	require.NoError(t, err)
	assert.Equal(t, 12, b.Stops)
	assert.Equal(t, 10, b.Periods)
	assert.InDelta(t, 2, b.Dispersion, 1e-12)
	d, err := PeriodDispersion([][]Count{counts, {{0, 100}, {0, 100}}, {{3, 100}}})
	require.NoError(t, err)
	assert.InDelta(t, 2, d, 1e-12, "stretches without stops, or of one period, say nothing")
	d, err = PeriodDispersion(nil)
	require.NoError(t, err)
	assert.InDelta(t, 1, d, 0)
}

// hourly returns counts of independent stops in periods of different lengths, in some of which they
// are so many times as frequent.
func hourly(periods int, rate float64, s *sim.Stream, times float64, from, to int) (counts []Count) {
	for i := range periods {
		c := Count{Feeds: int64(2000 + 6000*s.Uniform())}
		p := rate
		if i >= from && i < to {
			p *= times
		}
		for at := s.Exponential() / p; at < float64(c.Feeds); at += s.Exponential() / p {
			c.Faults++
		}
		counts = append(counts, c)
	}
	return counts
}

// Independent stops have a cluster in one record of twenty, and vary so much in one of twenty; two bad
// hours of sixty are found where they are.
func TestPeriodClusters(t *testing.T) {
	const records = 60
	s := sim.NewStream("test", "periods")
	s.Seed(3, 0)
	chanceClusters, chanceMany, found := 0, 0, 0
	for i := range records {
		quiet := [][]Count{hourly(60, 1./2500, s, 1, 0, 0), hourly(25, 1./1200, s, 1, 0, 0)}
		for _, c := range PeriodClusters(quiet, 0.05, uint64(i)) {
			if c.P < 0.05 {
				chanceClusters++
				break
			}
		}
		b, err := PeriodPattern(quiet, 0.05, uint64(i))
		require.NoError(t, err)
		if b.DispersionP < 0.05 {
			chanceMany++
		}
		bad := [][]Count{quiet[1], hourly(60, 1./2500, s, 6, 30, 32)}
		for _, c := range PeriodClusters(bad, 0.05, uint64(i)) {
			if c.Stretch == 1 && c.First <= 31 && c.Last >= 30 && c.Last-c.First < 4 && c.P < 0.05 {
				found++
				break
			}
		}
	}
	assert.True(t, shared(chanceClusters, records, 0.05, 1), "%d of %d", chanceClusters, records)
	assert.True(t, shared(chanceMany, records, 0.05, 1), "%d of %d", chanceMany, records)
	assert.Greater(t, found, records*8/10)
}

// Counts that cannot be are an error, and without stops there is nothing to see.
func TestPeriodsThatCannotBe(t *testing.T) {
	for name, counts := range map[string][][]Count{
		"none":                  nil,
		"few":                   {{{5, 100}, {4, 100}}},
		"one period":            {{{50, 100}}},
		"more stops than feeds": {{{50, 10}, {1, 100}}},
		"below none":            {{{-1, 10}, {50, 100}}},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := PeriodPattern(counts, 0.05, 1)
			require.Error(t, err)
		})
	}
	assert.Nil(t, PeriodClusters([][]Count{{{50, 10}, {1, 100}}}, 0.05, 1))
	assert.Nil(t, PeriodClusters([][]Count{{{0, 10}, {0, 100}}}, 0.05, 1))
}
