package output

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"netrate/sim"
	"netrate/sim/portable"
)

// Selection picks the best of k systems: the one with the largest mean, so negate
// what should be small. It is fed replication by replication, drops systems as soon
// as they are shown to be behind, and ends when one is left.
//
// The promise: if the best system is ahead of every other by worth or more, it is
// chosen with a probability of at least confidence. If others come closer, one of
// these may be chosen. The figures must be near enough to normal, and replications
// independent; within a replication systems may, and should, share their random numbers.
//
// After the first replications, and again after each one that follows, system i is
// dropped if the mean of another system l in the selection is more than W ahead:
//
//	W = max(0, worth/(2r) · (h²·S²/worth² − r))
//	h² = (first − 1)·((2·(1 − confidence)/(k − 1))^(−2/(first − 1)) − 1)
//
// with r replications done and S² the variance of the differences between i and l in
// the first ones.
//
// Where more than judges are in the selection, each is judged against the judges alone, those
// whose means are largest at that moment: thousands of systems have millions of pairs. The
// promise stands. The best is dropped wrongly at most as often as any other is W ahead of it at
// any time, and Kim and Nelson sum the chances of that over all others, whoever is looked at.
//
// Source: Kim and Nelson, A fully sequential procedure for indifference-zone
// selection in simulation, ACM TOMACS 11 (2001) 251–273, with c = 1; h² = 2cη(n₀−1).
type Selection struct {
	worth   float64
	h2      float64
	first   int
	most    int          // 0 for no cap
	figures []sim.Sample // of each system in the selection, in the first replications
	sums    []float64    // of the figures of each system
	racing  []int        // in rising order
	dropped []Drop
	done    int

	variances map[[2]int]float64 // S² of each two systems that were judged, the lower number first
}

// judges is against how many others a system is judged, where there are more.
const judges = 100

// Drop says when and why a system left the selection.
type Drop struct {
	System int
	By     int  // of the systems that beat it, the one with the largest mean
	At     int  // replications done
	Tie    bool // the means were equal to the last bit, with no uncertainty left: By came first in the list
}

// NewSelection returns the selection of k systems, none dropped before the first
// replications are done. These settle the spread, so they should be ten or more.
// Worth is the smallest difference that matters, in the unit of the figures.
//
// It wants k and first to be at least 2, worth above 0 and finite, and confidence
// above 1/k and below 1; the error names all that is wrong.
func NewSelection(k, first int, worth, confidence float64) (*Selection, error) {
	var errs []error
	if k < 2 {
		errs = append(errs, fmt.Errorf("there are %d systems to choose from, want at least 2", k))
	}
	if first < 2 {
		errs = append(errs, fmt.Errorf("the first replications are %d, want at least 2", first))
	}
	if !(worth > 0 && worth <= math.MaxFloat64) {
		errs = append(errs, fmt.Errorf("the difference worth finding is %g, want more than 0", worth))
	}
	if least := 1 / float64(max(k, 2)); !(confidence > least && confidence < 1) {
		errs = append(errs, fmt.Errorf("confidence is %g, want above %.3g and below 1", confidence, least))
	}
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	s := &Selection{
		worth: worth, h2: selectionFactor(k, first, confidence), first: first,
		figures: make([]sim.Sample, k), sums: make([]float64, k), racing: make([]int, k),
		variances: map[[2]int]float64{},
	}
	for i := range s.racing {
		s.racing[i] = i
	}
	return s, nil
}

// selectionFactor returns h². Its exponent is a fraction: in whole numbers it would
// be 0, and the first look would decide everything.
func selectionFactor(k, first int, confidence float64) float64 {
	degrees := float64(first - 1)
	return degrees * (portable.Pow(2*(1-confidence)/float64(k-1), -2/degrees) - 1)
}

// Cap ends the selection after a number of replications even if its promise is not reached.
// It panics unless most is at least 1.
func (s *Selection) Cap(most int) {
	if most < 1 {
		panic(fmt.Sprintf("output: a race of at most %d replications", most))
	}
	s.most = most
}

// Add takes the figures of the next replication, one of each system in their order,
// and reports whether the selection goes on. The figures of those dropped are not looked
// at. Replications may be run ahead, many at once, as long as they are added in
// order: those added after the end change nothing.
//
// It panics if the row is not k long or if a figure in the selection is not finite. It
// keeps no hold of the row. The methods that tell of the selection may be called from many
// goroutines, but not while Add runs.
func (s *Selection) Add(row []float64) bool {
	if s.Over() {
		return false
	}
	if len(row) != len(s.sums) {
		panic(fmt.Sprintf("output: %d figures of %d systems", len(row), len(s.sums)))
	}
	for _, i := range s.racing {
		if !(math.Abs(row[i]) <= math.MaxFloat64) {
			panic(fmt.Sprintf("output: system %d has the figure %v", i, row[i]))
		}
		s.sums[i] += row[i]
		if s.done < s.first {
			s.figures[i] = append(s.figures[i], row[i])
		}
	}
	s.done++
	if s.done >= s.first {
		s.screen()
	}
	return !s.Over()
}

