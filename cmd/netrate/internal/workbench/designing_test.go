package workbench

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/scenarios"
)

// A design is kept as a variant of its file, behind the line as it is; what it cannot be is said.
func TestPinDesign(t *testing.T) {
	w := onFile(t, t.TempDir(), exampleFile(t, "design-budget"))
	did(t, w, Op{Kind: "design", Choices: []string{"track gate", "exit gate"}})
	require.Len(t, w.pins, 2)
	assert.Equal(t, []string{"base", "track gate, exit gate"}, []string{w.pins[0].Name, w.pins[1].Name})
	sc, err := scenarios.Load("pinned", []byte(w.pins[1].Text))
	require.NoError(t, err)
	made, err := sc.Design.Designed([]int{1, 1, 0, 0, 0, 0})
	require.NoError(t, err)
	assert.Equal(t, made.Line, sc.Variants[0].Line)

	d, err := w.do(Op{Kind: "design", Choices: []string{"track gate", "rotary for all four"}})
	require.NoError(t, err)
	assert.Contains(t, d.said, "It costs 112,000, and the limit is 90,000.")
	for want, choices := range map[string][]string{
		"exit gate needs track gate": {"exit gate"}, `no choice of the design is named "x"`: {"x"}, "that is the line as it is": nil,
	} {
		_, err := w.do(Op{Kind: "design", Choices: choices})
		assert.ErrorContains(t, err, want)
	}
	did(t, w, Op{Kind: "undo"})
	did(t, w, Op{Kind: "undo"})
	assert.Empty(t, w.pins)
}

// The picture has the designs of an answer within its frame, the dearest on the right, and what is the most of what is
// looked for on top; of anything else there is none.
func TestFrontierOf(t *testing.T) {
	x, found := frontierOf(`{"finding": "Buy A.", "goal": "net_rate", "best": 2, "advice": 1, "finalists": [
		{"name": "base", "choices": [], "on_the_frontier": true, "in_the_goal": {"mean": 5000, "low": 4990, "high": 5010}},
		{"name": "A", "choices": ["gate"], "price": 500, "on_the_frontier": true, "in_the_goal": {"mean": 6000, "low": 5990, "high": 6010}},
		{"name": "B", "choices": ["x"], "price": 900, "in_the_goal": {"mean": 5500, "low": null, "high": null}}]}` + "\nReport")
	require.NotNil(t, x)
	assert.Equal(t, "Buy A.", found)
	assert.Equal(t, "A: gate, for 500: 6,000 ± 10 an hour", x.Points[1].Says)
	assert.Less(t, x.Points[0].X, x.Points[1].X)
	assert.Greater(t, x.Points[0].Y, x.Points[1].Y)
	assert.True(t, x.Points[1].Buy)
	assert.Equal(t, `["gate"]`, x.Points[1].List())
	assert.Equal(t, "70.0,198.4 297.8,198.4 297.8,41.6", x.Line(), "of what costs more and delivers less there is no step")
	assert.Equal(t, "M297.8 43.1V40.0", x.Points[1].Bar)
	assert.Equal(t, "B: x, for 900: 5,500 an hour, interval not known", x.Points[2].Says)
	assert.Empty(t, x.Points[2].Bar)
	x, _ = frontierOf(`{"goal": "cost_per_thousand", "advice": 1, "finalists": [{"name": "base", "choices": [], "in_the_goal": {"mean": 21.5, "low": 20, "high": 23}},
		{"name": "A", "choices": ["gate"], "price": 500, "in_the_goal": {"mean": 19.25, "low": 18, "high": 20}}], "comparison": {"money": {"currency": "EUR"}}}`)
	require.NotNil(t, x)
	assert.Equal(t, "A: gate, for 500: 19.25 EUR for 1,000, with the price; 95 draws in 100 lie between 18.00 and 20.00", x.Points[1].Says)
	assert.Less(t, x.Points[0].Y, x.Points[1].Y, "what costs more stands higher")
	for _, no := range []string{"", "interrupted", "{}", `{"finalists": [{}]}`} {
		x, _ := frontierOf(no)
		assert.Nil(t, x, no)
	}
}
