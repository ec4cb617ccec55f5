package scenarios

import (
	"fmt"
	"strings"

	"netrate/model"
	"netrate/sim/output"
)

// A number with its uncertainty is an unknown of its own: that of the file or, where a variant
// sets it, of the variant; where a choice of a design sets it, of the choice, in whatever it is
// combined with. What a variant leaves as it is in the base is one unknown with that of
// the base, for their trees share the node; and so is what it makes some times as large.
//
// {same as: PATH} in the place of a number or a time is what stands at the path of the same file,
// and the same unknown. With the numbers written out beside it, it is the unknown of that path in
// whatever it is compared with: a variant's base, or another file.

// sameAs is the key that says so.
const sameAs = "same as"

// sameKey is the key of a number or a time that is the same as another.
type sameKey struct {
	SameAs *setPath `yaml:"same as,omitempty" jsonschema_description:"the path of the number that this one equals, with its uncertainty"`
}

// unknowns say which numbers are one unknown. A file and its variants have the maps together.
type unknowns struct {
	tree   *node            // that is read
	owner  string           // the variant that it is of; "" of the base
	owners map[*node]string // of what choices of a design set: of which choice it is
	stands map[*node]*node  // for {same as: PATH} alone, a copy of what is at the path
	of     map[*node]*node  // what a copy is of, or a number that was made some times as large
	first  map[*node]model.Unknown
	prior  map[model.Unknown]output.Prior
	copies *int // nodes that are copied, in all
}

// maxCopied is how many nodes may be copied: a large value may be meant at many places.
const maxCopied = 500_000

func newUnknowns() unknowns {
	return unknowns{stands: map[*node]*node{}, of: map[*node]*node{}, first: map[*node]model.Unknown{}, prior: map[model.Unknown]output.Prior{}, copies: new(int)}
}

// again returns the unknowns for another tree of the same file.
func (u *unknowns) again() unknowns {
	next := *u
	next.tree, next.stands = nil, map[*node]*node{}
	return next
}

// copied notes that a tree is a copy of another, with other places or values.
func (u *unknowns) copied(n, of *node) {
	u.of[n] = of
	for i, below := range n.Content {
		u.copied(below, of.Content[i])
	}
}

// original returns what a node is a copy of, in the end.
func (u *unknowns) original(n *node) *node {
	for u.of[n] != nil {
		n = u.of[n]
	}
	return n
}

// isReference reports whether a value is only said to be the same as another.
func isReference(n *node) bool { return child(n, sameAs) != nil && len(n.Content) == 2 }

// standing returns what stands for a reference: a copy of what is at its path, as if it stood at the
// reference; nil after noting that there is none.
func (r *reader) standing(n *node, key string) *node {
	target, err := referred(r.tree, n)
	if err != nil {
		r.note(n, "%s: %v", key, err)
		return nil
	}
	if *r.copies <= maxCopied {
		*r.copies += nodes(target)
	}
	if *r.copies > maxCopied {
		r.note(n, "%s: too much is the same as what stands elsewhere", key)
		return nil
	}
	c := moved(target, n)
	r.copied(c, target)
	r.stands[n] = c
	return c
}

// nodes returns how many nodes a tree has.
func nodes(n *node) int {
	sum := 1
	for _, below := range n.Content {
		sum += nodes(below)
	}
	return sum
}

// referred follows a reference, and that to which it leads, to a value.
func referred(tree, n *node) (*node, error) {
	seen, way := map[*node]bool{}, ""
	for isReference(n) {
		path := child(n, sameAs).Value
		if way += path; seen[n] {
			return nil, fmt.Errorf("%q leads in a circle: %s", sameAs, way)
		}
		way += ", "
		seen[n] = true
		at, err := locate(tree, path)
		if err != nil {
			return nil, fmt.Errorf("%q: %w", sameAs, err)
		}
		if n, _ = at.found(tree); n == nil {
			return nil, fmt.Errorf("%q: there is no %s in the file", sameAs, path)
		}
	}
	return n, nil
}

// inPlace returns a value as it is written in a tree: of a reference what stands for it, and whose that
// is.
func inPlace(tree, n *node, write func(*node) string) string {
	if !isReference(n) {
		return write(withoutPaths(tree, n))
	}
	at, err := referred(tree, n)
	if err != nil {
		return write(n)
	}
	return write(at) + ", as " + pathInWords(child(n, sameAs).Value)
}

// pathInWords returns which number stands at a path: "the clear of letter".
func pathInWords(path string) string {
	rest, is := strings.CutPrefix(path, "stations.")
	station, key, found := strings.Cut(rest, ".")
	if !is || !found {
		return path
	}
	return "the " + strings.ReplaceAll(strings.TrimSuffix(key, ".constant"), ".", " ") + " of " + station
}

// withoutPaths returns a copy of a value in which what is the same as another number, at any depth, is a text that
// says so, without its path.
func withoutPaths(tree, n *node) *node {
	text := func(words string) *node { return &node{Kind: scalarNode, Value: words} }
	low, likely, high := child(n, "low"), child(n, "likely"), child(n, "high")
	switch {
	case isReference(n):
		return text(inPlace(tree, n, written))
	case child(n, sameAs) != nil && low != nil && likely != nil && high != nil:
		return text(low.Value + " to " + high.Value + ", most likely " + likely.Value + ", as in the base")
	}
	c := *n
	c.Content = nil
	for _, x := range n.Content {
		c.Content = append(c.Content, withoutPaths(tree, x))
	}
	return &c
}

// identify says which unknown a number is that is at a node. It is of a line with a name, if
// there are several.
func (r *reader) identify(d *model.UncertainInput, line string, n *node) {
	whole := *d
	if !model.OfCrew(d.Station, d.Name) {
		whole.Line = line
	}
	if at := child(n, sameAs); at != nil {
		d.SameAs, d.Common = numberPath(at.Value), true
		r.agree(d.Unknown(), d.Of, n, at)
		return
	}
	origin := r.original(n)
	whole.Owner = r.whose(origin)
	u, known := r.first[origin]
	if !known {
		u = whole.Unknown()
		r.first[origin] = u
	}
	if d.Owner = u.Owner; u.Path != whole.Path() {
		d.SameAs = u.Path
	}
	if origin == n {
		r.agree(u, d.Of, n, nil)
	}
}

// whose returns of which variant or choice of a design a number is; "" of the base.
func (u *unknowns) whose(origin *node) string {
	if choice, is := u.owners[origin]; is {
		return choice
	}
	return u.owner
}

// agree notes a number that is said to be the same as another, at a path of its own, and is
// written otherwise.
func (r *reader) agree(u model.Unknown, of output.Prior, n, at *node) {
	other, known := r.prior[u]
	switch {
	case !known:
		r.prior[u] = of
	case other != of && at != nil:
		r.note(at, "it is said to be the same as %s, which is written differently: want the same numbers, or leave out %q", at.Value, sameAs)
	case other != of:
		r.note(n, "another number is said to be the same as this one, and is written differently: want the same numbers, or leave out %q there", sameAs)
	}
}

// numberPath returns the path of a number as [model.UncertainInput] has it, from that in the words
// of a file: crew.walk.mean of crew.walk.constant.
func numberPath(path string) string {
	name, part := numberAt(strings.Split(path, "."))
	if part != model.NoPart {
		name += "." + part.String()
	}
	return name
}
