package scenarios

import (
	"fmt"
	"iter"
	"slices"
	"strings"

	"github.com/invopop/jsonschema"
)

// Mapping is a mapping of the scenario format.
type Mapping struct {
	Name  string // as in the schema, with blanks: document channel
	About string // may be empty
	Keys  []Key
}

// Key is what may stand in a mapping.
type Key struct {
	Name   string
	About  string
	Needed bool
	Holds  string   // the mapping that its value is, or may be; "" if there is none
	Values string   // how a plain value is written; may be empty
	Words  []string // all that its value may be; nil if it is not one of some words
}

// Mappings returns all mappings that a scenario file may hold, with all their keys: first the
// file itself, called scenario, then each where it is first needed.
func Mappings() []Mapping {
	s := fileSchema()
	l := &keyLister{defs: s.Definitions, met: map[string]bool{}}
	l.list("scenario", s)
	return l.mappings
}

// MappingNamed returns the mapping with the name, or an error with the nearest name.
func MappingNamed(name string) (Mapping, error) {
	var names []string
	for _, m := range Mappings() {
		if word(m.Name) == word(name) {
			return m, nil
		}
		names = append(names, m.Name)
	}
	return Mapping{}, fmt.Errorf("%q is not a mapping of a scenario file: %s", name, meant(name, names))
}

// keyLister walks the schema.
type keyLister struct {
	defs     jsonschema.Definitions
	met      map[string]bool // definitions
	mappings []Mapping
}

// list adds a mapping, and after it those that its keys lead to.
func (l *keyLister) list(name string, s *jsonschema.Schema) {
	place := len(l.mappings)
	l.mappings = append(l.mappings, Mapping{})
	m := Mapping{Name: name, About: s.Description}
	var abouts []string
	for _, form := range formsOf(s) {
		if form.Description != "" {
			abouts = append(abouts, form.Description)
		}
		for key, value := range properties(form) {
			if slices.ContainsFunc(m.Keys, func(k Key) bool { return k.Name == key }) {
				continue
			}
			k := Key{Name: key, About: value.Description, Needed: slices.Contains(s.Required, key)}
			l.value(&k, value)
			m.Keys = append(m.Keys, k)
		}
	}
	if m.About == "" {
		m.About = strings.Join(abouts, "; or ")
	}
	l.mappings[place] = m
	for _, form := range formsOf(s) {
		for _, value := range properties(form) {
			l.follow(value)
		}
	}
}

// formsOf returns the schema, and what it may be one of.
func formsOf(s *jsonschema.Schema) []*jsonschema.Schema {
	return append([]*jsonschema.Schema{s}, s.OneOf...)
}

// properties returns the keys of a schema with those of their values, in the order of the format.
func properties(s *jsonschema.Schema) iter.Seq2[string, *jsonschema.Schema] {
	if s.Properties == nil {
		return func(func(string, *jsonschema.Schema) bool) {}
	}
	return s.Properties.FromOldest()
}

// hasKeys reports whether a value may be a mapping with keys of its own.
func hasKeys(s *jsonschema.Schema) bool {
	return slices.ContainsFunc(formsOf(s), func(form *jsonschema.Schema) bool { return form.Properties != nil })
}

// definition returns what a value refers to, or it itself, and its name.
func (l *keyLister) definition(s *jsonschema.Schema) (*jsonschema.Schema, string) {
	name, refers := strings.CutPrefix(s.Ref, "#/$defs/")
	if !refers {
		return s, ""
	}
	return l.defs[name], name
}

// follow lists the mappings that a value leads to, once each.
func (l *keyLister) follow(value *jsonschema.Schema) {
	d, name := l.definition(value)
	if name != "" && l.met[name] {
		return
	}
	l.met[name] = name != ""
	for _, one := range d.AllOf { // stations, by their kind
		if one.Then != nil {
			l.follow(one.Then)
		}
	}
	switch {
	case d.Ref != "":
		l.follow(d)
	case len(d.AllOf) > 0:
	case name != "" && hasKeys(d):
		l.list(strings.ReplaceAll(name, "_", " "), d)
	case d.Items != nil:
		l.follow(d.Items)
	case d.AdditionalProperties != nil && d.AdditionalProperties.Ref != "":
		l.follow(d.AdditionalProperties)
	}
}

// value says of a key what its value may be.
func (l *keyLister) value(k *Key, value *jsonschema.Schema) {
	d, name := l.definition(value)
	switch {
	case d.Items != nil:
		if l.value(k, d.Items); k.Holds != "" {
			k.Holds = "list of " + k.Holds
		}
	case len(d.AllOf) > 0 || hasKeys(d) && name != "":
		k.Holds = strings.ReplaceAll(name, "_", " ")
	case len(d.Enum) > 0:
		for _, one := range d.Enum {
			k.Words = append(k.Words, fmt.Sprint(one))
		}
	case len(d.OneOf) > 0: // one word, or a list of them
		l.value(k, d.OneOf[0])
	case d != value:
		k.Values = d.Description
	}
}
