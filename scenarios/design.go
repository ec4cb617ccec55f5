package scenarios

import (
	"maps"
	"slices"

	"netrate/model/money"
)

// Design is what may be bought for a line, and what for: options, of each of which one choice is
// taken, a goal and limits.
type Design struct {
	Goal    DesignGoal
	Target  float64 // of the fewest operators: good envelopes an hour
	Share   float64 // of the shifts that reach it
	Limits  DesignLimits
	Options []DesignOption

	scenario *Scenario        // without variants, to which the changes are made
	owners   map[*node]string // of what choices set, by the name of the choice
}

// DesignGoal is what makes a design the best.
type DesignGoal string

// The goals.
const (
	DesignNetRate   DesignGoal = "net rate"          // the most good envelopes an hour
	DesignCost      DesignGoal = "cost per thousand" // the least, with the price in it
	DesignValue     DesignGoal = "net present value" // the highest, against the line as it is
	DesignOperators DesignGoal = "operators"         // the fewest with which shifts reach a target
)

// designGoals are the goals in the order in which they are listed.
var designGoals = []string{string(DesignNetRate), string(DesignCost), string(DesignValue), string(DesignOperators)}

// DesignLimits are what a design must keep to; nil where there is no limit.
type DesignLimits struct {
	Price     *float64 // of all that is chosen together
	Defective *float64 // share of the envelopes delivered
	Pitches   *int     // from the first station to the last
	Operators *int
}

// DesignOption is something of which one choice is taken.
type DesignOption struct {
	Name     string
	Optional bool           // it is taken or not: the second choice is to take it
	Choices  []DesignChoice // two at least
}

// DesignChoice is one way to have an option.
type DesignChoice struct {
	Name     string
	Note     string // may be empty
	Price    float64
	Needs    []string // choices that must be taken with it, by their names
	Excludes []string // choices that cannot be

	changes []change
}

// Designed returns the line with one choice of each option, by their numbers, and the changes in
// words. What they cost together is added to the price of the line, if its file has costs. The error
// says why the line cannot be; it is of type [Problems]. Designed may be called from many goroutines.
func (d *Design) Designed(choices []int) (*Variant, error) {
	r := newReader(d.scenario.File, nil)
	maps.Copy(r.sources, d.scenario.sources)
	r.owners = d.owners
	tree, changed := d.changed(r, choices)
	if tree == nil {
		return nil, r.problems
	}
	v := &Variant{Changes: changed, tree: tree, sources: r.sources}
	v.Shop = r.decode(tree).Shop
	if len(r.problems) > 0 {
		return nil, r.problems
	}
	if v.Costs != nil {
		v.Costs.Price = dearer(v.Costs.Price, d.Price(choices))
	}
	return v, nil
}

// Price returns what the choices cost together.
func (d *Design) Price(choices []int) float64 {
	price := 0.0
	for i, k := range choices {
		price += d.Options[i].Choices[k].Price
	}
	return price
}

// of returns the search of a scenario that was made of the search's own; nil of none.
func (d *Design) of(s *Scenario) *Design {
	if d == nil {
		return nil
	}
	of := *d
	of.scenario = &Scenario{File: s.File, tree: s.tree, sources: s.sources}
	return &of
}

// changed returns the tree with the changes of the choices, one option after the other, and these in
// words; no tree if one cannot be made, which is noted.
func (d *Design) changed(r *reader, choices []int) (*node, []string) {
	tree, changed := d.scenario.tree, []string(nil)
	for i, k := range choices {
		for _, c := range slices.Clone(d.Options[i].Choices[k].changes) { // making one notes in it what was there
			after, text := c.make(r, tree)
			if after == nil {
				return nil, nil
			}
			tree, changed = after, append(changed, text)
		}
	}
	return tree, changed
}

// dearer returns a price that is higher by some sum.
func dearer(v money.Value, by float64) money.Value {
	return money.Value{Low: v.Low + by, Likely: v.Likely + by, High: v.High + by}
}
