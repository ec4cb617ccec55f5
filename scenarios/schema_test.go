package scenarios

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.yaml.in/yaml/v4"

	"netrate/internal/golden"
)

func TestSchemaFile(t *testing.T) {
	golden.Check(t, "examples/netrate.schema.json", string(Schema()))
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
	text, err := json.Marshal(textKeys(v))
	require.NoError(t, err)
	v, err = jsonschema.UnmarshalJSON(bytes.NewReader(text))
	require.NoError(t, err)
	return v
}

// textKeys makes texts of all keys, as JSON has them: those of a table of pages are
// numbers.
func textKeys(v any) any {
	switch v := v.(type) {
	case map[any]any:
		m := map[string]any{}
		for key, below := range v {
			m[fmt.Sprint(key)] = textKeys(below)
		}
		return m
	case map[string]any:
		for key, below := range v {
			v[key] = textKeys(below)
		}
	case []any:
		for i, below := range v {
			v[i] = textKeys(below)
		}
	}
	return v
}

func TestSchemaTakesWhatLoads(t *testing.T) {
	s := compiled(t)
	for _, x := range Examples() {
		t.Run(x.Name, func(t *testing.T) { assert.NoError(t, s.Validate(asJSON(t, string(x.Data)))) })
	}
	t.Run("everything", func(t *testing.T) { assert.NoError(t, s.Validate(asJSON(t, everything))) })
	t.Run("personal", func(t *testing.T) { assert.NoError(t, s.Validate(asJSON(t, personal))) })
	t.Run("seasonal", func(t *testing.T) { assert.NoError(t, s.Validate(asJSON(t, seasonal))) })
	t.Run("hall", func(t *testing.T) { assert.NoError(t, s.Validate(asJSON(t, groupFile))) })
	t.Run("unsure", func(t *testing.T) { assert.NoError(t, s.Validate(asJSON(t, unsureFile))) })
}

// spoiling is a part of a file that is replaced by something wrong.
type spoiling struct{ name, old, with string }

func TestSchemaRefuses(t *testing.T) {
	refuses(t, goodFile(t), []spoiling{
		{"unknown key", "misfeed: 1/2500", "misfed: 1/2500"},
		{"key of another kind", "at: 2}", "at: 2, misfeed: 1/100}"},
		{"unknown kind", "kind: track gate", "kind: trackgate"},
		{"missing key", "      jam: 1/12000\n", ""},
		{"missing shift", "shift: 8 h", ""},
		{"probability", "misfeed: 1/2500", "misfeed: 1 on 2500"},
		{"probability above 1", "misfeed: 1/2500", "misfeed: 2"},
		{"speed without a unit", "speed: 18000/h", "speed: 18000"},
		{"unit of time", "restart: 4 s", "restart: 4 sec"},
		{"unit of speed", "speed: 18000/h", "speed: 18000 cph"},
		{"response", "misfeed: divert", "misfeed: diverted"},
		{"response to a jam", "flap: outsort}", "jam: divert}"},
		{"two distributions", "clear: 45 s", "clear: {constant: 4 s, exponential: {mean: 4 s}}"},
		{"no distribution", "clear: 45 s", "clear: {}"},
		{"distribution", "clear: 45 s", "clear: {lognormal: {mean: 45 s}}"},
		{"clearing by some faults", "clear: 90 s", "clear: {jam: 2 min}"},
		{"clearing by another's fault", "clear: 90 s", "clear: {misfeed: 2 min, others: 1 min}"},
		{"clearing by fault and a distribution", "clear: 90 s", "clear: {jam: 2 min, constant: 1 min}"},
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
	})
}

