package study

import (
	"math"

	"netrate/sim/accept"
	"netrate/sim/portable"
)

// verdict returns what a test has shown: the limits are those of a test as long as it was or, of one
// that may end after each shift, those of its plan.
func (t *acceptanceTest) verdict(a *AcceptanceAnswer) *AcceptanceVerdict {
	seen, sides := *t.Result, t.sides
	v := &AcceptanceVerdict{Passes: true, Aside: t.Result.Aside, Shifts: t.shifts}
	if v.Shifts != nil {
		v.Shifts.Risks = t.shiftRisks(a)
	}
	if t.otherHours() {
		v.Cut = t.cutOf()
	}
	if t.Sequential {
		v.Decided = t.decided()
		seen, sides = t.Result.first(v.Decided.Parts), t.ended
	}
	v.Hours, v.Rate = Number(seen.Hours), t.shownRate(&seen)
	for i := range a.Clauses {
		c := &a.Clauses[i]
		f := t.found(c, &seen, sides)
		if d := v.Decided; d != nil && c.Of == AcceptanceRate {
			f = AcceptanceFound{Of: c.Of, Counted: true, Figure: d.Good, Passes: d.Passes, AsBad: d.AsBad, AsGood: d.AsGood}
		} else if d != nil {
			f.Alone = t.decidedAlone(c, a)
		}
		if v.Cut != nil && f.Counted {
			passes, settled := v.Cut.Settles(c, &seen, t.Demand)
			f.Passes, f.NotJudged = passes, !settled
		}
		if s := v.Shifts; s != nil && s.Risks != nil && c.Of == AcceptanceRate && !s.Risks.Bears(f.Passes, a) {
			f.Passes, f.NotJudged = false, true
		}
		v.Passes = v.Passes && (f.Passes || !f.Counted)
		v.Clauses = append(v.Clauses, f)
	}
	v.NotJudged = v.open()
	return v
}

// open reports whether a clause is left that cannot be judged, and none fails that can be.
func (v *AcceptanceVerdict) open() bool {
	open := false
	for i := range v.Clauses {
		f := &v.Clauses[i]
		if open = open || f.NotJudged; f.Counted && !f.Passes && !f.NotJudged {
			return false
		}
	}
	return open
}

// found returns what a test has shown of a clause, against simulated tests of the two lines.
func (t *acceptanceTest) found(c *AcceptanceClause, r *AcceptanceResult, sides [2]*side) AcceptanceFound {
	f := AcceptanceFound{Of: c.Of, Figure: Number(r.figure(c.Of))}
	seen := float64(f.Figure)
	if f.Counted = !math.IsNaN(seen) && c.NoTest == ""; !f.Counted {
		return f
	}
	f.Passes = c.Passes(seen)
	if c.Counts() > 0 {
		count, pieces := r.counted(c.Of)
		f.Whole = &AcceptanceCount{Number(count), c.Most(pieces), Number(pieces)}
	}
	if level, wrong, ok := t.atLevels(c, r, seen); ok {
		f.AsBad, f.AsGood = level, wrong
		return f
	}
	if x := f.Whole; x != nil {
		f.AsBad = wrongly(sides[0].times(func(y *tested) bool { return !y.within(c.Of, float64(x.Count)-0.5, float64(x.Pieces)) }))
		f.AsGood = wrongly(sides[1].times(func(y *tested) bool { return y.within(c.Of, float64(x.Count)+0.5, float64(x.Pieces)) }))
		return f
	}
	better := func(x, y float64) bool {
		if c.Of == AcceptanceRate {
			return x > y
		}
		return x < y
	}
	f.AsBad = wrongly(sides[0].times(func(x *tested) bool { return !better(x.figure(c.Of), seen) }))
	f.AsGood = wrongly(sides[1].times(func(x *tested) bool { return !better(seen, x.figure(c.Of)) }))
	return f
}

