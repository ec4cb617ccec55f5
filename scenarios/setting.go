package scenarios

import (
	"fmt"
	"slices"
	"strings"

	"netrate/model"
)

// Setting is a new value of one path, as the file would say them:
// "stations.letter.misfeed" and "1/4000".
type Setting struct{ Path, Value string }

// With returns the line of the scenario with one value changed, as strictly checked as
// a file. The scenario, which must come from [Load] or [Read], stays as it is, and several
// goroutines may call With at once. An error is of type [Problems] and names the path.
func (s *Scenario) With(path, value string) (*model.Line, error) {
	return s.WithAll([]Setting{{path, value}})
}

// WithAll returns the line of the scenario with several values changed, as [Scenario.ShopWith]
// does.
func (s *Scenario) WithAll(settings []Setting) (*model.Line, error) {
	shop, err := s.ShopWith(settings)
	if err != nil {
		return nil, err
	}
	return shop.Line, nil
}

// ShopWith returns what the scenario describes with several values changed, one after the
// other. An error is of type [Problems]; each names the path that brought it about.
func (s *Scenario) ShopWith(settings []Setting) (*Shop, error) {
	r := newReader(s.File, nil)
	trees := r.settle(s.tree, settings, nil)
	if len(r.problems) > 0 {
		return nil, r.problems
	}
	look := r.again()
	shop := look.decode(trees.last()).Shop
	if r.blame(look, settings, trees); len(r.problems) > 0 {
		return nil, slices.Compact(r.problems)
	}
	return &shop, nil
}

// settle returns a tree and what becomes of it, setting after setting, and tells made, if it is
// not nil, what was where a value is set. It notes what cannot be set.
func (r *reader) settle(tree *node, settings []Setting, made func(i int, was string)) history {
	trees := history{tree}
	for i, set := range settings {
		next, was, err := set.apply(trees.last(), i)
		if err != nil {
			r.noteAt(0, 0, "%s: %v", set.Path, err)
			continue
		}
		if made != nil {
			r.sources.setting(set, trees.last(), next)
			made(i, was)
		}
		trees = append(trees, next)
	}
	return trees
}

// blame notes the problems of the last tree, each with the path of the setting that brought it
// about.
func (r *reader) blame(look *reader, settings []Setting, trees history) {
	for _, p := range look.problems {
		i := p.Column - 1 // of the setting whose value it is
		if p.Line > 0 {
			i = trees.since(r, p)
			p.Text += fmt.Sprintf(" (line %d)", p.Line)
		}
		r.noteAt(0, 0, "%s: %s", settings[i].Path, p.Text)
	}
}

// apply returns a tree with the setting made, and what was there in words. Its nodes have no place
// in the file: their column tells the setting's index instead, from 1.
func (s Setting) apply(tree *node, index int) (set *node, was string, err error) {
	place := &node{Column: index + 1}
	spot, err := locate(tree, s.Path)
	if err != nil {
		return nil, "", err
	}
	value := scalar(s.Value, place)
	if strings.HasPrefix(s.Value, "{") || strings.HasPrefix(s.Value, "[") {
		if value, err = parseValue(s.Value, place); err != nil {
			return nil, "", err
		}
	}
	set, err = put(tree, spot, value, place)
	return set, spot.before(tree), err
}

// parseValue reads a mapping or a list.
func parseValue(text string, place *node) (*node, error) {
	if len(text) > maxBytes {
		return nil, fmt.Errorf("the value is too large")
	}
	r := newReader("", []byte(text))
	n := r.parse([]byte(text))
	if len(r.problems) > 0 {
		return nil, fmt.Errorf("%s is not a value: %s", brief(scalar(text, place)), r.problems[0].Text)
	}
	return moved(n, place), nil
}
