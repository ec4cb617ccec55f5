package output

import (
	"fmt"
	"math"

	"netrate/sim"
	"netrate/sim/portable"
)

// VarianceComponents is what observations vary by that come in groups of one size: chance within a
// group, and what sets groups apart.
type VarianceComponents struct {
	Mean    float64 // of all observations
	Within  float64 // variance of an observation about the true mean of its group
	Between float64 // variance of the true means; 0 if they differ by no more than chance makes them
	Groups  int
	Each    int // observations in a group

	ratio float64 // of the mean squares
}

// ANOVA estimates the variance components by the analysis of variance. It panics unless there are two
// groups or more, all of one size, which is two or more.
//
// Source: Searle, Casella and McCulloch, Variance VarianceComponents (1992), chapter 3 (from memory).
func ANOVA(groups []sim.Sample) VarianceComponents {
	if len(groups) < 2 || len(groups[0]) < 2 {
		panic("output: components of fewer than two groups of two")
	}
	c := VarianceComponents{Groups: len(groups), Each: len(groups[0])}
	means := make(sim.Sample, len(groups))
	for i, g := range groups {
		if len(g) != c.Each {
			panic(fmt.Sprintf("output: group %d has %d observations and the first %d", i, len(g), c.Each))
		}
		means[i] = g.Mean()
		sd := g.SD()
		c.Within += sd * sd / float64(c.Groups)
	}
	c.Mean = means.Mean()
	sd := means.SD()
	c.Between = max(0, float64(sd*sd)-c.Within/float64(c.Each))
	c.ratio = float64(c.Each) * sd * sd / c.Within // NaN if nothing varies at all
	return c
}

// Share returns the part of the variance of an observation that lies between groups; 0 if
// nothing varies.
func (c VarianceComponents) Share() float64 {
	if !(c.Between > 0) {
		return 0
	}
	return c.Between / (c.Between + c.Within)
}

// ShareInterval returns the interval of the share: exact where observations and means of
// groups are normal. It panics unless level is in (0, 1).
//
// Source: Shrout and Fleiss, Psychological Bulletin 86 (1979) 420–428, ICC(1,1) (from
// memory).
func (c VarianceComponents) ShareInterval(level float64) (low, high float64) {
	if !(level > 0 && level < 1) {
		panic(fmt.Sprintf("output: an interval of level %v", level))
	}
	n := float64(c.Groups)
	end := func(p float64) float64 {
		ratio := c.ratio / portable.FQuantile(n-1, n*float64(c.Each-1), p)
		if math.IsInf(ratio, 1) {
			return 1
		}
		return max(0, (ratio-1)/(ratio+float64(c.Each)-1))
	}
	if math.IsNaN(c.ratio) {
		return 0, 0
	}
	return end((1 + level) / 2), end((1 - level) / 2)
}

// Settled returns the means of the groups as they would be without chance: drawn towards the
// mean of all until they vary by Between. They tell how the true means are spread, not which
// group has which.
//
// Source: Louis, Estimating a population of parameter values using Bayes and empirical Bayes
// methods, Journal of the American Statistical Association 79 (1984) 393–398 (from memory).
func (c VarianceComponents) Settled(groups []sim.Sample) sim.Sample {
	return c.drawnTo(c.Between, groups)
}

// LongRun returns the same with what chance leaves open of the mean of all: where groups hardly
// differ, that is what is not known of a true mean.
func (c VarianceComponents) LongRun(groups []sim.Sample) sim.Sample {
	return c.drawnTo(c.Between+c.Within/float64(c.Each*c.Groups), groups)
}

// drawnTo returns the means of the groups, drawn towards the mean of all until they have a
// variance.
func (c VarianceComponents) drawnTo(variance float64, groups []sim.Sample) sim.Sample {
	towards := 0.0
	if variance > 0 {
		towards = math.Sqrt(variance / (c.Between + c.Within/float64(c.Each)))
	}
	settled := make(sim.Sample, len(groups))
	for i, g := range groups {
		settled[i] = c.Mean + float64(towards*(g.Mean()-c.Mean))
	}
	return settled
}
