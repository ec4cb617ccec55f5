package workbench

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/scenarios"
)

// A pin is taken with its job, and undo brings back the one before; so it does where the job alone changes.
func TestTakenWithItsJob(t *testing.T) {
	w := onFile(t, t.TempDir(), exampleFile(t, "direct-mail"))
	did(t, w, Op{Kind: "job", Name: "a"})
	did(t, w, Op{Kind: "pin", Name: "for a"})
	did(t, w, Op{Kind: "job", Name: "b"})
	did(t, w, Op{Kind: "set", Path: "crew.operators", Value: "3"})
	text := w.text
	did(t, w, Op{Kind: "take", Pin: 0})
	assert.Equal(t, "a", w.job)
	assert.Equal(t, w.pins[0].Text, w.text)
	did(t, w, Op{Kind: "undo"})
	assert.Equal(t, []string{"b", text}, []string{w.job, w.text})
	did(t, w, Op{Kind: "undo"})
	did(t, w, Op{Kind: "undo"})
	assert.Equal(t, "a", w.job)
}

// What leaves all as it was is no step.
func TestNoStepWithoutAChange(t *testing.T) {
	w := onFile(t, t.TempDir(), exampleFile(t, "direct-mail"))
	did(t, w, Op{Kind: "pin", Name: "x"})
	for _, op := range []Op{{Kind: "base"}, {Kind: "rename", Name: "x"}, {Kind: "take"}, {Kind: "job"}} {
		did(t, w, op)
	}
	assert.Len(t, w.done, 1)
}

// A name that is made for a pin is one that it can have.
func TestPinName(t *testing.T) {
	w := &work{history: history{pins: []pin{{Name: "a"}, {Name: "a 2"}}}}
	assert.Equal(t, "a 4", w.pinName("a", "a 3"))
	assert.Equal(t, "now 2", w.pinName("now"))
}

// A design is pinned in a file that has a variant of its name already.
func TestPinDesignBesideAVariant(t *testing.T) {
	file := exampleFile(t, "design-budget")
	w := onFile(t, t.TempDir(), file)
	text, err := scenarios.WithDesigned("x", []byte(w.text), "track gate", []int{1, 0, 0, 0, 0, 0})
	require.NoError(t, err)
	w.text = string(text)
	did(t, w, Op{Kind: "design", Choices: []string{"track gate"}})
	assert.Equal(t, "track gate 2", w.pins[1].Name)
}

// A variant and a design are taken with their changes made: the line is the one that was compared.
func TestVariantTaken(t *testing.T) {
	for _, x := range []struct {
		example string
		op      Op
	}{{"seventh-feeder", Op{Kind: "variants"}}, {"three-offers", Op{Kind: "variants"}}, {"design-budget", Op{Kind: "design", Choices: []string{"track gate"}}}} {
		w := onFile(t, t.TempDir(), exampleFile(t, x.example))
		did(t, w, x.op)
		want, _, err := w.pins[1].alternative()
		require.NoError(t, err)
		before := w.text
		did(t, w, Op{Kind: "take", Pin: 1})
		sc, err := w.load()
		require.NoError(t, err)
		got, err := alternativeOf(sc, want.Name, w.job)
		require.NoError(t, err)
		assert.Equal(t, want.Line, got.Line, x.example)
		assert.Equal(t, want.Costs, got.Costs, x.example)
		did(t, w, Op{Kind: "undo"})
		assert.Equal(t, before, w.text)
	}
}

// What a file was opened with is pinned after it was changed, whatever was opened before it.
func TestPinOpened(t *testing.T) {
	w := onFile(t, t.TempDir(), exampleFile(t, "direct-mail"))
	did(t, w, Op{Kind: "set", Path: "crew.operators", Value: "9"})
	did(t, w, Op{Kind: "example", Name: "small-shop"})
	opened := w.text
	_, err := w.do(Op{Kind: "before"})
	require.ErrorContains(t, err, "as it was when it was opened")
	did(t, w, Op{Kind: "set", Path: "crew.operators", Value: "3"})
	did(t, w, Op{Kind: "pin", Name: "as it was"})
	did(t, w, Op{Kind: "job", Name: "a"})
	did(t, w, Op{Kind: "before"})
	assert.Equal(t, pin{Name: "as it was 2", Text: opened}, w.pins[1])
}
