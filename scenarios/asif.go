package scenarios

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"
)

// Made is a setting that was made, and what the value was before in words.
type Made struct {
	Setting
	Was string // "not given" if the file does not say
}

// ParseSetting reads a path and its value, such as crew.operators=3.
func ParseSetting(text string) (Setting, error) {
	i := strings.LastIndex(text, "=") // a name may hold one, a value never does
	if i > 0 {
		if path, value := strings.TrimSpace(text[:i]), strings.TrimSpace(text[i+1:]); path != "" && value != "" {
			return Setting{Path: Normal(path), Value: Normal(value)}, nil
		}
	}
	return Setting{}, fmt.Errorf("%s is not a setting, want PATH=VALUE, such as crew.operators=3", brief(scalar(text, &node{})))
}

// String returns the setting as it is given.
func (s Setting) String() string { return s.Path + "=" + s.Value }

// As returns the scenario as if its file were the variant of the name: what the variant says is
// its base, and there are no others. As the base, by the name that it has, it is the line of the file as it stands.
func (s *Scenario) As(name string) (*Scenario, error) {
	if name == s.Base {
		return s.Only(nil)
	}
	i, err := s.numbered(name)
	if err != nil {
		return nil, err
	}
	as := newReader(s.File, nil).decode(s.Variants[i].tree)
	as.Shop = s.Variants[i].Shop
	as.File, as.Digest, as.tree, as.Variant, as.sources = s.File, s.Digest, s.Variants[i].tree, name, s.sources
	as.Design = s.Design.of(as)
	return as, nil
}

// Designed returns the scenario as if its file were the line with these choices of its design, by their
// names, and the first of every other option; there is no design. Its variants are made of that: those that
// cannot be are left out, and Unmade says why.
func (s *Scenario) Designed(names []string) (*Scenario, error) {
	if s.Design == nil {
		return nil, errors.New("the file has no design to choose from")
	}
	choices, err := s.Design.Chosen(names)
	if err != nil {
		return nil, err
	}
	v, err := s.Design.Designed(choices)
	if err != nil {
		return nil, err
	}
	r := newReader(s.File, nil)
	maps.Copy(r.sources, v.sources)
	as := r.decode(v.tree)
	as.Shop = v.Shop
	as.File, as.Digest, as.tree, as.Variant, as.sources = s.File, s.Digest, v.tree, s.Variant, v.sources
	as.Made, as.Chosen = s.Made, names
	if s.list != nil {
		as.list = s.list
		as.possible(r, r.variants(s.list, v.tree))
	}
	return as, nil
}

// possible takes those variants that can be, and why the others cannot.
func (s *Scenario) possible(r *reader, variants []Variant) {
	s.Unmade = map[string]string{}
	for _, v := range variants {
		if v.tree != nil {
			s.Variants = append(s.Variants, v)
			continue
		}
		s.Unmade[v.Name] = "the variant that it builds on cannot be"
		for _, p := range r.problems {
			if why, is := strings.CutPrefix(p.Text, fmt.Sprintf("variant %q: ", v.Name)); is {
				s.Unmade[v.Name] = fmt.Sprintf("%s (line %d)", why, p.Line)
				break
			}
		}
	}
}

// Only returns the scenario with no other variants than those of the names, in its own order. The base, by the
// name that it has, is there anyway.
func (s *Scenario) Only(names []string) (*Scenario, error) {
	chosen := map[int]bool{}
	for _, name := range names {
		if name == s.Base {
			continue
		}
		i, err := s.numbered(name)
		if err != nil {
			return nil, err
		}
		chosen[i] = true
	}
	only := *s
	only.Variants, only.list = nil, nil
	for i, v := range s.Variants {
		if chosen[i] {
			only.Variants = append(only.Variants, v)
		}
	}
	return &only, nil
}

// numbered returns the number of a variant by its name.
func (s *Scenario) numbered(name string) (int, error) {
	var names []string
	for i, v := range s.Variants {
		if v.Name == name {
			return i, nil
		}
		names = append(names, v.Name)
	}
	if names == nil {
		return 0, fmt.Errorf("no variant is named %q: there are no variants", name)
	}
	return 0, fmt.Errorf("no variant is named %q: %s", name, meant(name, names))
}

// Set returns the scenario as if its file said other values, set one after the other, as strictly
// checked as a file. Its variants are made of that: one that sets the same path itself keeps its
// own value. The scenario stays as it is. An error is of type [Problems]; each names the
// path that brought it about, or the variant that cannot be made any more.
func (s *Scenario) Set(settings []Setting) (*Scenario, error) {
	made := slices.Clone(s.Made)
	r := newReader(s.File, nil)
	maps.Copy(r.sources, s.sources)
	trees := r.settle(s.tree, settings, func(i int, was string) { made = append(made, Made{settings[i], was}) })
	if len(r.problems) > 0 {
		return nil, r.problems
	}
	look := r.again()
	set := look.decode(trees.last())
	if r.blame(look, settings, trees); len(r.problems) > 0 {
		return nil, slices.Compact(r.problems)
	}
	if s.list != nil {
		set.Variants = look.variants(s.list, trees.last())
		for _, p := range look.problems {
			r.noteAt(0, 0, "with %s, %s (line %d)", inWords(settings), p.Text, p.Line)
		}
		if len(r.problems) > 0 {
			return nil, slices.Compact(r.problems)
		}
	}
	set.File, set.Digest, set.Variant, set.tree, set.list = s.File, s.Digest, s.Variant, trees.last(), s.list
	set.Made, set.sources = made, look.sources
	set.Design = s.Design.of(set)
	return set, nil
}

// inWords returns settings in a sentence.
func inWords(settings []Setting) string {
	var all []string
	for _, s := range settings {
		all = append(all, s.String())
	}
	return strings.Join(all, ", ")
}

// Keeps returns the names of the variants that set one of the paths of the settings themselves,
// and so keep their own values.
func (s *Scenario) Keeps(path string) (names []string) {
	own, err := locate(s.tree, path)
	if err != nil {
		return nil
	}
	if own.last() == oneMore {
		return s.loses(own[:len(own)-1])
	}
	was, _ := own.found(s.tree)
	for _, v := range s.Variants {
		if n, _ := own.found(v.tree); was != nil && n != nil && !same(was, n) {
			names = append(names, v.Name)
		}
	}
	return names
}

// loses returns the names of the variants whose list at a spot is one of their own, without the last item of the file's.
func (s *Scenario) loses(at spot) (names []string) {
	list, _ := at.found(s.tree)
	for _, v := range s.Variants {
		own, _ := at.found(v.tree)
		if list == nil || own == nil || len(list.Content) == 0 {
			continue
		}
		last := list.Content[len(list.Content)-1]
		if !slices.ContainsFunc(own.Content, func(n *node) bool { return same(n, last) }) {
			names = append(names, v.Name)
		}
	}
	return names
}
