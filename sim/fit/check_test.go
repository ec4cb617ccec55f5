package fit

import (
	"bufio"
	"flag"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"

	"netrate/sim"
	"netrate/sim/output"
)

// The checks that the tests share, and the tests of these checks.

var macro = flag.Int("macro", 100, "records of which the known truth is counted")

// z999 holds a normal figure with 99.9 %.
const z999 = 3.2905

// numbers returns the first field of each line that is a number, and the second where
// there is one. The files name their sources.
func numbers(t *testing.T, file string) (first, second []float64) {
	t.Helper()
	f, err := os.Open(filepath.FromSlash(file))
	require.NoError(t, err)
	defer func() { assert.NoError(t, f.Close()) }()
	for lines := bufio.NewScanner(f); lines.Scan(); {
		fields := strings.FieldsFunc(lines.Text(), func(r rune) bool { return r == ',' || r == ' ' })
		if len(fields) == 0 {
			continue
		}
		x, err := strconv.ParseFloat(fields[0], 64)
		if err != nil {
			continue // a comment or a heading
		}
		first = append(first, x)
		if len(fields) > 1 {
			y, err := strconv.ParseFloat(fields[1], 64)
			require.NoError(t, err)
			second = append(second, y)
		}
	}
	return first, second
}

// observed returns the observations in a file: durations, and in a second column 0 for
// one that was cut short.
func observed(t *testing.T, file string) []Observation {
	t.Helper()
	x, ended := numbers(t, file)
	obs := make([]Observation, len(x))
	for i := range x {
		obs[i] = Observation{Seconds: sim.Seconds(x[i]), Censored: len(ended) > 0 && ended[i] == 0}
	}
	return obs
}

// fitted returns a fit that must be possible.
func fitted(t *testing.T, kind Kind, obs []Observation) Fitted {
	t.Helper()
	f, err := Fit(kind, obs)
	require.NoError(t, err)
	return f
}

// seeded returns a stream that is ready.
func seeded(purpose string, replication int) *sim.Stream {
	s := sim.NewStream("fit test", purpose)
	s.Seed(1, replication)
	return s
}

// shared reports whether a count out of n trials agrees with probability p: by the exact
// interval of 99.9 %, the 0.1 % split among the given number of checks.
func shared(hits, n int, p float64, checks int) bool {
	low, high := output.ExactInterval(int64(hits), int64(n), 1-0.001/float64(checks))
	return low <= p && p <= high
}

// off returns by how many standard errors the mean of a sample is off.
func off(x []float64, want float64) float64 {
	s := sim.Sample(x)
	return (s.Mean() - want) / (s.SD() / math.Sqrt(float64(len(x))))
}

func TestChecks(t *testing.T) {
	assert.InDelta(t, z999, distuv.UnitNormal.Quantile(0.9995), 1e-4)
	assert.True(t, shared(50, 1000, 0.05, 1))
	assert.True(t, shared(30, 1000, 0.05, 1), "2.9 standard errors")
	assert.False(t, shared(76, 1000, 0.05, 1), "3.77 standard errors")
	assert.True(t, shared(76, 1000, 0.05, 100))
	assert.False(t, shared(50, 1000, math.NaN(), 1))
	assert.InDelta(t, -3/math.Sqrt(0.5), off([]float64{1, 2, 3, 4, 5}, 6), 1e-12)
	assert.True(t, math.IsNaN(off([]float64{1, math.NaN()}, 1)), "which is not below any bound")
}
