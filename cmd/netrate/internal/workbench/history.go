package workbench

import "slices"

// history is a text and the steps that led to it, all of which can be taken back.
type history struct {
	text       string
	done, back []step // back are those taken back, the last of them last
}

// step is what is taken back at once: what was changed in one go, such as all moves of a drag.
type step struct {
	Group   string
	Changes []change
}

// to makes the step that leads to another text. Steps of a group that is not empty, one right after
// the other, are one; one that leads back to where it began is none.
func (h *history) to(text, group string) (change, bool) {
	if text == h.text {
		return change{}, false
	}
	c := changeBetween(h.text, text)
	h.text, h.back = text, nil
	if n := len(h.done); n > 0 && group != "" && h.done[n-1].Group == group {
		s := &h.done[n-1]
		s.Changes = append(s.Changes, c)
		if s.start(text) == text {
			h.done = h.done[:n-1]
		}
	} else {
		h.done = append(h.done, step{group, []change{c}})
	}
	return c, true
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
	h.done, h.back = h.done[:n-1], append(h.back, s)
	return h.turn(s.start(h.text))
}

func (h *history) redo() (c change, changed bool) {
	n := len(h.back)
	if n == 0 {
		return c, false
	}
	s := h.back[n-1]
	h.back, h.done = h.back[:n-1], append(h.done, s)
	return h.turn(s.end(h.text))
}

func (h *history) turn(text string) (change, bool) {
	c := changeBetween(h.text, text)
	h.text = text
	return c, true
}
