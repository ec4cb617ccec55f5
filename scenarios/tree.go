package scenarios

import (
	"fmt"
	"slices"
)

// A tree is never changed once it is read. An edit copies what lies on the way to it and
// shares the rest, so that a scenario and its variants stand side by side.

// replace returns a copy of a mapping with another value of a key. A key that is not
// there is added, with a place in the file.
func replace(n *node, key string, v, place *node) *node {
	c := *n
	c.Content = slices.Clone(n.Content)
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

// put returns a copy of a mapping with a value at a path of keys, one at least. What is
// not there on the way is added: as the preset has it, or else empty.
func put(n *node, keys []string, v, place *node) (*node, error) {
	key, below := keys[0], keys[1:]
	if len(below) == 0 {
		return replace(n, key, v, place), nil
	}
	old := child(n, key)
	if old == nil {
		old = inherited(n, key)
	}
	switch {
	case old == nil:
		old = &node{Kind: mappingNode, Line: place.Line, Column: place.Column}
	case old.Kind != mappingNode:
		return nil, fmt.Errorf("%s is %s, which has no %s: set %s as a whole", key, shown(old), below[0], key)
	case child(n, key) == nil:
		old = moved(old, place)
	}
	next, err := put(old, below, v, place)
	if err != nil {
		return nil, err
	}
	return replace(n, key, next, place), nil
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

// stationsOf returns the list of stations of a tree, or nil if it has none.
func stationsOf(tree *node) *node {
	list, exact := find(tree, "line.stations")
	if !exact || list.Kind != sequenceNode {
		return nil
	}
	return list
}

// withStations returns a copy of a tree with other stations.
func withStations(tree *node, stations []*node) *node {
	track := child(tree, "line")
	list := *child(track, "stations")
	list.Content = stations
	return replace(tree, "line", replace(track, "stations", &list, &list), &list)
}

// stationNamed returns the index of a station, or an error with the nearest name.
func stationNamed(tree *node, name string) (int, error) {
	names := stationNames(tree)
	if i := slices.Index(names, name); i >= 0 {
		return i, nil
	}
	return 0, fmt.Errorf("no station is named %q: %s", name, meant(name, names))
}

// stationNames returns the names of the stations, "" for one that has none.
func stationNames(tree *node) []string {
	var names []string
	for _, s := range stationsOf(tree).Content {
		names = append(names, nameOf(s))
	}
	return names
}

func nameOf(station *node) string {
	if n := child(station, "name"); n != nil {
		return n.Value
	}
	return ""
}
