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
	lines := rapid.Custom(anyLineWithAll)
	below := 0
	for n := range 600 {
		l := rarer(lines.Example(n), 0.05)
		l.Job, l.Shift, l.Begins.Kept = Job{}, 7200, false // which a shift cannot have
		mean := meanRate(t, l, 20)
		ceiling := l.Ceiling()
		assert.LessOrEqual(t, mean.Mean-mean.Half, ceiling, "line %d", n)
		if ceiling < 0.99*l.RunSpeed() {
			below++
		}
	}
	assert.Greater(t, below, 80)
}

// Nor do lines of which nothing works for long.
func TestCeilingHoldsOfWorstLines(t *testing.T) {
	lines := rapid.Custom(anyLineWithAll)
	for n := range 1000 {
		l := lines.Example(n)
		mean := meanRate(t, l, 20)
		assert.LessOrEqual(t, mean.Mean-mean.Half, l.Ceiling(), "line %d", n)
	}
}

// A line whose stops add up, and that loses nothing else, comes near its ceiling.
func TestCeilingIsNear(t *testing.T) {
	l := zeroBufferLine(12_000, 1, zeroBufferFaults{stations: 4, fault: 1e-3, caught: 1, down: 15})
	l.Shift = 8 * 3600
	mean, ceiling := meanRate(t, l, 20).Mean, l.Ceiling()
	assert.Less(t, mean, ceiling)
	assert.Greater(t, mean, 0.97*ceiling)
	assert.Less(t, ceiling, 0.9*l.RunSpeed())
}

// meanRate returns the mean net rate of some replications, at a level at which one of 1,000
// would fail by chance if all were at their ceilings.
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
