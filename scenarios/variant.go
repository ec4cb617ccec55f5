package scenarios

import (
	"fmt"
	"reflect"
	"slices"
	"sort"

	"netrate/sim/output"
)

// Variant is what a scenario describes, with some changes.
type Variant struct {
	Name string
	Note string // may be empty
	Shop
	Changes []string // in words, such as "crew.operators: 1 → 2", each with its source if it has one

	tree    *node // of the file with the changes
	sources sources
}

// BaseName is what no variant is called: the line without changes.
const BaseName = "base"

const (
	maxVariants = 50
	maxChanges  = 200 // of one variant

	// searchedBytes is the size of the largest file in which the change behind a problem is
	// looked for: the tree is decoded several times for it.
	searchedBytes = 1 << 16
)

// variant is a variant as it is written.
type variant struct {
	Name     *name     `yaml:"name" jsonschema_description:"unique; base is the file without changes"`
	Note     *sentence `yaml:"note,omitempty" jsonschema_description:"what it is about"`
	BuildsOn *name     `yaml:"builds_on,omitempty" jsonschema_description:"the variant to which the changes are made; the file itself if not given"`
	Changes  []change  `yaml:"changes" jsonschema_description:"made one after the other to a copy of the file, or of the variant that it builds on" jsonschema:"maxItems=200"`

	node *node
}

func (v *variant) decode(r *reader, n *node, _ string) {
	v.node = n
	from := len(r.problems)
	r.inside(n, "a variant", v)
	if len(v.Changes) > maxChanges {
		r.note(child(n, "changes"), "a variant has %d changes, want at most %d", len(v.Changes), maxChanges)
	}
	v.entitle(r.problems[from:])
}

// entitle puts the variant's name, if it has one, before its problems.
func (v *variant) entitle(problems Problems) {
	if called := or(v.Name, ""); called != "" {
		for i := range problems {
			problems[i].Text = fmt.Sprintf("variant %q: %s", called, problems[i].Text)
		}
	}
}

// variants reads the variants of a base and builds them. Of a base with a problem they are
// only looked at for what they say themselves.
func (r *reader) variants(list, base *node) []Variant {
	var given []variant
	sound := len(r.problems) == 0
	r.read(list, "variants", reflect.ValueOf(&given).Elem())
	if len(given) > maxVariants {
		r.note(list, "the scenario has %d variants, want at most %d", len(given), maxVariants)
	}
	r.nameVariants(given, base)
	if r.bad[list] || lists(base) == nil || len(r.problems) >= shownProblems {
		return nil
	}
	return r.buildAll(given, base, sound)
}

// nameVariants notes names that are taken, by another variant or by the file without changes.
func (r *reader) nameVariants(given []variant, file *node) {
	lines := map[name]int{}
	base := child(file, "base")
	for _, v := range given {
		called := or(v.Name, "")
		at := child(v.node, "name")
		switch line, twice := lines[called]; {
		case called == "": // noted
		case plainWord(string(called)) == BaseName:
			r.noteAt(at.Line, at.Column, "no variant can be named %q: that is the file without changes", called)
		case base != nil && Normal(string(called)) == base.Value:
			r.noteAt(at.Line, at.Column, "no variant can be named %q: base in line %d calls the file without changes so", called, base.Line)
		case twice:
			r.noteAt(at.Line, at.Column, "two variants are named %q, the first in line %d", called, line)
		default:
			lines[called] = at.Line
		}
	}
}

// build returns a variant of a base, sound or not; with a problem noted it is good for
// nothing, and has no tree.
func (v *variant) build(r *reader, on Variant, sound bool) Variant {
	built := Variant{Name: string(or(v.Name, "")), Note: string(or(v.Note, "")), Changes: slices.Clone(on.Changes), sources: r.sources}
	trees := history{on.tree}
	for i := range v.Changes {
		c := &v.Changes[i]
		tree, text := c.make(r, trees.last())
		if tree != nil {
			trees = append(trees, tree)
			built.Changes = append(built.Changes, text)
		} else if child(c.node, "add") != nil {
			break // later changes may speak of the station
		}
	}
	look := r.again()
	look.owner = built.Name
	if !sound || r.spoilt(v.node) { // whether the line can be is not asked yet
		look.scenario(trees.last())
		v.place(r, look, nil)
		return built
	}
	built.Shop = look.decode(trees.last()).Shop
	v.place(r, look, trees)
	if len(look.problems) == 0 {
		built.tree = trees.last()
	}
	return built
}

// make returns a tree with the change made and the change in words, or nil after noting
// why it cannot be.
func (c *change) make(r *reader, tree *node) (*node, string) {
	if c.act == nil || r.spoilt(c.node) { // noted
		return nil, ""
	}
	changed, text, err := c.act.apply(c, tree)
	if err != nil {
		r.note(c.names(), "%v", err)
		return nil, ""
	}
	if c.old != nil {
		r.copied(c.large, c.old)
	}
	if r.sources.change(c, tree, changed); c.Source != nil {
		text += " (source: " + string(*c.Source) + ")"
	}
	return changed, text
}

// names returns the node that names what a change is about.
func (c *change) names() *node {
	for _, key := range []string{"after", "before", c.act.key} {
		if n := child(c.node, key); n != nil {
			return n
		}
	}
	return c.node
}

// place notes the problems of a variant's tree: what the variant itself says where it
// stands, anything else at the change that brought it about, or not at all if no trees
// are given.
func (v *variant) place(r, look *reader, trees history) {
	own := map[[2]int]bool{}
	places(v.node, own)
	for _, p := range look.problems {
		switch {
		case own[[2]int{p.Line, p.Column}]:
			r.noteAt(p.Line, p.Column, "%s", p.Text)
		case trees == nil:
		case len(r.problems) < shownProblems && r.size() <= searchedBytes:
			at := v.Changes[trees.since(r, p)].node
			r.noteAt(at.Line, at.Column, "%s (line %d)", p.Text, p.Line)
		default: // too much work, or nobody will read of it
			r.noteAt(v.node.Line, v.node.Column, "%s (line %d)", p.Text, p.Line)
		}
	}
}

// places adds the places of a node and of all within it.
func places(n *node, set map[[2]int]bool) {
	set[[2]int{n.Line, n.Column}] = true
	for _, below := range n.Content {
		places(below, set)
	}
}

// size returns the size of the file, in bytes without line breaks.
func (r *reader) size() int {
	n := 0
	for _, line := range r.lines {
		n += len(line)
	}
	return n
}

// again returns a reader of the same file that has noted nothing.
func (r *reader) again() *reader {
	return &reader{file: r.file, lines: r.lines, bad: map[*node]bool{}, priors: map[*node]output.Prior{}, unknowns: r.unknowns.again(), sources: r.sources, priced: r.priced}
}

// history is a tree and what became of it, change after change.
type history []*node

func (h history) last() *node { return h[len(h)-1] }

// since returns the number, from 0, of a change before which a problem of the last tree
// was not there and after which it was.
func (h history) since(r *reader, p Problem) int {
	return sort.Search(len(h)-2, func(i int) bool {
		look := r.again()
		look.decode(h[i+1])
		return slices.Contains(look.problems, p)
	})
}
