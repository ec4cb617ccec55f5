package fit

import (
	"fmt"

	"netrate/sim/output"
)

// Rate is a probability learnt from counts, with its uncertainty.
type Rate struct {
	Faults, Feeds int64
	P             float64 // faults per feed
	Low, High     float64 // the interval that holds the true probability with the confidence Level
	AtMost        float64 // the limit with all uncertainty above it; what to quote where no fault was seen
	Level         float64
}

// NewRate returns the probability of a fault from the number of faults in a number of independent
// feeds, with its exact interval ([sim.ExactInterval]) and its exact one-sided limit.
//
// Low to High, and AtMost, each hold with probability Level or more; to quote AtMost only
// because no fault was seen, and the interval otherwise, holds a little less often.
//
// It wants 0 ≤ faults ≤ feeds, at least one feed and a level above ½ and below 1. Where
// faults come in bursts ([Pattern]) the interval is too narrow.
func NewRate(faults, feeds int64, level float64) (Rate, error) {
	if err := checkLevel(level); err != nil {
		return Rate{}, err
	}
	if err := checkCounts(faults, feeds); err != nil {
		return Rate{}, err
	}
	r := Rate{Faults: faults, Feeds: feeds, P: float64(faults) / float64(feeds), Level: level}
	r.Low, r.High = output.ExactInterval(faults, feeds, level)
	_, r.AtMost = output.ExactInterval(faults, feeds, float64(2*level)-1)
	return r, nil
}

func checkLevel(level float64) error {
	if !(level > 0.5 && level < 1) {
		return fmt.Errorf("the level is %v, want above 0.5 and below 1", level)
	}
	return nil
}

func checkCounts(faults, feeds int64) error {
	if !(0 <= faults && faults <= feeds && feeds >= 1) {
		return fmt.Errorf("there are %d faults in %d feeds, want 0 ≤ faults ≤ feeds and at least one feed", faults, feeds)
	}
	return nil
}
