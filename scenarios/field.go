package scenarios

import (
	"slices"
	"strings"
)

// Field is a key of a mapping, and what a file says of it: what a form needs to show and to
// change it.
type Field struct {
	Key
	Path   string  // as of [Scenario.With]
	Value  string  // on one line, as it is written; "" if it is not given
	Given  bool    // the file gives it
	Preset string  // what the preset of the station gives, where the file does not
	Fields []Field // where the value is a mapping, its keys
}

// Fields returns the keys of what a path leads to, with what a text says of them: of the line or a
// station, of crew, policy, work, costs and the like. A text that cannot be read as YAML, and a path that
// leads to no mapping of the format, have none.
func Fields(text []byte, path string) []Field {
	s := newScript(string(withoutMark(text)))
	if s == nil {
		return nil
	}
	keys := strings.Split(path, ".")
	at := spot(keys)
	if path != "line" { // which as a whole cannot be set, but looked at
		var err error
		if at, err = locateWhole(s.tree, path); err != nil {
			return nil
		}
	}
	n, found := follow(s.tree, at)
	if !found && len(at) > 1 {
		return nil
	}
	if !found {
		n = nil
	}
	f := &fieldLister{byName: map[string]Mapping{}}
	for _, m := range Mappings() {
		f.byName[m.Name] = m
	}
	return f.list(f.holder(at, n), path, n)
}

// locateWhole returns where a path leads, which may be a whole station.
func locateWhole(tree *node, path string) (spot, error) {
	at, err := locate(tree, path+".at")
	if err != nil {
		return nil, err
	}
	return at[:len(at)-1], nil
}

// fieldLister lists fields by the mappings of the format.
type fieldLister struct{ byName map[string]Mapping }

// holder returns what a mapping is called that stands at a spot.
func (f *fieldLister) holder(at spot, n *node) string {
	if len(at) > 1 && at[len(at)-2] == "stations" {
		if kind := child(n, "kind"); kind != nil {
			return kind.Value
		}
		return ""
	}
	holds := "scenario"
	for _, key := range at {
		i := slices.IndexFunc(f.byName[holds].Keys, func(k Key) bool { return k.Name == key })
		if i >= 0 {
			holds = strings.TrimPrefix(f.byName[holds].Keys[i].Holds, "list of ")
		}
	}
	return holds
}

// list returns the keys of a mapping with what a node says of them.
func (f *fieldLister) list(mapping, path string, n *node) (all []Field) {
	for _, k := range f.byName[mapping].Keys {
		x := Field{Key: k, Path: path + "." + k.Name}
		if v := child(n, k.Name); v != nil {
			x.Given, x.Value = true, written(v)
			if v.Kind == mappingNode && !strings.HasPrefix(k.Holds, "list of ") {
				x.Fields = f.list(f.held(k, v), x.Path, v)
			}
		} else if v := inherited(n, k.Name); v != nil {
			x.Preset = written(v)
		}
		all = append(all, x)
	}
	return all
}

// held returns what the mapping is that a key holds: of a clearing time that is not by fault, a time.
func (f *fieldLister) held(k Key, v *node) string {
	if slices.ContainsFunc(f.byName[k.Holds].Keys, func(x Key) bool { return child(v, x.Name) != nil }) {
		return k.Holds
	}
	return durationMapping
}

// durationMapping is what the mapping of a time is called in the schema.
const durationMapping = "duration"
