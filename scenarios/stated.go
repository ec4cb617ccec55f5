package scenarios

import (
	"regexp"
	"slices"
	"strings"
)

// Statement is one thing that a scenario says of what is simulated, in its own words.
type Statement struct {
	Line    string // the name of the line where there are several, else ""
	Station string // "" for what is of no station
	Key     string // of a station; of anything else its path, such as crew.walk
	Value   string // as it is written; of a mapping or a list, on one line; of what is the same as another, that
	Source  string // where it comes from; "" if that is not stated
}

// Stated returns all that the file says of what is simulated, in its order, and what its
// presets say. Not among it are the name, the question, the variants and how many replications
// are run.
func (s *Scenario) Stated() []Statement { return s.sources.stated(s.tree) }

// Stated returns the same of a variant.
func (v *Variant) Stated() []Statement { return v.sources.stated(v.tree) }

// InBursts is what the source of a station says where its stops come in bursts, which a forecast
// knows nothing of.
const InBursts = "they come in bursts"

// Bursty returns the stations whose stops come in bursts, by their source.
func (s *Scenario) Bursty() []string {
	var all []string
	for _, x := range s.Stated() {
		name := x.Station
		if x.Line != "" {
			name = x.Line + ": " + name
		}
		if x.Station != "" && strings.Contains(x.Source, InBursts) && !slices.Contains(all, name) {
			all = append(all, name)
		}
	}
	return all
}

// StatesPolicy reports whether the file says what faults lead to: for the line, or for a station
// something other than to stop. Where it does not, every fault stops the line.
func (s *Scenario) StatesPolicy() bool {
	return slices.ContainsFunc(s.Stated(), func(x Statement) bool {
		policy := x.Key == "policy" || strings.HasPrefix(x.Key, "policy.") || strings.HasPrefix(x.Key, "line.policy.")
		return policy && (x.Station == "" || otherwise.MatchString(x.Value))
	})
}

// otherwise finds a response that is not to stop.
var otherwise = regexp.MustCompile(`\b(divert|outsort|ship|in line)\b`)

func (s sources) stated(tree *node) []Statement {
	var all []Statement
	eachOf(tree, func(key string, value *node) {
		switch key {
		case "name", "question", "base", "run", "variants":
		case "line":
			all = append(all, s.statedOfLine("", value)...)
		case "lines":
			for i, name := range namesIn(value) {
				all = append(all, s.statedOfLine(name, value.Content[i])...)
			}
		default:
			all = append(all, s.statedBelow(Statement{Key: key}, value, ownSource(value))...)
		}
	})
	for i := range all {
		if path, is := strings.CutPrefix(all[i].Value, sameAs+": "); is {
			all[i].Value = inPlace(tree, referenceTo(path), written)
		}
		all[i].Value = innerReference.ReplaceAllStringFunc(all[i].Value, func(text string) string {
			return inPlace(tree, referenceTo(innerReference.FindStringSubmatch(text)[1]), written)
		})
	}
	return all
}

// innerReference finds a part of a value, such as the mean of a time, that is the same as another number.
var innerReference = regexp.MustCompile(`\{` + sameAs + `: ([^{}]*)\}`)

// referenceTo returns the node of a value that is the same as what is at a path.
func referenceTo(path string) *node {
	return &node{Kind: mappingNode, Content: []*node{{Kind: scalarNode, Value: sameAs}, {Kind: scalarNode, Value: path}}}
}

// statedOfLine returns what is said of one line.
func (s sources) statedOfLine(name string, line *node) []Statement {
	var all []Statement
	own := ownSource(line)
	eachOf(line, func(key string, value *node) {
		of := Statement{Line: name, Key: "line." + key}
		switch key {
		case "name", sourceKey:
		case "policy":
			all = append(all, s.statedBelow(of, value, ownSource(value))...)
		case "stations":
			of.Value = stationsInWords(value)
			all = append(all, of)
			for i, station := range namesIn(value) {
				all = append(all, s.statedOfStation(Statement{Line: name, Station: station}, value.Content[i])...)
			}
		default:
			all = append(all, s.statement(of, value, own))
		}
	})
	return all
}

// statement returns what a value says, in a station or a section with a source.
func (s sources) statement(of Statement, value *node, own string) Statement {
	of.Value, of.Source = unbracketed(value), s.of(value, own)
	return of
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
func (s sources) statedOfStation(of Statement, station *node) []Statement {
	var all []Statement
	own := ownSource(station)
	eachOf(station, func(key string, value *node) {
		of.Key = key
		switch key {
		case "name", "kind", "at", sourceKey:
		case "policy": // is no number
			all = append(all, s.statedBelow(of, value, "")...)
		default:
			all = append(all, s.statement(of, value, own))
		}
	})
	preset := child(station, "preset")
	for _, p := range presets {
		if preset == nil || p.shown.Name != preset.Value {
			continue
		}
		for _, v := range p.shown.Values {
			if child(station, v.Key) == nil {
				of.Key, of.Value, of.Source = v.Key, unbracketed(child(p.tree, v.Key)), presetSource(p.shown.Name)
				all = append(all, of)
			}
		}
	}
	return all
}

// statedBelow returns what is said in a section: a statement for each key of a mapping, and for
// each item of a list of mappings.
func (s sources) statedBelow(of Statement, n *node, own string) []Statement {
	if n.Kind != mappingNode {
		return s.statedItems(of, n, own)
	}
	var all []Statement
	eachOf(n, func(key string, value *node) {
		if key != sourceKey {
			below := of
			below.Key += "." + key
			all = append(all, s.statedItems(below, value, own)...)
		}
	})
	return all
}

// statedItems returns a statement for each item of a list of mappings, and one of any other value.
func (s sources) statedItems(of Statement, n *node, own string) []Statement {
	if n.Kind != sequenceNode || len(n.Content) == 0 || n.Content[0].Kind != mappingNode {
		return []Statement{s.statement(of, n, own)}
	}
	var all []Statement
	for i, name := range namesIn(n) {
		item := of
		item.Key += "." + name
		all = append(all, s.statement(item, without(n.Content[i], "name"), own))
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
