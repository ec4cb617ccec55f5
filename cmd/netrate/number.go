package main

import (
	"math"
	"strconv"
	"strings"
)

// How numbers are written: with commas between thousands, and no digit more than their
// interval supports.

// measured returns a mean and its half-width, rounded alike: the half-width to one digit,
// or to two if the first is 1. The half-width is "" if it is unknown or nothing.
//
// Source of the rule: Taylor, An Introduction to Error Analysis (1997), section 2.2 (from
// memory).
func measured(mean, half float64) (m, h string) {
	if !uncertain(half) || half < 1e-12*math.Abs(mean) { // which is rounding, and no doubt
		return exact(mean), ""
	}
	places := magnitude(half)
	if half*math.Pow10(-places) < 1.95 {
		places--
	}
	return rounded(mean, places), rounded(half, places)
}

// rough returns a number that is printed without its half-width: its last digit is the
// first uncertain one, but two decimals are enough for anything above 0.1.
func rough(x, half float64) string {
	if !uncertain(half) {
		return exact(x)
	}
	places := magnitude(half)
	if math.Abs(x) >= 0.1 {
		places = max(places, -2)
	}
	return rounded(x, places)
}

// percent returns a share in percent, with one decimal at most.
func percent(x, half float64) string {
	places := -1
	if uncertain(half) {
		places = max(places, magnitude(100*half))
	}
	return rounded(100*x, places) + " %"
}

// exact returns a number of which no uncertainty is known: whole if it is large.
func exact(x float64) string {
	if math.Abs(x) >= 100 {
		return rounded(x, 0)
	}
	text := strconv.FormatFloat(x, 'f', 2, 64)
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}

func uncertain(half float64) bool { return half > 0 && !math.IsInf(half, 1) }

// magnitude returns the power of ten of the first digit of x, above 0.
func magnitude(x float64) int { return int(math.Floor(math.Log10(x))) }

// rounded returns x rounded to a multiple of ten to the given power.
func rounded(x float64, places int) string {
	if places > 0 {
		step := math.Pow10(places)
		return grouped(strconv.FormatFloat(math.Round(x/step)*step, 'f', 0, 64))
	}
	return grouped(strconv.FormatFloat(x, 'f', -places, 64))
}

// grouped puts commas between the thousands of a number.
func grouped(number string) string {
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

func thousands[T int | int64](n T) string { return grouped(strconv.FormatInt(int64(n), 10)) }

// plural returns "1 shift", or "2 shifts".
func plural[T int | int64](n T, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return thousands(n) + " " + one + "s"
}

// signed returns x as a whole number, with its sign also if it is above zero.
func signed(x float64) string {
	switch text := rounded(x, 0); {
	case text == "0" || text == "-0":
		return "0"
	case x > 0:
		return "+" + text
	default:
		return text
	}
}

// twoDigits returns a number above 0 rounded to two digits.
func twoDigits(x float64) string { return rounded(x, magnitude(x)-1) }

// rounding returns x rounded to so many decimals.
func rounding(x float64, decimals int) float64 {
	unit := math.Pow10(decimals)
	return math.Round(x*unit) / unit
}
