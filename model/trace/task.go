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
	Operator int // from 0: who of those that are free has the lowest number sets off; of a repair, the technician
}

// clears reports whether the task is what ends a stop.
func (t *Task) clears(s *Stop) bool {
	return t.Station == s.Station && s.Cause != model.CauseStarved &&
		(t.Work == model.FillStock) == (s.Cause == model.CauseStock) && (t.Work == model.Repair) == (s.Cause == model.CauseBreakdown)
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
		all := h.people(t)
		t.Operator = free(all)
		(*all)[t.Operator] = true
	case model.TaskDone:
		t := &s.Tasks[h.inHand[e.Task]]
		t.Done = true
		(*h.people(t))[t.Operator] = false
		h.done = *t
		delete(h.inHand, e.Task)
	default:
	}
}

// people returns those who do such a task, by their numbers.
func (h *hearing) people(t *Task) *[]bool {
	if t.Work == model.Repair {
		return &h.repair
	}
	return &h.busy
}

// free returns the lowest number of somebody who is free.
func free(all *[]bool) int {
	for i, busy := range *all {
		if !busy {
			return i
		}
	}
	*all = append(*all, false)
	return len(*all) - 1
}
