package workbench

import "slices"

// history is a text and the steps that led to it, all of which can be taken back.
type history struct {
	text string
	place
	pins       []pin
	job        string   // for which the line is set up; "" if the file leaves no choice
	chosen     []string // of what is optional in the plan, by name
	done, back []step   // back are those taken back, the last of them last
}

// step is what is taken back at once: what was changed in one go, such as all moves of a drag.
type step struct {
	Group   string
	Changes []change // none if the text stayed
	Other   beside   // what stood beside the text on the other side of the step
}

// beside is what may change together with a text, or without it; nil of what stays.
type beside struct {
	Pins  *[]pin  `json:"pins,omitempty"`
	Place *place  `json:"place,omitempty"`
	Job   *string `json:"job,omitempty"`

	Chosen *[]string `json:"chosen,omitempty"`
}

// swap puts in what is given, and returns what was there instead.
func (h *history) swap(x beside) (was beside) {
	if x.Pins != nil {
		pins := h.pins
		was.Pins, h.pins = &pins, *x.Pins
	}
	if x.Place != nil {
		at := h.place
		was.Place, h.place = &at, *x.Place
	}
	if x.Job != nil {
		job := h.job
		was.Job, h.job = &job, *x.Job
	}
	if x.Chosen != nil {
		chosen := h.chosen
		was.Chosen, h.chosen = &chosen, *x.Chosen
	}
	return was
}

// unlike returns of what is given what is not there already.
func (h *history) unlike(x beside) beside {
	if x.Pins != nil && slices.Equal(*x.Pins, h.pins) {
		x.Pins = nil
	}
	if x.Place != nil && *x.Place == h.place {
		x.Place = nil
	}
	if x.Job != nil && *x.Job == h.job {
		x.Job = nil
	}
	if x.Chosen != nil && slices.Equal(*x.Chosen, h.chosen) {
		x.Chosen = nil
	}
	return x
}

// to makes the step that leads to another text, and to what then stands beside it. Steps of a group that
// is not empty, one right after the other, are one; one that leads back to where it began is none.
func (h *history) to(text, group string, with beside) (change, bool) {
	if text == h.text && with == (beside{}) {
		return change{}, false
	}
	c := changeBetween(h.text, text)
	same := text == h.text
	h.text, h.back = text, nil
	if with != (beside{}) {
		s := step{Other: h.swap(with)}
		if !same {
			s.Changes = []change{c}
		}
		h.done = append(h.done, s)
		return c, true
	}
	if n := len(h.done); n > 0 && group != "" && h.done[n-1].Group == group {
		s := &h.done[n-1]
		s.Changes = append(s.Changes, c)
		if s.start(text) == text {
			h.done = h.done[:n-1]
		}
	} else {
		h.done = append(h.done, step{Group: group, Changes: []change{c}})
	}
	return c, true
}

// atOpening returns the text, and the job, with which the work on the file at hand began.
func (h *history) atOpening() (text, job string) {
	text, job = h.text, h.job
	for _, s := range slices.Backward(h.done) {
		if s.Other.Place != nil { // which another file was open before
			break
		}
		text = s.start(text)
		if s.Other.Job != nil {
			job = *s.Other.Job
		}
	}
	return text, job
}

// start returns the text before a step, of the text after it.
func (s *step) start(text string) string {
	for _, c := range slices.Backward(s.Changes) {
		text, _ = c.inverse().made(text)
	}
	return text
}

// end returns the text after a step, of the text before it.
func (s *step) end(text string) string {
	for _, c := range s.Changes {
		text, _ = c.made(text)
	}
	return text
}

// undo takes the last step back, redo makes it again. Without one they do nothing.
func (h *history) undo() (c change, changed bool) {
	n := len(h.done)
	if n == 0 {
		return c, false
	}
	s := h.done[n-1]
	s.Other = h.swap(s.Other)
	h.done, h.back = h.done[:n-1], append(h.back, s)
	return h.turn(s.start(h.text))
}

func (h *history) redo() (c change, changed bool) {
	n := len(h.back)
	if n == 0 {
		return c, false
	}
	s := h.back[n-1]
	s.Other = h.swap(s.Other)
	h.back, h.done = h.back[:n-1], append(h.done, s)
	return h.turn(s.end(h.text))
}

func (h *history) turn(text string) (change, bool) {
	c := changeBetween(h.text, text)
	h.text = text
	return c, true
}
