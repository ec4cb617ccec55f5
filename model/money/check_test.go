package money

import (
	"errors"
	"flag"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/sim"
)

// The checks that the tests share, and the tests of these checks.

// TestMain fixes the seed and the number of the property tests; the flags -rapid.seed
// and -rapid.checks on the command line still override them.
func TestMain(m *testing.M) {
	err := errors.Join(flag.Set("rapid.seed", "1"), flag.Set("rapid.checks", "400"))
	if err != nil {
		panic(err)
	}
	m.Run()
}

// near reports whether got is within a relative distance of want.
func near(got, want, relative float64) bool {
	return math.Abs(got-want) <= relative*math.Abs(want)
}

// prints reports whether x, rounded to as many decimals as a table prints, is what it
// prints; tables leave out the 0 before the point.
func prints(x float64, table string) bool {
	_, decimals, _ := strings.Cut(table, ".")
	return strings.TrimPrefix(fmt.Sprintf("%.*f", len(decimals), x), "0") == strings.TrimPrefix(table, "0")
}

// agrees reports whether want lies in the 99.9 % interval of the mean of the sample, the
// 0.1 % split among the given number of checks.
func agrees(s sim.Sample, want float64, checks int) bool {
	e := s.Interval(1 - 0.001/float64(checks))
	return len(s) > 1 && math.Abs(e.Mean-want) <= e.Half
}

func TestChecks(t *testing.T) {
	assert.True(t, near(-1.0009, -1, 1e-3))
	assert.False(t, near(1.0011, 1, 1e-3))
	assert.False(t, near(math.NaN(), 1, 1e-3))
	assert.False(t, near(math.Inf(1), 1, 1e-3))

	assert.True(t, prints(0.97046, ".9705"))
	assert.True(t, prints(0.97046, "0.9705"))
	assert.True(t, prints(-1037.0321, "-1037.03"))
	assert.False(t, prints(0.97044, ".9705"))
	assert.False(t, prints(1.97046, ".9705"))
	assert.False(t, prints(math.NaN(), ".9705"))

	s := sim.Sample{1, 2, 3, 4, 5} // 99.9 %: 3 ± 6.0; split among 10: 3 ± 10.9
	assert.True(t, agrees(s, 8.9, 1))
	assert.False(t, agrees(s, 9.2, 1))
	assert.True(t, agrees(s, 9.2, 10))
	assert.False(t, agrees(s, math.NaN(), 1))
	assert.False(t, agrees(nil, 0, 1))
}

// must returns what could be computed.
func must[T any](x T, err error) T {
	if err != nil {
		panic(err)
	}
	return x
}
