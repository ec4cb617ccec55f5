package portable

import (
	"fmt"
	"math"
)

// BetaBelow returns the probability that a beta number with the parameters a and b is below x.
// It panics unless both are above 0.
//
// Source: Press et al., Numerical Recipes (3rd ed. 2007), section 6.4 (from memory).
func BetaBelow(a, b, x float64) float64 {
	switch {
	case !(a > 0 && b > 0):
		panic(fmt.Sprintf("portable: a beta distribution of %v and %v", a, b))
	case x <= 0:
		return 0
	case x >= 1:
		return 1
	}
	return Exp(betaTail(a, b, Log(x/(1-x))).log)
}

// betaTail returns the lower tail of ln x/(1−x), at y.
func betaTail(a, b, y float64) tail {
	density := betaLogDensity(a, b, y)
	if y > Log((a+1)/(b+1)) {
		return tail{log: Log(betaFraction(b, a, -y)) + density}.rest(density)
	}
	share := betaFraction(a, b, y)
	return tail{Log(share) + density, 1 / share}
}

// betaLogDensity returns the logarithm of the density of y = ln x/(1−x).
func betaLogDensity(a, b, y float64) float64 {
	small := -Log1p(Exp(-math.Abs(y))) // ln of the larger of x and 1−x
	large := small - math.Abs(y)
	if y > 0 {
		a, b = b, a
	}
	return float64(a*large) + float64(b*small) - betaLog(a, b)
}

// betaLog returns the logarithm of the beta function. From a million on, the logarithms of the
// gamma function that it is made of are so large that their differences lose digits that matter,
// and what of Stirling's series cancels is left out.
//
// Source: DiDonato and Morris, ACM Transactions on Mathematical Software 18 (1992) 360–373,
// section 3 (from memory).
func betaLog(a, b float64) float64 {
	a, b = min(a, b), max(a, b)
	if b < 1e6 {
		return Lgamma(a) + Lgamma(b) - Lgamma(a+b)
	}
	rest := stirling(b) - stirling(a+b)
	if a < 10 {
		return Lgamma(a) + (a - float64(a*Log(a+b)) - float64((b-0.5)*Log1p(a/b)) + rest)
	}
	const halfLogTwoPi = 0.91893853320467274178
	all := -float64((a-0.5)*Log1p(b/a)) - float64(b*Log1p(a/b)) - float64(0.5*Log(b))
	return all + (halfLogTwoPi + stirling(a) + rest)
}

// stirling returns what is to be added to (x − ½) ln x − x + ½ ln 2π to come to ln Γ(x), for x
// from 10 on: the first terms of Stirling's series.
func stirling(x float64) float64 {
	y := 1 / (x * x)
	return (1.0/12 - float64(y*(1.0/360-float64(y*(1.0/1260-float64(y*(1.0/1680-float64(y/1188)))))))) / x
}

// betaFraction is the probability of being below over the density of y = ln x/(1−x), by a
// continued fraction that is short below the mean.
func betaFraction(a, b, y float64) float64 {
	x := 1 / (1 + Exp(-y))
	c, d := 1.0, 1/nonzero(1-(a+b)*x/(a+1))
	h := d
	for m := 1.0; m < 1e6; m++ {
		twice := float64(2 * m)
		even := m * (b - m) * x / ((a + twice - 1) * (a + twice))
		d = 1 / nonzero(1+float64(even*d))
		c = nonzero(1 + even/c)
		h *= d * c
		odd := -(a + m) * (a + b + m) * x / ((a + twice) * (a + twice + 1))
		d = 1 / nonzero(1+float64(odd*d))
		c = nonzero(1 + odd/c)
		h *= d * c
		if math.Abs(float64(d*c)-1) < 1e-16 {
			break
		}
	}
	return h / a
}

// nonzero keeps a denominator of a continued fraction from being 0.
func nonzero(x float64) float64 {
	if math.Abs(x) < 1e-300 {
		return 1e-300
	}
	return x
}

// BetaQuantile returns the x that a beta number with the parameters a and b is below with the
// probability p. It panics unless both are above 0 and p is in [0, 1].
func BetaQuantile(a, b, p float64) float64 {
	return 1 / (1 + Exp(-betaLogit(a, b, p, 1-p)))
}

// betaLogit returns ln x/(1−x) of that x, which loses no digits near 1; rest is 1 − p.
//
// The logarithm of the probability of being below is concave in it, so that Newton's steps
// reach the root from wherever.
func betaLogit(a, b, p, rest float64) float64 {
	checkShare(p)
	switch {
	case !(a > 0 && b > 0):
		panic(fmt.Sprintf("portable: a beta distribution of %v and %v", a, b))
	case p == 0 || rest == 0:
		return math.Inf(int(2*p) - 1)
	case p > rest:
		return -betaLogit(b, a, rest, p)
	}
	start := min(Log(a/b), (Log(p)+Log(a)+betaLog(a, b))/a) // as if 1−x were 1
	return climb(start, func(y float64) (value, slope float64) {
		below := betaTail(a, b, y)
		return below.log - Log(p), below.slope
	})
}

// StudentQuantile returns the t that Student's t with the given degrees of freedom is below
// with the probability p: −Inf for 0 and +Inf for 1. It panics unless p is in [0, 1] and the
// degrees are above 0; they need not be whole.
func StudentQuantile(degrees, p float64) float64 {
	checkShare(p)
	switch {
	case p == 0.5:
		return 0
	case p > 0.5:
		return -StudentQuantile(degrees, 1-p)
	}
	// degrees/(degrees + t²) is a beta number.
	return -math.Sqrt(degrees) * Exp(-betaLogit(degrees/2, 0.5, 2*p, 1-float64(2*p))/2)
}

// FQuantile returns the quantile p of Fisher's F with d1 and d2 degrees of freedom.
func FQuantile(d1, d2, p float64) float64 {
	return d2 / d1 * Exp(betaLogit(d1/2, d2/2, p, 1-p))
}
