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

	Helped      bool // a second one set off to help
	Helper      int  // who
	HelpFrom    sim.Seconds
	HelpArrives sim.Seconds // or when the work was done before he came
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
		t.Operator = h.engage(h.people(t), e.Operator)
	case model.TaskHelped:
		t := &s.Tasks[h.inHand[e.Task]]
		t.Helped, t.HelpFrom, t.HelpArrives = true, e.At, e.Arrives
		t.Helper = h.engage(&h.busy, e.Operator)
	case model.TaskDone:
		t := &s.Tasks[h.inHand[e.Task]]
		t.Done, t.To = true, e.At // before it was to be, where two worked on it
		(*h.people(t))[t.Operator] = false
		if t.Helped {
			h.busy[t.Helper] = false
			t.HelpArrives = min(t.HelpArrives, e.At)
		}
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

// engage has somebody be at work: who has the number or, where they have none, who is free.
func (h *hearing) engage(all *[]bool, number int) int {
	if number < 0 {
		number = free(all)
	}
	for len(*all) <= number {
		*all = append(*all, false)
	}
	(*all)[number] = true
	return number
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
