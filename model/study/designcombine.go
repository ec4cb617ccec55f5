package study

import (
	"context"
	"fmt"
	"slices"

	"netrate/sim"
)

// designSearch is a search under way.
type designSearch struct {
	*Design
	told func(Sofar[DesignAnswer])

	base        *tried        // the line as it is
	asItIs      candidate     // likewise
	broken      []DesignLimit // that it is outside of
	all         []candidate
	counts      DesignCounts
	reasons     []DesignReason // why lines cannot be
	worth       float64        // the difference that matters
	onPaperNext *candidate     // what is best on paper, but for the line as it is; nil if there is nothing else
	lean        []candidate    // what is best for its money, the cheapest first: on paper, and later in some shifts
	found       []candidate    // what was simulated to find it
	crews       []int          // numbers of operators that are told apart; one if they are not
	chosen      []designChosen // one for each of these
	enough      []*candidate   // with DesignOperators: the cheapest that are enough with each number of them
	advice      *candidate     // what is to be had: the best, or what counts as equal and is preferred; with DesignOperators nil until the comparison
	behind      sim.Estimate   // by how much the best is ahead of that; 0 of itself

	counted map[string]bool // combinations that were simulated for the choice or besides, by their choices; nil before the frontier is followed
}

// candidate is a combination that is still in the search.
type candidate struct {
	choices   []uint8 // of each option
	price     float64 // of what is chosen
	operators int
	paper     float64 // figure on paper: the larger the better
	ceiling   float64 // which the figure is not above
	figures   designSums
}

// designSums are sums over the shifts in which a design was simulated.
type designSums struct{ shifts, score, hits float64 } // hits are shifts that reach the target

// DesignCounts is how many combinations were left out where.
type DesignCounts struct {
	Combinations Number          `json:"combinations"`
	Ruled        Number          `json:"against_rules_or_price"` // needs, excludes, and the limit of the price
	Impossible   int             `json:"cannot_be"`
	Limits       int             `json:"outside_other_limits"`
	Outside      []DesignOutside `json:"outside_each_limit"` // of these: one may be outside several
	Ceiling      int             `json:"ceiling_too_low"`    // on paper they cannot be the best
	Simulated    int             `json:"simulated"`
	Near         int             `json:"simulated_near_the_frontier"` // of those whose ceiling is too low: for what is best for less money, or as good
	Shifts       Number          `json:"shifts_simulated"`            // of all designs together, to the end of the comparison
}

// combine finds the combinations that the rules and the price leave.
func (s *designSearch) combine(context.Context) error {
	s.counts.Combinations = 1
	for _, o := range s.Options {
		s.counts.Combinations *= Number(len(o.Choices))
	}
	c := &combining{search: s, taken: map[string]bool{}, choices: make([]uint8, len(s.Options))}
	if err := c.from(0); err != nil {
		return err
	}
	s.counts.Ruled = s.counts.Combinations - Number(len(s.all))
	return nil
}

// combining goes through all combinations, option by option.
type combining struct {
	search  *designSearch
	choices []uint8
	taken   map[string]bool // choices, by their names
	barred  []string        // by a choice that is taken
	price   float64
}

// from takes each choice of an option and all that follow it.
func (c *combining) from(option int) error {
	s := c.search
	if option == len(s.Options) {
		if !c.complete() {
			return nil
		}
		if len(s.all) == DesignMost {
			return fmt.Errorf("more than %d combinations keep to the rules and the price: take options out, or lower the price", DesignMost)
		}
		s.all = append(s.all, candidate{choices: slices.Clone(c.choices), price: c.price})
		return nil
	}
	for k := range s.Options[option].Choices {
		x := &s.Options[option].Choices[k]
		if p := s.Limits.Price; c.excluded(x) || p != nil && c.price+float64(x.Price) > *p {
			continue
		}
		if err := c.take(option, k, x); err != nil {
			return err
		}
	}
	return nil
}

// take takes a choice, goes on, and gives it back.
func (c *combining) take(option, k int, x *DesignChoice) error {
	barred, price := len(c.barred), c.price
	c.choices[option], c.taken[x.Name], c.price = uint8(k), true, price+float64(x.Price)
	c.barred = append(c.barred, x.Excludes...)
	err := c.from(option + 1)
	c.barred, c.price = c.barred[:barred], price
	delete(c.taken, x.Name)
	return err
}

// excluded reports whether a choice cannot be taken with one that is.
func (c *combining) excluded(x *DesignChoice) bool {
	return slices.Contains(c.barred, x.Name) || slices.ContainsFunc(x.Excludes, func(n string) bool { return c.taken[n] })
}

// complete reports whether every choice that is taken has those that it needs.
func (c *combining) complete() bool {
	for i, k := range c.choices {
		if c.search.Options[i].Choices[k].lacks(c.taken) != "" {
			return false
		}
	}
	return true
}

// lacks returns the first choice that this one needs and that is not taken; "" if there is none.
func (x *DesignChoice) lacks(taken map[string]bool) string {
	for _, n := range x.Needs {
		if !taken[n] {
			return n
		}
	}
	return ""
}