func TestSchemaRefusesWithStreams(t *testing.T) {
	data, err := os.ReadFile("testdata/good_streams.yaml")
	require.NoError(t, err)
	refuses(t, string(data), []spoiling{
		{"channel without a stream", "      stream: documents\n", ""},
		{"channel with a rated speed", "sheets: 36000/h", "sheets: 36000/h\n      rated: 16000/h"},
		{"sheets without a unit", "36000/h", "36000"},
		{"buffer", "buffer: 6", "buffer: 0"},
		{"pages", "{table: {1: 60%, 2: 30%, 3: 10%}}", "2.5"},
		{"pages of nothing", "{table: {1: 60%, 2: 30%, 3: 10%}}", "{}"},
		{"pages two ways", "{table: {1: 60%, 2: 30%, 3: 10%}}", "{table: {1: 1}, geometric: {mean: 2}}"},
		{"pages without a mean", "{table: {1: 60%, 2: 30%, 3: 10%}}", "{geometric: {}}"},
		{"table empty", "{1: 60%, 2: 30%, 3: 10%}", "{}"},
		{"table of no pages", "{1: 60%, 2: 30%, 3: 10%}", "{0: 60%}"},
		{"table of words", "{1: 60%, 2: 30%, 3: 10%}", "{few: 60%}"},
		{"weight", "{1: 60%, 2: 30%, 3: 10%}", "{1: many}"},
		{"stream without a name", "stream: letters", "stream: {half: true}"},
		{"stream as a list", "stream: letters", "stream: [letters]"},
		{"half", "stream: letters", "stream: {name: letters, half: yes}"},
		{"half as a text", "stream: letters", `stream: {name: letters, half: "true"}`},
		{"tries", "stream: letters", "stream: {name: letters, tries: 0}"},
		{"envelopes without a stream", "stream: envelopes, ", ""},
		{"reader of two", "reads: letters", "reads: [letters, documents]"},
		{"verified word", "match: documents", "verifies: match"},
		{"verified twice", "match: documents", "verifies: [presence, presence]"},
		{"verified nothing", "match: documents", "match: documents, verifies: []"},
		{"response of a reader", "clear: 20 s}", "clear: 20 s, policy: {no_read: read}}"},
		{"response of a feeder", "clear: 20 s}", "clear: 20 s, policy: {misfeed: stop}}"},
		{"recovery", "match: in line", "match: divert"},
		{"shift and sets", "{sets: 20000", "{shift: 8 h, sets: 20000"},
		{"neither shift nor sets", "sets: 20000, ", ""},
		{"remakes of a shift", "sets: 20000", "shift: 8 h"},
		{"remakes two ways", "{second_pass: {setup: 10 min}}", "{second_pass: {setup: 10 min}, by_hand: 60/h}"},
		{"remakes no way", "{second_pass: {setup: 10 min}}", "{}"},
		{"second pass without a setup", "{setup: 10 min}", "{}"},
		{"no sets", "sets: 20000", "sets: 0"},
	})
}

func TestSchemaRefusesWithASeason(t *testing.T) {
	data, err := os.ReadFile("testdata/good_season.yaml")
	require.NoError(t, err)
	calendar := string(data[bytes.Index(data, []byte("calendar:")):bytes.Index(data, []byte("season:"))])
	jobs := string(data[bytes.Index(data, []byte("jobs:")):bytes.Index(data, []byte("changeover:"))])
	refuses(t, string(data), []spoiling{
		{"bounds", "thickness: 0.1 mm to 2 mm", "thickness: 2 mm"},
		{"bounds without a unit", "thickness: 0.1 mm to 2 mm", "thickness: 0.1 to 2 mm"},
		{"bounds of something else", "thickness: up to 12 mm", "depth: up to 12 mm"},
		{"group without a speed", "length: 250 mm, speed: 14000/h", "length: 250 mm"},
		{"envelope", "envelope: C5", "envelope: [C5]"},
		{"envelope of no size", "{size: C4}", "{stream: envelopes}"},
		{"envelope of half a size", "{size: C4}", "{height: 229 mm}"},
		{"envelope of two sizes", "{size: C4}", "{size: C4, height: 229 mm}"},
		{"envelope with two names", "{size: C4}", "{size: C4, name: large}"},
		{"no envelope", "    envelope: C5\n", ""},
		{"paper", "80 g/m2", "80 gsm"},
		{"paper in pounds of nothing", "20 lb bond", "20 lb"},
		{"size", "{height: 99 mm, length: 210 mm}", "{height: 99 mm}"},
		{"fold", "fold: half", "fold: bifold"},
		{"thickness of two", "thickness: 0.3 mm", "thickness: 0.3 mm, paper: 80 g/m2"},
		{"documents without a stream", "stream: documents, ", ""},
		{"no jobs in the list", jobs, "jobs: []\n"},
		{"no jobs", jobs, ""},
		{"no calendar", calendar, ""},
		{"changeover of something else", "always: 5 min", "rails: 5 min"},
		{"changeover without a time", "{time: 90 s, automatic: true}", "{automatic: true}"},
		{"changeover of two times", "{time: 90 s, automatic: true}", "{time: 90 s, constant: 90 s}"},
		{"days", "days: 5", "days: 8"},
		{"clock", `"06:00"`, `"6:00"`},
		{"no shifts", `[{start: "06:00", length: 8 h}, {start: "14:00", length: 8 h}]`, "[]"},
		{"break without a length", "{after: 4 h, length: 30 min}", "{after: 4 h}"},
		{"day", "day: 3", "day: Wednesday"},
		{"order", "order: best", "order: worst"},
		{"week without sets", "{name: first, sets: {Letters: 90000}}", "{name: first}"},
		{"sets of a job", "{Letters: 90000}", "{Letters: many}"},
		{"alike", "name: first, ", "name: first, times: 0, "},
	})
}

