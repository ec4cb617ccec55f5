package scenarios

import (
	_ "embed"
	"fmt"
	"reflect"
	"slices"
	"strings"

	"netrate/model"
)

//go:embed presets.yaml
var presetData []byte

// Preset is a usual kind of feeder to begin with. Its numbers are illustrative, from
// memory; they describe no maker's machine.
type Preset struct {
	Name   string
	About  string
	Values []PresetValue // in the order of the file format
}

// PresetValue is one value of a preset, as it would be written in a file.
type PresetValue struct{ Key, Text string }

// Presets returns all presets.
func Presets() []Preset {
	var list []Preset
	for _, p := range presets {
		list = append(list, p.shown)
	}
	return list
}

// preset is a preset with its values read.
type preset struct {
	About *sentence `yaml:"about"`
	feederRates

	shown Preset
	tree  *node
}

// presetTable is the file of presets.
type presetTable struct {
	Rotary   *preset `yaml:"rotary"`
	Friction *preset `yaml:"friction"`
	Shuttle  *preset `yaml:"shuttle"`
}

var presets = loadPresets()

func loadPresets() []*preset {
	r := newReader("presets.yaml", presetData)
	var table presetTable
	if tree := r.parse(presetData); tree != nil {
		r.inside(tree, "the presets", &table)
	}
	if len(r.problems) > 0 {
		panic("scenarios: " + r.problems.Error())
	}
	return []*preset{table.Rotary, table.Friction, table.Shuttle}
}

// decode reads a preset and keeps its words.
func (p *preset) decode(r *reader, n *node, key string) {
	r.inside(n, key, p)
	p.tree = n
	p.shown = Preset{Name: key, About: string(or(p.About, ""))}
	for _, f := range fieldsOf(reflect.ValueOf(&p.feederRates).Elem()) {
		if v := child(n, f.key); v != nil {
			p.shown.Values = append(p.shown.Values, PresetValue{f.key, written(v)})
		}
	}
}

// written returns a value as it would be written on one line.
func written(n *node) string {
	var parts []string
	switch n.Kind {
	case scalarNode:
		return n.Value
	case sequenceNode:
		for _, v := range n.Content {
			parts = append(parts, written(v))
		}
		return "[" + strings.Join(parts, ", ") + "]"
	default:
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		parts = append(parts, n.Content[i].Value+": "+written(n.Content[i+1]))
	}
	return "{" + strings.Join(parts, ", ") + "}"
}

// inherited returns what a feeder's preset gives for a key, or nil. Its place is in the
// file of presets.
func inherited(feeder *node, key string) *node {
	name := child(feeder, "preset")
	if name == nil || !givenByPreset(key) {
		return nil
	}
	for _, p := range presets {
		if p.shown.Name == name.Value {
			return child(p.tree, key)
		}
	}
	return nil
}

// ratesOf returns what the preset of the name gives. For an unknown name, which is noted
// where it is read, it gives what any other does: nothing is missed besides.
func ratesOf(name string) feederRates {
	for _, p := range presets {
		if p.shown.Name == name {
			return p.feederRates
		}
	}
	return presets[0].feederRates
}

func presetNames() []string {
	var names []string
	for _, p := range presets {
		names = append(names, p.shown.Name)
	}
	return names
}

// presetName is the name of a preset.
type presetName string

func (x *presetName) read(text string) error {
	if slices.Contains(presetNames(), text) {
		*x = presetName(text)
		return nil
	}
	return want(model.OneOf(presetNames()), guess(text, presetNames()))
}

// givenByPreset reports whether a preset gives the value of a key.
func givenByPreset(key string) bool {
	return fieldsOf(reflect.ValueOf(&feederRates{}).Elem()).find(key) != nil
}

// presetHint says where a value came from that the file does not hold.
func presetHint(n *node) string { return fmt.Sprintf(" (as in preset %s)", n.Value) }
