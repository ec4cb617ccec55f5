package trace

import (
	"cmp"
	"slices"

	"netrate/model"
	"netrate/sim"
)

// hearing puts what is heard of a shift in order.
type hearing struct {
	*hands
	shift  *Shift
	open   []int               // stops that are not over, as in shift.Stops
	inHand map[int]int         // the last call of each task, as in shift.Tasks
	done   Task                // the last task done
	sets   map[sim.Cycles]*Set // with which anything happened
	left   *Set                // the last one that left
	filled []int64             // put into each stock since it was looked at
	each   sim.Seconds         // how long a cycle takes
}

// hands are who is at work, by their numbers: of lines that share a crew, on all of them.
type hands struct {
	busy   []bool // operators
	repair []bool // technicians: as many as ever were at work together
}

func newHearing(s *Shift, at *hands) *hearing {
	return &hearing{
		hands: at, shift: s, inHand: map[int]int{}, sets: map[sim.Cycles]*Set{}, filled: make([]int64, len(s.Line.Stations)), each: s.cycle(),
	}
}

// hear takes in one event.
func (h *hearing) hear(e model.Event) {
	s := h.shift
	switch e.Kind {
	case model.CycleTakes:
		h.paced(e)
	case model.LineStarts:
		s.Runs = append(s.Runs, Run{From: e.At, Cycle: e.Cycle, Each: h.each})
	case model.LineHalts:
		s.Runs[len(s.Runs)-1].To = e.At
	case model.Stood:
		s.Stood = append(s.Stood, Stretch{e.At, e.Until, e.Station, e.Cause, e.Phase})
	case model.StopArises:
		h.arises(e)
	case model.StopEnds:
		h.stopEnds(e)
	case model.FaultOccurs, model.FalselyCalled:
		h.fault(e)
	case model.SetCondemned:
		x := h.set(e.Set)
		x.happens(Happening{What: Condemned, Station: e.Station, Cycle: e.Cycle, Fault: e.Fault, Gate: e.Gate})
	case model.SetLeaves:
		h.leaves(e)
	case model.SetHeld:
		h.left.holds(e)
	case model.PieceTaken:
		x := h.set(e.Set)
		x.Remakes += e.N
		x.happens(Happening{What: TakenOut, Station: e.Station, Cycle: e.Cycle})
	case model.TaskCalled, model.TaskTaken, model.TaskHelped, model.TaskDone:
		h.task(e)
	case model.StockLevel:
		s.Levels = append(s.Levels, Level{e.Station, e.At, e.Cycle, e.N, h.filled[e.Station]})
		h.filled[e.Station] = 0
	case model.StockFilled:
		h.filled[e.Station] += e.N
	case model.CrewIs:
		s.Present = append(s.Present, Present{e.At, int(e.N)})
	case model.StoodForBreak:
		s.Breaks = append(s.Breaks, Run{From: e.At, To: e.Until, Cycle: e.Cycle})
	case model.PassEnds:
		h.ends(e)
	case model.PassBegins, model.PiecesDiscarded:
	}
}

// paced notes how long a cycle takes from now on; a line that runs does so in two stretches.
func (h *hearing) paced(e model.Event) {
	h.each = e.Length
	if n := len(h.shift.Runs); n > 0 && h.shift.Runs[n-1].To == 0 {
		h.shift.Runs[n-1].To = e.At
		h.shift.Runs = append(h.shift.Runs, Run{From: e.At, Cycle: e.Cycle, Each: h.each})
	}
}

// ends says of what is under way that it was not over at the end.
func (h *hearing) ends(e model.Event) {
	s := h.shift
	if last := &s.Runs[len(s.Runs)-1]; last.To == 0 {
		last.To = e.At
	}
	for _, i := range h.open {
		stop := &s.Stops[i]
		stop.To = e.At
		for _, k := range h.inHand {
			if t := &s.Tasks[k]; t.clears(stop) && t.Taken && t.Arrives <= e.At {
				stop.attend(t)
			}
		}
	}
	for i := range s.Tasks {
		if t := &s.Tasks[i]; t.Taken && !t.Done {
			t.To = min(t.To, e.At)
			t.Arrives = min(t.Arrives, e.At)
			t.HelpArrives = min(t.HelpArrives, e.At)
		}
	}
}

// close puts the sets in order. What happened to documents of sets that were never begun is
// among the faults only.
func (h *hearing) close() {
	s := h.shift
	for _, x := range h.sets {
		if x.Number > sim.Cycles(s.Outcome.Sets.Started) {
			continue
		}
		slices.SortStableFunc(x.Happened, func(a, b Happening) int { return cmp.Compare(a.Cycle, b.Cycle) })
		s.Sets = append(s.Sets, *x)
	}
	slices.SortFunc(s.Sets, func(a, b Set) int { return cmp.Compare(a.Number, b.Number) })
}
