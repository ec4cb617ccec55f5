package seasons

import (
	"cmp"
	"math"
	"slices"

	"netrate/model"
	"netrate/sim"
)

// paperCall is work that a line calls the crew for at a job.
type paperCall struct {
	model.Need
	often float64 // a second at the job, alone on the line
}

// addCalls adds what a line called for in a run, each so often in so many of its seconds.
func addCalls(calls []paperCall, out *model.Outcome, seconds sim.Seconds) []paperCall {
	for k := range out.Stations {
		s := &out.Stations[k]
		for _, c := range []struct {
			does  model.Doing
			calls int64
		}{{model.Clearing, s.Clearing.Calls}, {model.Filling, s.Stock.Calls}} {
			n := model.Need{Does: c.does, Station: s.Name}
			at := slices.IndexFunc(calls, func(x paperCall) bool { return x.Need == n })
			switch {
			case c.calls == 0:
				continue
			case at < 0:
				at, calls = len(calls), append(calls, paperCall{Need: n})
			}
			calls[at].often += float64(c.calls) / float64(seconds)
		}
	}
	return calls
}

// stands returns when each line is taken to stand at each job, on paper: while it is down, and while nobody is there
// who may do some of the work that it calls for there, from when it does so in the mean. Nil if none ever does.
func (p *Plan) stands(h *Horizon, times *Paper, down [][]model.Stretch) [][][]model.Stretch {
	all, some := make([][][]model.Stretch, len(p.Lines)), down != nil
	staff := h.staffing()
	for i, line := range p.Lines {
		for j := range p.Jobs {
			var own []model.Stretch
			if p.Crew.People != nil {
				own = finite(unanswered(&p.Crew, staff, cmp.Or(line.Name, "the line"), times.calls[i][j]), h.Length())
				some = some || len(own) > 0
			}
			if down != nil {
				own = inOrder(own, down[i])
			}
			all[i] = append(all[i], own)
		}
	}
	if !some {
		return nil
	}
	return all
}

// unanswered returns when a line stands that has called for work which nobody may do who is there: once it has called
// for some once, in the mean, and until somebody may do all of it.
func unanswered(crew *model.Crew, staff []model.Staffing, line string, calls []paperCall) (all []model.Stretch) {
	able := make([][]int, len(calls))
	for k := range calls {
		able[k] = crew.Able(line, calls[k].Need)
	}
	due := 1.0 // of the calls until the first, in the mean
	for i, s := range staff {
		to, there, often := sim.Seconds(math.Inf(1)), presence{s.Operators, s.Absent}, 0.0
		if i+1 < len(staff) {
			to = staff[i+1].From
		}
		for k := range calls {
			if !slices.ContainsFunc(able[k], there.has) {
				often += calls[k].often
			}
		}
		if often == 0 {
			due = 1
			continue
		}
		from := s.From + sim.Seconds(due/often)
		if due = max(0, due-float64(often*float64(to-s.From))); from < to {
			all = lengthened(all, from, to)
		}
	}
	return all
}

// inOrder returns the stretches of two lists in the order in which they begin.
func inOrder(a, b []model.Stretch) []model.Stretch {
	return slices.SortedFunc(slices.Values(slices.Concat(a, b)), func(x, y model.Stretch) int { return cmp.Compare(x.From, y.From) })
}
