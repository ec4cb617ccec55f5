package fit

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/optimize"

	"netrate/sim/portable"
)

// likeliest returns the place at which the kind makes the records likeliest: by a formula
// or by the root of one equation where there is one, else by climbing the likelihood.
func (r records) likeliest(kind Kind) (place, error) {
	if kind != Exponential && !r.differ() {
		return place{}, errors.New("the complete observations are all the same, want two that differ")
	}
	if len(r.ranges) > 0 {
		return r.climb(kind)
	}
	switch kind {
	case Exponential:
		return place{portable.Log(r.perEvent()), 1}, nil
	case Lognormal:
		if len(r.cut) == 0 {
			return lognormal(r.events), nil
		}
		return r.climb(kind)
	case Gamma:
		if len(r.cut) == 0 {
			return r.gamma()
		}
		return r.climb(kind)
	case Weibull:
		return r.weibull()
	}
	panic(fmt.Sprintf("fit: there is no kind %d", int(kind)))
}

// perEvent returns the total time per event, the mean of the exponential distribution.
func (r records) perEvent() float64 {
	total := 0.0
	r.each(func(x float64) { total += x })
	return total / float64(len(r.events)+len(r.ranges))
}

// lognormal returns mean and standard deviation, with divisor n, of the logarithms.
func lognormal(x []float64) place {
	logs := make([]float64, len(x))
	for i, v := range x {
		logs[i] = portable.Log(v)
	}
	mean, variance := portable.Variance(logs)
	n := float64(len(logs))
	return place{mean, math.Sqrt(variance * (n - 1) / n)}
}

// weibull solves Σ tᵏ ln t / Σ tᵏ − 1/k = mean of ln t over the events, where the sums are
// over all records; then scaleᵏ = Σ tᵏ / events. The left side rises with the shape k.
//
// Source: Cohen, Technometrics 7 (1965) 579–588 (from memory).
func (r records) weibull() (place, error) {
	center := lognormal(r.events).at
	logs := make([]float64, 0, len(r.events)+len(r.cut)) // about their center, for the sake of the powers
	top := math.Inf(-1)
	r.each(func(x float64) {
		logs = append(logs, portable.Log(x)-center)
		top = max(top, logs[len(logs)-1])
	})
	var sum float64 // of tᵏ, over its largest term
	x, err := root(-20, 20, func(logShape float64) (value, slope float64) {
		k := portable.Exp(logShape)
		var first, second float64
		sum = 0
		for _, l := range logs {
			w := portable.Exp(k * (l - top))
			sum, first, second = sum+w, first+float64(w*l), second+float64(w*l*l)
		}
		mean := first / sum
		return mean - 1/k, float64(k*(second/sum-float64(mean*mean))) + 1/k
	})
	k := portable.Exp(x)
	return place{center + top + portable.Log(sum/float64(len(r.events)))/k, 1 / k}, err
}

// gamma solves ψ(k) − ln k = mean of ln(t/mean) for the shape k; ψ is the digamma
// function. The left side rises with k.
//
// Source: Choi and Wette, Technometrics 11 (1969) 683–690 (from memory).
func (r records) gamma() (place, error) {
	mean, short := portable.Mean(r.events), 0.0
	for _, x := range r.events {
		short -= portable.Log(x/mean) / float64(len(r.events))
	}
	x, err := root(-20, 40, func(logShape float64) (value, slope float64) {
		k := portable.Exp(logShape)
		return portable.Digamma(k) - logShape + short, float64(k*portable.Trigamma(k)) - 1
	})
	return place{portable.Log(mean), portable.Exp(-x / 2)}, err
}

// climb finds the top of the likelihood by Newton's steps; where they get lost, the simplex
// of Nelder and Mead, which is slow but does not, finds them a better start.
func (r records) climb(kind Kind) (place, error) {
	start := lognormal(r.ended())
	if start.at = portable.Log(r.perEvent()); kind == Exponential {
		start.spread = 1
	}
	p, err := r.newton(kind, start)
	if err == nil {
		return p, nil
	}
	problem := optimize.Problem{Func: func(x []float64) float64 {
		l := r.logLikelihood(kind, start.moved(x[0], x[1]))
		if !(l > math.Inf(-1)) {
			return math.MaxFloat64
		}
		return -l
	}}
	found, err := optimize.Minimize(problem, []float64{0, 0}, nil, &optimize.NelderMead{})
	if err != nil {
		return place{}, errors.Join(errNoTop, err)
	}
	// The simplex is not the same on every processor, where the steps end is: they start from
	// rounded numbers.
	rounded := func(x float64) float64 { return math.Round(x*1024) / 1024 }
	return r.newton(kind, start.moved(rounded(found.X[0]), rounded(found.X[1])))
}

// newton steps from a place to the top of the likelihood. It gives up where the
// likelihood is not rounded like a top, and rather than take a long step.
func (r records) newton(kind Kind, p place) (place, error) {
	before := 1.0
	for range 50 {
		slope, bend := r.curve(kind, p)
		inverse, ok := inverted(bend)
		if kind == Exponential { // which has no spread
			inverse, ok = [2][2]float64{{1 / bend[0][0], 0}, {0, 0}}, bend[0][0] > 0
		}
		if !ok {
			return place{}, errNoTop
		}
		up := float64(inverse[0][0]*slope[0]) + float64(inverse[0][1]*slope[1])
		wider := float64(inverse[1][0]*slope[0]) + float64(inverse[1][1]*slope[1])
		size := math.Abs(up) + math.Abs(wider)
		switch {
		case !(size < 1):
			return place{}, errNoTop
		case size < 1e-10, size < 1e-5 && size >= before: // all that rounding leaves
			return p, nil
		}
		p, before = p.moved(up, wider), size
	}
	return place{}, errNoTop
}

var errNoTop = errors.New("no top of the likelihood was found")
