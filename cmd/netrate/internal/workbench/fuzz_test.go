package workbench

import (
	"encoding/json"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/scenarios"
)

// strangeValues are what is put into every field of every operation.
func strangeValues(w *work) []string {
	return []string{
		"", " ", "0", "-1", "7", "1e300", "NaN", ".inf", "1/0", "0.04 %", "45 s", "stop", "{", "}", "[", "'", `"`, "*a", "!!str x", "a: b", "a # b", "\n", "\x00", "½", "\xff",
		"letter", "stations.letter.misfeed", "line", "variants", "stations", "feeder rotary", "{low: 1, likely: 2, high: 3}", strings.Repeat("x", 5000), w.Title,
	}
}

// Every operation with every value, one after the other: none of them ends the work, none that is refused
// changes it, the text stays a scenario unless it was typed, and all is undone to the same bytes.
func TestEveryOperationWithEveryValue(t *testing.T) {
	x, err := scenarios.ExampleNamed("direct-mail")
	require.NoError(t, err)
	t.Chdir(t.TempDir())
	w, err := openWork(desk.Env{}, t.TempDir(), place{Title: "direct-mail"}, string(x.Data))
	require.NoError(t, err)
	t.Cleanup(func() { w.journal.close() })
	for kind := range operations {
		if kind == "save" { // see TestSaveAs
			continue
		}
		for _, v := range strangeValues(w) {
			for _, op := range []Op{
				{Kind: kind, Path: v, Value: "1", Name: "letter", At: math.MaxInt},
				{Kind: kind, Path: "stations.letter.misfeed", Value: v, Name: v, At: len(v), Part: v, After: "letter"},
				{Kind: kind, Name: "letter", At: -len(v), Part: "feeder rotary", After: v},
				{Kind: kind, Line: v, Name: "letter", Part: "feeder rotary"},
				{Kind: kind, Pin: len(v) - 1, Name: v, Text: v, Edits: []json.RawMessage{json.RawMessage(strconv.Quote(v))}},
			} {
				before, steps := w.text, len(w.done)
				_, err := w.do(op)
				if err != nil {
					require.Equal(t, before, w.text, "%+v", op)
					require.Len(t, w.done, steps, "%+v", op)
					continue
				}
				_, wrong := scenarios.Load("x", []byte(w.text))
				if wrong != nil && kind != "open" && kind != "fitted" && kind != "undo" && kind != "redo" {
					_, was := scenarios.Load("x", []byte(before))
					require.Error(t, was, "%+v: %v", op, wrong)
				}
				region("form", formOf(w.text, op.Path))
			}
		}
		did(t, w, Op{Kind: "example", Name: "direct-mail"})
	}
	for {
		if _, changed := w.undo(); !changed {
			break
		}
	}
	require.Equal(t, string(x.Data), w.text)
}

// Whatever is typed into the editor is kept as it is, and no page of it fails.
func FuzzTyped(f *testing.F) {
	f.Add("name: x\nline:\n  stations:\n    - {kind: feeder}\n", "stations.x")
	f.Add("a: &b [*b]\n", "crew")
	f.Add("\ufeff---\n", "line")
	f.Fuzz(func(t *testing.T, text, path string) {
		var as place
		read, err := as.read(text)
		if err != nil {
			return
		}
		w := &work{history: history{place: as, text: read}}
		require.Equal(t, text, w.bytes())
		region("form", formOf(read, path))
	})
}
