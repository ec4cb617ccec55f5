package scenarios

import (
	"errors"
	"fmt"
	"slices"
	"strings"
)

// LineOrder is the jobs of a plan that a line does, one after the other.
type LineOrder struct {
	Line string // its name; "" of the only one
	Jobs []string
}

// EditedOrder returns the text of a scenario file with another order of its plan: of each line once. Where
// one is written, the jobs of its lines take the place of those before; else a row for each line is added
// last. All else of the text is as it was, byte for byte. The result passes [Load]; an error is of type
// [Problems], as that of [Edited].
func EditedOrder(file string, text []byte, order []LineOrder) ([]byte, error) {
	return rewrite(file, text, func(s *script) (*script, error) {
		plan := child(s.tree, "plan")
		if plan == nil || plan.Kind != mappingNode {
			return nil, errors.New("the file has no plan")
		}
		written := child(plan, "order")
		switch {
		case written == nil:
			return s.withOrder(plan, order)
		case !listsLines(written, order):
			bare, err := s.without(spot{"plan", "order"})
			if err != nil {
				return nil, err
			}
			return bare.withOrder(child(bare.tree, "plan"), order)
		}
		for i, item := range written.Content {
			k := slices.IndexFunc(order, func(o LineOrder) bool { return o.Line == lineIn(item) })
			jobs := quotedNames(order[k].Jobs)
			if writtenJobs(item) == jobs {
				continue
			}
			next, err := s.with(Edit{Path: fmt.Sprintf("plan.order.%d.jobs", i+1), Value: jobs})
			if err != nil {
				return nil, err
			}
			s = next
		}
		return s, nil
	})
}

// listsLines reports whether a list has an item for each line, and no other.
func listsLines(list *node, order []LineOrder) bool {
	if list.Kind != sequenceNode || len(list.Content) != len(order) {
		return false
	}
	for _, o := range order {
		if !slices.ContainsFunc(list.Content, func(item *node) bool { return lineIn(item) == o.Line && child(item, "jobs") != nil }) {
			return false
		}
	}
	return true
}

// lineIn returns which line an item of an order is of.
func lineIn(item *node) string {
	if n := child(item, "line"); n != nil {
		return n.Value
	}
	return ""
}

func writtenJobs(item *node) string {
	var names []string
	for _, n := range items(child(item, "jobs")) {
		names = append(names, n.Value)
	}
	return quotedNames(names)
}

func quotedNames(names []string) string {
	var all []string
	for _, name := range names {
		all = append(all, quotedName(name))
	}
	return "[" + strings.Join(all, ", ") + "]"
}

// withOrder returns the script with an order where there is none: a row for each line in a plan that is a
// block, else between brackets.
func (s *script) withOrder(plan *node, order []LineOrder) (*script, error) {
	var rows []string
	for _, o := range order {
		row := "{jobs: " + quotedNames(o.Jobs) + "}"
		if o.Line != "" {
			row = "{line: " + quotedName(o.Line) + ", jobs: " + quotedNames(o.Jobs) + "}"
		}
		rows = append(rows, row)
	}
	e := Edit{Path: "plan.order", Value: "[" + strings.Join(rows, ", ") + "]"}
	if !s.inBlock(plan) {
		return s.with(e)
	}
	value, err := e.value()
	if err != nil {
		return nil, err
	}
	wanted, err := put(s.tree, spot{"plan", "order"}, value, value)
	if err != nil {
		return nil, err
	}
	indent := s.lineBreak() + strings.Repeat(" ", plan.Column+1) + "- "
	next := newScript(s.added(plan, "order:"+indent+strings.Join(rows, indent), ""))
	if next == nil || !same(next.tree, wanted) {
		return nil, errOddlyWritten
	}
	return next, nil
}
