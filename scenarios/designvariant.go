package scenarios

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"go.yaml.in/yaml/v4"
)

// Chosen returns the choices of these names, by their numbers, and the first of each option of which
// none is named. The error says which rule of the design they are against.
func (d *Design) Chosen(names []string) ([]int, error) {
	choices := make([]int, len(d.Options))
	taken := map[string]bool{}
	for _, name := range names {
		option, choice := -1, -1
		for i := range d.Options {
			if k := slices.IndexFunc(d.Options[i].Choices, func(c DesignChoice) bool { return c.Name == name }); k >= 0 {
				option, choice = i, k
			}
		}
		switch {
		case option < 0:
			return nil, fmt.Errorf("no choice of the design is named %q", name)
		case choices[option] != 0 && choices[option] != choice:
			return nil, fmt.Errorf("two choices of %q are taken", d.Options[option].Name)
		}
		choices[option] = choice
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
	lines := cmp.Or(lineBreak.FindString(string(text)), "\n")
	var added strings.Builder
	added.WriteString("  - name: " + quotedYAML(name) + lines + "    changes:" + lines)
	for _, c := range changes {
		added.WriteString("      - " + c + lines)
	}
	next := withVariant(string(text), added.String(), lines)
	if _, err := Load(file+" (designed)", []byte(next)); err != nil {
		return nil, err
	}
	return []byte(next), nil
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

// withVariant adds a variant, the first of those there are, or the only one.
func withVariant(text, variant, lines string) string {
	const key = "variants:"
	for at := 0; at < len(text); {
		end := strings.Index(text[at:], lines)
		if end < 0 {
			break
		}
		end += at
		if line, _, _ := strings.Cut(text[at:end], "#"); strings.TrimRight(line, " \t") == key {
			return text[:end+len(lines)] + variant + text[end+len(lines):]
		}
		at = end + len(lines)
	}
	if !strings.HasSuffix(text, lines) {
		text += lines
	}
	return text + lines + key + lines + variant
}
