package scenarios

import (
	"bytes"
	"encoding/json"
	"os"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.yaml.in/yaml/v4"
)

func TestSchemaFile(t *testing.T) {
	golden(t, "examples/netrate.schema.json", string(Schema()))
}

func compiled(t *testing.T) *jsonschema.Schema {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(Schema()))
	require.NoError(t, err)
	c := jsonschema.NewCompiler()
	require.NoError(t, c.AddResource("netrate.schema.json", doc))
	s, err := c.Compile("netrate.schema.json")
	require.NoError(t, err)
	return s
}

// asJSON returns what an editor sees in a file.
func asJSON(t *testing.T, data string) any {
	t.Helper()
	var v any
	require.NoError(t, yaml.Load([]byte(data), &v))
	text, err := json.Marshal(v)
	require.NoError(t, err)
	v, err = jsonschema.UnmarshalJSON(bytes.NewReader(text))
	require.NoError(t, err)
	return v
}

func TestSchemaTakesWhatLoads(t *testing.T) {
	s := compiled(t)
	for _, x := range Examples() {
		t.Run(x.Name, func(t *testing.T) { assert.NoError(t, s.Validate(asJSON(t, string(x.Data)))) })
	}
	t.Run("everything", func(t *testing.T) { assert.NoError(t, s.Validate(asJSON(t, everything))) })
}

func TestSchemaRefuses(t *testing.T) {
	data, err := os.ReadFile("testdata/good.yaml")
	require.NoError(t, err)
	good := string(data)
	s := compiled(t)
	require.NoError(t, s.Validate(asJSON(t, good)))
	for _, c := range []struct{ name, old, with string }{
		{"unknown key", "misfeed: 1/2500", "misfed: 1/2500"},
		{"key of another kind", "at: 2}", "at: 2, misfeed: 1/100}"},
		{"unknown kind", "kind: track gate", "kind: trackgate"},
		{"missing key", "      jam: 1/12000\n", ""},
		{"missing shift", "shift: 8 h", ""},
		{"probability", "misfeed: 1/2500", "misfeed: 1 in 2500"},
		{"probability above 1", "misfeed: 1/2500", "misfeed: 2"},
		{"speed without a unit", "speed: 18000/h", "speed: 18000"},
		{"unit of time", "restart: 4 s", "restart: 4 sec"},
		{"unit of speed", "speed: 18000/h", "speed: 18000 cph"},
		{"response", "misfeed: divert", "misfeed: diverted"},
		{"response to a jam", "flap: outsort}", "jam: divert}"},
		{"two distributions", "clear: 45 s", "clear: {constant: 4 s, exponential: {mean: 4 s}}"},
		{"no distribution", "clear: 45 s", "clear: {}"},
		{"distribution", "clear: 45 s", "clear: {lognormal: {mean: 45 s}}"},
		{"warning", "warn: 800", "warn: many"},
		{"pitch", "at: 2}", "at: 2.5}"},
		{"pitch as a text", "at: 2}", `at: "2"}`},
		{"name", "name: letter", "name: 10"},
		{"preset", "rated: 20000/h", "preset: drum"},
		{"operators", "operators: 1", "operators: 0"},
		{"variant without changes", "work:", "variants: [{name: x}]\nwork:"},
		{"change of no kind", "work:", "variants: [{name: x, changes: [{}]}]\nwork:"},
		{"change of two kinds", "work:", "variants: [{name: x, changes: [{remove: track gate, set: crew.operators, to: 2}]}]\nwork:"},
		{"new value missing", "work:", "variants: [{name: x, changes: [{set: crew.operators}]}]\nwork:"},
		{"new value too many", "work:", "variants: [{name: x, changes: [{remove: track gate, to: 2}]}]\nwork:"},
		{"new value nothing", "work:", "variants: [{name: x, changes: [{set: crew.operators, to: }]}]\nwork:"},
		{"path", "work:", "variants: [{name: x, changes: [{set: run.seed, to: 2}]}]\nwork:"},
		{"path of a whole station", "work:", "variants: [{name: x, changes: [{set: stations.letter, to: {}}]}]\nwork:"},
		{"station beside nothing", "work:", "variants: [{name: x, changes: [{add: {kind: exit gate, name: e, at: 5}}]}]\nwork:"},
		{"station beside two", "work:", "variants: [{name: x, changes: [{add: {kind: exit gate, name: e, at: 5}, after: inserter, before: exit gate}]}]\nwork:"},
		{"station unfinished", "work:", "variants: [{name: x, changes: [{add: {kind: exit gate, at: 5}, after: inserter}]}]\nwork:"},
		{"shift of nothing", "work:", "variants: [{name: x, changes: [{shift: inserter, by: 0}]}]\nwork:"},
		{"shift without a distance", "work:", "variants: [{name: x, changes: [{shift: inserter}]}]\nwork:"},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := strings.Replace(good, c.old, c.with, 1)
			require.NotEqual(t, good, text)
			require.Error(t, s.Validate(asJSON(t, text)))
			_, err := Load("x", []byte(text))
			require.Error(t, err, "what the schema refuses does not load")
		})
	}
}

// Every key of the format is explained to the editor.
func TestSchemaExplainsEveryKey(t *testing.T) {
	var schema struct {
		Definitions map[string]struct {
			Properties map[string]struct{ Description string }
		} `json:"$defs"`
	}
	require.NoError(t, json.Unmarshal(Schema(), &schema))
	n := 0
	for name, def := range schema.Definitions {
		for key, property := range def.Properties {
			n++
			if name != "station" { // its kind is explained in each of the kinds
				assert.NotEmpty(t, property.Description, "%s.%s", name, key)
			}
		}
	}
	assert.Greater(t, n, 50)
}
