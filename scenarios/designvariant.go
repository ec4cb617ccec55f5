package scenarios

import (
	"errors"
	"fmt"
	"regexp"
	"strings"

	"go.yaml.in/yaml/v4"
)

// Chosen returns the choices of these names, by their numbers, and the first of each option of which
// none is named. The error says which rule of the design they are against.
func (d *Design) Chosen(names []string) ([]int, error) {
	choices, given := make([]int, len(d.Options)), make([]bool, len(d.Options))
	taken := map[string]bool{}
	for _, name := range names {
		option, choice := d.named(name)
		switch {
		case option < 0:
			return nil, fmt.Errorf("no choice of the design is named %q", name)
		case given[option] && choices[option] != choice:
			return nil, fmt.Errorf("two choices of %q are taken", d.Options[option].Name)
		}
		choices[option], given[option] = choice, true
	}
	for i, k := range choices {
		taken[d.Options[i].Choices[k].Name] = true
	}
	return choices, d.against(choices, taken)
}

// against returns which rule of the design choices are against.
func (d *Design) against(choices []int, taken map[string]bool) error {
	var errs []error
	for i, k := range choices {
		c := &d.Options[i].Choices[k]
		for _, n := range c.Needs {
			if !taken[n] {
				errs = append(errs, fmt.Errorf("%s needs %s", c.Name, n))
			}
		}
		for _, n := range c.Excludes {
			if taken[n] {
				errs = append(errs, fmt.Errorf("%s excludes %s", c.Name, n))
			}
		}
	}
	return errors.Join(errs...)
}

// WithDesigned returns the text of a scenario file with one more variant, which has choices of its
// design: all that they change and, if the file has costs, what they cost. All else is as it was, byte
// for byte. The error says why the line cannot be; it is of type [Problems].
func WithDesigned(file string, text []byte, name string, choices []int) ([]byte, error) {
	sc, err := Load(file, text)
	if err != nil {
		return nil, err
	}
	v, err := sc.Design.Designed(choices)
	if err != nil {
		return nil, err
	}
	changes := sc.Design.texts(choices)
	if v.Costs != nil && sc.Design.Price(choices) > 0 {
		p := v.Costs.Price
		changes = append(changes, fmt.Sprintf("{set: costs.price, to: {low: %v, likely: %v, high: %v}}", p.Low, p.Likely, p.High))
	}
	if len(changes) == 0 {
		return nil, errors.New("that is the line as it is")
	}
	plain := withoutMark(text)
	next, err := newScript(string(plain)).withVariant(name, changes)
	if err != nil {
		r := newReader(file, nil)
		r.noteAt(0, 0, "variant %q: %v", name, err)
		return nil, r.problems
	}
	with := []byte(string(text[:len(text)-len(plain)]) + next)
	if _, err := Load(file+" (designed)", with); err != nil {
		return nil, err
	}
	return with, nil
}

// texts returns the changes of choices, each on one line.
func (d *Design) texts(choices []int) (all []string) {
	for i, k := range choices {
		for _, c := range d.Options[i].Choices[k].changes {
			all = append(all, inFlow(c.node))
		}
	}
	return all
}

// inFlow returns a node as YAML on one line, without its comments.
func inFlow(n *node) string {
	text, err := yaml.Dump(flowing(n), yaml.WithLineWidth(-1))
	if err != nil {
		panic("scenarios: a change that was read cannot be written: " + err.Error())
	}
	return strings.TrimSpace(string(text))
}

// flowing returns a copy of a node in flow style.
func flowing(n *node) *node {
	c := &node{Kind: n.Kind, Tag: n.Tag, Value: n.Value, Style: n.Style &^ block}
	if n.Kind == aliasNode {
		return flowing(n.Alias)
	}
	if n.Kind != scalarNode {
		c.Style = yaml.FlowStyle
	}
	for _, x := range n.Content {
		c.Content = append(c.Content, flowing(x))
	}
	return c
}

// quotedYAML returns a text as YAML has it in quotes.
func quotedYAML(text string) string { return "'" + strings.ReplaceAll(text, "'", "''") + "'" }

// withVariant returns the text with one more variant, the first of those there are or the only one.
func (s *script) withVariant(name string, changes []string) (string, error) {
	list, text := child(s.tree, variantsKey), s.text
	switch lines := s.lineBreak(); {
	case list == nil:
		if !lineBreakAtEnd.MatchString(text) {
			text += lines
		}
		text += lines + variantsKey + ":" + lines + s.variant("  ", name, changes)
	case list.Kind != sequenceNode:
		return "", errOddlyWritten
	case s.inBlock(list):
		at := s.from[list.Line-1]
		text = text[:at] + s.variant(strings.Repeat(" ", list.Column-1), name, changes) + text[at:]
	default:
		at, one := s.start(list)+len("["), fmt.Sprintf("{name: %s, changes: [%s]}", quotedYAML(name), strings.Join(changes, ", "))
		if len(list.Content) > 0 {
			one += ", "
		}
		text = text[:at] + one + text[at:]
	}
	next := newScript(text)
	if next == nil || !same(next.withoutFirstVariant(list == nil), s.tree) {
		return "", errOddlyWritten
	}
	return text, nil
}

var lineBreakAtEnd = regexp.MustCompile(`(?:` + lineBreak.String() + `)$`)

// variant returns a variant in lines of its own, so far from their beginning.
func (s *script) variant(indent, name string, changes []string) string {
	lines := s.lineBreak()
	var text strings.Builder
	text.WriteString(indent + "- name: " + quotedYAML(name) + lines + indent + "  changes:" + lines)
	for _, c := range changes {
		text.WriteString(indent + "    - " + c + lines)
	}
	return text.String()
}

// withoutFirstVariant returns the tree with a variant less, or without any list of them.
func (s *script) withoutFirstVariant(only bool) *node {
	if only {
		return without(s.tree, variantsKey)
	}
	if list := child(s.tree, variantsKey); list != nil && len(list.Content) > 0 {
		list.Content = list.Content[1:]
	}
	return s.tree
}
