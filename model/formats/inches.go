package formats

import (
	"math"
	"strconv"
)

// An inch in millimetres, exact: international yard and pound agreement of 1959.
const inch = 25.4

// hair is what rounding may do to a length, in mm or in sixteenths of an inch: far below
// what anybody can measure, far above what a computer loses.
const hair = 1e-6

// tidy returns x to six decimals. It clears the rounding that would put a piece of exactly
// 11½ inches, given in millimetres, just above or just below that.
func tidy(x float64) float64 { return math.Round(x*1e6) / 1e6 }

// sixteenths returns how many sixteenths of an inch mm is, and whether it is a whole
// number of them above 0.
func sixteenths(mm float64) (n int, whole bool) {
	x := float64(mm / inch * 16)
	if !(x > hair && x < 1e6) {
		return 0, false
	}
	n = int(math.Round(x))
	return n, math.Abs(x-float64(n)) < hair
}

var eighths = [8]string{"", "⅛", "¼", "⅜", "½", "⅝", "¾", "⅞"}

// fraction returns n sixteenths of an inch as it is written: "4⅛", "½", "3 5/16".
func fraction(n int) string {
	whole, rest := n/16, n%16
	text := ""
	if whole > 0 || rest == 0 {
		text = strconv.Itoa(whole)
	}
	if rest%2 == 0 {
		return text + eighths[rest/2]
	}
	if text != "" {
		text += " "
	}
	return text + strconv.Itoa(rest) + "/16"
}

// short returns x rounded to the given number of decimals, without idle zeros.
func short(x float64, decimals int) string {
	unit := math.Pow10(decimals)
	return strconv.FormatFloat(math.Round(x*unit)/unit, 'f', -1, 64)
}
