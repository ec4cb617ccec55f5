package fit

import (
	"errors"
	"math"
)

// root returns where a rising function is 0, given its value and slope: by Newton's
// steps, and by halving where a step would leave the bounds known so far. The function
// must be below 0 at low and above it at high; these ends are never tried.
func root(low, high float64, f func(x float64) (value, slope float64)) (float64, error) {
	first, last := low, high
	x := low + float64((high-low)/2)
	for range 200 {
		value, slope := f(x)
		if value < 0 {
			low = x
		} else {
			high = x
		}
		next := x - value/slope
		if !(next > low && next < high) {
			next = low + float64((high-low)/2)
		}
		if math.Abs(next-x) <= 1e-14*(1+math.Abs(x)) {
			if x-first < 1e-9 || last-x < 1e-9 {
				break
			}
			f(next)
			return next, nil
		}
		x = next
	}
	return 0, errors.New("the equation of the likelihood has no root in bounds")
}
