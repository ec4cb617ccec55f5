package study

import (
	"context"
	"errors"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model/modeltest"
	"netrate/model/runs"
	"netrate/sim"
)

// The shifts that are traced are those of a run with the same seed, number by number.
func TestTraceIsTheShiftOfTheRun(t *testing.T) {
	l := modeltest.ReferenceLine()
	l.Shift = 3600
	s, err := runs.Run(t.Context(), l, sim.Plan{Seed: 5, Min: 12, Max: 12}, nil)
	require.NoError(t, err)
	done := 0
	a, err := Trace{Line: l, Seed: 5, First: 3, Last: 7}.Ask(t.Context(), func(n int) { done = n })
	require.NoError(t, err)
	require.Len(t, a.Traced, 5)
	assert.Equal(t, 5, done)
	rates := s.NetRates()
	for i, x := range a.Shifts() {
		assert.InDelta(t, rates[3+i], x.Outcome.NetRate(), 0)
	}
	n := NotableShiftsOf(s)
	assert.InDelta(t, slices.Max(rates), rates[n.Best], 0)
	assert.InDelta(t, slices.Min(rates), rates[n.Worst], 0)
	below := 0
	for _, rate := range rates {
		if rate < rates[n.Median] {
			below++
		}
	}
	assert.Contains(t, []int{5, 6}, below)
}

func TestTraceRefuses(t *testing.T) {
	l := modeltest.ReferenceLine()
	for _, q := range []Trace{{}, {Line: l, First: -1}, {Line: l, First: 2, Last: 1}, {Line: l, Last: MostTraced}} {
		_, err := q.Ask(t.Context(), nil)
		assert.Error(t, err)
	}
	ctx, cancel := context.WithCancelCause(t.Context())
	why := errors.New("a signal")
	cancel(why)
	_, err := Trace{Line: l}.Ask(ctx, nil)
	assert.ErrorIs(t, err, why)
}
