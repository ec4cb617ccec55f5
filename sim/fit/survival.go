package fit

import (
	"cmp"
	"math"
	"slices"

	"netrate/sim"
)

// Curve is the share that lasts longer, by duration: 1 up to the first step, and after
// each step its Survival. It is in rising order of duration.
type Curve []Step

// Step is one duration at which observations ended.
type Step struct {
	Seconds  sim.Seconds
	AtRisk   int     // observations that lasted up to here
	Events   int     // those of them that ended here
	Survival float64 // share that lasts longer
	SE       float64 // its standard error (Greenwood); 0 where the share is 0
}

// KaplanMeier returns the curve of the observations without any assumption on their
// distribution. One cut short counts as at risk up to where it was cut, that point
// included. Beyond the longest observation nothing is known, if that was cut short.
//
// The observations must be as for [Fit].
//
// Source: Kaplan and Meier, J. Amer. Statist. Assoc. 53 (1958) 457–481; the error by
// Greenwood's formula (from memory).
func KaplanMeier(obs []Observation) (Curve, error) {
	if _, err := look(obs); err != nil {
		return nil, err
	}
	sorted := slices.SortedFunc(slices.Values(obs), func(a, b Observation) int {
		return cmp.Compare(a.Seconds, b.Seconds)
	})
	var c Curve
	survival, greenwood := 1.0, 0.0
	for i := 0; i < len(sorted); {
		s := Step{Seconds: sorted[i].Seconds, AtRisk: len(sorted) - i}
		for ; i < len(sorted) && sorted[i].Seconds == s.Seconds; i++ {
			if !sorted[i].Censored {
				s.Events++
			}
		}
		if s.Events == 0 {
			continue
		}
		atRisk, ended := float64(s.AtRisk), float64(s.Events)
		survival *= (atRisk - ended) / atRisk
		s.Survival = survival
		if s.Events < s.AtRisk {
			greenwood += ended / (atRisk * (atRisk - ended))
			s.SE = survival * math.Sqrt(greenwood)
		}
		c = append(c, s)
	}
	return c, nil
}

// At returns the share that lasts longer than so many seconds.
func (c Curve) At(t sim.Seconds) float64 {
	i, found := slices.BinarySearchFunc(c, t, func(s Step, t sim.Seconds) int { return cmp.Compare(s.Seconds, t) })
	if found {
		i++
	}
	if i == 0 {
		return 1
	}
	return c[i-1].Survival
}
