// Copyright 2010 The Go Authors. All rights reserved.
// Use of this source code is governed by a BSD-style license: see the file LICENSE.

package portable

import (
	"fmt"
)

var _lgamA = [...]float64{
	7.72156649015328655494e-02,
	3.22467033424113591611e-01,
	6.73523010531292681824e-02,
	2.05808084325167332806e-02,
	7.38555086081402883957e-03,
	2.89051383673415629091e-03,
	1.19270763183362067845e-03,
	5.10069792153511336608e-04,
	2.20862790713908385557e-04,
	1.08011567247583939954e-04,
	2.52144565451257326939e-05,
	4.48640949618915160150e-05,
}

var _lgamR = [...]float64{
	1.0,
	1.39200533467621045958e+00,
	7.21935547567138069525e-01,
	1.71933865632803078993e-01,
	1.86459191715652901344e-02,
	7.77942496381893596434e-04,
	7.32668430744625636189e-06,
}

var _lgamS = [...]float64{
	-7.72156649015328655494e-02,
	2.14982415960608852501e-01,
	3.25778796408930981787e-01,
	1.46350472652464452805e-01,
	2.66422703033638609560e-02,
	1.84028451407337715652e-03,
	3.19475326584100867617e-05,
}

var _lgamT = [...]float64{
	4.83836122723810047042e-01,
	-1.47587722994593911752e-01,
	6.46249402391333854778e-02,
	-3.27885410759859649565e-02,
	1.79706750811820387126e-02,
	-1.03142241298341437450e-02,
	6.10053870246291332635e-03,
	-3.68452016781138256760e-03,
	2.25964780900612472250e-03,
	-1.40346469989232843813e-03,
	8.81081882437654011382e-04,
	-5.38595305356740546715e-04,
	3.15632070903625950361e-04,
	-3.12754168375120860518e-04,
	3.35529192635519073543e-04,
}

var _lgamU = [...]float64{
	-7.72156649015328655494e-02,
	6.32827064025093366517e-01,
	1.45492250137234768737e+00,
	9.77717527963372745603e-01,
	2.28963728064692451092e-01,
	1.33810918536787660377e-02,
}

var _lgamV = [...]float64{
	1.0,
	2.45597793713041134822e+00,
	2.12848976379893395361e+00,
	7.69285150456672783825e-01,
	1.04222645593369134254e-01,
	3.21709242282423911810e-03,
}

var _lgamW = [...]float64{
	4.18938533204672725052e-01,
	8.33333333333329678849e-02,
	-2.77777777728775536470e-03,
	7.93650558643019558500e-04,
	-5.95187557450339963135e-04,
	8.36339918996282139126e-04,
	-1.63092934096575273989e-03,
}

