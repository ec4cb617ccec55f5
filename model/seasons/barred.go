package seasons

import (
	"cmp"
	"math"
	"slices"

	"netrate/model"
	"netrate/sim"
)

// Barred is when nobody is there who may do a changeover, in working time and in order.
type Barred struct {
	Some []model.Stretch // of its pieces at least one
	All  []model.Stretch // none of them
}

// barred returns when nobody may do the changeover before a job of a line.
func (p *togetherPlan) barred(line, job int) (b Barred) {
	at := p.at[line][job]
	if len(at) == 0 {
		return b
	}
	name := cmp.Or(p.Lines[line].Name, "the line")
	staff := p.Staff
	if len(staff) == 0 {
		staff = []model.Staffing{{Operators: stated(&p.Crew)}}
	}
	for i, s := range staff {
		to := sim.Seconds(math.Inf(1))
		if i+1 < len(staff) {
			to = staff[i+1].From
		}
		there, barred := presence{s.Operators, s.Absent}, 0
		for _, station := range at {
			if !slices.ContainsFunc(p.Crew.Able(name, model.Need{Does: model.Changing, Station: station}), there.has) {
				barred++
			}
		}
		if barred > 0 {
			b.Some = lengthened(b.Some, s.From, to)
		}
		if barred == len(at) {
			b.All = lengthened(b.All, s.From, to)
		}
	}
	return b
}

// lengthened returns stretches with one more, which is one with the last if it begins when that ends.
func lengthened(all []model.Stretch, from, to sim.Seconds) []model.Stretch {
	if last := len(all) - 1; last >= 0 && all[last].To == from {
		all[last].To = to
		return all
	}
	return append(all, model.Stretch{From: from, To: to})
}
