package seasons

import (
	"cmp"
	"fmt"
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
func (p *togetherPlan) barred(line, job int) Barred {
	return barredAt(&p.Crew, p.Staff, cmp.Or(p.Lines[line].Name, "the line"), p.at[line][job])
}

// barredAt returns when nobody may do the pieces of a changeover of a line, at some stations.
func barredAt(crew *model.Crew, staff []model.Staffing, line string, at []string) (b Barred) {
	if len(at) == 0 {
		return b
	}
	if len(staff) == 0 {
		staff = []model.Staffing{{Operators: stated(crew)}}
	}
	able := make([][]int, len(at))
	for k, station := range at {
		able[k] = crew.Able(line, model.Need{Does: model.Changing, Station: station})
	}
	for i, s := range staff {
		to := sim.Seconds(math.Inf(1))
		if i+1 < len(staff) {
			to = staff[i+1].From
		}
		there, barred := presence{s.Operators, s.Absent}, 0
		for _, who := range able {
			if !slices.ContainsFunc(who, there.has) {
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

// changed returns when a changeover is done on paper, see [order.Shop]: it stands still while a line is down, and while
// nobody is there who may do some piece of it. Nil if somebody always is.
func (p *Plan) changed(h *Horizon, times *Paper, down [][]model.Stretch) func(line, before, job int, from, length sim.Seconds) sim.Seconds {
	staff, still, some := h.staffing(), map[string][]model.Stretch{}, false
	all := make([][][][]model.Stretch, len(p.Lines))
	for i, line := range p.Lines {
		for _, row := range times.at[i] {
			var own [][]model.Stretch
			for _, at := range row {
				key := fmt.Sprintf("%d %q", i, at)
				known, is := still[key]
				if !is {
					known = finite(barredAt(&p.Crew, staff, cmp.Or(line.Name, "the line"), at).Some, h.Length())
					some = some || len(known) > 0
					if down != nil {
						known = slices.SortedFunc(slices.Values(slices.Concat(known, down[i])), func(a, b model.Stretch) int { return cmp.Compare(a.From, b.From) })
					}
					still[key] = known
				}
				own = append(own, known)
			}
			all[i] = append(all[i], own)
		}
	}
	if !some {
		return nil
	}
	return func(line, before, job int, from, length sim.Seconds) sim.Seconds {
		if before < 0 {
			before = len(p.Jobs)
		}
		return past(all[line][before][job], from, length)
	}
}

// finite returns stretches of which none ends after the working time that there is: what goes on then is never
// done, and the later the more of it is left.
func finite(all []model.Stretch, end sim.Seconds) []model.Stretch {
	all = slices.DeleteFunc(slices.Clone(all), func(s model.Stretch) bool { return s.From >= end })
	for i := range all {
		all[i].To = min(all[i].To, end)
	}
	return all
}

// lengthened returns stretches with one more, which is one with the last if it begins when that ends.
func lengthened(all []model.Stretch, from, to sim.Seconds) []model.Stretch {
	if last := len(all) - 1; last >= 0 && all[last].To == from {
		all[last].To = to
		return all
	}
	return append(all, model.Stretch{From: from, To: to})
}
