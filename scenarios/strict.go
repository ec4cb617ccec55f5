package scenarios

import (
	"reflect"
	"regexp"
	"strconv"
	"strings"
)

// The structs of a scenario file are read by their tags: `yaml:"key"` for a key that
// must be there, `yaml:"key,omitempty"` for one that may. The same tags make the schema.
// Every field is a pointer or a slice, nil until it is read; a value that cannot be read
// is noted and left zero, and reading goes on.

// quantity is a value written as one text: a probability, a time, a count.
type quantity interface {
	// read takes the value of the text, or returns what is wanted instead.
	read(text string) error
}

// number is a quantity without a unit, which YAML can tell from a text: "5" is none.
type number interface {
	quantity
	number()
}

// value is anything that is read in a way of its own.
type value interface {
	decode(r *reader, n *node, key string)
}

// read reads a node into a variable.
func (r *reader) read(n *node, key string, into reflect.Value) {
	if n.Kind == aliasNode { // noted by plain
		return
	}
	switch x := into.Addr().Interface().(type) {
	case value:
		x.decode(r, n, key)
		return
	case quantity:
		r.quantity(n, key, x)
		return
	}
	switch into.Kind() {
	case reflect.Pointer:
		into.Set(reflect.New(into.Type().Elem()))
		r.read(n, key, into.Elem())
	case reflect.Slice:
		r.list(n, key, into)
	case reflect.Struct:
		r.mapping(n, key, into)
	default:
		panic("scenarios: no way to read a " + into.Type().String())
	}
}

func (r *reader) quantity(n *node, key string, q quantity) {
	if hasUncertainInput(n) {
		r.note(n, "%s %s", key, noUncertainty)
		return
	}
	text := n.Value
	if n.Kind != scalarNode {
		text = ""
	}
	err := q.read(text)
	if _, ok := q.(number); ok && err == nil && n.Style&(quoted|block) != 0 {
		r.note(n, "%s is text, want a number: leave out the quotes", key)
		return
	}
	if err != nil {
		r.note(n, "%s is %s, %v", key, shown(n), err)
	}
}

// list reads a list; its elements are called by the list's key.
func (r *reader) list(n *node, key string, into reflect.Value) {
	if n.Kind != sequenceNode {
		r.note(n, "%s is %s, want a list", key, shown(n))
		return
	}
	into.Set(reflect.MakeSlice(into.Type(), len(n.Content), len(n.Content)))
	for i, child := range n.Content {
		if r.given(child, child, "item "+strconv.Itoa(i+1)+" of "+key) {
			r.read(child, key, into.Index(i))
		}
	}
}

// thousands is what a number looks like that somebody has written with a comma.
var thousands = regexp.MustCompile(`^\d{1,3},\d{3}$`)

// theScenario is what the whole file is called in messages.
const theScenario = "the scenario"

// mapping reads a mapping into a struct.
func (r *reader) mapping(n *node, key string, into reflect.Value) {
	fields := fieldsOf(into)
	if n.Kind != mappingNode {
		r.note(n, "%s is %s, want a mapping with %s", key, shown(n), strings.Join(fields.keys(), ", "))
		return
	}
	seen := map[string]bool{}
	for i := 0; i+1 < len(n.Content); i += 2 {
		k, v := n.Content[i], n.Content[i+1]
		if k.Kind != scalarNode || k.Tag == mergeTag || seen[k.Value] { // noted by plain
			continue
		}
		seen[k.Value] = true
		f := fields.find(k.Value)
		switch {
		case f == nil && isNull(v) && i > 0 && thousands.MatchString(n.Content[i-1].Value+","+k.Value):
			r.note(k, "a comma splits a number here: want %s, without it", n.Content[i-1].Value+k.Value)
			r.bad[n] = true
		case f == nil && i > 0 && splitText(n, i):
			r.note(k, "the comma before %s ends the %s: put a text with commas in quotes", shown(k), n.Content[i-2].Value)
			r.bad[n] = true
		case f == nil:
			r.note(k, "unknown key %s in %s: %s", shown(k), key, belongs(k.Value, key, fields.keys()))
			seen[Nearest(k.Value, fields.keys())] = true // it is not missed as well
			r.bad[n] = true
		case r.given(v, k, k.Value):
			r.read(v, k.Value, f.value)
		}
	}
	for _, f := range fields {
		if f.needed && !seen[f.key] && f.value.IsNil() {
			r.note(n, "%s has no %s%s", key, f.key, whyNeeded(into, f.key))
		}
	}
}

// whyNeeded returns why a mapping needs a key, where that may be doubted; "" where not.
func whyNeeded(of reflect.Value, key string) string {
	if x, is := reflect.TypeAssert[interface{ whyNeeded(key string) string }](of.Addr()); is {
		return x.whyNeeded(key)
	}
	return ""
}

// splitText reports whether the key at i of a mapping in braces is no key, but the rest of a text without
// quotes that had a comma: nothing follows it, or it is not written as keys are.
func splitText(n *node, i int) bool {
	before, k, v := n.Content[i-1], n.Content[i], n.Content[i+1]
	if n.Style&flow == 0 || before.Kind != scalarNode || before.Style&(quoted|block) != 0 || before.Tag != textTag {
		return false
	}
	return isNull(v) && v.Value == "" || !keyWord.MatchString(k.Value)
}

// keyWord is how a key is written.
var keyWord = regexp.MustCompile(`^[a-z][a-z_ ]*$`)

// belongs returns a hint at where a key belongs that a mapping does not have.
func belongs(key, mapping string, keys []string) string {
	if mapping == theScenario && key == "stations" {
		return "they stand in line; what netrate fit has written goes into a scenario with its --into"
	}
	if mapping == "season" {
		switch key {
		case "down":
			return "it is of a plan; of a season say maintenance under calendar, which stops all lines in each week"
		case "zone":
			return "it is of a plan; the times of a season are in no zone: leave it out"
		}
	}
	return meant(key, keys)
}

// given notes a value that is not there.
func (r *reader) given(n, place *node, key string) bool {
	if !isNull(n) {
		return true
	}
	if word := r.hash(n); word != "" {
		r.note(place, "%s has no value, for %s is a comment: put quotes around \"%s\"", key, word, word)
	} else {
		r.note(place, "%s has no value", key)
	}
	r.bad[n] = true
	return false
}

// field is one key of a mapping and the variable it is read into.
type field struct {
	key    string
	needed bool
	value  reflect.Value
}

type fields []field

// fieldsOf returns the fields of a struct with those of the structs embedded in it.
func fieldsOf(s reflect.Value) fields {
	var list fields
	for f, v := range s.Fields() {
		switch tag := f.Tag.Get("yaml"); {
		case f.Anonymous:
			list = append(list, fieldsOf(v)...)
		case tag != "":
			key, option, _ := strings.Cut(tag, ",")
			list = append(list, field{key: key, needed: option != "omitempty", value: v})
		}
	}
	return list
}

func (fs fields) keys() []string {
	keys := make([]string, len(fs))
	for i, f := range fs {
		keys[i] = f.key
	}
	return keys
}

func (fs fields) find(key string) *field {
	for i := range fs {
		if fs[i].key == key {
			return &fs[i]
		}
	}
	return nil
}

// inside reads the fields of a struct that decodes itself.
func (r *reader) inside(n *node, key string, into any) {
	r.mapping(n, key, reflect.ValueOf(into).Elem())
}
