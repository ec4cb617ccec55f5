// Copyright 2009 The Go Authors. All rights reserved.
// Use of this source code is governed by a BSD-style license: see the file LICENSE.

package portable

import "math"

// Log returns the natural logarithm, like [math.Log]: −Inf of 0, NaN below 0. It is within
// one unit of the last place.
func Log(x float64) float64 {
	const (
		Ln2Hi = 6.93147180369123816490e-01
		Ln2Lo = 1.90821492927058770002e-10
		L1    = 6.666666666666735130e-01
		L2    = 3.999999999940941908e-01
		L3    = 2.857142874366239149e-01
		L4    = 2.222219843214978396e-01
		L5    = 1.818357216161805012e-01
		L6    = 1.531383769920937332e-01
		L7    = 1.479819860511658591e-01
	)

	// special cases
	switch {
	case math.IsNaN(x) || math.IsInf(x, 1):
		return x
	case x < 0:
		return math.NaN()
	case x == 0:
		return math.Inf(-1)
	}

	// reduce
	f1, ki := math.Frexp(x)
	if f1 < math.Sqrt2/2 {
		f1 *= 2
		ki--
	}
	f := f1 - 1
	k := float64(ki)

	// compute
	s := f / (2 + f)
	s2 := s * s
	s4 := s2 * s2
	t1 := float64(s2 * (L1 + float64(s4*(L3+float64(s4*(L5+float64(s4*L7)))))))
	t2 := float64(s4 * (L2 + float64(s4*(L4+float64(s4*L6)))))
	R := t1 + t2
	hfsq := float64(0.5 * f * f)
	return float64(k*Ln2Hi) - ((hfsq - (float64(s*(hfsq+R)) + float64(k*Ln2Lo))) - f)
}

// Log10 returns the decimal logarithm. Unlike that of [math.Log10], that of a power of ten from
// 10⁻²⁰ to 10²⁰ is a whole number.
func Log10(x float64) float64 {
	part, power := math.Frexp(x)
	if part == 0.5 {
		return float64(power-1) * (math.Ln2 / math.Ln10)
	}
	return (float64(Log(part)*(1/math.Ln2)) + float64(power)) * (math.Ln2 / math.Ln10)
}
