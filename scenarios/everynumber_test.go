package scenarios

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// wideFiles returns files that have between them every number of the schema, by name.
func wideFiles(t *testing.T) map[string]string {
	t.Helper()
	all := map[string]string{"unsure.yaml": unsureFile, "everything.yaml": everything, "staffed.yaml": staffed, "rest.yaml": restFile}
	for _, x := range Examples() {
		all[x.Name] = string(x.Data)
	}
	good, err := filepath.Glob("testdata/good*.yaml")
	require.NoError(t, err)
	for _, name := range good {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		all[name] = string(text)
	}
	season, fits := all["testdata/good_season.yaml"], "  always: 5 min\n"
	require.Contains(t, season, fits)
	all["changes.yaml"] = strings.Replace(season, fits, fits+"  stream: 3 min\n  reader: 1 min\n  throat: 2 min\n", 1)
	all["changes.yaml"] = strings.Replace(all["changes.yaml"], "{size: c4, stream", "{size: c4, throat: 30 mm, stream", 1)
	return all
}

// restFile has the numbers that no other file has.
const restFile = `name: The rest
line:
  restart: 3 s
  days: {cv: 0.3, level: 1.1, every: 5 h, drift: [{from: 1 h, times: 1.5}]}
  stations:
    - {kind: feeder, name: letter, at: 0, preset: rotary, hopper: {pieces: 1000, warn: 10%, refill: 20 s}, stream: {name: letters, realign: 2 min}}
    - {kind: feeder, name: card, at: 2, preset: rotary, hopper: {pieces: 1000, warn: 10%, refill: 20 s}, stream: {name: cards, realign: 2 min}}
    - {kind: reader, name: camera, at: 3, reads: letters, verifies: sequence, no_read: 1/5000, clear: 20 s}
    - {kind: inserter, name: inserter, at: 4, rated: 9000/h, hopper: {pieces: 1000, warn: 10%, refill: 5 s}, envelope_misfeed: 1/900, flap: 1/700, jam: 1/800, clear: 40 s}
    - {kind: delivery, name: delivery, at: 6}
crew: {operators: 1, walk: 10 s, wrong_repair: 1/500, wrong_realign: 1%}
work: {sets: 5000, begins: {hoppers: 60%}, remakes: {beside: 60/h}}
`

// numberIn is a number of a file.
type numberIn struct {
	path  string
	value string // "" if it is uncertain there
}

// numbersOf returns the numbers of a file, but for those of variants, of a design, of a plan and of a run, which say how a line is asked about.
func numbersOf(tree *node) (all []numberIn) {
	var walk func(n *node, path []string)
	walk = func(n *node, path []string) {
		switch {
		case hasUncertainInput(n):
			all = append(all, numberIn{path: strings.Join(path, ".")})
		case n.Kind == mappingNode:
			eachOf(n, func(key string, c *node) {
				if len(path) > 0 || !slices.Contains([]string{"variants", "design", "plan", "run"}, key) {
					walk(c, append(slices.Clip(path), key))
				}
			})
		case n.Kind == sequenceNode:
			for i, name := range namesIn(n) {
				walk(n.Content[i], append(slices.Clip(path), name))
			}
		case path[len(path)-1] != "name":
			value := Normal(n.Value)
			if f, _, err := formOf(value); err == nil && f.valueKind != wordKind {
				all = append(all, numberIn{strings.Replace(strings.Join(path, "."), "line.stations.", "stations.", 1), value})
			}
		}
	}
	walk(tree, nil)
	return all
}

// Every number of every file can be set, swept and given to a variant, all of which take a path and a
// value; and it can be uncertain, or it is said that it cannot, or how it is to be written.
func TestEveryNumberCanBeSet(t *testing.T) {
	said := map[string]bool{}
	for name, text := range wideFiles(t) {
		sc, err := Load(name, []byte(text))
		require.NoError(t, err)
		for _, x := range numbersOf(sc.tree) {
			keys := strings.Split(x.path, ".")
			said[keys[len(keys)-1]] = true
			if x.value == "" {
				continue
			}
			_, err := sc.Set([]Setting{{Path: x.path, Value: x.value}})
			assert.NoError(t, err, "%s: %s", name, x.path)
			asUncertain(t, name, text, x)
		}
	}
	for _, key := range schemaNumbers(t) {
		assert.True(t, said[key], "no file of this test says %s: add it to one", key)
	}
}

