// Copyright 2009 The Go Authors. All rights reserved.
// Use of this source code is governed by a BSD-style license: see the file LICENSE.

package portable

import "math"

// Exp returns e^x, like [math.Exp]: +Inf where it is too large, 0 where it is too small for a
// number, NaN of NaN. It is within one unit of the last place.
func Exp(x float64) float64 {
	const (
		Ln2Hi = 6.93147180369123816490e-01
		Ln2Lo = 1.90821492927058770002e-10
		Log2e = 1.44269504088896338700e+00

		Overflow  = 7.09782712893383973096e+02
		Underflow = -7.45133219101941108420e+02
		NearZero  = 1.0 / (1 << 28) // 2**-28
	)
	if !(x >= Underflow && x <= Overflow) || -NearZero < x && x < NearZero {
		return expSpecial(x)
	}

	// reduce; computed as r = hi - lo for extra precision.
	var k int
	switch {
	case x < 0:
		k = int(float64(Log2e*x) - 0.5)
	case x > 0:
		k = int(float64(Log2e*x) + 0.5)
	}
	hi := x - float64(float64(k)*Ln2Hi)
	lo := float64(float64(k) * Ln2Lo)

	// compute
	return expmulti(hi, lo, k)
}

// expSpecial returns e^x of what is too large, too small, hardly differs from 0 or is no number.
func expSpecial(x float64) float64 {
	switch {
	case x > 1:
		return math.Inf(1)
	case x < -1:
		return 0
	}
	return 1 + x
}

// expmulti returns e^r × 2^k where r = hi − lo and |r| ≤ ln(2)/2.
func expmulti(hi, lo float64, k int) float64 {
	const (
		P1 = 1.66666666666666657415e-01
		P2 = -2.77777777770155933842e-03
		P3 = 6.61375632143793436117e-05
		P4 = -1.65339022054652515390e-06
		P5 = 4.13813679705723846039e-08
	)

	r := hi - lo
	t := float64(r * r)
	c := r - float64(t*(P1+float64(t*(P2+float64(t*(P3+float64(t*(P4+float64(t*P5)))))))))
	y := 1 - ((lo - (r*c)/(2-c)) - hi)
	if -1022 < k && k < 1023 { // 2^k is a normal number, and so is the product: it is exact
		return y * math.Float64frombits(uint64(k+1023)<<52)
	}
	return math.Ldexp(y, k)
}
