package sim

import (
	"errors"
	"fmt"
	"slices"

	"netrate/sim/portable"
)

// Duration is a time that varies: a distribution on the seconds from 0 up. None
// of the durations here allocates when it draws.
type Duration interface {
	// Draw returns a duration, not negative.
	Draw(s *Stream) Seconds
	// Mean returns the mean of what Draw returns.
	Mean() Seconds
}

// Constant is a duration that never varies.
type Constant Seconds

// Draw returns the duration itself; no stream is needed.
func (d Constant) Draw(*Stream) Seconds { return Seconds(d) }

// Mean returns the duration itself.
func (d Constant) Mean() Seconds { return Seconds(d) }

// longest bounds every duration given by hand: some thirty years.
const longest Seconds = 1e9

type triangular struct{ low, mode, high Seconds }

// NewTriangular returns a duration that rises in a straight line from low to its
// mode and falls in a straight line to high. It wants 0 ≤ low ≤ mode ≤ high ≤ 10⁹ s
// and low < high.
func NewTriangular(low, mode, high Seconds) (Duration, error) {
	if !(0 <= low && low <= mode && mode <= high && low < high && high <= longest) {
		return nil, fmt.Errorf(
			"low, mode and high are %g, %g and %g s, want 0 ≤ low ≤ mode ≤ high ≤ %g and low < high",
			float64(low), float64(mode), float64(high), float64(longest))
	}
	return triangular{low, mode, high}, nil
}

func (d triangular) Draw(s *Stream) Seconds {
	return Seconds(portable.TriangleQuantile(float64(d.low), float64(d.mode), float64(d.high), s.Uniform()))
}

func (d triangular) Mean() Seconds { return (d.low + d.mode + d.high) / 3 }

type empirical struct {
	values []Seconds
	mean   Seconds
}

// NewEmpirical returns a duration that is one of the given values, each equally
// likely; a value listed twice is twice as likely. The values are copied. It wants
// at least one, and each from 0 to 10⁹ s.
func NewEmpirical(values []Seconds) (Duration, error) {
	if len(values) == 0 {
		return nil, errors.New("there are no values, want at least one")
	}
	x := make([]float64, len(values))
	for i, v := range values {
		if !(v >= 0 && v <= longest) {
			return nil, fmt.Errorf("value %d is %g s, want from 0 to %g", i+1, float64(v), float64(longest))
		}
		x[i] = float64(v)
	}
	return empirical{slices.Clone(values), Seconds(portable.Mean(x))}, nil
}

func (d empirical) Draw(s *Stream) Seconds { return d.values[s.rand.IntN(len(d.values))] }
func (d empirical) Mean() Seconds          { return d.mean }
