package say

import "strings"

// Level is the confidence of every interval.
const Level = 0.95

// WithMinus returns a number with a true minus sign, and 0 without one.
func WithMinus(number string) string {
	if !strings.ContainsAny(number, "123456789") {
		return strings.TrimPrefix(number, "-")
	}
	return strings.Replace(number, "-", "−", 1)
}

// PlusMinus returns a mean and its half-width, if that is known.
func PlusMinus(mean, half string) string { return mean + Half(half) }

// Half returns a half-width as it follows its mean, after a ±; nothing if it is not known.
func Half(half string) string {
	if half == "" {
		return ""
	}
	return " ± " + half
}
