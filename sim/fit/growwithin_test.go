package fit

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// One row is what Grow takes.
func TestGrowWithinOneRow(t *testing.T) {
	runs := []Run{{9000, 40, 50_000}, {12_000, 90, 60_000}, {10_000, 44, 40_000}}
	want, err := Grow(runs, 12_000, 0.95)
	require.NoError(t, err)
	got, err := GrowWithin([][]Run{runs, {{9000, 12, 1000}}, {{9000, 0, 10}, {12_000, 0, 10}}}, 0.95)
	require.NoError(t, err)
	assert.InDelta(t, want.Exponent, got.Exponent, 1e-9)
	assert.InDelta(t, want.SE, got.SE, 1e-9)
	assert.InDelta(t, want.Low, got.Low, 1e-6)
	assert.InDelta(t, want.High, got.High, 1e-6)
}

// Two jobs, both twice as bad at 12,000 as at 6,000 an hour, an exponent of 1. The worse job ran
// mostly slowly, so that all rows as one show a decline, and each by itself what is so.
func TestGrowWithinJobs(t *testing.T) {
	good, bad := []Run{{6000, 10, 10_000}, {12_000, 180, 90_000}}, []Run{{6000, 900, 90_000}, {12_000, 200, 10_000}}
	within, err := GrowWithin([][]Run{good, bad}, 0.95)
	require.NoError(t, err)
	assert.InDelta(t, 1, within.Exponent, 1e-9)
	assert.Greater(t, within.Low, 0.0)
	pooled, err := Grow(append(append([]Run{}, good...), bad...), 12_000, 0.95)
	require.NoError(t, err)
	assert.Less(t, pooled.High, 0.0, "the old answer")
}

func TestGrowWithinRefuses(t *testing.T) {
	_, err := GrowWithin([][]Run{{{9000, 3, 100}}}, 0.95)
	require.ErrorContains(t, err, "no row has faults and two speeds")
	_, err = GrowWithin([][]Run{{{9000, 3, 100}, {12_000, 0, 100}}}, 0.95)
	require.Error(t, err, "the exponent has no bound")
	_, err = GrowWithin(nil, 2)
	require.Error(t, err)
}
