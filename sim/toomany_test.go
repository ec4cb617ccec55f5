package sim_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim"
)

// The limit itself is allowed, one more is not, and no product overflows.
func TestAtMostKept(t *testing.T) {
	require.NoError(t, sim.AtMostKept(100, 0, "line", math.MaxInt, "shift"))
	require.NoError(t, sim.AtMostKept(100, 1, "line", 100, "shift"))
	require.NoError(t, sim.AtMostKept(100, 5, "line", 20, "shift"))
	assert.EqualError(t, sim.AtMostKept(100, 1, "line", 101, "shift"), "101 shifts, want at most 100")
	assert.EqualError(t, sim.AtMostKept(100, 5, "line", 21, "shift"), "5 lines with 21 shifts each come to 105, want at most 100")
	require.Error(t, sim.AtMostKept(100, 4, "line", math.MaxInt, "shift"))
}
