package scenarios

import "go.yaml.in/yaml/v4"

// VariantText returns the text of a file that describes what a variant of a file is, with its changes
// made and without other variants. Comments are not in it. The error, if the file or its variant
// cannot be read, is as that of [Load] and of [Scenario.As].
func VariantText(file string, text []byte, name string) ([]byte, error) {
	sc, err := Load(file, text)
	if err != nil {
		return nil, err
	}
	i, err := sc.numbered(name)
	if err != nil {
		return nil, err
	}
	made, err := yaml.Dump(uncommented(without(sc.Variants[i].tree, variantsKey)), yaml.WithLineWidth(-1))
	if err != nil {
		panic("scenarios: a variant that was read cannot be written: " + err.Error())
	}
	_, err = Load(file+" ("+name+")", made)
	return made, err
}

// uncommented returns a copy of a node without comments. What a value is shows by how it is written: of
// some that a change has made it is not noted.
func uncommented(n *node) *node {
	c := &node{Kind: n.Kind, Value: n.Value, Style: n.Style}
	for _, x := range n.Content {
		c.Content = append(c.Content, uncommented(x))
	}
	return c
}
