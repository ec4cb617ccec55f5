package money

import (
	"fmt"
	"math"
	"slices"

	"netrate/sim"
	"netrate/sim/output"
)

// mostDraws bounds a distribution, which is kept whole.
const mostDraws = 10_000_000

// Distribution returns n figures that f draws, a net present value usually, in the order
// drawn. f draws everything uncertain from the stream, which starts anew for each figure:
// draw number k of two alternatives has the same luck if both draw the same things in the
// same order, so that their figures can be compared in pairs.
//
// n must be from 1 to 10⁷. The first error of f ends it, and so does a figure that is not a
// finite number.
func Distribution(n int, seed uint64, f func(*sim.Stream) (float64, error)) (sim.Sample, error) {
	if n < 1 || n > mostDraws {
		return nil, fmt.Errorf("number of draws is %d, want from 1 to %d", n, mostDraws)
	}
	stream := sim.NewStream("money", "figures")
	sample := make(sim.Sample, n)
	for i := range sample {
		stream.Seed(seed, i)
		x, err := f(stream)
		if err == nil && !(math.Abs(x) <= math.MaxFloat64) {
			err = fmt.Errorf("the figure is %g", x)
		}
		if err != nil {
			return nil, fmt.Errorf("draw %d: %w", i+1, err)
		}
		sample[i] = x
	}
	return sample, nil
}

// Probability is a probability estimated from draws, with its exact interval.
type Probability struct {
	Share     float64 // of the draws
	Low, High float64 // ends of the confidence interval
	Level     float64 // confidence, in (0, 1)
	N         int     // draws
}

// ChanceOfGain returns the probability that the net present value is above 0, with its
// exact interval ([sim.ExactInterval]). The interval holds the doubt that comes of drawing
// only so often, and no other: whether the ranges are right it cannot know.
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