func TestSchemaRefusesWithSeveralLines(t *testing.T) {
	data, err := os.ReadFile("testdata/good_lines.yaml")
	require.NoError(t, err)
	lines, _, _ := strings.Cut(string(data[bytes.Index(data, []byte("lines:")):]), "policy: {misfeed: divert}")
	refuses(t, string(data), []spoiling{
		{"no lines", lines, ""},
		{"an empty list of lines", lines, "lines: []\n"},
		{"line as well", "crew:", "line: {restart: 0 s, stations: []}\ncrew:"},
		{"line without a name", "name: letters\n    speed", "speed"},
		{"key of a line", "speed: 12000/h", "rated: 12000/h"},
		{"policy of a line", "policy: {misfeed: stop}", "policy: {misfed: stop}"},
		{"no work", "work: {shift: 8 h}\n", ""},
		{"line of no change", "work:", "variants: [{name: x, changes: [{line: flats}]}]\nwork:"},
	})
}

// refuses checks that neither the schema nor Load takes a good file that is spoilt.
func refuses(t *testing.T, good string, cases []spoiling) {
	t.Helper()
	s := compiled(t)
	require.NoError(t, s.Validate(asJSON(t, good)))
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			text := strings.Replace(good, c.old, c.with, 1)
			require.NotEqual(t, good, text)
			require.Error(t, s.Validate(asJSON(t, text)))
			_, err := Load("x", []byte(text))
			require.Error(t, err, "what the schema refuses does not load")
		})
	}
}

func TestSchemaRefusesUncertainty(t *testing.T) {
	refuses(t, unsureFile, []spoiling{
		{"half a way", "{seen: 214, of: 520311}", "{seen: 214}"},
		{"two ways", "{seen: 214, of: 520311}", "{seen: 214, of: 520311, low: 0, likely: 0, high: 1}"},
		{"no way", "{seen: 214, of: 520311}", "{}"},
		{"estimate of a rate", "{seen: 214, of: 520311}", "{about: 1/2500, se: 1/9000}"},
		{"unknown key", "{seen: 214, of: 520311}", "{seen: 214, feeds: 520311}"},
		{"count as a text", "seen: 214,", `seen: "214",`},
		{"of none", "of: 520311, seen: 0", "of: 0, seen: 0"},
		{"probability above 1", "high: 1}", "high: 2}"},
		{"factor as a text", "{about: 1.7,", "{about: 170%,"},
		{"count of a factor", "{about: 1.7, se: 0.6}", "{seen: 17, of: 10}"},
		{"time without a unit", "se: 1.9 s", "se: 1.9"},
		{"time in two ways", "se: 1.9 s", "se: 1.9 s, high: 60 s"},
		{"no part of a time", "clear: {lognormal: {mean: {about: 38.2 s, se: 1.9 s}, cv: {about: 0.81, se: 0.05}}}", "clear: {about: 38.2 s, se: 1.9 s}"},
		{"speed", "rated: 9000/h", "rated: {about: 9000/h, se: 10/h}"},
		{"operators", "operators: 1", "operators: {low: 1, likely: 2, high: 3}"},
	})
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
