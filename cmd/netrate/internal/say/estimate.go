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

// Gain returns a difference with its sign: "+310 ± 12".
func Gain(e sim.Estimate) string {
	_, half := Measured(e.Mean, e.Half)
	return PlusMinus(GainOf(e), half)
}

// GainOf returns a difference with its sign and without its interval: "+310".
func GainOf(e sim.Estimate) string {
	mean, _ := Measured(e.Mean, e.Half)
	if mean = WithMinus(mean); e.Mean > 0 && strings.ContainsAny(mean, "123456789") {
		return "+" + mean
	}
	return mean
}

// Gap returns a difference with its sign, after a ~ if none is shown.
func Gap(e sim.Estimate) string {
	if !Differs(e) {
		return "~ " + Gain(e)
	}
	return Gain(e)
}

// Differs reports whether a difference is shown: its interval does not hold zero.
func Differs(e sim.Estimate) bool { return e.Shown() }
