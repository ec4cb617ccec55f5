package learn

import (
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
