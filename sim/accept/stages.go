package accept

import (
	"math"
	"slices"

	"netrate/sim"
	"netrate/sim/portable"
)

// Stages is a test in stages of a sum of which more is better, such as what is delivered shift by
// shift: after each the line passes if the sum is at least Pass, fails if it is below Fail, or goes on.
// After the last the two are the same, and all is decided. A limit that is infinite decides nothing.
type Stages struct {
	Pass, Fail []float64 // of each stage
}

// Of returns what becomes of a line with these sums, one after each stage: whether it passes, and after
// how many stages that is known.
func (s Stages) Of(sums []float64) (passes bool, stages int) {
	for k, sum := range sums {
		switch {
		case sum >= s.Pass[k]:
			return true, k + 1
		case sum < s.Fail[k]:
			return false, k + 1
		}
	}
	panic("accept: a test in stages that is not decided")
}

// Staged is what a test in stages does to the sums of good and of bad lines.
type Staged struct {
	Seller, Buyer     Wrong
	MeanGood, MeanBad float64 // stages until it is decided
	GoodOver, BadOver []int64 // tests that are decided by the end of each stage
	Failed, Passed    []int64 // of these, good lines that have failed and bad ones that have passed
}

// Try returns what a test in stages does to good and bad lines, of each of which there are sums of
// every stage.
func (s Stages) Try(good, bad [][]float64) Staged {
	x := Staged{Seller: Wrong{Of: int64(len(good))}, Buyer: Wrong{Of: int64(len(bad))}}
	over := func(lines [][]float64, wrong *Wrong, is bool) (mean float64, ended, wrongly []int64) {
		ended, wrongly = make([]int64, len(s.Pass)), make([]int64, len(s.Pass))
		for _, sums := range lines {
			passes, stages := s.Of(sums)
			if passes == is {
				wrong.Times++
			}
			mean += float64(stages) / float64(len(lines))
			for k := stages - 1; k < len(ended); k++ {
				if ended[k]++; passes == is {
					wrongly[k]++
				}
			}
		}
		return mean, ended, wrongly
	}
	x.MeanGood, x.GoodOver, x.Failed = over(good, &x.Seller, false)
	x.MeanBad, x.BadOver, x.Passed = over(bad, &x.Buyer, true)
	return x
}

// At returns the limits after some stages, which need not be whole: those of the straight line through
// the stages before and after, and infinite where either of these is. After the last they are its limit,
// in proportion.
func (s Stages) At(stages float64) (pass, fail float64) {
	n := len(s.Pass)
	if stages >= float64(n) {
		pass = math.Ceil(float64(s.Pass[n-1]*stages/float64(n)) - tiny)
		return pass, pass
	}
	before := max(0, min(n-2, int(stages)-1)) // below the first, the line through the first two
	part := stages - float64(before+1)
	at := func(limits []float64) float64 {
		for _, x := range limits[before : before+2] {
			if math.IsInf(x, 0) && part != 0 {
				return x
			}
		}
		if part == 0 {
			return math.Ceil(limits[before] - tiny)
		}
		return math.Ceil(limits[before] + float64(part*(limits[before+1]-limits[before])) - tiny)
	}
	return at(s.Pass), at(s.Fail)
}

// Holds reports whether neither risk was more than it may be, or a part of that.
func (x Staged) Holds(r Risks, part float64) bool {
	return x.Seller.Share() <= part*r.Seller && x.Buyer.Share() <= part*r.Buyer
}

// InStages returns a test whose limits are Wald’s two lines, if what each stage adds were normal,
// pulled together so that they meet at the last stage, about the middle between good and bad lines;
// wide times as far apart. The sums are those of simulated lines, of which there must be two at least
// of each, and the good ones must have the larger mean. All limits are whole numbers.
//
// The wider the limits are, the smaller are the risks and the longer takes the test: at the widest it
// is one of fixed length, as long as all stages. Which width holds the risks is for [Stages.Try] to
// say; nothing is supposed of it here.
func InStages(good, bad [][]float64, r Risks, wide float64) Stages {
	stages := len(good[0])
	mean, variance := middle(good, bad)
	apart := mean[0][stages-1] - mean[1][stages-1]
	if !(apart > 0) {
		panic("accept: the good lines are no better")
	}
	unit := wide * variance / apart // σ²/Δ, of all stages together as of one
	above := float64(unit * portable.Log((1-r.Seller)/r.Buyer))
	below := float64(unit * portable.Log((1-r.Buyer)/r.Seller))
	least := Separate(last(good), last(bad), r).Least
	end := least - float64((mean[0][stages-1]+mean[1][stages-1])/2)
	s := Stages{make([]float64, stages), make([]float64, stages)}
	for k := range stages {
		part := float64(k+1) / float64(stages)
		centre := float64((mean[0][k]+mean[1][k])/2) + float64(end*part)
		s.Pass[k] = math.Ceil(centre + float64(above*(1-part)))
		s.Fail[k] = min(s.Pass[k], math.Ceil(centre-float64(below*(1-part))))
	}
	s.Pass[stages-1], s.Fail[stages-1] = math.Ceil(least), math.Ceil(least) // without what was rounded above
	return s
}

// middle returns the means of the sums of good and of bad lines after each stage, and the mean of the
// two variances of the last.
func middle(good, bad [][]float64) (mean [2][]float64, variance float64) {
	for i, lines := range [][][]float64{good, bad} {
		for k := range lines[0] {
			mean[i] = append(mean[i], portable.Mean(at(lines, k)))
		}
		_, v := portable.Variance(last(lines))
		variance += float64(v / 2)
	}
	return mean, variance
}

// at returns the sums after one stage.
func at(lines [][]float64, k int) sim.Sample {
	all := make(sim.Sample, len(lines))
	for i, sums := range lines {
		all[i] = sums[k]
	}
	return all
}

// last returns the sums after the last stage.
func last(lines [][]float64) sim.Sample { return at(lines, len(lines[0])-1) }

// widths are the widths that are tried, the narrowest first; at the last nothing is decided before the
// last stage.
var widths = []float64{0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1, 1.1, 1.2, 1.35, 1.5, 1.75, 2, 2.5, 3, 5, 1e6}

// Widths returns the widths worth trying, from the first at which a test in stages comes to a part of
// the risks in these lines.
func Widths(good, bad [][]float64, r Risks, part float64) []float64 {
	i := slices.IndexFunc(widths, func(wide float64) bool {
		return InStages(good, bad, r, wide).Try(good, bad).Holds(r, part)
	})
	if i < 0 {
		i = len(widths) - 1
	}
	return widths[i:]
}
