package stoplog

import (
	"math"
	"strconv"
	"strings"

	"netrate/sim/portable"
)

// How numbers stand in the comments of a scenario.

// thousands returns a whole number with commas between its thousands.
func thousands(n int64) string {
	digits := strconv.FormatInt(n, 10)
	for k := len(digits) - 3; k > 0; k -= 3 {
		digits = digits[:k] + "," + digits[k:]
	}
	return digits
}

// plural returns "1 stop", or "2 stops".
func plural(n int64, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return thousands(n) + " " + one + "s"
}

// oneIn returns a probability as the feeds for each fault.
func oneIn(p float64) string {
	n := 1 / p
	switch {
	case math.IsInf(n, 1):
		return "–"
	case n >= 100:
		return thousands(int64(math.Round(n)))
	}
	return strconv.FormatFloat(n, 'f', max(0, 2-magnitude(n)), 64)
}

// magnitude returns the power of ten of the first digit of x, above 0.
func magnitude(x float64) int { return int(math.Floor(portable.Log10(x))) }

// shortest returns a number with a limited number of decimals.
func shortest(x float64, decimals int) string {
	unit := math.Pow10(decimals)
	return strconv.FormatFloat(math.Round(x*unit)/unit, 'f', -1, 64)
}

// percent returns a share in percent.
func percent(share float64) string { return shortest(100*share, 2) + " %" }

// perHour returns a speed as a sentence has it.
func perHour(speed float64) string {
	if speed >= 100 {
		return thousands(int64(math.Round(speed))) + "/h"
	}
	return shortest(speed, 2) + "/h"
}

// OneLine returns a text on one line.
func OneLine(text string) string { return strings.Join(strings.Fields(text), " ") }