// Lgamma returns ln Γ(x) for x > 0, like [math.Lgamma]. It panics for all else, NaN included.
func Lgamma(x float64) (lgamma float64) {
	const (
		Ymin  = 1.461632144968362245
		Two58 = 1 << 58
		Tc    = 1.46163214496836224576e+00
		Tf    = -1.21486290535849611461e-01
		// Tt = -(tail of Tf)
		Tt = -3.63867699703950536541e-18
	)
	if !(x > 0) {
		panic(fmt.Sprintf("portable: ln Γ(%v)", x))
	}
	switch {
	case x == 1 || x == 2: // purge off 1 and 2
		return 0
	case x < 2: // use lgamma(x) = lgamma(x+1) - log(x)
		var y float64
		var i int
		if x <= 0.9 {
			lgamma = -Log(x)
			switch {
			case x >= (Ymin - 1 + 0.27): // 0.7316 <= x <=  0.9
				y = 1 - x
				i = 0
			case x >= (Ymin - 1 - 0.27): // 0.2316 <= x < 0.7316
				y = x - (Tc - 1)
				i = 1
			default: // 0 < x < 0.2316
				y = x
				i = 2
			}
		} else {
			lgamma = 0
			switch {
			case x >= (Ymin + 0.27): // 1.7316 <= x < 2
				y = 2 - x
				i = 0
			case x >= (Ymin - 0.27): // 1.2316 <= x < 1.7316
				y = x - Tc
				i = 1
			default: // 0.9 < x < 1.2316
				y = x - 1
				i = 2
			}
		}
		switch i {
		case 0:
			z := y * y
			p1 := _lgamA[0] + float64(z*(_lgamA[2]+float64(z*(_lgamA[4]+float64(z*(_lgamA[6]+float64(z*(_lgamA[8]+float64(z*_lgamA[10])))))))))
			p2 := float64(z * (_lgamA[1] + float64(z*(+_lgamA[3]+float64(z*(_lgamA[5]+float64(z*(_lgamA[7]+float64(z*(_lgamA[9]+float64(z*_lgamA[11])))))))))))
			p := float64(y*p1) + p2
			lgamma += (p - float64(0.5*y))
		case 1:
			z := y * y
			w := z * y
			p1 := _lgamT[0] + float64(w*(_lgamT[3]+float64(w*(_lgamT[6]+float64(w*(_lgamT[9]+float64(w*_lgamT[12]))))))) // parallel comp
			p2 := _lgamT[1] + float64(w*(_lgamT[4]+float64(w*(_lgamT[7]+float64(w*(_lgamT[10]+float64(w*_lgamT[13])))))))
			p3 := _lgamT[2] + float64(w*(_lgamT[5]+float64(w*(_lgamT[8]+float64(w*(_lgamT[11]+float64(w*_lgamT[14])))))))
			p := float64(z*p1) - (Tt - float64(w*(p2+float64(y*p3))))
			lgamma += (Tf + p)
		case 2:
			p1 := y * (_lgamU[0] + float64(y*(_lgamU[1]+float64(y*(_lgamU[2]+float64(y*(_lgamU[3]+float64(y*(_lgamU[4]+float64(y*_lgamU[5]))))))))))
			p2 := 1 + float64(y*(_lgamV[1]+float64(y*(_lgamV[2]+float64(y*(_lgamV[3]+float64(y*(_lgamV[4]+float64(y*_lgamV[5])))))))))
			lgamma += (float64(-0.5*y) + p1/p2)
		}
	case x < 8: // 2 <= x < 8
		i := int(x)
		y := x - float64(i)
		p := y * (_lgamS[0] + float64(y*(_lgamS[1]+float64(y*(_lgamS[2]+float64(y*(_lgamS[3]+float64(y*(_lgamS[4]+float64(y*(_lgamS[5]+float64(y*_lgamS[6]))))))))))))
		q := 1 + float64(y*(_lgamR[1]+float64(y*(_lgamR[2]+float64(y*(_lgamR[3]+float64(y*(_lgamR[4]+float64(y*(_lgamR[5]+float64(y*_lgamR[6])))))))))))
		lgamma = float64(0.5*y) + p/q
		z := 1.0 // Lgamma(1+s) = Log(s) + Lgamma(s)
		switch i {
		case 7:
			z *= (y + 6)
			fallthrough
		case 6:
			z *= (y + 5)
			fallthrough
		case 5:
			z *= (y + 4)
			fallthrough
		case 4:
			z *= (y + 3)
			fallthrough
		case 3:
			z *= (y + 2)
			lgamma += Log(z)
		}
	case x < Two58: // 8 <= x < 2**58
		t := Log(x)
		z := 1 / x
		y := z * z
		w := _lgamW[0] + float64(z*(_lgamW[1]+float64(y*(_lgamW[2]+float64(y*(_lgamW[3]+float64(y*(_lgamW[4]+float64(y*(_lgamW[5]+float64(y*_lgamW[6])))))))))))
		lgamma = float64((x-0.5)*(t-1)) + w
	default: // 2**58 <= x <= Inf
		lgamma = x * (Log(x) - 1)
	}
	return lgamma
}
