package fit

import (
	"errors"
	"fmt"
	"math"

	"netrate/sim/portable"
)

// Run is the faults in a number of feeds at one speed.
type Run struct {
	Speed         float64 // in any unit, the same for all runs
	Faults, Feeds int64
}

// Growth says how the probability of a fault p rises with the speed v:
// p = Probability × (v / Reference)^Exponent.
type Growth struct {
	Exponent    float64 // 0: p does not depend on the speed
	SE          float64 // its standard error
	Low, High   float64 // the interval that holds the true exponent with the confidence Level
	Level       float64
	Reference   float64 // the speed the probability is given for
	Probability float64 // faults per feed at that speed
	Deviance    float64 // how far the runs lie from the fitted curve
	DF          int     // runs less 2
	P           float64 // how often they lie so far off by chance, if Tested
	Tested      bool    // false: two runs lie on a curve always, and few faults tell nothing
}

// Grow fits the growth by Poisson regression, which is right where faults are rare, with
// the likelihood interval of the exponent. The probability itself cancels out of that:
// given their total, the faults are divided among the runs in the proportion
// feeds × speed^exponent.
//
// It wants speeds above 0, at least two of them different, and faults at other than the
// highest speed alone and other than the lowest alone: else the exponent has no bound.
//
// Source: McCullagh and Nelder, Generalized Linear Models (2nd ed. 1989), chapter 6 (from
// memory).
func Grow(runs []Run, reference, level float64) (Growth, error) {
	if err := errors.Join(checkRuns(runs), checkLevel(level), checkSpeed("the reference speed", reference)); err != nil {
		return Growth{}, err
	}
	d := newDivision(runs, reference)
	g := Growth{Level: level, Reference: reference, DF: len(runs) - 2}
	var err error
	g.Exponent, err = root(-d.most, d.most, func(k float64) (value, slope float64) {
		_, mean, variance := d.at(k)
		return mean - d.mean, variance
	})
	if err != nil {
		return Growth{}, err
	}
	best, _, variance := d.at(g.Exponent)
	g.SE = 1 / math.Sqrt(d.faults*variance)
	worse := 2 * portable.GammaQuantile(0.5, level) // twice the log likelihood lost at the ends
	end := func(sign float64) (float64, error) {
		x, err := root(sign*g.Exponent, d.most, func(x float64) (value, slope float64) {
			l, mean, _ := d.at(sign * x)
			return float64(2*(best-l)) - worse, 2 * d.faults * (mean - d.mean) * sign
		})
		return sign * x, err
	}
	low, lowErr := end(-1)
	high, highErr := end(1)
	g.Low, g.High = low, high
	g.curve(runs)
	return g, errors.Join(lowErr, highErr)
}

// At returns the probability of a fault at a speed.
func (g Growth) At(speed float64) float64 {
	return g.Probability * portable.Pow(speed/g.Reference, g.Exponent)
}

// Finding says in a sentence or two what the fit means.
func (g Growth) Finding() string {
	text := fmt.Sprintf("Faults per feed grow with the speed to the power %.2g (%.2g to %.2g)", g.Exponent, g.Low, g.High)
	if g.Low <= 0 && 0 <= g.High {
		text += "; that they grow at all is not shown"
	}
	if g.Tested && g.P < unlikely {
		text += fmt.Sprintf(". But the runs do not lie on such a curve (%s): more than the speed differs between them", chance(g.P))
	}
	return text + "."
}

// curve fills in the probability and how well the curve fits.
func (g *Growth) curve(runs []Run) {
	weight, faults := 0.0, 0.0
	for _, r := range runs {
		weight += float64(float64(r.Feeds) * portable.Pow(r.Speed/g.Reference, g.Exponent))
		faults += float64(r.Faults)
	}
	g.Probability = faults / weight
	g.Tested = g.DF > 0
	for _, r := range runs {
		want, got := float64(r.Feeds)*g.At(r.Speed), float64(r.Faults)
		if got > 0 {
			g.Deviance += float64(2 * got * portable.Log(got/want))
		}
		g.Tested = g.Tested && want >= few
	}
	g.Deviance = max(0, g.Deviance)
	if g.Tested {
		g.P = portable.GammaAbove(float64(g.DF)/2, g.Deviance/2)
	}
}

// division is how faults are divided among runs: in proportion to feeds × speedᵏ.
type division struct {
	logFeeds, logSpeeds, counts []float64
	faults                      float64
	mean                        float64 // of log speed, over the faults
	most                        float64 // no exponent is larger than this, for any counts
}

func newDivision(runs []Run, reference float64) division {
	var d division
	low, high := math.Inf(1), math.Inf(-1)
	for _, r := range runs {
		x := portable.Log(r.Speed / reference)
		d.logSpeeds = append(d.logSpeeds, x)
		d.logFeeds = append(d.logFeeds, portable.Log(float64(r.Feeds)))
		d.counts = append(d.counts, float64(r.Faults))
		d.faults += float64(r.Faults)
		d.mean += float64(float64(r.Faults) * x)
		low, high = min(low, x), max(high, x)
	}
	d.mean /= d.faults
	d.most = 600 / (high - low)
	return d
}

// at returns the log likelihood of the counts for an exponent, and mean and variance of
// the log speed over the shares it gives the runs.
func (d division) at(k float64) (l, mean, variance float64) {
	top := math.Inf(-1)
	for i, x := range d.logSpeeds {
		top = max(top, d.logFeeds[i]+float64(k*x))
	}
	sum := 0.0
	for i, x := range d.logSpeeds {
		sum += portable.Exp(d.logFeeds[i] + float64(k*x) - top)
	}
	for i, x := range d.logSpeeds {
		logShare := d.logFeeds[i] + float64(k*x) - top - portable.Log(sum)
		l += float64(d.counts[i] * logShare)
		mean += float64(portable.Exp(logShare) * x)
	}
	for i, x := range d.logSpeeds {
		variance += float64(portable.Exp(d.logFeeds[i]+float64(k*x)-top) / sum * (x - mean) * (x - mean))
	}
	return l, mean, variance
}

func checkSpeed(what string, speed float64) error {
	if !(speed > 0 && speed < math.MaxFloat64) {
		return fmt.Errorf("%s is %v, want more than 0", what, speed)
	}
	return nil
}

func checkRuns(runs []Run) error {
	var wrong error
	low, high, total := math.Inf(1), 0.0, int64(0)
	for i, r := range runs {
		wrong = errors.Join(wrong, checkSpeed(fmt.Sprintf("the speed of run %d", i+1), r.Speed))
		if err := checkCounts(r.Faults, r.Feeds); err != nil {
			wrong = errors.Join(wrong, fmt.Errorf("run %d: %w", i+1, err))
		}
		low, high, total = min(low, r.Speed), max(high, r.Speed), total+r.Faults
	}
	if wrong != nil {
		return wrong
	}
	if !(high/low > 1.001) {
		return errors.New("all runs have the same speed, want at least two that differ")
	}
	atLow, atHigh := int64(0), int64(0)
	for _, r := range runs {
		switch r.Speed {
		case low:
			atLow += r.Faults
		case high:
			atHigh += r.Faults
		}
	}
	switch total {
	case 0:
		return errors.New("there are no faults, want at least one")
	case atHigh:
		return fmt.Errorf("all faults came at the highest speed, %v: the exponent has no upper bound", high)
	case atLow:
		return fmt.Errorf("all faults came at the lowest speed, %v: the exponent has no lower bound", low)
	}
	return nil
}
