package portable

import "fmt"

// Digamma returns the slope of ln Γ at x, and Trigamma the slope of that; both want x > 0 and
// panic for all else, NaN included. They climb to where the asymptotic series are good to the
// last digits.
//
// Source: Abramowitz and Stegun, Handbook of Mathematical Functions, 6.3.5, 6.3.18, 6.4.6 and
// 6.4.12 (from memory).
func Digamma(x float64) float64 {
	below := 0.0
	for checkGamma(x); x < 12; x++ {
		below += 1 / x
	}
	z := 1 / float64(x*x)
	rest := z * (1.0/12 - float64(z*(1.0/120-float64(z*(1.0/252-float64(z*(1.0/240-float64(z*(1.0/132-float64(z*691/32760))))))))))
	return Log(x) - float64(1/(2*x)) - float64(rest) - below
}

// Trigamma is described at [Digamma].
func Trigamma(x float64) float64 {
	below := 0.0
	for checkGamma(x); x < 12; x++ {
		below += 1 / float64(x*x)
	}
	z := 1 / float64(x*x)
	rest := float64(z / x * (1.0/6 - float64(z*(1.0/30-float64(z*(1.0/42-float64(z*(1.0/30-float64(z*(5.0/66-float64(z*691/2730)))))))))))
	return 1/x + float64(z/2) + rest + below
}

func checkGamma(x float64) {
	if !(x > 0) {
		panic(fmt.Sprintf("portable: the slope of ln Γ at %v", x))
	}
}
