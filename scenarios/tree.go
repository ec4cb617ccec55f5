package scenarios

import (
	"fmt"
	"slices"
)

// A tree is never changed once it is read. An edit copies what lies on the way to it and
// shares the rest, so that a scenario and its variants stand side by side.

// replace returns a copy of a mapping with another value of a key, or of a list with
// another item by that name. A key that is not there is added, with a place in the file.
func replace(n *node, key string, v, place *node) *node {
	c := *n
	c.Content = slices.Clone(n.Content)
	if n.Kind == sequenceNode {
		if key == oneMore {
			c.Content = append(c.Content, v)
			return &c
		}
		_, i := entry(n, key)
		c.Content[i] = v
		return &c
	}
	for i := 0; i+1 < len(c.Content); i += 2 {
		if c.Content[i].Value == key {
			c.Content[i+1] = v
			return &c
		}
	}
	c.Content = append(c.Content, scalar(key, place), v)
	return &c
}

// without returns a node without one of its keys.
func without(n *node, key string) *node {
	if child(n, key) == nil {
		return n
	}
	c := *n
	c.Content = nil
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value != key {
			c.Content = append(c.Content, n.Content[i], n.Content[i+1])
		}
	}
	return &c
}

// put returns a copy of a tree with a value at a path of keys, one at least. What is not
// there on the way is added: as the preset has it, or else empty.
func put(n *node, keys []string, v, place *node) (*node, error) {
	key, below := keys[0], keys[1:]
	if len(below) == 0 {
		return replace(n, key, v, place), nil
	}
	old := step(n, key)
	given := old != nil
	if !given {
		old = inherited(n, key)
	}
	if old != nil {
		old = longForm(key, old)
	}
	switch more := below[0] == oneMore && (spot{key}).grows(); {
	case old == nil && more:
		old = &node{Kind: sequenceNode, Line: place.Line, Column: place.Column}
	case more && old.Kind == sequenceNode:
	case old == nil:
		old = &node{Kind: mappingNode, Line: place.Line, Column: place.Column}
	case old.Kind != mappingNode && step(old, below[0]) == nil:
		return nil, fmt.Errorf("%s is %s, which has no %s: set %s as a whole", key, shown(old), below[0], key)
	case !given:
		old = moved(old, place)
	}
	next, err := put(old, below, v, place)
	if err != nil {
		return nil, err
	}
	return replace(n, key, next, place), nil
}

// step returns the value of a key in a mapping, or the item of a list that goes by it; nil
// if there is none.
func step(n *node, key string) *node {
	if n != nil && n.Kind == sequenceNode {
		item, _ := entry(n, key)
		return item
	}
	return child(n, key)
}

// scalar returns a text as if it stood at a place in the file.
func scalar(text string, place *node) *node {
	return &node{Kind: scalarNode, Tag: textTag, Value: text, Line: place.Line, Column: place.Column}
}

// moved returns a copy of a tree as if all of it stood at one place in the file.
func moved(n, place *node) *node {
	c := *n
	c.Line, c.Column = place.Line, place.Column
	c.Content = make([]*node, len(n.Content))
	for i, below := range n.Content {
		c.Content[i] = moved(below, place)
	}
	return &c
}

// stationsOf returns the list of stations of a tree with one line, or nil if it has none.
func stationsOf(tree *node) *node {
	list, exact := find(tree, "line.stations")
	if !exact || list.Kind != sequenceNode {
		return nil
	}
	return list
}
