package study

import "netrate/sim/output"

// ComparisonSelected is how the best was chosen.
type ComparisonSelected struct {
	Method       string              `json:"method"`
	Indifference Number              `json:"indifference_per_h"` // the smallest difference that matters, good envelopes an hour
	Confidence   Number              `json:"confidence"`
	Promised     bool                `json:"promised"` // the choice is right with that confidence, if the best is ahead by that
	First        int                 `json:"first"`    // replications that show how much they vary; none is dropped before
	Done         int                 `json:"done"`     // replications of those still in it
	Most         int                 `json:"most"`
	Dropped      []ComparisonDropped `json:"dropped"` // in the order in which they were

	Usual bool  `json:"usual_indifference"` // it was not asked for
	Left  []int `json:"left"`               // those not dropped, in their order
	Best  int   `json:"best"`               // the largest mean of those
}

// ComparisonDropped is an alternative that is known not to be ahead of another by the
// indifference. That it is behind is not promised.
type ComparisonDropped struct {
	Name string `json:"name"`
	By   string `json:"by"`
	At   int    `json:"at"` // replications
	Tie  bool   `json:"tie,omitempty"`

	Line  int `json:"line"`    // its number
	Other int `json:"by_line"` // that of the other
}

// selectionMethod is how the best is chosen.
const selectionMethod = "fully sequential selection (Kim and Nelson 2001), c = 1"

// selection is a selection under way.
type selection struct {
	*output.Selection
	indifference float64
	confidence   float64
	most         int // replications of each
	usual        bool
}

// answer returns how the best of some lines was chosen, as far as it is.
func (s *selection) answer(lines []LineAnswer) *ComparisonSelected {
	best, promised := s.Best()
	a := &ComparisonSelected{
		Method: selectionMethod, Indifference: Number(s.indifference), Confidence: Number(s.confidence),
		Promised: promised, First: selectionFirst, Done: s.Done(), Most: s.most, Dropped: []ComparisonDropped{}, Usual: s.usual, Best: best,
	}
	for _, d := range s.Dropped() {
		a.Dropped = append(a.Dropped, ComparisonDropped{lines[d.System].Name, lines[d.By].Name, d.At, d.Tie, d.System, d.By})
	}
	for i := range lines {
		if s.Remains(i) {
			a.Left = append(a.Left, i)
		}
	}
	return a
}
