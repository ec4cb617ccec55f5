package present

import (
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/sim"
)

// netRate returns a net rate with its interval: "13,720 ± 40".
func netRate(r study.NetRate) string {
	return say.PlusMinus(say.Measured(float64(r.Mean), float64(r.Half)))
}

// gain returns a difference with its sign: "+310 ± 12".
func gain(e sim.Estimate) string {
	mean, half := say.Measured(e.Mean, e.Half)
	switch nothing := !strings.ContainsAny(mean, "123456789"); {
	case nothing:
		mean = strings.TrimPrefix(mean, "-")
	case e.Mean > 0:
		mean = "+" + mean
	}
	return say.PlusMinus(mean, half)
}

// shownGain returns a difference with its sign, after a ~ if none is shown.
func shownGain(d *study.Difference) string {
	if d.Shown() {
		return gain(d.Estimate())
	}
	return "~ " + gain(d.Estimate())
}
