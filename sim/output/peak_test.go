package output

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/sim"
)

// A parabola is found exactly, wherever its neighbours stand.
func TestPeakOfAParabola(t *testing.T) {
	for _, c := range []struct {
		name   string
		places []float64
		want   float64
		edge   bool
	}{
		{"in the middle", []float64{0, 1, 2, 3, 4}, 2.25, false},
		{"uneven places", []float64{0, 1.5, 2, 4, 9}, 2.25, false},
		{"beyond the last", []float64{0, 0.5, 1, 1.5, 2}, 2, true},
		{"before the first", []float64{3, 4, 5}, 3, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			var curves []sim.Sample
			for _, x := range c.places {
				y := -(x - 2.25) * (x - 2.25)
				curves = append(curves, sim.Sample{y + 1, y, y - 1})
			}
			p := FindPeak(c.places, curves, 0.95, 1)
			assert.InDelta(t, c.want, p.At, 1e-9)
			assert.Equal(t, c.edge, p.Edge)
			assert.InDelta(t, c.want, p.Low, 1e-9, "the random numbers are shared: it moves the whole curve")
			assert.InDelta(t, c.want, p.High, 1e-9)
		})
	}
	flat := sim.Sample{1, 1}
	assert.Equal(t, 0.0, FindPeak([]float64{0, 1, 2}, []sim.Sample{flat, flat, flat}, 0.95, 1).At)
}

// The interval holds the true peak about as often as it says: of 400 sets at 95 %, between
// 91.4 and 98.6 %, which is 3.29 standard errors.
func TestPeakCovers(t *testing.T) {
	places := []float64{0, 1, 2, 3, 4, 5, 6}
	const sets, peak = 400, 2.8
	random := sim.NewStream("test", "noise")
	normal := rand.New(random)
	covered, offCentre := 0, 0
	for set := range sets {
		random.Seed(9, set)
		curves := make([]sim.Sample, len(places))
		for range 60 {
			shared := normal.NormFloat64()
			for i, x := range places {
				curves[i] = append(curves[i], -0.5*(x-peak)*(x-peak)+shared+0.4*normal.NormFloat64())
			}
		}
		p := FindPeak(places, curves, 0.95, uint64(set))
		if p.Low <= peak && peak <= p.High {
			covered++
		}
		if p.Low <= peak+0.3 && peak+0.3 <= p.High {
			offCentre++
		}
	}
	bound := 3.2905 * math.Sqrt(0.95*0.05/sets)
	assert.InDelta(t, 0.95, float64(covered)/sets, bound)
	assert.Less(t, float64(offCentre)/sets, 0.95-bound, "a peak 0.3 off goes unseen: this test cannot fail")
}

func TestPeakRefuses(t *testing.T) {
	s := sim.Sample{1, 2}
	assert.Panics(t, func() { FindPeak([]float64{0, 1}, []sim.Sample{s, s}, 0.95, 1) }, "two places")
	assert.Panics(t, func() { FindPeak([]float64{0, 1, 1}, []sim.Sample{s, s, s}, 0.95, 1) }, "places that do not rise")
	assert.Panics(t, func() { FindPeak([]float64{0, 1, 2}, []sim.Sample{s, s, {}}, 0.95, 1) }, "an empty sample")
	assert.Panics(t, func() { FindPeak([]float64{0, 1, 2}, []sim.Sample{s, s, s}, 1, 1) }, "a level of 1")
}
