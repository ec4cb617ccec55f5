package workbench

import (
	"net/http/httptest"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/scenarios"
)

// A command repeats what is on screen, and it is said what has to be saved first.
func TestCommand(t *testing.T) {
	x, err := scenarios.ExampleNamed("direct-mail")
	require.NoError(t, err)
	is := func(says, first string) func(string, string) {
		return func(gotSays, gotFirst string) {
			t.Helper()
			assert.Equal(t, []string{says, first}, []string{gotSays, gotFirst})
		}
	}
	as := place{Title: "direct-mail"}
	is("netrate run --example direct-mail --job a", "")(command("run", as, string(x.Data), jobArgs("a")...))
	changed := string(x.Data) + "# changed\n"
	is("netrate run my-line.yaml", "save first, under this name: the text is in no file")(command("run", as, changed))
	as = place{File: "a.yaml", Saved: sumOf(changed)}
	is("netrate sweep a.yaml", "")(command("sweep", as, changed))
	is("netrate sweep a.yaml", "save first: the text has changes")(command("sweep", as, string(x.Data)))
	assert.Equal(t, "do   # this first", withFirst("do", "this first"))
	assert.Equal(t, "do", withFirst("do", ""))
}

// What is pinned is compared by the names under which the page gives its files, no two alike.
func TestCompareCommand(t *testing.T) {
	pins := []pin{{Name: "As it is", Text: "x", Job: "b"}, {Name: "as: it is", Text: "y", Job: "b"}, {Name: "Now", Text: "z", Job: "b"}, {Name: "?", Text: "z", Job: "b"}}
	assert.Equal(t, "As it is", task{text: "x", job: "b", pins: pins}.same())
	assert.Empty(t, task{text: "x", job: "c", pins: pins}.same())
	const save = "save the file of each alternative first, under these names"
	for _, c := range []struct {
		now         task
		says, first string
	}{
		{task{text: "x", job: "b"}, "netrate compare as-it-is.yaml as-it-is-2.yaml now-2.yaml alternative.yaml --job b", save},
		{task{text: "w", job: "b"}, "netrate compare as-it-is.yaml as-it-is-2.yaml now-2.yaml alternative.yaml now.yaml --job b", save + ", and the text as now.yaml"},
		{
			task{text: "w"},
			"netrate compare as-it-is.yaml as-it-is-2.yaml now-2.yaml alternative.yaml now.yaml",
			save + ", and the text as now.yaml; each is set up for its own job here, which no command does",
		},
	} {
		c.now.pins = pins
		says, first := compareCommand(c.now)
		assert.Equal(t, []string{c.says, c.first}, []string{says, first})
	}
}

// The command in the report of a text that is in no file can be copied: nothing stands behind it.
func TestCommandOfAReport(t *testing.T) {
	x, err := scenarios.ExampleNamed("seventh-feeder")
	require.NoError(t, err)
	text := strings.Replace(string(x.Data)+"# changed\n", "min: 1000, max: 20000", "min: 20, max: 20", 1)
	a := asker{show: func(int, map[string]string) {}}
	a.answer(t.Context(), task{text: text, from: place{Title: "seventh-feeder"}, pins: []pin{{Name: "a", Text: text}, {Name: "b", Text: text + "# b\n"}}}, nil)
	for of, want := range map[string]string{"run": `(?m)netrate run \S+ --seed \d+ --reps \d+</`, "compare": `(?m)netrate compare a.yaml b.yaml --seed \d+ --reps \d+</`} {
		shown := a.answered()
		if of == "compare" {
			shown = a.comparison()
		}
		require.NotNil(t, shown)
		r, err := shown.Report(desk.Version())
		require.NoError(t, err)
		var page strings.Builder
		require.NoError(t, r.Page.HTML(&page))
		assert.Regexp(t, want, page.String())
	}
}

// Every alternative has a file: a variant one of its own.
func TestAlternativeFile(t *testing.T) {
	w := onFile(t, t.TempDir(), exampleFile(t, "seventh-feeder"))
	did(t, w, Op{Kind: "variants"})
	did(t, w, Op{Kind: "rename", Pin: 2, Name: "Größer"})
	b := &bench{work: w}
	get := func(pin string) *httptest.ResponseRecorder {
		r := httptest.NewRecorder()
		b.alternative(r, httptest.NewRequest("GET", "/alternative.yaml?pin="+pin, nil))
		return r
	}
	base, variant := get("0"), get("2")
	assert.Equal(t, w.pins[0].Text, base.Body.String())
	assert.Equal(t, "attachment; filename=base.yaml", base.Header().Get("Content-Disposition"))
	assert.Equal(t, "attachment; filename*=utf-8''gr%C3%B6%C3%9Fer.yaml", variant.Header().Get("Content-Disposition"))
	of, _, err := w.pins[2].alternative()
	require.NoError(t, err)
	alone, _, err := pin{Name: w.pins[2].Name, Text: variant.Body.String()}.alternative()
	require.NoError(t, err)
	assert.Equal(t, of, alone, "it is simulated as the variant is")
	for _, no := range []string{"3", "-1", "", "x"} {
		assert.Equal(t, 409, get(no).Code)
	}
}
