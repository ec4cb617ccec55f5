package sim

import (
	"fmt"
	"math"
	"slices"

	"netrate/sim/portable"
)

// Estimate is a mean with its uncertainty.
type Estimate struct {
	Mean  float64 // in the unit of the observations; 0 if there are none
	Half  float64 // half-width of the confidence interval, same unit; +Inf if unknown
	Level float64 // confidence, in (0, 1)
	N     int     // observations
}

// Low returns the lower end of the interval.
func (e Estimate) Low() float64 { return e.Mean - e.Half }

// High returns the upper end of the interval.
func (e Estimate) High() float64 { return e.Mean + e.Half }

// Shown reports whether a difference is shown by it: its interval does not hold zero.
func (e Estimate) Shown() bool { return e.Low() > 0 || e.High() < 0 }

// Sample holds one figure of each replication, in any order. Its methods leave it
// as it is.
type Sample []float64

// Mean returns the mean. It panics on an empty sample.
func (s Sample) Mean() float64 {
	s.atLeast(1, "mean")
	return portable.Mean(s)
}

// SD returns the standard deviation, with divisor n − 1. It panics on fewer than
// two observations.
func (s Sample) SD() float64 {
	s.atLeast(2, "standard deviation")
	return math.Sqrt(s.Variance())
}

// Variance returns the variance, with divisor n − 1; NaN of fewer than two observations.
func (s Sample) Variance() float64 {
	_, v := portable.Variance(s)
	return v
}

// Quantile returns the value below which a share p of the observations lies, by
// straight lines between them. It panics on an empty sample, if an observation is
// NaN, and unless p is in [0, 1]. It sorts a copy, which takes O(n log n): for more than one
// see [Sample.Sorted].
//
// Source: Hyndman and Fan, Sample quantiles in statistical packages, The American
// Statistician 50 (1996) 361–365, definition 7 (from memory), which spreadsheets
// use; gonum's LinInterp is another one.
func (s Sample) Quantile(p float64) float64 { return s.Sorted().Quantile(p) }

// Sorted is a sample in rising order.
type Sorted []float64

// Sorted returns a copy of the sample in rising order. It panics if an observation is NaN.
func (s Sample) Sorted() Sorted {
	if slices.ContainsFunc(s, math.IsNaN) {
		panic(fmt.Sprintf("sim: NaN in a sample of %d that is to be sorted", len(s)))
	}
	x := slices.Clone(s)
	slices.Sort(x)
	return Sorted(x)
}

// Quantile is [Sample.Quantile], without sorting.
func (x Sorted) Quantile(p float64) float64 {
	if !(p >= 0 && p <= 1) || len(x) == 0 {
		panic(fmt.Sprintf("sim: quantile %v of a sample of %d", p, len(x)))
	}
	whole, part := math.Modf(float64(p * float64(len(x)-1)))
	i := int(whole)
	if part == 0 {
		return x[i]
	}
	return x[i] + float64(part*(x[i+1]-x[i]))
}

// Interval returns the mean with its confidence interval of the given level, by
// Student's t: right if the observations are independent and their mean is near
// enough to normal. Of fewer than two observations the half-width is +Inf: nothing
// is known of the spread. It panics unless level is in (0, 1).
func (s Sample) Interval(level float64) Estimate {
	return IntervalOf(len(s), func(i int) float64 { return s[i] }, level)
}

// IntervalOf is [Sample.Interval] of n observations that do not stand in one sample: at returns
// each, from number 0 on, and may be asked for it again.
func IntervalOf(n int, at func(i int) float64, level float64) Estimate {
	e := Estimate{Half: halfWidth(0, n, level), Level: level, N: n}
	switch n {
	case 0:
	case 1:
		e.Mean = at(0)
	default:
		mean, variance := portable.VarianceOf(n, at)
		e.Mean, e.Half = mean, halfWidth(math.Sqrt(variance), n, level)
	}
	return e
}

// halfWidth returns the half-width of Student's interval for the mean of n
// observations with standard deviation sd, +Inf if there are fewer than two.
func halfWidth(sd float64, n int, level float64) float64 {
	if !(level > 0 && level < 1) {
		panic(fmt.Sprintf("sim: an interval of level %v", level))
	}
	if n < 2 {
		return math.Inf(1)
	}
	t := portable.StudentQuantile(float64(n-1), (1+level)/2)
	return t * sd / math.Sqrt(float64(n))
}

func (s Sample) atLeast(n int, what string) {
	if len(s) < n {
		panic(fmt.Sprintf("sim: the %s of a sample of %d", what, len(s)))
	}
}
