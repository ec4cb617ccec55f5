package output

import (
	"fmt"
	"math"

	"netrate/sim"
)

// Peak is where a curve is highest.
type Peak struct {
	At        float64 // in the unit of the places
	Low, High float64 // interval of At
	Edge      bool    // the highest place is the first or the last: the peak may lie beyond
}

// resamples is how many curves the interval of a peak is taken from.
const resamples = 2000

// FindPeak returns where a curve is highest that was observed at rising places, curves[i]
// holding the observations at places[i], one of each replication; observation j of all
// places must come from common random numbers.
//
// At is the top of the parabola through the highest mean and its two neighbours. The
// interval is the percentile interval of a bootstrap over the replications, 2,000 times,
// with random numbers that the seed names. Its level is approximate.
//
// It panics for fewer than three places, places that do not rise, or samples that are
// empty or differ in length, and unless level is in (0, 1).
//
// Source: Efron and Tibshirani, An Introduction to the Bootstrap (1993), ch. 13 (from
// memory).
func FindPeak(places []float64, curves []sim.Sample, level float64, seed uint64) Peak {
	checkCurves(places, curves, level)
	means := make([]float64, len(places))
	for i, c := range curves {
		means[i] = c.Mean()
	}
	at, edge := top(places, means)
	random := sim.NewStream("peak", "bootstrap")
	random.Seed(seed, 0)
	n := len(curves[0])
	tops := make(sim.Sample, resamples)
	for b := range tops {
		clear(means)
		for range n {
			j := int(random.Uniform() * float64(n))
			for i, c := range curves {
				means[i] += c[j]
			}
		}
		tops[b], _ = top(places, means)
	}
	return Peak{At: at, Low: tops.Quantile((1 - level) / 2), High: tops.Quantile((1 + level) / 2), Edge: edge}
}

func checkCurves(places []float64, curves []sim.Sample, level float64) {
	ok := len(places) >= 3 && len(curves) == len(places) && level > 0 && level < 1
	for i := range curves {
		ok = ok && len(curves[i]) > 0 && len(curves[i]) == len(curves[0]) && (i == 0 || places[i] > places[i-1])
	}
	if !ok {
		panic(fmt.Sprintf("output: the peak of %d curves at %d places, level %v", len(curves), len(places), level))
	}
}

// top returns the place of the highest value, smoothed by a parabola through it and its
// neighbours, and whether it is at an end.
func top(x, y []float64) (at float64, edge bool) {
	k := 0
	for i := range y {
		if y[i] > y[k] {
			k = i
		}
	}
	if k == 0 || k == len(y)-1 {
		return x[k], true
	}
	left, right := x[k]-x[k-1], x[k+1]-x[k]
	rise, fall := (y[k]-y[k-1])/left, (y[k]-y[k+1])/right // both 0 or more
	if rise+fall == 0 {
		return x[k], false
	}
	// The slope falls in a straight line from rise, half-way to the left neighbour, to
	// −fall, half-way to the right one.
	at = x[k] - float64(left/2) + (left+right)/2*rise/(rise+fall)
	return math.Min(math.Max(at, x[k-1]), x[k+1]), false
}
