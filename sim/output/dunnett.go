package output

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/stat/distuv"
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
	high := distuv.StudentsT{Sigma: 1, Nu: float64(df)}.Quantile(1 - (1-level)/float64(p))
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
// denominator s is χ/√df, and given s it is [normalsBelow] of g·s.
func allBelow(g float64, p, df int) float64 {
	nu := float64(df)
	chi := distuv.ChiSquared{K: nu}
	density := func(s float64) float64 { return chi.Prob(nu*s*s) * 2 * nu * s }
	// χ is within 8 of √df but for a chance under 10⁻¹³: it moves no faster than the
	// normals it is made of.
	reach := 8 / math.Sqrt(nu)
	return quad.Fixed(func(s float64) float64 { return density(s) * normalsBelow(g*s, p) },
		max(0, 1-reach), 1+reach, 64, nil, 0) // 64 nodes of Gauss and Legendre
}

// normalsBelow returns the chance that p standard normals, each two of correlation
// ½, all stay under x: ∫ φ(y)·Φ(√2·x + y)ᵖ dy, with y the normal they share. For such
// a bell equal steps converge faster than any power of the step.
func normalsBelow(x float64, p int) float64 {
	const step = 0.25
	normal := distuv.UnitNormal
	var sum float64
	for y := -8.0; y <= 8; y += step {
		sum += normal.Prob(y) * math.Pow(normal.CDF(math.Sqrt2*x+y), float64(p))
	}
	return step * sum
}
