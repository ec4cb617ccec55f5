package formats

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// near says whether got lies within the relative tolerance of want. A want of 0, NaN and
// infinities are near nothing.
func near(got, want, relative float64) bool {
	return math.Abs(got-want) <= relative*math.Abs(want) && want != 0 && !math.IsInf(want, 0)
}

func TestNear(t *testing.T) {
	inf, nan := math.Inf(1), math.NaN()
	for _, c := range []struct {
		name                string
		got, want, relative float64
		near                bool
	}{
		{"equal", 3, 3, 1e-4, true},
		{"within", 1.00009, 1, 1e-4, true},
		{"within, below 0", -1.00009, -1, 1e-4, true},
		{"beyond", 1.00011, 1, 1e-4, false},
		{"other sign", -1, 1, 1e-4, false},
		{"not a number", nan, 1, 1e-4, false},
		{"not a number wanted", 1, nan, 1e-4, false},
		{"infinite", inf, 1, 1e-4, false},
		{"infinite wanted", inf, inf, 1e-4, false},
		{"nothing wanted", 0, 0, 1e-4, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.near, near(c.got, c.want, c.relative))
		})
	}
}

// mediaSize reads the size out of a self-describing media name of PWG 5101.1, such as
// iso_c5_162x229mm, in mm.
func mediaSize(t *testing.T, name string) (a, b float64) {
	t.Helper()
	size := name[strings.LastIndex(name, "_")+1:]
	unit := 1.0
	if strings.HasSuffix(size, "in") {
		unit = 25.4
	}
	first, second, ok := strings.Cut(strings.TrimRight(size, "min"), "x")
	require.True(t, ok, name)
	a, err := strconv.ParseFloat(first, 64)
	require.NoError(t, err)
	b, err = strconv.ParseFloat(second, 64)
	require.NoError(t, err)
	return a * unit, b * unit
}
