package scenarios

import (
	"slices"
	"strings"
)

// sources say where those numbers come from that a change or a setting has put in the place of
// others: by the nodes of their values that have none below them, which no later change copies.
// All other numbers are those of their station or section, which may have a source.
type sources map[*node]string

// note notes where all at and below a node comes from; "" if that is not stated.
func (s sources) note(n *node, source string) {
	if len(n.Content) == 0 {
		s[n] = source
	}
	for _, below := range n.Content {
		s.note(below, source)
	}
}

// set notes where a value comes from that was put at a spot of a tree, and that what a preset gave
// beside it is of the preset.
func (s sources) set(before, after *node, at spot, source string) {
	for i, key := range at {
		next := step(before, key)
		if preset := child(before, "preset"); next == nil && inherited(before, key) != nil {
			if n, exact := follow(after, at[:i+1]); exact {
				s.note(n, presetSource(preset.Value))
			}
			break
		}
		before = next
	}
	if n, exact := follow(after, at); exact {
		s.note(n, source)
	}
}

// change notes where comes from what a change has made of a tree.
func (s sources) change(c *change, before, after *node) {
	source := string(or(c.Source, ""))
	switch {
	case c.Set != nil:
		if at, err := locate(before, string(*c.Set)); err == nil && ownSource(child(c.node, "to")) == "" {
			s.set(before, after, at, source)
		}
	case c.Add != nil && source != "":
		s.note(child(c.node, "add"), source)
	}
}

// setting notes where comes from what a setting has made of a tree.
func (s sources) setting(set Setting, before, after *node) {
	if at, err := locate(before, set.Path); err == nil {
		s.set(before, after, at, "set for this answer")
	}
}

// presetSource is where the numbers of a preset come from.
func presetSource(name string) string { return "preset " + name + ", illustrative" }

// ownSource returns where a station or a section says that its numbers come from; "" if it does not.
func ownSource(of *node) string {
	if n := child(of, sourceKey); n != nil {
		return n.Value
	}
	return ""
}

// sourceKey is the key that says so.
const sourceKey = "source"

// of returns where a value comes from that stands in a station or section with a source. If its
// parts come from several places, it says so of each.
func (s sources) of(n *node, own string) string {
	parts := s.parts(n, "")
	if len(parts) == 1 && parts[0].noted {
		return parts[0].source
	}
	var all []string
	rest := false
	for _, p := range parts {
		if rest = rest || !p.noted; p.noted {
			all = append(all, p.path+": "+orNotStated(p.source))
		}
	}
	switch {
	case all == nil:
		return own
	case rest:
		all = append(all, "the rest: "+orNotStated(own))
	}
	return strings.Join(all, "; ")
}

// NotStated is what is said of a number without a source.
const NotStated = "not stated"

func orNotStated(source string) string {
	if source == "" {
		return NotStated
	}
	return source
}

// part is a part of a value that comes from one place.
type part struct {
	path   string
	noted  bool
	source string
}

// parts returns the parts of a value, as large as they can be.
func (s sources) parts(n *node, path string) []part {
	if len(n.Content) == 0 {
		source, noted := s[n]
		return []part{{path, noted, source}}
	}
	if at := child(n, sameAs); at != nil && s[at] == "" {
		return []part{{path, true, "as " + pathInWords(at.Value)}}
	}
	var all []part
	below := func(key string, n *node) {
		all = append(all, s.parts(n, strings.TrimPrefix(path+"."+key, "."))...)
	}
	if n.Kind == sequenceNode {
		for i, name := range namesIn(n) {
			below(name, n.Content[i])
		}
	}
	eachOf(n, below)
	alike := func(p part) bool { return p.noted == all[0].noted && p.source == all[0].source }
	if !slices.ContainsFunc(all, func(p part) bool { return !alike(p) }) {
		return []part{{path, all[0].noted, all[0].source}}
	}
	return all
}
