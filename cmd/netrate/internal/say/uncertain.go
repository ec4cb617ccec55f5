package say

import "strings"

// Level is the confidence of every interval.
const Level = 0.95

// WithMinus returns numbers with true minus signs, and 0 without one.
func WithMinus(numbers string) string {
	if !strings.ContainsAny(numbers, "123456789") {
		return strings.TrimPrefix(numbers, "-")
	}
	return strings.ReplaceAll(numbers, "-", "−")
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
