package scenarios

import (
	"errors"
	"fmt"
	"slices"
)

// row is the stations of the line that a change is about.
type row struct {
	tree     *node
	line     string // the line's name; "" of the only one
	path     spot   // to the list of stations
	stations []*node
}

// row returns a copy of the stations of the line that a change is about, and which of them
// has a name.
func (c *change) row(tree *node, name name) (row, int, error) {
	x, lines := row{tree: tree, line: string(or(c.Line, "")), path: spot{"line", "stations"}}, child(tree, "lines")
	switch {
	case lines == nil && x.line != "":
		return row{}, 0, errors.New("there is one line: leave out which it is")
	case lines != nil && x.line == "":
		return row{}, 0, errors.New("there are several lines: say which it is, with line: NAME")
	case lines != nil:
		if names := namesIn(lines); !slices.Contains(names, x.line) {
			return row{}, 0, fmt.Errorf("no line is named %q: %s", x.line, meant(x.line, names))
		}
		x.path = spot{"lines", x.line, "stations"}
	}
	list, _ := follow(tree, x.path)
	names := namesIn(list)
	i := slices.Index(names, string(name))
	if i < 0 {
		return row{}, 0, fmt.Errorf("no station is named %q: %s", name, meant(string(name), names))
	}
	x.stations = slices.Clone(list.Content)
	return x, i, nil
}

// with returns the tree with other stations in the row, and what that is in words.
func (x row) with(stations []*node, text string) (*node, string, error) {
	old, _ := follow(x.tree, x.path)
	list := *old
	list.Content = stations
	if x.line != "" {
		text = x.line + ": " + text
	}
	tree, err := put(x.tree, x.path, &list, &list)
	return tree, text, err
}
