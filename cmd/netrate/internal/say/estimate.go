package say

import (
	"strings"

	"netrate/sim"
)

// Size returns how large a difference is, without its sign.
func Size(e sim.Estimate) string {
	if e.Mean < 0 {
		e.Mean = -e.Mean
	}
	return PlusMinus(Measured(e.Mean, e.Half))
}

// Gap returns a difference with its sign, after a ~ if none is shown.
func Gap(e sim.Estimate) string {
	mean, half := Measured(e.Mean, e.Half)
	switch size := strings.TrimLeft(mean, "-−"); {
	case strings.Trim(size, "0.,") == "":
		mean = size // neither +0 nor −0
	case e.Mean > 0:
		mean = "+" + mean
	}
	text := PlusMinus(mean, half)
	if !Differs(e) {
		return "~ " + text
	}
	return text
}

// Differs reports whether a difference is shown: its interval does not hold zero.
func Differs(e sim.Estimate) bool { return e.Shown() }
