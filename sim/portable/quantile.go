package portable

import (
	"fmt"
	"math"
)

// climb returns the root of a function of y that rises and is concave, by Newton's steps: the
// first may go too low, the others rise to the root.
func climb(y float64, f func(y float64) (value, slope float64)) float64 {
	for n := range 200 {
		value, slope := f(y)
		step := -value / slope
		if n > 1 && !(step > 0) {
			return y // all that rounding leaves
		}
		y += step
		if math.Abs(step) < 1e-9 {
			return y // the next one would be of the order of its square
		}
	}
	return y
}

func checkShare(p float64) {
	if !(p >= 0 && p <= 1) {
		panic(fmt.Sprintf("portable: the quantile %v", p))
	}
}
