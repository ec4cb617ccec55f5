package scenarios

import (
	"slices"

	"netrate/model"
)

// maxLines is how many lines one crew can have.
const maxLines = 20

// groupLine is one of several lines that share the crew, as it is written.
type groupLine struct {
	Name *name `yaml:"name" jsonschema_description:"unique; it is used in messages and names the line's random streams"`
	line
	Policy *linePolicy `yaml:"policy,omitempty" jsonschema_description:"responses to faults on this line; if given, those of the scenario do not count for it"`
}

func (x *groupLine) decode(r *reader, n *node, _ string) { r.inside(n, "a line", x) }

// track is one line of a file.
type track struct {
	*model.Line
	name string // "" of the only one
	of   line
	tree *node            // the file as if it had no other line
	said map[string]*node // its uncertain inputs by their paths
}

// tracks returns the lines of a file, whether they can be or not.
func (f *file) tracks(r *reader, tree *node) []track {
	list := child(tree, "lines")
	if list == nil {
		own := or(f.Line, line{})
		r.entries(child(tree, "line"), "attributes", maxAttributes)
		only := f.build(string(or(f.Name, "")), own, or(f.Policy, linePolicy{}))
		return []track{{only, "", own, tree, r.uncertain(only, "", tree)}}
	}
	var all []track
	for i, x := range f.Lines[:min(len(f.Lines), maxLines)] {
		policy, view := or(f.Policy, linePolicy{}), replace(without(tree, "lines"), "line", list.Content[i], list)
		if x.Policy != nil {
			policy = *x.Policy
			view = replace(view, "policy", child(list.Content[i], "policy"), list)
		}
		r.entries(list.Content[i], "attributes", maxAttributes)
		if r.bad[tree] {
			r.bad[view] = true
		}
		name := string(or(x.Name, ""))
		built := f.build(name, x.line, policy)
		all = append(all, track{built, name, x.line, view, r.uncertain(built, name, view)})
	}
	return all
}

// group returns the lines together with their crew; nil of a file with one line. It notes
// what cannot be of lines that share a crew.
func (f *file) group(r *reader, tree *node, tracks []track) *model.LineGroup {
	list := child(tree, "lines")
	if list == nil {
		return nil
	}
	r.entries(tree, "lines", maxLines)
	if len(tracks) == 0 {
		if !r.bad[list] {
			r.note(list, "lines is an empty list, want the lines that share the crew")
		}
		return nil
	}
	if at, exact := find(tree, "work.sets"); exact {
		r.note(at, "work has sets: lines that share a crew work for a shift")
	}
	h := &model.LineGroup{Crew: tracks[0].Crew}
	for _, t := range tracks {
		h.Lines = append(h.Lines, t.Line)
	}
	return h
}

// lists returns the paths to the lists of stations in a tree; nil if one is not there.
func lists(tree *node) []spot {
	paths := []spot{{"line", "stations"}}
	if lines := child(tree, "lines"); lines != nil && lines.Kind == sequenceNode {
		paths = nil
		for _, name := range namesIn(lines) {
			paths = append(paths, spot{"lines", name, "stations"})
		}
	}
	if slices.ContainsFunc(paths, func(s spot) bool {
		list, exact := follow(tree, s)
		return !exact || list.Kind != sequenceNode
	}) {
		return nil
	}
	return paths
}
