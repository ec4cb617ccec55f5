package study

import (
	"context"
	"errors"
	"fmt"

	"netrate/sim"
)

// Design asks which of all combinations of some options is the best line to have: what delivers
// most, costs least or needs the fewest operators, within limits.
//
// It goes in three steps. Of all combinations those are left that the options' rules, the price and
// the limits allow, and whose line can be. On paper, those are left out whose [model.Line.Ceiling]
// is below what another is seen to deliver. The rest are simulated in the same shifts, with common
// random numbers, and dropped one after the other as they fall behind ([output.Selection]), until
// one is left. What is best for less money is found from what is so on paper: whatever differs from it in
// one choice is simulated, and from what is then best for its money in turn, until nothing is new. All
// these are then compared with the line as it is, in other shifts: a comparison in those that made the
// choice would flatter it.
//
// Where the costs have yearly volumes of jobs, a design is of all of them, each in its share: see [Comparison].
//
// Of designs that are closer than the difference that matters any may be left. Where one that is no dearer, and was
// simulated to follow what is best for less money, is shown to be ahead of that, it takes its place.
//
// What is advised need not be the best: of the designs that are shown to be behind it by no more than the
// difference that matters it is the cheapest (at one price that with the fewest operators) or, with a goal in
// money, which has both in it, that with the fewest changes.
type Design struct {
	Options []DesignOption
	// Line returns the line with a choice of each option, by their numbers, with its costs if it has
	// any; or why it cannot be. It is called from many goroutines. With the first choice of each
	// option it is the line as it is.
	Line       func(choices []int) (*Alternative, error)
	Goal       DesignGoal
	Target     float64 // with DesignOperators: the good envelopes an hour that a shift is to reach
	Share      float64 // of the shifts that are to reach it
	Limits     DesignLimits
	Worth      float64 // the smallest difference that matters: good envelopes an hour or money a thousand; 0 for a hundredth of the line as it is
	Confidence float64 // that the choice is the best, or within that difference; 0 for [Level]
	Plan       sim.Plan
	Draws      int // of what is uncertain, in the comparison at the end; 0 for none
}

// DesignGoal is what makes a design the best.
type DesignGoal int

// The goals.
const (
	DesignNetRate   DesignGoal = iota // the most good envelopes an hour
	DesignCost                        // the least cost of a thousand, with the price in it
	DesignValue                       // the highest net present value: at one volume and rate of return that is the least cost
	DesignOperators                   // the fewest operators with whom so many shifts reach a target
)

var designGoalWords = [...]string{"net_rate", "cost_per_thousand", "net_present_value", "operators"}

// InMoney reports whether the goal is one of money.
func (g DesignGoal) InMoney() bool { return g == DesignCost || g == DesignValue }

// MarshalText returns the word for the goal.
func (g DesignGoal) MarshalText() ([]byte, error) { return []byte(designGoalWords[g]), nil }

// DesignOption is something of which one choice is taken, the first by the line as it is.
type DesignOption struct {
	Name     string         `json:"name"`
	Optional bool           `json:"taken_or_not"` // the second choice is to take it
	Choices  []DesignChoice `json:"choices"`
}

// DesignChoice is one way to have an option.
type DesignChoice struct {
	Name     string   `json:"name"`
	Price    Number   `json:"price"`
	Needs    []string `json:"needs,omitempty"`    // choices that must be taken with it, by their names
	Excludes []string `json:"excludes,omitempty"` // choices that cannot be
}

// How the search goes, and how large it may be.
const (
	DesignMost      = 500_000 // combinations that the rules and the price leave
	designFirst     = 24      // shifts of each before any is dropped
	designShown     = 8       // designs of the frontier in the comparison at the end, with the line as it is
	designRivals    = 3       // designs in it that may be as good as the best
	designNear      = 48      // shifts of each design near the frontier
	designIncumbent = 8       // designs that look best on paper are run before any is left out
	designOfRisk    = 0.1     // of the risk of a wrong choice is that of the ceiling
	designCostMost  = 1e12    // of a thousand envelopes, where hardly any is delivered
)

// Check returns why the question cannot be asked; nil if it can.
func (q *Design) Check() error {
	var errs []error
	if len(q.Options) == 0 {
		errs = append(errs, errors.New("a design has no options"))
	}
	for _, o := range q.Options {
		if len(o.Choices) < 2 {
			errs = append(errs, fmt.Errorf("option %q has %d choices, want 2 or more", o.Name, len(o.Choices)))
		}
	}
	if q.Goal == DesignOperators && !(q.Target > 0 && q.Share > 0 && q.Share < 1) {
		errs = append(errs, errors.New("the fewest operators want a target above 0, and a share of shifts between 0 and 1 that reach it"))
	}
	if q.Worth < 0 || q.Confidence < 0 || q.Confidence >= 1 {
		errs = append(errs, errors.New("the difference that matters is 0 or more, and the confidence from 0 to below 1"))
	}
	return errors.Join(errs...)
}

// DesignNone is the error of a search of which no combination is left, or none but the line as it is: what
// became of them, and why lines cannot be, most combinations first.
type DesignNone struct {
	Counts  DesignCounts
	Reasons []DesignReason
	AsItIs  bool // the line as it is is left
}

func (e *DesignNone) Error() string {
	text := "no design is left"
	if e.AsItIs {
		text = "nothing is left but the line as it is"
	}
	text += fmt.Sprintf(": of %.0f combinations %.0f are against the rules or too dear, %d cannot be, %d are outside the other limits",
		e.Counts.Combinations, e.Counts.Ruled, e.Counts.Impossible, e.Counts.Limits)
	for i, x := range e.Counts.Outside {
		text += []string{": ", ", "}[min(i, 1)] + fmt.Sprintf("%d have %s", x.Combinations, x.Limit.words())
	}
	if len(e.Reasons) > 0 {
		text += "; " + e.Reasons[0].Why
	}
	return text
}

// Ask searches. It calls told, if there is one, as designs are looked at: first on paper, then
// simulated.
//
// When ctx is cancelled before the choice is made there is no answer: of half the designs none is
// known to be the best. Later the answer is of the comparison as far as it is, without the turns. The
// answer is the same bit for bit for any number of workers.
func (q Design) Ask(ctx context.Context, told func(Sofar[DesignAnswer])) (*DesignAnswer, error) {
	if err := q.Check(); err != nil {
		return nil, err
	}
	if q.Confidence == 0 {
		q.Confidence = Level
	}
	s := &designSearch{Design: &q, told: told}
	for _, step := range []func(context.Context) error{s.combine, s.onPaper, s.some, s.leaveOut, s.choose, s.findEnough, s.followFrontier, s.improve, s.advise} {
		if err := step(ctx); err != nil {
			return nil, err
		}
		if ctx.Err() != nil {
			return nil, nil
		}
	}
	return s.compare(ctx)
}

// some returns an error if no combination is left, or none but the line as it is.
func (s *designSearch) some(context.Context) error {
	switch {
	case len(s.all) == 0:
		return &DesignNone{Counts: s.counts, Reasons: s.reasons}
	case len(s.all) == 1 && s.all[0].changes() == 0:
		return &DesignNone{Counts: s.counts, Reasons: s.reasons, AsItIs: true}
	}
	return nil
}
