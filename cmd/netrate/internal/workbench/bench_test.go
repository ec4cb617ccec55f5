package workbench

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"netrate/scenarios"
)

// BenchmarkFirstAnswer is what the server does between a change and the first new answer, and BenchmarkEdit
// what it does before that; of two examples, and of a line of 64 stations, alone and with twelve pins.
func BenchmarkFirstAnswer(b *testing.B) {
	for _, x := range []struct {
		name string
		pins int
	}{{"direct-mail", 0}, {"statements", 0}, {"64 stations", 0}, {"64 stations", 12}} {
		b.Run(fmt.Sprintf("%s/pins=%d", strings.ReplaceAll(x.name, " ", "-"), x.pins), func(b *testing.B) {
			t := task{text: textNamed(b, x.name), from: place{Title: "x"}}
			for i := range x.pins {
				t.pins = append(t.pins, pin{Name: fmt.Sprint(i), Text: t.text})
			}
			var a asker
			for b.Loop() {
				ctx, cancel := context.WithCancel(b.Context())
				a.show = func(_ int, regions map[string]string) {
					if regions["rate"] != "" {
						cancel()
					}
				}
				a.answer(ctx, t, nil)
				require.Error(b, ctx.Err(), "an answer was shown")
				a.last = nil
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
func textNamed(tb testing.TB, name string) string {
	tb.Helper()
	if name != "64 stations" {
		x, err := scenarios.ExampleNamed(name)
		require.NoError(tb, err)
		return string(x.Data)
	}
	x, err := scenarios.ExampleNamed("direct-mail")
	require.NoError(tb, err)
	w := &work{history: history{text: string(x.Data)}}
	for range 54 {
		_, err := w.do(Op{Kind: "add", Part: "feeder rotary", After: "flyer"})
		require.NoError(tb, err)
	}
	return w.text
}
