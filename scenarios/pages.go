package scenarios

import (
	"fmt"

	"netrate/sim"
)

// pages is how many sheets a document has: always the same, or one distribution.
type pages struct {
	Geometric *pagesMean `yaml:"geometric,omitempty" jsonschema_description:"most documents have one sheet, and each number comes less often than the one before by the same factor"`
	Table     *pageTable `yaml:"table,omitempty" jsonschema_description:"numbers of sheets, each with its weight"`

	drawn sim.IntegerDistribution // what it comes to, once it is decoded
}

type pagesMean struct {
	Mean *factor `yaml:"mean" jsonschema_description:"mean number of sheets, 1 or more"`
}

func (x *pages) decode(r *reader, n *node, key string) {
	if n.Kind == scalarNode {
		var always pageCount
		r.quantity(n, key, &always)
		x.drawn = sim.Always(always)
		return
	}
	if hasUncertainInput(n) {
		r.note(n, "%s %s", key, noUncertainty)
		return
	}
	r.inside(n, key, x)
	if r.spoilt(n) {
		return
	}
	if len(n.Content) != 2 {
		r.note(n, "%s has %d distributions, want one, or a plain number of sheets", key, len(n.Content)/2)
		return
	}
	drawn, err := x.distribution()
	if err != nil {
		r.note(n, "%s is not possible: %v", key, err)
		return
	}
	x.drawn = drawn
}

func (x *pages) distribution() (sim.IntegerDistribution, error) {
	if x.Geometric != nil {
		return sim.NewGeometric(float64(*x.Geometric.Mean))
	}
	return sim.NewTable(x.Table.pages, x.Table.weights)
}

// number returns the distribution, or nil if there is none.
func (x *pages) number() sim.IntegerDistribution {
	if x == nil {
		return nil
	}
	return x.drawn
}

// pageTable is numbers of sheets with their weights, such as {1: 60%, 2: 40%}.
type pageTable struct {
	pages   []int64
	weights []float64
}

func (x *pageTable) decode(r *reader, n *node, key string) {
	if n.Kind != mappingNode {
		r.note(n, "%s is %s, want numbers of sheets with their weights, such as {1: 60%%, 2: 40%%}", key, shown(n))
		return
	}
	if len(n.Content) == 0 {
		r.note(n, "%s is empty, want numbers of sheets with their weights, such as {1: 60%%, 2: 40%%}", key)
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		k, v := n.Content[i], n.Content[i+1]
		if k.Kind != scalarNode { // noted by plain
			continue
		}
		var sheets pageCount
		if err := sheets.read(k.Value); err != nil {
			r.note(k, "a number of sheets is %s, %v", shown(k), err)
		}
		var w weight
		if r.given(v, k, k.Value) && v.Kind != aliasNode {
			r.quantity(v, "the weight of "+shown(k), &w)
		}
		x.pages, x.weights = append(x.pages, int64(sheets)), append(x.weights, float64(w))
	}
}

// maxPages is how many sheets fit in no envelope.
const maxPages = 10_000

// pageCount is a number of sheets.
type pageCount int64

func (x *pageCount) read(text string) error { return whole(x, text, 1, maxPages) }
func (*pageCount) number()                  {}

// weight is how often a thing comes beside others: a percentage, a fraction, a count.
type weight float64

const wantWeight = "a weight from 0 up, such as 60%, 1/3 or 250"

func (x *weight) read(text string) error {
	w, err := ratio(text)
	switch {
	case err != nil:
		return want(wantWeight, err)
	case !(w <= maxCount):
		return want(wantWeight, fmt.Errorf("at most %d", maxCount))
	}
	*x = weight(w)
	return nil
}
