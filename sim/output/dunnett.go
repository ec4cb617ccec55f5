package output

import (
	"fmt"
	"math"

	"netrate/sim/portable"
)

// dunnett returns the g under which the largest of p Student's t with df degrees of
// freedom stays with probability level, when they share their denominator and each
// two have the correlation ½: the one-sided critical value for comparing p systems
// with one. It panics unless p and df are at least 1 and level is in [1/(p+1), 1).
//
// Source: Dunnett, A multiple comparison procedure for comparing several treatments
// with a control, JASA 50 (1955) 1096–1121 (from memory).
func dunnett(level float64, p, df int) float64 {
	if !(p >= 1 && df >= 1 && level >= 1/float64(p+1) && level < 1) {
		panic(fmt.Sprintf("output: Dunnett's value for %d comparisons, %d degrees of freedom and level %v", p, df, level))
	}
	// At 0 the chance is 1/(p+1); at Bonferroni's value it is level or more.
	low := 0.0
	high := portable.StudentQuantile(float64(df), 1-(1-level)/float64(p))
	for range 30 { // to nine digits
		g := (low + high) / 2
		if allBelow(g, p, df) < level {
			low = g
		} else {
			high = g
		}
	}
	return (low + high) / 2
}

// allBelow returns the chance that p such variables all stay under g: their
// denominator s is χ/√df, and given s it is [normalsBelow] of g·s. The density of v = ln s is
// a bell, whose tails are left off where they are below 10⁻¹² of its top; for a bell equal
// steps converge faster than any power of the step.
func allBelow(g float64, p, df int) float64 {
	nu := float64(df)
	reach := math.Sqrt(27.6 / nu)
	step := 0.15 / math.Sqrt(nu)
	var sum float64
	for v := -27.6/nu - reach; v <= reach; v += step {
		s := portable.Exp(v)
		density := 2 * portable.Exp(portable.GammaLogDensity(nu/2, nu*s*s/2))
		sum += float64(density * normalsBelow(g*s, p))
	}
	return step * sum
}

// normalsBelow returns the chance that p standard normals, each two of correlation
// ½, all stay under x: ∫ φ(y)·Φ(√2·x + y)ᵖ dy, with y the normal they share.
func normalsBelow(x float64, p int) float64 {
	const step = 0.25
	var sum float64
	for y := -8.0; y <= 8; y += step {
		each := portable.NormalBelow(float64(math.Sqrt2*x) + y)
		sum += float64(portable.NormalDensity(y) * portable.Pow(each, float64(p)))
	}
	return step * sum
}
