package workbench

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/scenarios"
)

// exampleWork is the work on an example, which is kept nowhere.
func exampleWork(t *testing.T, name string) *work {
	t.Helper()
	x, err := scenarios.ExampleNamed(name)
	require.NoError(t, err)
	w := &work{history: history{place: place{Title: name}}}
	w.text = string(x.Data)
	return w
}

// addedSomewhere puts a part behind one of the stations, and returns what was said of the others.
func (w *work) addedSomewhere(t *testing.T, part string) (wrong []string, added bool) {
	t.Helper()
	sc, err := w.load()
	require.NoError(t, err)
	for _, s := range tracksOf(sc)[0].Stations {
		d, err := w.add(Op{Part: part, After: s.Name})
		if err == nil {
			_, err := w.load()
			require.NoError(t, err)
			return wrong, d.text
		}
		wrong = append(wrong, err.Error())
	}
	return wrong, false
}

// Every part of the palette can be put into a line, and the text is then one that netrate check accepts.
func TestPaletteIsAccepted(t *testing.T) {
	for _, p := range palette() {
		for _, example := range []string{"statements", "small-shop"} {
			t.Run(p.Name+" into "+example, func(t *testing.T) {
				w := exampleWork(t, example)
				if p.Reads && example != "statements" {
					t.Skip("there is nothing to read: TestReaderNeedsAStream")
				}
				wrong, added := w.addedSomewhere(t, p.Name)
				assert.True(t, added, "%q", wrong)
			})
		}
	}
}

// A reader is refused where there is nothing to read; what is said then leads to a line that has one.
func TestReaderNeedsAStream(t *testing.T) {
	w := exampleWork(t, "small-shop")
	before := w.text
	wrong, added := w.addedSomewhere(t, "reader")
	require.False(t, added)
	assert.Contains(t, wrong[0], "no station of the line has a stream")
	assert.Equal(t, before, w.text)
	sc, err := w.load()
	require.NoError(t, err)
	_, err = w.set(Op{Path: tracksOf(sc)[0].Stations[0].Path + ".stream", Value: "documents"})
	require.NoError(t, err)
	wrong, added = w.addedSomewhere(t, "reader")
	assert.True(t, added, "%q", wrong)
	assert.Contains(t, w.text, "reads: 'documents'")
}
