package workbench

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/scenarios"
)

// onFile begins the work on a file of a text, with a journal in the directory dir.
func onFile(t *testing.T, dir, file string) *work {
	t.Helper()
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	from := place{File: file, Title: filepath.Base(file)}
	text, err := from.read(string(data))
	require.NoError(t, err)
	w, err := openWork(desk.Env{}, dir, from, text)
	require.NoError(t, err)
	t.Cleanup(func() { w.journal.close() })
	return w
}

// exampleFile writes an example to a file.
func exampleFile(t *testing.T, name string, written ...string) string {
	t.Helper()
	x, err := scenarios.ExampleNamed(name)
	require.NoError(t, err)
	file := filepath.Join(t.TempDir(), "line.yaml")
	require.NoError(t, os.WriteFile(file, []byte(strings.NewReplacer(written...).Replace(string(x.Data))), 0o600))
	return file
}

func did(t *testing.T, w *work, op Op) {
	t.Helper()
	_, err := w.do(op)
	require.NoError(t, err, op)
}

// What was not saved comes back, with its history and its pins, whenever the program died: after any
// number of the bytes that it wrote.
func TestJournalBringsBack(t *testing.T) {
	file, dir := exampleFile(t, "direct-mail"), t.TempDir()
	first, err := os.ReadFile(file)
	require.NoError(t, err)
	w := onFile(t, dir, file)
	var after []string
	for _, op := range []Op{
		{Kind: "set", Path: "crew.operators", Value: "3"},
		{Kind: "add", Part: "feeder rotary", After: "flyer"},
		{Kind: "pin", Name: "with seven"},
		{Kind: "undo"},
		{Kind: "redo"},
		{Kind: "remove", Name: "coupon"},
	} {
		did(t, w, op)
		after = append(after, w.text)
	}
	journal := journalName(dir, file, "")
	all, err := os.ReadFile(journal)
	require.NoError(t, err)

	again := onFile(t, dir, file)
	assert.Equal(t, w.text, again.text)
	assert.Equal(t, w.pins, again.pins)
	assert.True(t, again.restored)
	for range again.done {
		again.undo()
	}
	assert.Equal(t, string(first), again.text, "undo leads back to the file")

	for n := len(all); n > 0; n -= 97 { // torn anywhere
		require.NoError(t, os.WriteFile(journal, all[:n], 0o600))
		torn := onFile(t, dir, file)
		assert.Contains(t, append(after, string(first)), torn.text, n)
		torn.journal.close()
	}
}

// A file is saved as it was written: line ends, byte order mark. What somebody else has made of it is
// noticed, and neither is lost.
func TestSaveAndOthers(t *testing.T) {
	for name, written := range map[string][]string{
		"as it is": {}, "CRLF": {"\n", "\r\n"}, "byte order mark": {"# yaml-language", "\ufeff# yaml-language"}, "mixed": {"\nwork:", "\r\nwork:"},
	} {
		file := exampleFile(t, "direct-mail", written...)
		before, err := os.ReadFile(file)
		require.NoError(t, err)
		w := onFile(t, t.TempDir(), file)
		assert.False(t, w.dirty(), name)
		did(t, w, Op{Kind: "set", Path: "crew.operators", Value: "3"})
		assert.True(t, w.dirty(), name)
		now, err := os.ReadFile(file)
		require.NoError(t, err)
		assert.Equal(t, string(before), string(now), "nothing is saved unless asked")
		did(t, w, Op{Kind: "save"})
		now, err = os.ReadFile(file)
		require.NoError(t, err)
		assert.Equal(t, strings.Replace(string(before), "operators: 2", "operators: 3", 1), string(now), name)
		assert.False(t, w.dirty(), name)

		theirs := strings.Replace(string(before), "operators: 2", "operators: 4", 1)
		require.NoError(t, os.WriteFile(file, []byte(theirs), 0o600))
		assert.True(t, w.look(), name)
		assert.False(t, w.look(), "it is told once")
		did(t, w, Op{Kind: "set", Path: "crew.operators", Value: "5"})
		_, err = w.do(Op{Kind: "save"})
		require.ErrorContains(t, err, "somebody else")
		now, err = os.ReadFile(file)
		require.NoError(t, err)
		assert.Equal(t, theirs, string(now), "theirs is not written over")

		did(t, w, Op{Kind: "save", Over: true})
		require.Len(t, w.pins, 1)
		assert.Contains(t, w.pins[0].Text, "operators: 4", "theirs is kept")

		require.NoError(t, os.WriteFile(file, []byte(theirs), 0o600))
		assert.True(t, w.look())
		did(t, w, Op{Kind: "theirs"})
		assert.Contains(t, w.text, "operators: 4")
		did(t, w, Op{Kind: "undo"})
		assert.Contains(t, w.text, "operators: 5", "mine comes back")
	}
}

