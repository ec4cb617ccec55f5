package runs

import (
	"math"
	"slices"

	"netrate/model"
	"netrate/sim"
	"netrate/sim/output"
	"netrate/sim/portable"
)

// Escapes returns what is let through in the shifts of the study: see [Line.Escapes].
func (s *Study) Escapes() model.Escapes {
	return s.Line.Escapes(&s.Total, s.passes())
}

func (s *Study) passes() int64 { return max(int64(len(s.Shifts)), s.Total.Job.Passes) }

// DefectsVary is how far draws of what is uncertain differ in the defective envelopes of their
// long run: coefficients of variation, 0 where nothing was drawn.
//
// Defective envelopes are rare. A draw has so few, mostly none, that the counts hardly show how
// far draws differ, and what the rates of each draw lead to on paper does. The counts are taken
// where they show that draws differ more, and where paper leads to none.
type DefectsVary struct {
	Rate   float64 // of the defective ones in a million
	Shifts float64 // of the share of the replications that deliver any
}

// DefectsVary returns how far the draws differ of a line at one kind of work, or of a line group.
func (s *Study) DefectsVary() DefectsVary {
	if s.Each == 0 || len(s.Shifts) < 2*s.Each {
		return DefectsVary{}
	}
	defective := s.Sample(func(x *Shift) float64 { return x.Defective })
	hit := s.Sample(func(x *Shift) float64 { return min(1, x.Defective) })
	paper := s.escapesOfDraws()
	mean := paper.Mean()
	if !(mean > 0) {
		return DefectsVary{cvShown(defective, s.Each, false), cvShown(hit, s.Each, false)}
	}
	clean := portable.Log1p(-min(hit.Mean(), 1-1e-9)) // logarithm of the chance of none
	hits := make(sim.Sample, len(paper))
	for i, x := range paper {
		hits[i] = -portable.Expm1(clean * x / mean)
	}
	return DefectsVary{max(cvOf(paper), cvShown(defective, s.Each, true)), max(cvOf(hits), cvShown(hit, s.Each, true))}
}

// escapesOfDraws returns how many defective ones the rates of each draw lead to, in all replications
// together; of several lines those of all.
func (s *Study) escapesOfDraws() sim.Sample {
	all := make(sim.Sample, len(s.Shifts)/s.Each)
	for _, x := range s.lines {
		for i, n := range x.escapesOfDraws() {
			all[i] += n
		}
	}
	if s.lines != nil {
		return all
	}
	for i := range all {
		e := s.LineOf(i*s.Each).Escapes(&s.Total, s.passes())
		all[i] = e.PerMillion * float64(e.Delivered)
	}
	return all
}

func cvOf(s sim.Sample) float64 {
	if mean := s.Mean(); mean > 0 {
		return s.SD() / mean
	}
	return 0
}

// cvShown returns the coefficient of variation of the true means of the draws that counts show: the
// likeliest or, if it is to be shown surely, the least of its interval of 95 %.
func cvShown(counts sim.Sample, each int, surely bool) float64 {
	parts := output.ANOVA(slices.Collect(slices.Chunk(counts, each)))
	if !(parts.Mean > 0) {
		return 0
	}
	between := parts.Between
	if surely {
		share, _ := parts.ShareInterval(0.95)
		between = parts.Within * share / (1 - share)
	}
	return math.Sqrt(between) / parts.Mean
}

// DefectiveInterval returns the interval of the share of the envelopes delivered that is defective,
// from their count: of draws of what is uncertain, that of the long run of the line as it truly
// is. Each envelope is a trial by itself: where defective ones come in runs it is too narrow.
func (s *Study) DefectiveInterval(level float64) (low, high float64) {
	sets := &s.Total.Sets
	return output.VaryingInterval(sets.Defective, sets.Good+sets.Defective, s.DefectsVary().Rate, level)
}
