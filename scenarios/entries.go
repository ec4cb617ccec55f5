package scenarios

import (
	"slices"
	"strconv"
	"strings"
)

// An item of a list goes by its name or, where it has none, by its number, from 1.

// entries are the lists of mappings, each with what an item is called and one of its keys,
// as an example.
var entries = map[string]struct{ item, key string }{
	"lines":       {"line", "speed"},
	"stations":    {"station", "at"},
	"groups":      {"group", "speed"},
	"attributes":  {"attribute", "share"},
	"jobs":        {"job", "sets"},
	"inserts":     {"insert", "share"},
	"shifts":      {"shift", "length"},
	"breaks":      {"break", "length"},
	"maintenance": {"maintenance", "length"},
	"weeks":       {"week", "sets"},
	"staff":       {"item", "operators"},
	"down":        {"item", "length"},
	"order":       {"item", "jobs"},
}

// namesIn returns what the items of a list go by.
func namesIn(list *node) []string {
	names := make([]string, len(list.Content))
	for i, item := range list.Content {
		if names[i] = nameOf(item); names[i] == "" {
			names[i] = strconv.Itoa(i + 1)
		}
	}
	return names
}

// nameOf returns the name of a station or of another item, "" if it has none.
func nameOf(item *node) string {
	if n := child(item, "name"); n != nil {
		return n.Value
	}
	return ""
}

// entry returns the item of a list that goes by a name, and its index; nil and -1 if there
// is none.
func entry(list *node, name string) (*node, int) {
	i := slices.Index(namesIn(list), name)
	if i < 0 {
		return nil, -1
	}
	return list.Content[i], i
}

// entries notes what the list of a key must not be: longer than most items, or with two
// of one name.
func (r *reader) entries(mapping *node, key string, most int) {
	list := child(mapping, key)
	if list == nil || list.Kind != sequenceNode {
		return
	}
	if n := len(list.Content); n > most {
		r.note(list, "%s has %d items, want at most %d", key, n, most)
		return
	}
	lines := map[string]int{}
	for _, item := range list.Content {
		at := child(item, "name")
		if at == nil || at.Value == "" {
			continue
		}
		if line, twice := lines[at.Value]; twice {
			r.note(at, "two %s are named %q, the first in line %d", key, at.Value, line)
			continue
		}
		lines[at.Value] = at.Line
	}
}

// misnamed reports whether an item of a list lacks a name, or something is wrong with it.
func (r *reader) misnamed(list *node) bool {
	return slices.ContainsFunc(list.Content, func(item *node) bool { return nameOf(item) == "" || r.bad[child(item, "name")] })
}

// longest returns the longest of some names with which a path begins, or "". Names may
// hold dots.
func longest(names []string, path string) string {
	best := ""
	for _, name := range names {
		if (path == name || strings.HasPrefix(path, name+".")) && len(name) > len(best) {
			best = name
		}
	}
	return best
}

// byName reads a mapping of values by names that the file itself gives. A name whose value
// cannot be read, which is noted, comes with nil.
func (r *reader) byName(n *node, key, wanted string, read func(name, value *node)) {
	if n.Kind != mappingNode {
		r.note(n, "%s is %s, want %s", key, shown(n), wanted)
		return
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		k, v := n.Content[i], n.Content[i+1]
		if k.Kind != scalarNode { // noted by plain
			continue
		}
		if !r.given(v, k, k.Value) || v.Kind == aliasNode {
			v = nil
		}
		read(k, v)
	}
}
