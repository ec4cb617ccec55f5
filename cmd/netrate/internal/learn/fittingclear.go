package learn

import (
	"math"

	"netrate/cmd/netrate/internal/say"
	"netrate/sim/fit"
)

// clearing fits the times for which a station's faults stopped the line. The model has one
// distribution for all faults of a station.
func (x *fitting) clearing(l *learnt) {
	stops, _ := l.faultStops()
	for _, s := range stops {
		switch {
		case !(s.Seconds > 0):
			l.zeros++
			continue
		case s.CutOff:
			l.cut++
		}
		l.lengths = append(l.lengths, fit.Observation{Seconds: s.Seconds, Censored: s.CutOff})
	}
	if len(l.lengths) < fewFaults {
		l.noFit = "too few stops: " + say.Thousands(len(l.lengths))
		return
	}
	c, err := fit.Compare(l.lengths, x.draws, x.seed)
	if err != nil {
		l.noFit = err.Error()
		return
	}
	l.clear = &c
	for i := range c.Candidates {
		if _, err := c.Candidates[i].Duration(); err == nil {
			l.chosen = &c.Candidates[i]
			return
		}
	}
	l.noFit = "no kind that fits can be simulated"
}

// meanError returns the standard error of the mean of a fit, by the normal distribution for
// its logarithm.
func meanError(f fit.Fitted) float64 {
	low, high := f.MeanInterval(0.95)
	return float64(f.Mean()) * math.Log(float64(high/low)) / (2 * 1.959964)
}

// cvError returns the standard error of the coefficient of variation, which depends on one
// parameter alone: its error times the slope.
func cvError(f fit.Fitted) float64 {
	var at fit.Parameter
	switch f.Kind {
	case fit.Exponential:
		return 0 // the cv is 1, by assumption
	case fit.Lognormal:
		at = f.Parameters[1]
	case fit.Gamma, fit.Weibull:
		at = f.Parameters[0]
	}
	step := 1e-5 * at.Value
	return at.SE * math.Abs(cvAt(f.Kind, at.Value+step)-cvAt(f.Kind, at.Value-step)) / (2 * step)
}

// cvAt returns the coefficient of variation for the parameter that it depends on.
func cvAt(kind fit.Kind, parameter float64) float64 {
	switch kind {
	case fit.Lognormal:
		return math.Sqrt(math.Expm1(parameter * parameter))
	case fit.Gamma:
		return 1 / math.Sqrt(parameter)
	case fit.Weibull:
		once, _ := math.Lgamma(1 + 1/parameter)
		twice, _ := math.Lgamma(1 + 2/parameter)
		return math.Sqrt(math.Expm1(twice - 2*once))
	case fit.Exponential:
	}
	return 1
}

// spreadLike returns so many durations that are spread as a fit says.
func spreadLike(f fit.Fitted, n int) []float64 {
	xs := make([]float64, n)
	for i := range xs {
		xs[i] = float64(f.Quantile((float64(i) + 0.5) / float64(n)))
	}
	return xs
}

func seconds(xs []fit.Observation) []float64 {
	var all []float64
	for _, x := range xs {
		if !x.Censored {
			all = append(all, float64(x.Seconds))
		}
	}
	return all
}