// screen drops those that are behind. All are judged against all that were in the
// race before it, so that the order of the systems does not matter.
func (s *Selection) screen() {
	before, judges := len(s.dropped), s.judges()
	for _, i := range s.racing {
		by := i
		for _, l := range judges {
			if s.sums[l] > s.sums[i] && s.ahead(l, i) > s.band(l, i) && (by == i || s.sums[l] > s.sums[by]) {
				by = l
			}
		}
		if by != i {
			s.dropped = append(s.dropped, Drop{System: i, By: by, At: s.done})
		}
	}
	s.leave(s.dropped[before:])
	s.settle()
}

// judges returns the systems against which the others are judged, in rising order.
func (s *Selection) judges() []int {
	if len(s.racing) <= judges {
		return s.racing
	}
	all := slices.Clone(s.racing)
	slices.SortFunc(all, func(a, b int) int { return cmp.Or(cmp.Compare(s.sums[b], s.sums[a]), a-b) })
	few := all[:judges]
	slices.Sort(few)
	return few
}

// settle ends a selection in which no band is left between the first and the others: what
// screen left of them is equal to the first, which stands for all.
func (s *Selection) settle() {
	one, others := s.racing[0], s.racing[1:]
	for _, i := range others {
		if s.band(one, i) != 0 {
			return
		}
	}
	before := len(s.dropped)
	for _, i := range others {
		s.dropped = append(s.dropped, Drop{System: i, By: one, At: s.done, Tie: true})
	}
	s.leave(s.dropped[before:])
}

func (s *Selection) leave(drops []Drop) {
	gone := map[int]bool{}
	for _, d := range drops {
		gone[d.System], s.figures[d.System] = true, nil
	}
	s.racing = slices.DeleteFunc(s.racing, func(i int) bool { return gone[i] })
}

// ahead returns how far the mean of l is ahead of that of i.
func (s *Selection) ahead(l, i int) float64 {
	return (s.sums[l] - s.sums[i]) / float64(s.done)
}

// band returns W. It is multiplied out, so that no worth is too small to be squared.
func (s *Selection) band(i, l int) float64 {
	return max(0, s.h2*s.variance(i, l)/(2*float64(s.done)*s.worth)-float64(s.worth/2))
}

// variance returns S², the variance of the differences of two systems in the first replications.
func (s *Selection) variance(i, l int) float64 {
	pair := [2]int{min(i, l), max(i, l)}
	v, known := s.variances[pair]
	if !known {
		differences, _ := subtract(s.figures[pair[0]], s.figures[pair[1]])
		v = differences.Variance()
		if len(s.racing) <= judges { // of more there would be too many to keep
			s.variances[pair] = v
		}
	}
	return v
}

// Ahead returns how many replications are expected still, those of all systems together, if the
// systems go on as far apart as they are: each is dropped when the leader's lead over it comes to W.
// It is 0 before the first look, and of more systems than are judged against each other. A foresight
// for those who wait, and for nothing else.
func (s *Selection) Ahead() (replications int) {
	if s.done < s.first || len(s.racing) > judges || s.Over() {
		return 0
	}
	best, _ := s.Best()
	longest := 0
	for _, i := range s.racing {
		if i == best {
			continue
		}
		until := s.h2 * s.variance(best, i) / (s.worth * (2*s.ahead(best, i) + s.worth))
		if s.most > 0 {
			until = min(until, float64(s.most))
		}
		left := max(1, int(math.Ceil(min(until, math.MaxInt32)))-s.done)
		longest, replications = max(longest, left), replications+left
	}
	return replications + longest
}

// Over reports whether one system is left, or the cap is reached.
func (s *Selection) Over() bool {
	return len(s.racing) == 1 || s.most > 0 && s.done >= s.most
}

// Best returns the system with the largest mean of those in the selection, the first of
// equals, and whether the promise is reached: if not, it only leads so far.
func (s *Selection) Best() (system int, promised bool) {
	system = s.racing[0]
	for _, i := range s.racing {
		if s.sums[i] > s.sums[system] {
			system = i
		}
	}
	return system, len(s.racing) == 1
}

// Remains reports whether a system is still in the selection.
func (s *Selection) Remains(system int) bool {
	_, in := slices.BinarySearch(s.racing, system)
	return in
}

// Dropped returns those that left the selection, in the order in which they did.
func (s *Selection) Dropped() []Drop { return slices.Clone(s.dropped) }

// Done returns how many replications the selection has taken.
func (s *Selection) Done() int { return s.done }