// within reports whether a test keeps to a limit of so many in so many pieces. A test that shows 2 is held against
// limits of 1½ and 2½, as those of a plan are: shares alone would call one with as many in a few pieces less the worse,
// which the clause allows as many.
func (x *tested) within(f AcceptanceFigure, most, pieces float64) bool {
	r := AcceptanceResult{Good: float64(x.Good), Defective: float64(x.Defective), Sets: float64(x.Sets), Stops: float64(x.Stops), TakenOut: float64(x.TakenOut)}
	count, of := r.counted(f)
	return count <= math.Floor(most*of/pieces)
}

// counted returns what a clause on a count counts, and in how many pieces.
func (r *AcceptanceResult) counted(f AcceptanceFigure) (count, pieces float64) {
	switch f {
	case AcceptanceDefective:
		return r.Defective, r.Good + r.Defective
	case AcceptanceTakenOut:
		return r.TakenOut, r.Sets
	case AcceptanceRate, AcceptanceStops, AcceptanceClearing:
	}
	return r.Stops, r.Sets
}

// atLevels returns of a clause with levels of its own how often a line at the good one is as bad or worse, and
// one at the bad one as good or better: so that what is seen is about the same lines as the plan.
func (t *acceptanceTest) atLevels(c *AcceptanceClause, r *AcceptanceResult, figure float64) (asBad, asGood Proportion, ok bool) {
	if c.Planned == nil {
		return asBad, asGood, false
	}
	if c.Of == AcceptanceClearing {
		size, _ := t.size(c.Of, nil)
		p := accept.TimesIn(int64(r.Stops), float64(c.Good), t.spread(finite(t.sides[0].figures(c.Of)), size), t.Risks.Seller)
		p.Limit = figure
		risks := p.Risks(float64(c.Good), float64(c.Bad))
		return computed(risks.Seller), computed(risks.Buyer), true
	}
	seen, pieces := r.counted(c.Of)
	if !(pieces > 0) {
		return asBad, asGood, false
	}
	unit := c.Counts()
	good, bad := float64(c.Good)/unit, float64(c.Bad)/unit
	asBad, asGood = Proportion{1, 1, 1, Level}, computed(c.allowing(pieces, seen).Risks(good, bad).Buyer)
	if seen > 0 { // none is no fewer than none
		asBad = computed(c.allowing(pieces, seen-1).Risks(good, bad).Seller)
	}
	return asBad, asGood, true
}

// computed returns a probability that has no interval, of what can be and need not be: it is neither 0 nor 1,
// whatever was lost in rounding.
func computed(p float64) Proportion {
	x := Number(math.Min(math.Max(p, 1e-300), math.Nextafter(1, 0)))
	return Proportion{x, x, x, Level}
}

// figure returns what a clause is about; NaN if it was not counted.
func (r *AcceptanceResult) figure(f AcceptanceFigure) float64 {
	counted := func(x ...float64) bool {
		for _, one := range x {
			if one < 0 {
				return false
			}
		}
		return true
	}
	switch {
	case f == AcceptanceRate:
		return r.Good
	case f == AcceptanceStops && counted(r.Stops, r.Sets):
		return 1000 * r.Stops / r.Sets
	case f == AcceptanceTakenOut && counted(r.TakenOut, r.Sets):
		return 1000 * r.TakenOut / r.Sets
	case f == AcceptanceClearing && counted(r.Stops, r.Clearing):
		return r.Clearing / r.Stops
	case f == AcceptanceDefective && counted(r.Defective):
		return 1e6 * r.Defective / (r.Good + r.Defective)
	}
	return math.NaN()
}

// shownRate returns between which net rates the line’s own may lie, if its tests vary by as much as
// those of the more variable of the two lines.
// A test that ended when it had seen enough shows less than that: what made it end was in part chance.
func (t *acceptanceTest) shownRate(r *AcceptanceResult) Interval {
	spread := 0.0
	for _, s := range t.sides {
		spread = math.Max(spread, s.figures(AcceptanceRate).SD())
	}
	spread *= math.Sqrt(r.Hours / float64(t.length/3600)) // of a test of other hours
	half := float64(portable.NormalQuantile((1+Level)/2) * spread / r.Hours)
	return intervalOf(math.Max(0, r.Good/r.Hours-half), r.Good/r.Hours+half)
}
