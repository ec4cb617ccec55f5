package portable

import (
	"fmt"
	"math"
)

// GammaBelow returns the probability that a gamma number of the given shape and of scale 1 is
// below x. It loses no digits where it is small. It panics unless the shape is above 0.
//
// Source: Press et al., Numerical Recipes (3rd ed. 2007), section 6.2 (from memory).
func GammaBelow(shape, x float64) float64 {
	below, _ := gammaTails(shape, x)
	return Exp(below.log)
}

// GammaAbove returns the probability that it is above x.
func GammaAbove(shape, x float64) float64 {
	_, above := gammaTails(shape, x)
	return Exp(above.log)
}

// tail is the probability of lying on one side of a number: its logarithm, and by how much that
// rises as the number moves away from that side.
type tail struct{ log, slope float64 }

// rest returns the other tail, where the logarithm of the density is given. Rounding may have
// made the probability of this one a little more than 1.
func (t tail) rest(density float64) tail {
	log := Log(-Expm1(min(0, t.log)))
	return tail{log, Exp(density - log)}
}

// GammaLogDensity returns the logarithm of x·f(x), where f is the density of a gamma number of
// the given shape and of scale 1: that is the density of ln x.
func GammaLogDensity(shape, x float64) float64 {
	return float64(shape*Log(x)) - x - Lgamma(shape)
}

// gammaTails returns the two tails of ln x.
func gammaTails(shape, x float64) (below, above tail) {
	switch {
	case !(shape > 0):
		panic(fmt.Sprintf("portable: a gamma distribution of shape %v", shape))
	case x <= 0:
		return tail{math.Inf(-1), shape}, tail{}
	case math.IsInf(x, 1):
		return tail{}, tail{math.Inf(-1), x}
	}
	density := GammaLogDensity(shape, x)
	if x < shape+1 {
		share := gammaSeries(shape, x)
		below = tail{Log(share) + density, 1 / share}
		return below, below.rest(density)
	}
	share := gammaFraction(shape, x)
	above = tail{Log(share) + density, 1 / share}
	return above.rest(density), above
}

// gammaSeries is the probability below over the density of ln x, which is short below the mean.
func gammaSeries(shape, x float64) float64 {
	term := 1 / shape
	sum := term
	for a := shape + 1; term > sum*1e-17; a++ {
		term = float64(term * (x / a))
		sum += term
	}
	return sum
}

// gammaFraction is the probability above over the density of ln x, by the continued fraction of
// Legendre, which is short above the mean.
func gammaFraction(shape, x float64) float64 {
	b := x + 1 - shape
	c, d := math.Inf(1), 1/b
	h := d
	for i := 1.0; i < 1e6; i++ {
		a := i * (shape - i)
		b += 2
		d = 1 / nonzero(float64(a*d)+b)
		c = nonzero(b + a/c)
		h *= d * c
		if math.Abs(float64(d*c)-1) < 1e-16 {
			break
		}
	}
	return h
}

// GammaQuantile returns the x that a gamma number of the given shape and of scale 1 is below
// with the probability p: 0 for 0 and +Inf for 1. It panics unless the shape is above 0 and p in
// [0, 1].
//
// The logarithms of the probabilities of being below and above y = ln x are concave, so that
// Newton's steps reach the root from wherever.
func GammaQuantile(shape, p float64) float64 {
	checkShare(p)
	switch {
	case p == 0:
		return 0
	case p == 1:
		return math.Inf(1)
	case p <= 0.5:
		start := min(Log(shape), (Log(p)+Lgamma(shape+1))/shape) // as if it were the power of x alone
		if start < -700 {
			return Exp(start) // it is, where x is so small
		}
		return Exp(climb(start, func(y float64) (value, slope float64) {
			below, _ := gammaTails(shape, Exp(y))
			return below.log - Log(p), below.slope
		}))
	}
	return Exp(-climb(-Log(shape), func(y float64) (value, slope float64) {
		_, above := gammaTails(shape, Exp(-y))
		return above.log - Log1p(-p), above.slope
	}))
}
