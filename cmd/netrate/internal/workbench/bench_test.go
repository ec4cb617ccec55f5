package workbench

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"netrate/scenarios"
)

// BenchmarkFirstAnswer is what the server does between a change and the first new answer, and BenchmarkEdit
// what it does before that; of two examples, and of a line of 64 stations.
func BenchmarkFirstAnswer(b *testing.B) {
	for _, name := range []string{"direct-mail", "statements", "64 stations"} {
		b.Run(strings.ReplaceAll(name, " ", "-"), func(b *testing.B) {
			text := textNamed(b, name)
			for b.Loop() {
				sc, err := scenarios.Load("x", []byte(text))
				require.NoError(b, err)
				q, err := newQuestion(sc, place{Title: "x"}, text, "")
				require.NoError(b, err)
				x, err := q.ask(b.Context(), fixed(q, firstShifts), 0, nil)
				require.NoError(b, err)
				withTrack(sc, "", answerRegions(x, 0))
			}
		})
	}
}

func BenchmarkEdit(b *testing.B) {
	for _, name := range []string{"direct-mail", "64 stations"} {
		b.Run(strings.ReplaceAll(name, " ", "-"), func(b *testing.B) {
			w := &work{history: history{text: textNamed(b, name)}}
			n := 0
			for b.Loop() {
				n++
				_, err := w.do(Op{Kind: "set", Path: "stations.letter.hopper.pieces", Value: fmt.Sprint(1000 + n%7), Group: "g"})
				require.NoError(b, err)
			}
		})
	}
}

// textNamed returns an example, or direct-mail with so many feeders that it has 64 stations.
func textNamed(t testing.TB, name string) string {
	t.Helper()
	if name != "64 stations" {
		x, err := scenarios.ExampleNamed(name)
		require.NoError(t, err)
		return string(x.Data)
	}
	x, err := scenarios.ExampleNamed("direct-mail")
	require.NoError(t, err)
	w := &work{history: history{text: string(x.Data)}}
	for range 54 {
		_, err := w.do(Op{Kind: "add", Part: "feeder rotary", After: "flyer"})
		require.NoError(t, err)
	}
	return w.text
}
