package trace

import (
	"slices"

	"netrate/model"
	"netrate/sim"
)

// Stop is one reason for the line to stand, from when it arose until it was over: the restart
// comes after it. Several may be open at a time.
type Stop struct {
	Station  int
	Cause    model.Cause
	From, To sim.Seconds
	Cycle    sim.Cycles  // completed then
	Attended bool        // an operator came
	Arrives  sim.Seconds // when; From where he was there already
	Over     bool        // before the shift ended
}

// Worked returns how long an operator worked on it.
func (s *Stop) Worked() sim.Seconds {
	if !s.Attended {
		return 0
	}
	return s.To - s.Arrives
}

func (s *Stop) attend(t *Task) { s.Attended, s.Arrives = true, max(t.Arrives, s.From) }

// Fault is one fault, or one false call.
type Fault struct {
	Station   int
	Fault     model.Fault // Double of a false call
	FalseCall bool
	Seen      bool // by the station; a false call is
	Stopped   bool // the line, for this
	Set       sim.Cycles
	Cycle     sim.Cycles
	At        sim.Seconds
}

func (h *hearing) arises(e model.Event) {
	s := h.shift
	h.open = append(h.open, len(s.Stops))
	s.Stops = append(s.Stops, Stop{Station: e.Station, Cause: e.Cause, From: e.At, Cycle: e.Cycle})
	if n := len(s.Faults) - 1; n >= 0 && e.Cause != model.CauseStock && e.Cause != model.CauseStarved && e.Cause != model.CauseBreakdown {
		if f := &s.Faults[n]; f.Station == e.Station && f.Cycle == e.Cycle {
			f.Stopped = true
		}
	}
}

// stopEnds closes a stop; the task that ended it was done just before.
func (h *hearing) stopEnds(e model.Event) {
	s := h.shift
	for k, i := range h.open {
		stop := &s.Stops[i]
		if stop.Station != e.Station || stop.Cause != e.Cause {
			continue
		}
		stop.To, stop.Over = e.At, true
		if h.done.clears(stop) && h.done.To == e.At {
			stop.attend(&h.done)
		}
		h.open = slices.Delete(h.open, k, k+1)
		return
	}
}

func (h *hearing) fault(e model.Event) {
	f := Fault{Station: e.Station, Fault: e.Fault, Seen: e.Seen, Set: e.Set, Cycle: e.Cycle, At: e.At}
	what := Happening{What: Faulty, Station: e.Station, Cycle: e.Cycle, Fault: e.Fault, Seen: e.Seen}
	if e.Kind == model.FalselyCalled {
		f.Fault, f.FalseCall, f.Seen = model.Double, true, true
		what.What, what.Fault, what.Seen = CalledFalsely, model.Double, true
	}
	h.shift.Faults = append(h.shift.Faults, f)
	h.set(e.Set).happens(what)
}
