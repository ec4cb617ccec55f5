package fit

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"
)

// Comparison is all kinds fitted to the same observations.
type Comparison struct {
	Candidates []Candidate // the best first, by AIC; never empty
	Notes      []string    // what the figures mean, and what could not be done, in sentences
}

// Candidate is one kind in a comparison.
type Candidate struct {
	Fitted
	Behind   float64 // its AIC less that of the best: 0 or more
	Goodness Goodness
}

// asGood is how far an AIC may lie behind and the kind still describe the records as
// well: Burnham and Anderson, Model Selection and Multimodel Inference (2002), section
// 2.6 (from memory), who also say from where on a kind has no support: such a one is not tested.
// unlikely is the P below which a fit is refused (common practice, no source).
const (
	asGood   = 2
	refused  = 10
	unlikely = 0.05
)

// Compare fits all kinds to the observations and ranks them, with a test of each fit by
// this many draws (999 is a good number, 0 makes no test). A kind that cannot be fitted is
// named in the notes; it is an error if none can.
func Compare(obs []Observation, draws int, seed uint64) (Comparison, error) {
	r, err := look(obs)
	if err != nil {
		return Comparison{}, err
	}
	var c Comparison
	var failed error
	for _, kind := range Kinds() {
		f, err := Fit(kind, obs)
		if err != nil {
			failed = errors.Join(failed, err)
			c.Notes = append(c.Notes, err.Error()+".")
			continue
		}
		c.Candidates = append(c.Candidates, Candidate{Fitted: f})
	}
	if len(c.Candidates) == 0 {
		return Comparison{}, failed
	}
	slices.SortStableFunc(c.Candidates, func(a, b Candidate) int { return cmp.Compare(a.AIC(), b.AIC()) })
	for i := range c.Candidates {
		k := &c.Candidates[i]
		k.Behind = k.AIC() - c.Candidates[0].AIC()
		if k.Behind >= refused {
			continue
		}
		if k.Goodness, err = r.goodness(k.Fitted, draws, seed); err != nil {
			c.Notes = append(c.Notes, err.Error()+".")
		}
	}
	c.Notes = append(c.Notes, c.ranking(), c.test(r))
	return c, nil
}

// ranking returns the sentence on which kind is best, and which are as good.
func (c Comparison) ranking() string {
	best, others := c.Candidates[0], []string(nil)
	for _, other := range c.Candidates[1:] {
		if other.Behind < asGood {
			others = append(others, other.Kind.String())
		}
	}
	if len(others) == 0 {
		return fmt.Sprintf("The %v describes the records best.", best.Kind)
	}
	return fmt.Sprintf("The %v describes the records best; as good, as far as can be determined: %s.",
		best.Kind, strings.Join(others, ", "))
}

// test returns the sentence on whether the best kind fits at all.
func (c Comparison) test(r records) string {
	best := c.Candidates[0]
	switch {
	case len(r.cut) > 0:
		return fmt.Sprintf("Whether it fits was not tested, for %d of %d observations were cut short: look at the curves.",
			len(r.cut), len(r.cut)+len(r.events))
	case len(r.ranges) > 0:
		return "Whether it fits was not tested, as observations were rounded: look at the curves."
	case !best.Goodness.Tested:
		return "Whether it fits was not tested."
	case best.Goodness.P < unlikely:
		return fmt.Sprintf("Even so it does not fit (%s): take the records themselves as the distribution.", chance(best.Goodness.P))
	}
	return fmt.Sprintf("The records do not speak against it (%s).", chance(best.Goodness.P))
}
