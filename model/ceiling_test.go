package model

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"netrate/sim"
)

// No line delivers more than its ceiling, in the mean: of random lines whose faults come a
// twentieth as often, as they do where people earn money with a line. The ceiling is worth
// something: for most it is below the speed, and some come near it.
func TestCeilingHolds(t *testing.T) {
	lines := rapid.Custom(anyLineWithLots)
	below, near := 0, 0
	for n := range 300 {
		l := rarer(lines.Example(n), 0.05)
		l.Job, l.Shift = Job{}, 7200
		mean := meanRate(t, l, 20)
		ceiling := l.Ceiling()
		assert.LessOrEqual(t, mean.Mean-mean.Half, ceiling, "line %d", n)
		if ceiling < 0.99*l.RunSpeed() {
			below++
		}
		if mean.Mean > 0.97*ceiling {
			near++
		}
	}
	assert.Greater(t, below, 80)
	assert.Greater(t, near, 2)
}

// Nor do lines of which nothing works for long.
func TestCeilingHoldsOfWorstLines(t *testing.T) {
	lines := rapid.Custom(anyLineWithLots)
	for n := range 500 {
		l := lines.Example(n)
		mean := meanRate(t, l, 20)
		assert.LessOrEqual(t, mean.Mean-mean.Half, l.Ceiling(), "line %d", n)
	}
}

// meanRate returns the mean net rate of some replications, at a level at which one of 500
// fails by chance once in two runs of the test with other random numbers.
func meanRate(t *testing.T, l *Line, replications int) sim.Estimate {
	t.Helper()
	s, err := New(l)
	require.NoError(t, err)
	var rates sim.Sample
	var o Outcome
	for r := range replications {
		require.NoError(t, s.Run(3, r, &o))
		rates = append(rates, o.NetRate())
	}
	return rates.Interval(0.998)
}

// rarer returns a line with the rates of its faults multiplied by times.
func rarer(l *Line, times float64) *Line {
	for _, v := range l.Parameters() {
		i := slices.IndexFunc(l.Stations, func(s Station) bool { return s.Where().Name == v.Station })
		if i >= 0 && slices.ContainsFunc(FaultRates(l.Stations[i]), func(r FaultRate) bool { return r.Name == v.Name }) {
			l = l.Moved(v, times)
		}
	}
	return l
}
