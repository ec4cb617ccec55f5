package portable

import (
	"fmt"
	"math"
)

// Pow returns x^y for x ≥ 0, like [math.Pow]. It panics for x below 0 or NaN.
//
// The whole part of y is a chain of squares, the rest goes by way of the logarithm; so
// whole powers are as exact as products are.
func Pow(x, y float64) float64 {
	switch {
	case !(x >= 0):
		panic(fmt.Sprintf("portable: %v to the power %v", x, y))
	case y == 0 || x == 1:
		return 1
	case math.IsNaN(y):
		return y
	case y < 0:
		return 1 / Pow(x, -y)
	case x == 0 || math.IsInf(x, 1):
		return x
	case y >= 1<<53: // far beyond what a number can hold, either way
		return Exp(y * Log(x))
	}
	whole, part := math.Modf(y)
	power := 1.0
	if part != 0 {
		power = Exp(part * Log(x))
	}
	for n := int64(whole); n > 0; n >>= 1 {
		if n&1 == 1 {
			power *= x
		}
		x *= x
	}
	return power
}
