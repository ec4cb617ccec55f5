package fit

import (
	"errors"
	"math"

	"netrate/sim/portable"
)

// GrowWithin fits one growth to several rows of runs, each with a probability of its own, such as
// those of several jobs: what [Grow] does within each, all together. It fills in Exponent, SE and
// the interval. Rows without two speeds, or without faults, tell nothing; it is an error if none
// tells anything, or if the exponent has no bound.
func GrowWithin(rows [][]Run, level float64) (Growth, error) {
	if err := checkLevel(level); err != nil {
		return Growth{}, err
	}
	var ds []division
	most := math.Inf(1)
	for _, runs := range rows {
		low, high, faults := math.Inf(1), 0.0, int64(0)
		var fed []Run
		for _, r := range runs {
			if err := errors.Join(checkSpeed("a speed", r.Speed), checkCounts(r.Faults, r.Feeds)); err != nil {
				return Growth{}, err
			}
			low, high, faults = min(low, r.Speed), max(high, r.Speed), faults+r.Faults
			fed = append(fed, r)
		}
		if faults > 0 && high/low > 1.001 {
			d := newDivision(fed, high)
			ds, most = append(ds, d), min(most, d.most)
		}
	}
	if len(ds) == 0 {
		return Growth{}, errors.New("no row has faults and two speeds")
	}
	// l is the log likelihood, slope and bend its first derivative and that of it, downwards.
	at := func(k float64) (l, slope, bend float64) {
		for _, d := range ds {
			own, mean, variance := d.at(k)
			l, slope, bend = l+own, slope+float64(d.faults*(mean-d.mean)), bend+float64(d.faults*variance)
		}
		return l, slope, bend
	}
	g := Growth{Level: level}
	var err error
	g.Exponent, err = root(-most, most, func(k float64) (value, slope float64) {
		_, value, slope = at(k)
		return value, slope
	})
	if err != nil {
		return Growth{}, err
	}
	best, _, bend := at(g.Exponent)
	g.SE = 1 / math.Sqrt(bend)
	worse := 2 * portable.GammaQuantile(0.5, level)
	end := func(sign float64) (float64, error) {
		x, err := root(sign*g.Exponent, most, func(x float64) (value, slope float64) {
			l, down, _ := at(sign * x)
			return float64(2*(best-l)) - worse, 2 * down * sign
		})
		return sign * x, err
	}
	low, lowErr := end(-1)
	high, highErr := end(1)
	g.Low, g.High = low, high
	return g, errors.Join(lowErr, highErr)
}
