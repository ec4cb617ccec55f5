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
	Lasting float64 // variance of the true means that is to be allowed for: see [Settled]
	Groups  int
	Each    int // observations in a group

	means float64 // variance of the means of the groups
	ratio float64 // of the mean squares
}

// ANOVA estimates the variance components by the analysis of variance. Of groups of one observation
// chance cannot be told from what sets groups apart, and all is taken for that. It panics unless
// there are two groups or more, all of one size.
//
// Source: Searle, Casella and McCulloch, Variance VarianceComponents (1992), chapter 3 (from memory).
func ANOVA(groups []sim.Sample) VarianceComponents {
	if len(groups) < 2 {
		panic("output: components of fewer than two groups")
	}
	c := VarianceComponents{Groups: len(groups), Each: len(groups[0])}
	means := make(sim.Sample, len(groups))
	for i, g := range groups {
		if len(g) != c.Each {
			panic(fmt.Sprintf("output: group %d has %d observations and the first %d", i, len(g), c.Each))
		}
		means[i] = g.Mean()
		if c.Each > 1 {
			sd := g.SD()
			c.Within += sd * sd / float64(c.Groups)
		}
	}
	c.Mean = means.Mean()
	sd := means.SD()
	c.means = float64(sd * sd)
	c.Between = max(0, c.means-c.Within/float64(c.Each))
	if c.means > 0 {
		c.Lasting = float64(lastingShare(c.Within/float64(c.Each)/c.means, c.Groups, c.Each) * c.means)
	}
	c.ratio = float64(c.Each) * sd * sd / c.Within // NaN if nothing varies at all
	return c
}

// lastingShare returns the share of the variance of the means of groups that is to be taken for that
// of their true means, where chance comes to so many times the variance of the means. It is above 1
// where few groups happen to differ by much less than chance makes them.
//
// What is left after subtracting chance is no estimate to build an interval on: where groups are few,
// or differ little, it is near 0 or below as often as not, and the interval is then next to nothing.
// Taken is the mean of all that is left over what both mean squares may truly be, where chance is
// not more than the whole. It tends to what is left where that is well known, and never comes to 0.
// The mean over few groups of the whole alone is left out: quantiles of the groups have it already.
//
// Source: Tiao and Tan, Bayesian analysis of random-effect models in the analysis of variance I,
// Biometrika 52 (1965) 37–53: the mean of the variance component (from memory).
func lastingShare(chance float64, groups, each int) float64 {
	if each < 2 || groups < 4 || !(chance > 0) {
		return 1
	}
	n1, n2 := float64(groups-1), float64(groups*(each-1))
	x := n1 / (n1 + float64(n2*chance))
	possible := portable.BetaBelow(n1/2, n2/2, x) // that chance is not more than the whole
	if !(possible > 1e-200) {
		return 1
	}
	whole := portable.BetaBelow(float64(n1/2)-1, n2/2, x)
	less := float64(chance * (n1 - 2) / n1 * n2 / (n2 - 2) * portable.BetaBelow(n1/2, float64(n2/2)-1, x))
	return max(0, (whole-less)/possible)
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
	switch {
	case math.IsNaN(c.ratio):
		return 0, 0
	case c.Each == 1:
		return 0, 1
	}
	return end((1 + level) / 2), end((1 - level) / 2)
}

// Settled returns the means of the groups as they would be without chance: drawn towards the
// mean of all until they vary by Lasting. They tell how the true means are spread, not which
// group has which. Intervals made of them hold another true mean as often as they say, also where
// there are few groups, of few observations, that hardly differ.
//
// Source: Louis, Estimating a population of parameter values using Bayes and empirical Bayes
// methods, Journal of the American Statistical Association 79 (1984) 393–398 (from memory).
func (c VarianceComponents) Settled(groups []sim.Sample) sim.Sample {
	return c.drawnTo(c.Lasting, groups)
}

// LongRun returns the same with what chance leaves open of the mean of all: where groups hardly
// differ, that is what is not known of a true mean.
func (c VarianceComponents) LongRun(groups []sim.Sample) sim.Sample {
	return c.drawnTo(c.Lasting+c.Within/float64(c.Each*c.Groups), groups)
}

// drawnTo returns the means of the groups, drawn towards the mean of all until they have a
// variance.
func (c VarianceComponents) drawnTo(variance float64, groups []sim.Sample) sim.Sample {
	towards := 0.0
	if c.means > 0 { // those that are the same stay so
		towards = math.Sqrt(variance / c.means)
	}
	settled := make(sim.Sample, len(groups))
	for i, g := range groups {
		settled[i] = c.Mean + float64(towards*(g.Mean()-c.Mean))
	}
	return settled
}
