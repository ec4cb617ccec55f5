package present

import (
	"math"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
	"netrate/sim"
)

// Estimates in tables stand in two columns each: people read the mean with its ±, programs both.

// RateColumns are the columns of an estimate in good envelopes an hour. In brief they are called
// otherwise, or left out.
func RateColumns(title, brief string) []plots.Column {
	return estimateColumns(plots.Column{Title: title, Unit: "an hour", Kind: plots.Number, Brief: brief})
}

// estimateColumns returns the column of a mean, and that of its half-width.
func estimateColumns(mean plots.Column) []plots.Column {
	half := mean
	half.Title, half.Brief, half.Decimals, half.Data = mean.Title+" ±", "", mean.Decimals+1, true
	return []plots.Column{mean, half}
}

// estimated returns the entries of an estimate.
func estimated(e sim.Estimate) []plots.Entry {
	return []plots.Entry{{Number: e.Mean, Shown: say.WithMinus(say.PlusMinus(say.Measured(e.Mean, e.Half)))}, page.HalfWidth(e.Half)}
}

// differing returns the entries of a difference, with its sign.
func differing(e sim.Estimate) []plots.Entry {
	return []plots.Entry{{Number: e.Mean, Shown: say.Gap(e)}, page.HalfWidth(e.Half)}
}

// nothings returns n empty entries of columns of numbers.
func nothings(n int) (all []plots.Entry) {
	for range n {
		all = append(all, plots.Entry{Number: math.NaN()})
	}
	return all
}

// rateOf returns a net rate without its interval, and with the digits that it bears.
func rateOf(r study.NetRate) plots.Entry {
	mean, _ := say.Measured(float64(r.Mean), float64(r.Half))
	return plots.Entry{Number: float64(r.Mean), Shown: mean}
}

// netRate returns a net rate with its interval: "13,720 ± 40".
func netRate(r study.NetRate) string {
	return say.PlusMinus(say.Measured(float64(r.Mean), float64(r.Half)))
}
