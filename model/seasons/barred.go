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

// Waits is how a changeover waits for somebody who may do some of it, from when it is called for until its job begins:
// in all, and of that until it begins. Who is at a piece when nobody may take one any more finishes it: it did not wait
// if it is done before somebody is there again who may.
func (b *Barred) Waits(called, first sim.Seconds) (all, before sim.Seconds) {
	for _, s := range b.All {
		if s.To > first {
			break
		}
		all += max(0, s.To-max(s.From, called))
		if s.From <= called && called < s.To {
			before = s.To - called
		}
	}
	return all, before
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

// paperPart is a part of a changeover on paper of which nobody is there who may do it in some stretches.
type paperPart struct {
	still []model.Stretch // in order; it goes on between them
	share float64         // of the time that the whole changeover takes
}

// changed returns when a changeover is done on paper, see [order.Shop]: it stands still while a line is down, and
// each of its parts while nobody is there who may do that. Nil if somebody always is, and no line stands at a job for
// want of others.
func (p *Plan) changed(h *Horizon, times *Paper, down [][]model.Stretch, stand bool) func(line, before, job int, from, length sim.Seconds) sim.Seconds {
	staff, known, some := h.staffing(), map[string][]paperPart{}, stand
	all := make([][][][]paperPart, len(p.Lines))
	for i, line := range p.Lines {
		for _, row := range times.parts[i] {
			var own [][]paperPart
			for _, parts := range row {
				key := fmt.Sprintf("%d %v", i, parts)
				if _, is := known[key]; !is {
					x := partsOf(&p.Crew, staff, cmp.Or(line.Name, "the line"), parts, h.Length())
					some = some || len(x) > 1 || len(x[0].still) > 0
					for k := range x {
						if down != nil {
							x[k].still = inOrder(x[k].still, down[i])
						}
					}
					known[key] = x
				}
				own = append(own, known[key])
			}
			all[i] = append(all[i], own)
		}
	}
	if !some {
		return nil
	}
	return func(line, before, job int, from, length sim.Seconds) (done sim.Seconds) {
		if before < 0 {
			before = len(p.Jobs)
		}
		for _, part := range all[line][before][job] {
			done = max(done, past(part.still, from, sim.Seconds(length*sim.Seconds(part.share))))
		}
		return done
	}
}

// partsOf returns the whole of a changeover, which stands still while nobody may do any of it, and those of its parts
// that are barred in other stretches too: what is barred in the same is one part.
func partsOf(crew *model.Crew, staff []model.Staffing, line string, parts []changePart, end sim.Seconds) []paperPart {
	at := make([]string, len(parts))
	for k := range parts {
		at[k] = parts[k].station
	}
	all := []paperPart{{finite(barredAt(crew, staff, line, at).All, end), 1}}
	for _, part := range parts {
		still := finite(barredAt(crew, staff, line, []string{part.station}).Some, end)
		if len(still) == 0 || slices.Equal(still, all[0].still) {
			continue
		}
		k := slices.IndexFunc(all[1:], func(x paperPart) bool { return slices.Equal(x.still, still) }) + 1
		if k == 0 {
			k, all = len(all), append(all, paperPart{still: still})
		}
		all[k].share = min(1, all[k].share+part.share)
	}
	return all
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
