package plots

import (
	"math"
	"strconv"
	"strings"

	"netrate/sim"
)

const minus = "\u2212"

// number writes x with commas between thousands and a true minus sign.
func number(x float64, decimals int) string {
	s := strconv.FormatFloat(math.Abs(x), 'f', decimals, 64)
	whole, part, _ := strings.Cut(s, ".")
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	if part != "" {
		whole += "." + part
	}
	if x < 0 && strings.ContainsAny(whole, "123456789") {
		return minus + whole
	}
	return whole
}

// signed writes x with its sign, also if it is above zero.
func signed(x float64, decimals int) string {
	s := number(x, decimals)
	if x > 0 && strings.ContainsAny(s, "123456789") {
		return "+" + s
	}
	return s
}

// digits returns how many decimals show the largest of xs with three digits at
// least, and 0 of nothing.
func digits(xs ...float64) int {
	most := 0.0
	for _, x := range xs {
		most = max(most, math.Abs(x))
	}
	return decimals(most, 3)
}

// decimals returns how many decimals show x with n digits, at most 9.
func decimals(x float64, n int) int {
	if !(x > 0) || math.IsInf(x, 0) {
		return 0
	}
	return min(9, max(0, n-1-int(math.Floor(math.Log10(x)))))
}

// uncertainty writes an estimate as mean ± half-width, both rounded to the first digit of the
// half-width, or to two if the first is 1, as in the tables beside the figures. plain writes the
// mean.
func uncertainty(e sim.Estimate, plain func(x float64, decimals int) string) string {
	switch {
	case math.IsInf(e.Half, 1):
		return plain(e.Mean, digits(e.Mean)) + " (interval unknown)"
	case e.Half == 0:
		return plain(e.Mean, digits(e.Mean)) + " ± 0"
	}
	place := int(math.Floor(math.Log10(e.Half)))
	if e.Half < 1.95*math.Pow10(place) {
		place--
	}
	n := min(9, max(0, -place))
	if e.Mean != 0 { // digits past the seventh say nothing
		n = min(n, decimals(math.Abs(e.Mean), 7))
	}
	if place <= 0 {
		return plain(e.Mean, n) + " ± " + number(e.Half, n)
	}
	step := math.Pow10(place)
	return plain(math.Round(e.Mean/step)*step, 0) + " ± " + number(math.Round(e.Half/step)*step, 0)
}
