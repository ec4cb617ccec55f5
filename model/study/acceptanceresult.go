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
	v := &AcceptanceVerdict{Passes: !t.otherHours(), NotJudged: t.otherHours(), Aside: t.Result.Aside}
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
		if f.NotJudged = v.NotJudged && c.Of == AcceptanceRate; f.NotJudged {
			f.Passes = false
		}
		v.Passes = v.Passes && (f.Passes || !f.Counted)
		v.Clauses = append(v.Clauses, f)
	}
	return v
}

// found returns what a test has shown of a clause, against simulated tests of the two lines.
func (t *acceptanceTest) found(c *AcceptanceClause, r *AcceptanceResult, sides [2]*side) AcceptanceFound {
	f := AcceptanceFound{Of: c.Of, Figure: Number(r.figure(c.Of))}
	seen := float64(f.Figure)
	if f.Counted = !math.IsNaN(seen) && c.NoTest == ""; !f.Counted {
		return f
	}
	f.Passes = c.Passes(seen)
	if level, wrong, ok := r.planned(c, seen); ok {
		f.AsBad, f.AsGood = level, wrong
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

// planned returns how often a line at the good level of a clause that is planned as events has as
// many or more, and one at the bad level as many or fewer.
func (r *AcceptanceResult) planned(c *AcceptanceClause, figure float64) (asBad, asGood Proportion, ok bool) {
	pieces, unit := r.Sets, 1000.0
	switch c.Of {
	case AcceptanceDefective:
		pieces, unit = r.Good+r.Defective, 1e6
	case AcceptanceStops:
	case AcceptanceRate, AcceptanceClearing:
		return asBad, asGood, false
	}
	if c.Planned == nil || !(pieces > 0) {
		return asBad, asGood, false
	}
	good, bad, count := float64(c.Good)/unit, float64(c.Bad)/unit, int64(math.Round(figure*pieces/unit))
	more, fewer := 1.0, accept.EventPlan{Length: pieces, Allowed: count}.Risks(good, bad).Buyer
	if count > 0 {
		more = accept.EventPlan{Length: pieces, Allowed: count - 1}.Risks(good, bad).Seller
	}
	exact := func(p float64) Proportion { return Proportion{Number(p), Number(p), Number(p), Level} }
	return exact(more), exact(fewer), true
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
