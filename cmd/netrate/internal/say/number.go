package say

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"netrate/sim/portable"
)

// How numbers are written: with commas between thousands, and no digit more than their
// interval supports.

// Measured returns a mean and its half-width, rounded alike: the half-width to one digit,
// or to two if the first is 1. The half-width is "" if it is unknown or nothing.
//
// Source of the rule: Taylor, An Introduction to Error Analysis (1997), section 2.2 (from
// memory).
func Measured(mean, half float64) (m, h string) {
	if !uncertain(half) || half < 1e-12*math.Abs(mean) { // which is rounding, and no uncertainty
		return Exact(mean), ""
	}
	places := Magnitude(half)
	if half*math.Pow10(-places) < 1.95 {
		places--
	}
	return Rounded(mean, places), Rounded(half, places)
}

// Rough returns a number that is printed without its half-width: its last digit is the
// first uncertain one, but two decimals are enough for anything above 0.1.
func Rough(x, half float64) string {
	if !uncertain(half) {
		return Exact(x)
	}
	places := Magnitude(half)
	if math.Abs(x) >= 0.1 {
		places = max(places, -2)
	}
	return Rounded(x, places)
}

// Percent returns a share in percent, with one decimal at most.
func Percent(x, half float64) string {
	places := -1
	if uncertain(half) {
		places = max(places, Magnitude(100*half))
	}
	return Rounded(100*x, places) + " %"
}

// nearest is how near to all and to none a share is told from them, in percent: what is nearer makes no
// difference to anybody, and would fill a line with its digits.
const nearest = 0.001

// AtMost returns a share in percent, for a bound above what is known: rounded up to two digits, for one that
// is rounded to the nearest may be below it; one that is near 100 % has a decimal. No bound is below 0.001 %. The
// share must be from 0 to 1.
func AtMost(share float64) string {
	if 100*share <= nearest {
		return "0.001 %"
	}
	places := max(-3, Magnitude(100*share)-1)
	if share > 0.5 {
		places = max(-1, Magnitude(max(nearest, 100*(1-share)))-1)
	}
	if x := up(100*share, places); x < 100 {
		return Rounded(x, min(places, 0)) + " %"
	}
	return "100 %"
}

// AtLeast returns likewise a bound below what is known, with as many digits as tell it from 100 %: rounded down.
// One that is near 0 % has a decimal. No bound is above 99.999 %.
func AtLeast(share float64) string {
	rest := 100 * (1 - share)
	if rest <= nearest {
		return "99.999 %"
	}
	places := max(-3, Magnitude(rest)-1)
	if share < 0.5 {
		places = max(-1, Magnitude(max(nearest, 100*share))-1)
	}
	if x := 100 - up(rest, places); x > 0 {
		return Rounded(x, min(places, 0)) + " %"
	}
	return "0 %"
}

// Between returns between what a share lies that was counted, in percent, rounded away from it.
func Between(low, high float64) string { return AtLeast(low) + " to " + AtMost(high) }

// Share returns a share in percent that has no interval, with one decimal: none and all are said as words, and
// what is neither is never 0 % or 100 %. The share must be from 0 to 1.
func Share(x float64) string {
	switch {
	case x == 0:
		return "none"
	case x == 1:
		return "all"
	case x < 0.0005:
		return "< 0.1 %"
	case x >= 0.9995:
		return "> 99.9 %"
	}
	return Rounded(100*x, -1) + " %"
}

// ShareOf returns likewise a share whose interval is twice as wide as half, as far as that supports: what is
// neither none nor all is told from both. One that is nearer to them than 0.001 % is less, or more, than that.
func ShareOf(x, half float64, less, more string) string {
	near := 100 * math.Min(x, 1-x)
	switch {
	case 100*x < nearest:
		return less + AtMost(x)
	case near < nearest:
		return more + AtLeast(x)
	case near < 2:
		return Rounded(100*x, min(-1, Magnitude(near*(1+1e-9)))) + " %"
	}
	places := -1
	if uncertain(half) {
		places = max(places, min(Magnitude(100*half), Magnitude(near)))
	}
	return Rounded(100*x, places) + " %"
}

// up returns x rounded up to a multiple of ten to the given power, but for what rounding of sums adds.
func up(x float64, places int) float64 {
	if places < 0 {
		unit := math.Pow10(-places)
		return math.Ceil(float64(x*unit)-1e-9) / unit
	}
	unit := math.Pow10(places)
	return math.Ceil(x/unit-1e-9) * unit
}

