package scenarios

import (
	"slices"
	"strings"
)

// Statement is one thing that a scenario says of what is simulated, in its own words.
type Statement struct {
	Line    string // the name of the line where there are several, else ""
	Station string // "" for what is of no station
	Key     string // of a station; of anything else its path, such as crew.walk
	Value   string // as it is written; of a mapping or a list, on one line
	Source  string // that the station names; "" if it names none
}

// Stated returns all that the file says of what is simulated, in its order, and what its
// presets say. Not among it are the name, the question, the variants and how many replications
// are run.
func (s *Scenario) Stated() []Statement { return stated(s.tree) }

// Stated returns the same of a variant.
func (v *Variant) Stated() []Statement { return stated(v.tree) }

// StatesPolicy reports whether the file says what any fault leads to. Where it does not, every fault
// stops the line.
func (s *Scenario) StatesPolicy() bool {
	return slices.ContainsFunc(s.Stated(), func(x Statement) bool {
		return x.Key == "policy" || strings.HasPrefix(x.Key, "policy.")
	})
}

func stated(tree *node) []Statement {
	var all []Statement
	eachOf(tree, func(key string, value *node) {
		switch key {
		case "name", "question", "run", "variants":
		case "line":
			all = append(all, statedOfLine("", value)...)
		case "lines":
			for i, name := range namesIn(value) {
				all = append(all, statedOfLine(name, value.Content[i])...)
			}
		default:
			all = append(all, statedBelow(key, value, 1)...)
		}
	})
	return all
}

// statedOfLine returns what is said of one line.
func statedOfLine(name string, line *node) []Statement {
	var all []Statement
	eachOf(line, func(key string, value *node) {
		switch key {
		case "name":
		case "stations":
			all = append(all, Statement{Line: name, Key: "line.stations", Value: stationsInWords(value)})
			for i, station := range namesIn(value) {
				all = append(all, statedOfStation(name, station, value.Content[i])...)
			}
		default:
			all = append(all, Statement{Line: name, Key: "line." + key, Value: unbracketed(value)})
		}
	})
	return all
}

// stationsInWords returns what stands where: "letter (feeder) at 0, belt (delivery) at 9".
func stationsInWords(list *node) string {
	var all []string
	for i, name := range namesIn(list) {
		of := list.Content[i]
		all = append(all, name+" ("+unbracketed(child(of, "kind"))+") at "+unbracketed(child(of, "at")))
	}
	return strings.Join(all, ", ")
}

// statedOfStation returns what is said of a station, and what its preset says where it says
// nothing itself.
func statedOfStation(line, name string, station *node) []Statement {
	source := ""
	if n := child(station, "source"); n != nil {
		source = n.Value
	}
	var all []Statement
	eachOf(station, func(key string, value *node) {
		if !slices.Contains([]string{"name", "kind", "at", "source"}, key) {
			all = append(all, Statement{line, name, key, unbracketed(value), source})
		}
	})
	preset := child(station, "preset")
	for _, p := range presets {
		if preset == nil || p.shown.Name != preset.Value {
			continue
		}
		for _, v := range p.shown.Values {
			if child(station, v.Key) == nil {
				all = append(all, Statement{line, name, v.Key, unbracketed(child(p.tree, v.Key)), "preset " + p.shown.Name})
			}
		}
	}
	return all
}

// statedBelow returns what is said below a path: a statement for each key of a mapping, so
// many deep, and for each item of a list of mappings.
func statedBelow(path string, n *node, deep int) []Statement {
	var all []Statement
	switch {
	case n.Kind == mappingNode && deep > 0:
		eachOf(n, func(key string, value *node) {
			all = append(all, statedBelow(path+"."+key, value, deep-1)...)
		})
	case n.Kind == sequenceNode && len(n.Content) > 0 && n.Content[0].Kind == mappingNode:
		for i, name := range namesIn(n) {
			all = append(all, Statement{Key: path + "." + name, Value: unbracketed(without(n.Content[i], "name"))})
		}
	default:
		all = append(all, Statement{Key: path, Value: unbracketed(n)})
	}
	return all
}

// eachOf calls f with each key of a mapping and its value.
func eachOf(n *node, f func(key string, value *node)) {
	for i := 0; n != nil && n.Kind == mappingNode && i+1 < len(n.Content); i += 2 {
		f(n.Content[i].Value, n.Content[i+1])
	}
}

// unbracketed returns a value as written, without the brackets around all of it; "" of nothing.
func unbracketed(n *node) string {
	if n == nil {
		return ""
	}
	text := written(n)
	if n.Kind == scalarNode {
		return text
	}
	return text[1 : len(text)-1]
}
