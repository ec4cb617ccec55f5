package trace

import (
	"netrate/model"
	"netrate/sim"
)

// Task is one piece of work for the crew, from the call to its end.
type Task struct {
	Station  int
	Work     model.Work
	Called   sim.Seconds
	Taken    bool        // an operator set off for it
	From     sim.Seconds // when
	Arrives  sim.Seconds
	To       sim.Seconds // when the work was done, or the shift ended
	Done     bool
	Operator int // from 0: who of those that are free has the lowest number sets off
}

// clears reports whether the task is what ends a stop.
func (t *Task) clears(s *Stop) bool {
	return t.Station == s.Station && (t.Work == model.FillStock) == (s.Cause == model.CauseStock) && s.Cause != model.CauseStarved
}

func (h *hearing) task(e model.Event) {
	s := h.shift
	switch e.Kind {
	case model.TaskCalled:
		h.inHand[e.Task] = len(s.Tasks)
		s.Tasks = append(s.Tasks, Task{Station: e.Station, Work: e.Work, Called: e.At, Operator: -1})
	case model.TaskTaken:
		t := &s.Tasks[h.inHand[e.Task]]
		t.Taken, t.From, t.Arrives, t.To = true, e.At, e.Arrives, e.Until
		t.Operator = h.free()
		h.busy[t.Operator] = true
	case model.TaskDone:
		t := &s.Tasks[h.inHand[e.Task]]
		t.Done = true
		h.busy[t.Operator] = false
		h.done = *t
		delete(h.inHand, e.Task)
	default:
	}
}

// free returns the lowest number of an operator who is free.
func (h *hearing) free() int {
	for i, busy := range h.busy {
		if !busy {
			return i
		}
	}
	panic("trace: more operators at work than there are")
}