// Exact returns a number of which no uncertainty is known: whole if it is large, and with two
// digits if it is small. What is less than rounding can be is 0.
func Exact(x float64) string {
	switch size := math.Abs(x); {
	case size >= 100:
		return Rounded(x, 0)
	case size <= nothing:
		return "0"
	case size < 0.005:
		return Rounded(x, Magnitude(size)-1)
	}
	text := strconv.FormatFloat(x, 'f', 2, 64)
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}

// nothing is what rounding may leave of nothing, in sums of numbers of any size that is told: it has no digits.
const nothing = 1e-9

func uncertain(half float64) bool { return half > nothing && !math.IsInf(half, 1) }

// Magnitude returns the power of ten of the first digit of x, above 0.
func Magnitude(x float64) int { return int(math.Floor(portable.Log10(x))) }

// Rounded returns x rounded to a multiple of ten to the given power.
func Rounded(x float64, places int) string {
	if places > 0 {
		step := math.Pow10(places)
		return Grouped(strconv.FormatFloat(math.Round(x/step)*step, 'f', 0, 64))
	}
	return Grouped(strconv.FormatFloat(x, 'f', -places, 64))
}

// Grouped puts commas between the thousands of a number.
func Grouped(number string) string {
	whole, part, fraction := strings.Cut(number, ".")
	start := len(whole) % 3
	if strings.HasPrefix(whole, "-") && start <= 1 {
		start += 3
	}
	text := whole[:min(start, len(whole))]
	for i := start; i < len(whole); i += 3 {
		if text != "" {
			text += ","
		}
		text += whole[i : i+3]
	}
	if fraction {
		text += "." + part
	}
	return text
}

// Thousands returns a whole number with commas between its thousands.
func Thousands[T int | int64](n T) string { return Grouped(strconv.FormatInt(int64(n), 10)) }

// Plural returns "1 shift", or "2 shifts".
func Plural[T int | int64](n T, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return Thousands(n) + " " + one + "s"
}

// Signed returns x as a whole number, with its sign also if it is above zero.
func Signed(x float64) string {
	switch text := Rounded(x, 0); {
	case text == "0" || text == "-0":
		return "0"
	case x > 0:
		return "+" + text
	default:
		return WithMinus(text)
	}
}

// TwoDigits returns a number above 0 rounded to two digits.
func TwoDigits(x float64) string { return Rounded(x, Magnitude(x)-1) }

// ToDecimals returns x rounded to a number of decimals.
func ToDecimals(x float64, decimals int) float64 {
	unit := math.Pow10(decimals)
	return math.Round(x*unit) / unit
}

// FewDigits returns a number of 0 or more with two digits, or three if it is above 100.
func FewDigits(x float64) string {
	switch {
	case x == 0:
		return "0"
	case x < 1e-6:
		return "<0.000001"
	case x >= 100:
		return Rounded(x, Magnitude(x)-2)
	}
	return TwoDigits(x)
}

// InShort returns a large number with at most three digits before its word.
func InShort(x float64) string {
	switch {
	case x >= 1e9:
		return Exact(x/1e9) + " bn"
	case x >= 1e6:
		return Exact(x/1e6) + " million"
	}
	return Exact(x)
}

// TwoDigitsOr0 returns a number rounded to two digits, and 0 for anything not above it.
func TwoDigitsOr0(x float64) string {
	if !(x > nothing) {
		return "0"
	}
	return TwoDigits(x)
}

// OneIn returns a probability as "2,431", the feeds for each fault.
func OneIn(p float64) string {
	n := 1 / p
	switch {
	case math.IsInf(n, 1):
		return "–"
	case n >= 100:
		return Rounded(n, 0)
	}
	return Rounded(n, min(0, Magnitude(n)-2))
}

// Decimals returns x with a number of decimals at most.
func Decimals(x float64, most int) string {
	return strconv.FormatFloat(ToDecimals(x, most), 'f', -1, 64)
}

// Probability returns a probability in percent.
func Probability(x float64) string {
	if x == math.Trunc(x) {
		return Exact(100*x) + " %"
	}
	return fmt.Sprintf("%.4g %%", 100*x)
}