// Files are written where the user named them, and nowhere else.
func TestSaveAs(t *testing.T) {
	file := exampleFile(t, "direct-mail")
	w := onFile(t, t.TempDir(), file)
	for _, bad := range []string{"../x.yaml", "/etc/x.yaml", `..\x.yaml`, "a/b", ".", "..", ".hidden", "x\x00.yaml", "C:x.yaml", " ", "line.yaml/", "x\n.yaml"} {
		_, err := w.do(Op{Kind: "save", Save: bad})
		assert.Error(t, err, bad)
	}
	left, err := os.ReadDir(filepath.Dir(file))
	require.NoError(t, err)
	assert.Len(t, left, 1, "nothing was written")
	did(t, w, Op{Kind: "save", Save: "other"})
	assert.FileExists(t, filepath.Join(filepath.Dir(file), "other.yaml"))
	assert.Equal(t, "other.yaml", w.Title)
	_, err = w.do(Op{Kind: "save", Save: "line.yaml"})
	assert.ErrorContains(t, err, "is there already")
}

// Alternatives are pinned, named, ordered and dropped.
func TestPins(t *testing.T) {
	w := onFile(t, t.TempDir(), exampleFile(t, "seventh-feeder"))
	did(t, w, Op{Kind: "variants"})
	require.Len(t, w.pins, 3)
	assert.NotContains(t, w.text, "voucher")
	did(t, w, Op{Kind: "pin", Name: "mine"})
	did(t, w, Op{Kind: "base", Pin: 3})
	assert.Equal(t, "mine", w.pins[0].Name)
	did(t, w, Op{Kind: "rename", Pin: 0, Name: "ours"})
	did(t, w, Op{Kind: "drop", Pin: 1})
	assert.Equal(t, "ours", w.pins[0].Name)
	assert.Len(t, w.pins, 3)
	for want, op := range map[string]Op{
		"called \"ours\" already": {Kind: "pin", Name: "ours"}, "is what stands in the text": {Kind: "pin", Name: "now"},
		"no such alternative": {Kind: "drop", Pin: 3}, "no such alternative ": {Kind: "base", Pin: -1}, "want a name": {Kind: "rename", Pin: 0, Name: " "},
		"no operation": {Kind: "nothing"},
	} {
		_, err := w.do(op)
		assert.ErrorContains(t, err, strings.TrimSpace(want))
	}
	did(t, w, Op{Kind: "set", Path: "crew.operators", Value: "9"})
	did(t, w, Op{Kind: "take", Pin: 0})
	assert.NotContains(t, w.text, "operators: 9")
}

// Mistakes are said in the words of netrate check, and change nothing.
func TestSetRefuses(t *testing.T) {
	w := onFile(t, t.TempDir(), exampleFile(t, "direct-mail"))
	before := w.text
	for want, op := range map[string]Op{
		"misfeed is 7, want a probability": {Kind: "set", Path: "stations.letter.misfeed", Value: "7"},
		"no station is named":              {Kind: "set", Path: "stations.nobody.misfeed", Value: "1/7"},
		"nothing of the palette":           {Kind: "add", Part: "x"},
	} {
		_, err := w.do(op)
		assert.ErrorContains(t, err, want)
	}
	_, err := w.do(Op{Kind: "set", Path: "stations.letter.hopper.refill", Value: ""})
	require.Error(t, err, "what is needed is not taken away")
	assert.Equal(t, before, w.text)
	did(t, w, Op{Kind: "set", Path: "stations.letter.source", Value: "a log, of March: 3 jams"})
	assert.Contains(t, w.text, "source: 'a log, of March: 3 jams'")
	did(t, w, Op{Kind: "set", Path: "stations.letter.source", Value: ""})
	assert.NotContains(t, w.text, "3 jams")
}

