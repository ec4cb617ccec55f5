package fit

import (
	"errors"
	"math"
)

// step is the width of the differences taken of the log likelihood, in the moves of a
// place: the rounding of a long sum is divided by its square, the error of the formula
// for slopes rises with its fourth power.
const step = 2e-3

// curve returns the slope of the log likelihood at a place, and its downward curvature,
// in the moves of the place: how many spreads up, and how many times e wider.
func (r records) curve(kind Kind, p place) (slope [2]float64, bend [2][2]float64) {
	at := func(up, wider float64) float64 { return r.logLikelihood(kind, p.moved(up*step, wider*step)) }
	center := at(0, 0)
	for i := range 2 {
		along := func(steps float64) float64 {
			if i == 0 {
				return at(steps, 0)
			}
			return at(0, steps)
		}
		far, near, back, farBack := along(2), along(1), along(-1), along(-2)
		slope[i] = (float64(8*(near-back)) - (far - farBack)) / (12 * step)
		bend[i][i] = -(float64(16*(near+back)) - (far + farBack) - float64(30*center)) / (12 * step * step)
	}
	cross := -(at(1, 1) - at(1, -1) - at(-1, 1) + at(-1, -1)) / (4 * step * step)
	bend[0][1], bend[1][0] = cross, cross
	return slope, bend
}

// slack returns the covariance of the place in the units of its moves: the inverse of
// the curvature. The exponential has no spread to be uncertain about.
func (r records) slack(kind Kind, p place) ([2][2]float64, error) {
	_, bend := r.curve(kind, p)
	if kind == Exponential {
		return [2][2]float64{{1 / bend[0][0], 0}, {0, 0}}, nil
	}
	inverse, ok := inverted(bend)
	if !ok {
		return inverse, errors.New("the likelihood has no rounded top, so there are no standard errors")
	}
	return inverse, nil
}

// inverted returns the inverse of a symmetric matrix; ok is false unless it is positive
// definite.
func inverted(m [2][2]float64) (inverse [2][2]float64, ok bool) {
	det := float64(m[0][0]*m[1][1]) - float64(m[0][1]*m[1][0])
	if !(m[0][0] > 0 && det > 0) {
		return inverse, false
	}
	return [2][2]float64{{m[1][1] / det, -m[0][1] / det}, {-m[1][0] / det, m[0][0] / det}}, true
}

// se returns the standard error of a figure that follows from the place (delta method).
func (f Fitted) se(figure func(place) float64) float64 {
	up := (figure(f.place.moved(step, 0)) - figure(f.place.moved(-step, 0))) / (2 * step)
	wider := (figure(f.place.moved(0, step)) - figure(f.place.moved(0, -step))) / (2 * step)
	return math.Sqrt(float64(up*up*f.slack[0][0]) + float64(2*up*wider*f.slack[0][1]) + float64(wider*wider*f.slack[1][1]))
}