// asUncertain asserts that a number can be uncertain, or that it is said why not.
func asUncertain(t *testing.T, name, text string, x numberIn) {
	t.Helper()
	f, n, err := formOf(x.value)
	require.NoError(t, err)
	if n == 0 {
		n = 0.5
	}
	between := fmt.Sprintf("{low: %s, likely: %s, high: %s}", f.value(0.9*n).Text, f.value(n).Text, f.value(1.0001*n).Text)
	for range 2 {
		_, err = Edited(name, []byte(text), []Edit{{Path: x.path, Value: between}})
		if err == nil || !strings.Contains(err.Error(), "want that within a distribution") {
			break
		}
		between = "{constant: " + between + "}"
	}
	if err != nil && !strings.Contains(err.Error(), noUncertainty) {
		t.Errorf("%s: %s: %s is refused, and not why: %v", name, x.path, between, err)
	}
}

// schemaNumbers returns the keys of the schema that hold numbers, those aside of what says how sure
// another is, and of variants, designs, plans and runs.
func schemaNumbers(t *testing.T) (keys []string) {
	t.Helper()
	var schema struct {
		Defs       map[string]json.RawMessage `json:"$defs"`
		Properties map[string]json.RawMessage `json:"properties"`
	}
	require.NoError(t, json.Unmarshal(Schema(), &schema))
	var walk func(of json.RawMessage)
	seen := map[string]bool{}
	walk = func(of json.RawMessage) {
		var s struct {
			Ref        string                     `json:"$ref"`
			Properties map[string]json.RawMessage `json:"properties"`
			Items      json.RawMessage            `json:"items"`
			OneOf      []json.RawMessage          `json:"oneOf"`
			AnyOf      []json.RawMessage          `json:"anyOf"`
			Others     json.RawMessage            `json:"additionalProperties"`
		}
		if json.Unmarshal(of, &s) != nil {
			return
		}
		if def := strings.TrimPrefix(s.Ref, "#/$defs/"); def != "" {
			if !seen[def] {
				seen[def] = true
				walk(schema.Defs[def])
			}
			return
		}
		for key, p := range s.Properties {
			if isNumber(schema.Defs, p) && unsureKeys[key] == "" {
				keys = append(keys, key)
			}
			walk(p)
		}
		for _, x := range append(append(s.OneOf, s.AnyOf...), s.Items, s.Others) {
			walk(x)
		}
	}
	for key, p := range schema.Properties {
		if !slices.Contains([]string{"variants", "design", "plan", "run"}, key) {
			walk(p)
		}
	}
	require.Greater(t, len(keys), 50)
	slices.Sort(keys)
	return slices.Compact(keys)
}

// isNumber reports whether a schema is of a number, with or without a unit.
func isNumber(defs map[string]json.RawMessage, of json.RawMessage) bool {
	var s struct {
		Ref     string            `json:"$ref"`
		Type    any               `json:"type"`
		Pattern string            `json:"pattern"`
		OneOf   []json.RawMessage `json:"oneOf"`
	}
	if json.Unmarshal(of, &s) != nil {
		return false
	}
	if def := strings.TrimPrefix(s.Ref, "#/$defs/"); def != "" {
		return isNumber(defs, defs[def])
	}
	types := fmt.Sprint(s.Type)
	return strings.Contains(types, "number") || strings.Contains(types, "integer") || strings.HasPrefix(s.Pattern, "^(0|") || strings.HasPrefix(s.Pattern, "^((0|") ||
		slices.ContainsFunc(s.OneOf, func(x json.RawMessage) bool { return isNumber(defs, x) })
}