// All alternatives can be given the prices and volumes of the text, and keep what they cost to have.
func TestPrices(t *testing.T) {
	w := onFile(t, t.TempDir(), exampleFile(t, "gate-worth"))
	did(t, w, Op{Kind: "variants"})
	n := len(w.pins)
	require.Positive(t, n)
	did(t, w, Op{Kind: "set", Path: "costs.operator_hour", Value: "41"})
	did(t, w, Op{Kind: "prices"})
	for _, p := range w.pins {
		assert.Contains(t, p.Text, "operator_hour: 41")
	}
	bare := onFile(t, t.TempDir(), exampleFile(t, "direct-mail"))
	_, err := bare.do(Op{Kind: "prices"})
	assert.ErrorContains(t, err, "nothing of costs")
}

// What stands beside the text is undone with it: the title, the file and the pins of another file come back,
// and what was saved meanwhile stays where it was saved.
func TestUndoBesideTheText(t *testing.T) {
	t.Chdir(t.TempDir()) // what has no file yet is saved here
	file, dir := exampleFile(t, "seventh-feeder"), t.TempDir()
	w := onFile(t, dir, file)
	first := w.text
	did(t, w, Op{Kind: "variants"})
	require.Len(t, w.pins, 3)
	did(t, w, Op{Kind: "undo"})
	assert.Empty(t, w.pins)
	assert.Equal(t, first, w.text, "in one step")
	assert.False(t, w.dirty())
	did(t, w, Op{Kind: "redo"})
	require.Len(t, w.pins, 3)
	did(t, w, Op{Kind: "pin", Name: "mine"})
	did(t, w, Op{Kind: "undo"})
	assert.Len(t, w.pins, 3, "a pin is taken back")
	did(t, w, Op{Kind: "save"})

	did(t, w, Op{Kind: "example", Name: "direct-mail"})
	assert.Empty(t, w.pins, "they are of another line")
	assert.Equal(t, "direct-mail", w.Title)
	assert.Empty(t, w.File)
	did(t, w, Op{Kind: "undo"})
	assert.Len(t, w.pins, 3)
	assert.Equal(t, "line.yaml", w.Title)
	assert.Equal(t, file, w.File)
	assert.False(t, w.dirty(), "it is what was saved")
	did(t, w, Op{Kind: "redo"})
	did(t, w, Op{Kind: "save", Save: "other"})
	did(t, w, Op{Kind: "set", Path: "crew.operators", Value: "3"})
	did(t, w, Op{Kind: "undo"})
	assert.Equal(t, "other.yaml", w.Title)
	assert.False(t, w.dirty())
	did(t, w, Op{Kind: "undo"})
	did(t, w, Op{Kind: "set", Path: "crew.operators", Value: "4"})

	again := onFile(t, dir, file)
	assert.Equal(t, w.text, again.text)
	assert.Equal(t, w.pins, again.pins)
	assert.Equal(t, w.place, again.place)
}

// Money is begun with all that belongs together, the volume among it.
func TestMoneyIsBegun(t *testing.T) {
	w := onFile(t, t.TempDir(), exampleFile(t, "direct-mail"))
	var names []string
	for _, f := range formOf(w.text, "costs").Begin {
		names = append(names, f.Name)
	}
	assert.ElementsMatch(t, []string{"currency", "life", "rate", "volume"}, names)
	did(t, w, Op{Kind: "set", Path: "costs", Value: "{currency: EUR, life: 8, rate: 8%, volume: 5000000}"})
	x := formOf(w.text, "costs")
	assert.Empty(t, x.Begin)
	at := slices.IndexFunc(x.Fields, func(f fieldShown) bool { return f.Name == "volume" })
	require.GreaterOrEqual(t, at, 0, "it is no more that can be said")
	assert.True(t, x.Fields[at].Needed)
}

// A station that slows the line says so.
func TestSlowedBy(t *testing.T) {
	w := onFile(t, t.TempDir(), exampleFile(t, "direct-mail"))
	d, err := w.do(Op{Kind: "add", Part: "feeder friction", After: "flyer"})
	require.NoError(t, err)
	assert.Equal(t, "The line now runs at 12,000/h, the most new feeder allows.", d.note)
	d, err = w.do(Op{Kind: "add", Part: "feeder friction", After: "flyer"})
	require.NoError(t, err)
	assert.Empty(t, d.note, "it is no slower than before")
}
