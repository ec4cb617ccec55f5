package money

import (
	"math"
	"slices"

	"netrate/sim"
	"netrate/sim/output"
)

// Probability is a probability estimated from draws, with its exact interval.
type Probability struct {
	Share     float64 // of the draws
	Low, High float64 // ends of the confidence interval
	Level     float64 // confidence, in (0, 1)
	N         int     // draws
}

// ChanceOfGain returns the probability that the net present value is above 0, with its
// exact interval ([sim.ExactInterval]). The interval holds the uncertainty that comes from the
// limited number of draws, and no other: it cannot know whether the ranges are right.
//
// It panics on an empty sample, if NaN is in it, and unless level is in (0, 1).
func ChanceOfGain(npv sim.Sample, level float64) Probability {
	if slices.ContainsFunc(npv, math.IsNaN) {
		panic("money: the chance of gain of a sample with NaN")
	}
	gains := 0
	for _, x := range npv {
		if x > 0 {
			gains++
		}
	}
	low, high := output.ExactInterval(int64(gains), int64(len(npv)), level)
	return Probability{float64(gains) / float64(len(npv)), low, high, level, len(npv)}
}
