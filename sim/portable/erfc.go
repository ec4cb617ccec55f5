// Copyright 2010 The Go Authors. All rights reserved.
// Use of this source code is governed by a BSD-style license: see the file LICENSE.

package portable

import "math"

const (
	erx = 8.45062911510467529297e-01
	// Coefficients for approximation to  erf in [0, 0.84375]
	efx  = 1.28379167095512586316e-01
	efx8 = 1.02703333676410069053e+00
	pp0  = 1.28379167095512558561e-01
	pp1  = -3.25042107247001499370e-01
	pp2  = -2.84817495755985104766e-02
	pp3  = -5.77027029648944159157e-03
	pp4  = -2.37630166566501626084e-05
	qq1  = 3.97917223959155352819e-01
	qq2  = 6.50222499887672944485e-02
	qq3  = 5.08130628187576562776e-03
	qq4  = 1.32494738004321644526e-04
	qq5  = -3.96022827877536812320e-06
	// Coefficients for approximation to  erf  in [0.84375, 1.25]
	pa0 = -2.36211856075265944077e-03
	pa1 = 4.14856118683748331666e-01
	pa2 = -3.72207876035701323847e-01
	pa3 = 3.18346619901161753674e-01
	pa4 = -1.10894694282396677476e-01
	pa5 = 3.54783043256182359371e-02
	pa6 = -2.16637559486879084300e-03
	qa1 = 1.06420880400844228286e-01
	qa2 = 5.40397917702171048937e-01
	qa3 = 7.18286544141962662868e-02
	qa4 = 1.26171219808761642112e-01
	qa5 = 1.36370839120290507362e-02
	qa6 = 1.19844998467991074170e-02
	// Coefficients for approximation to  erfc in [1.25, 1/0.35]
	ra0 = -9.86494403484714822705e-03
	ra1 = -6.93858572707181764372e-01
	ra2 = -1.05586262253232909814e+01
	ra3 = -6.23753324503260060396e+01
	ra4 = -1.62396669462573470355e+02
	ra5 = -1.84605092906711035994e+02
	ra6 = -8.12874355063065934246e+01
	ra7 = -9.81432934416914548592e+00
	sa1 = 1.96512716674392571292e+01
	sa2 = 1.37657754143519042600e+02
	sa3 = 4.34565877475229228821e+02
	sa4 = 6.45387271733267880336e+02
	sa5 = 4.29008140027567833386e+02
	sa6 = 1.08635005541779435134e+02
	sa7 = 6.57024977031928170135e+00
	sa8 = -6.04244152148580987438e-02
	// Coefficients for approximation to  erfc in [1/.35, 28]
	rb0 = -9.86494292470009928597e-03
	rb1 = -7.99283237680523006574e-01
	rb2 = -1.77579549177547519889e+01
	rb3 = -1.60636384855821916062e+02
	rb4 = -6.37566443368389627722e+02
	rb5 = -1.02509513161107724954e+03
	rb6 = -4.83519191608651397019e+02
	sb1 = 3.03380607434824582924e+01
	sb2 = 3.25792512996573918826e+02
	sb3 = 1.53672958608443695994e+03
	sb4 = 3.19985821950859553908e+03
	sb5 = 2.55305040643316442583e+03
	sb6 = 4.74528541206955367215e+02
	sb7 = -2.24409524465858183362e+01
)

// Erfc returns the complementary error function, 2/√π · ∫ exp(−t²) dt from x up, like
// [math.Erfc].
func Erfc(x float64) float64 {
	const Tiny = 1.0 / (1 << 56) // 2**-56
	// special cases
	switch {
	case math.IsNaN(x):
		return math.NaN()
	case math.IsInf(x, 1):
		return 0
	case math.IsInf(x, -1):
		return 2
	}
	sign := false
	if x < 0 {
		x = -x
		sign = true
	}
	if x < 0.84375 { // |x| < 0.84375
		var temp float64
		if x < Tiny { // |x| < 2**-56
			temp = x
		} else {
			z := x * x
			r := pp0 + float64(z*(pp1+float64(z*(pp2+float64(z*(pp3+float64(z*pp4)))))))
			s := 1 + float64(z*(qq1+float64(z*(qq2+float64(z*(qq3+float64(z*(qq4+float64(z*qq5)))))))))
			y := r / s
			if x < 0.25 { // |x| < 1/4
				temp = x + float64(x*y)
			} else {
				temp = 0.5 + (float64(x*y) + (x - 0.5))
			}
		}
		if sign {
			return 1 + temp
		}
		return 1 - temp
	}
	if x < 1.25 { // 0.84375 <= |x| < 1.25
		s := x - 1
		P := pa0 + float64(s*(pa1+float64(s*(pa2+float64(s*(pa3+float64(s*(pa4+float64(s*(pa5+float64(s*pa6)))))))))))
		Q := 1 + float64(s*(qa1+float64(s*(qa2+float64(s*(qa3+float64(s*(qa4+float64(s*(qa5+float64(s*qa6)))))))))))
		if sign {
			return 1 + erx + P/Q
		}
		return 1 - erx - P/Q

	}
	if x < 28 { // |x| < 28
		s := 1 / (x * x)
		var R, S float64
		if x < 1/0.35 { // |x| < 1 / 0.35 ~ 2.857143
			R = ra0 + float64(s*(ra1+float64(s*(ra2+float64(s*(ra3+float64(s*(ra4+float64(s*(ra5+float64(s*(ra6+float64(s*ra7)))))))))))))
			S = 1 + float64(s*(sa1+float64(s*(sa2+float64(s*(sa3+float64(s*(sa4+float64(s*(sa5+float64(s*(sa6+float64(s*(sa7+float64(s*sa8)))))))))))))))
		} else { // |x| >= 1 / 0.35 ~ 2.857143
			if sign && x > 6 {
				return 2 // x < -6
			}
			R = rb0 + float64(s*(rb1+float64(s*(rb2+float64(s*(rb3+float64(s*(rb4+float64(s*(rb5+float64(s*rb6)))))))))))
			S = 1 + float64(s*(sb1+float64(s*(sb2+float64(s*(sb3+float64(s*(sb4+float64(s*(sb5+float64(s*(sb6+float64(s*sb7)))))))))))))
		}
		z := math.Float64frombits(math.Float64bits(x) & 0xffffffff00000000) // pseudo-single (20-bit) precision x
		r := Exp(float64(-z*z)-0.5625) * Exp(float64((z-x)*(z+x))+R/S)
		if sign {
			return 2 - r/x
		}
		return r / x
	}
	if sign {
		return 2
	}
	return 0
}
