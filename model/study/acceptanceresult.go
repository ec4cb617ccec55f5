package study

import (
	"math"

	"netrate/sim/accept"
	"netrate/sim/portable"
)

// verdict returns what a test has shown: the limits are those of a test as long as it was.
func (t *acceptanceTest) verdict(a *AcceptanceAnswer) *AcceptanceVerdict {
	v := &AcceptanceVerdict{Passes: true, Rate: t.shownRate(), Aside: t.Result.Aside}
	for i := range a.Clauses {
		c := &a.Clauses[i]
		f := AcceptanceFound{Of: c.Of, Figure: Number(t.Result.figure(c.Of))}
		if f.Counted = !math.IsNaN(float64(f.Figure)) && c.NoTest == ""; f.Counted {
			seen := float64(f.Figure)
			f.Passes = c.Passes(seen)
			v.Passes = v.Passes && f.Passes
			better := func(x, y float64) bool {
				if c.Of == AcceptanceRate {
					return x > y
				}
				return x < y
			}
			if level, wrong, ok := t.Result.planned(c, seen); ok {
				f.AsBad, f.AsGood = level, wrong
				v.Clauses = append(v.Clauses, f)
				continue
			}
			f.AsBad = wrongly(t.sides[0].times(func(x *tested) bool { return !better(x.figure(c.Of), seen) }))
			f.AsGood = wrongly(t.sides[1].times(func(x *tested) bool { return !better(seen, x.figure(c.Of)) }))
		}
		v.Clauses = append(v.Clauses, f)
	}
	return v
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
func (t *acceptanceTest) shownRate() Interval {
	hours := t.Result.Hours
	spread := 0.0
	for _, s := range t.sides {
		spread = math.Max(spread, s.figures(AcceptanceRate).SD())
	}
	half := float64(portable.NormalQuantile((1+Level)/2) * spread / hours)
	return intervalOf(t.Result.Good/hours-half, t.Result.Good/hours+half)
}
