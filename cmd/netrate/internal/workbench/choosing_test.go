package workbench

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/present"
	"netrate/model/order"
	"netrate/model/seasons"
	"netrate/model/study"
	"netrate/scenarios"
)

// What is optional in a plan is switched beside the text: it is undone, comes back after a crash, and is no more where
// another file is opened. What is not there cannot be chosen.
func TestChoose(t *testing.T) {
	file, dir := exampleFile(t, "nine-jobs"), t.TempDir()
	w := onFile(t, dir, file)
	text := w.text
	d, err := w.do(Op{Kind: "choose", Choices: []string{"somebody hired", "Saturday morning"}})
	require.NoError(t, err)
	assert.Equal(t, "Saturday morning and somebody hired are chosen. The plan is made with that.", d.said)
	assert.Equal(t, []string{"Saturday morning", "somebody hired"}, w.chosen)
	_, err = w.do(Op{Kind: "choose", Choices: []string{"one is sick"}})
	assert.ErrorContains(t, err, `nothing that is optional under staff is named "one is sick"`)
	did(t, w, Op{Kind: "set", Path: "crew.operators", Value: "4"}) // something that was not saved
	assert.Equal(t, w.chosen, onFile(t, dir, file).chosen)
	did(t, w, Op{Kind: "undo"})
	did(t, w, Op{Kind: "undo"})
	assert.Empty(t, w.chosen)
	did(t, w, Op{Kind: "redo"})
	assert.Len(t, w.chosen, 2)
	assert.Equal(t, text, w.text)
	did(t, w, Op{Kind: "example", Name: "direct-mail"})
	assert.Empty(t, w.chosen)
	_, err = w.do(Op{Kind: "choose"})
	assert.ErrorContains(t, err, "has no plan")
}

// Each switch has its price; jobs of the plan with what is chosen are moved in the order that was found for it, and not
// in that of the plan without.
func TestOptionalOfAPlan(t *testing.T) {
	w := onFile(t, t.TempDir(), exampleFile(t, "nine-jobs"))
	sc, err := w.load()
	require.NoError(t, err)
	shown := optionalOf(sc, []string{"Saturday morning"})
	assert.Contains(t, shown, `data-optional="Saturday morning" checked> Saturday morning, 620<`)
	assert.Contains(t, shown, `data-optional="somebody hired"> somebody hired, 1,500<`)
	assert.Contains(t, shown, "Together 620")
	assert.Equal(t, "90: 3 days at 30", priceOf(seasons.Price{Each: 30, Times: 3, Per: seasons.PerDay}))

	var p planner
	p.keep(keyOf(w.text, []string{"Saturday morning"}), &study.PlansPlan{Made: &seasons.Made{Plan: sc.Plan.Plan, Assignment: order.Assignment{Order: [][]int{{0, 1, 2, 3, 4}, {5, 6, 7, 8}}}}})
	assert.Nil(t, p.found(w.text, nil))
	found := p.found(w.text, []string{"gone", "Saturday morning"})
	require.NotNil(t, found)
	w.chosen = []string{"Saturday morning"}
	d, err := w.do(Op{Kind: "plan", Name: "accounts south", Line: "flats", At: 1, found: found})
	require.NoError(t, err)
	assert.Equal(t, "accounts south stands at place 2 of flats.", d.said)
	sc, err = w.load()
	require.NoError(t, err)
	assert.Equal(t, [][]int{{0, 1, 2, 4}, {5, 3, 6, 7, 8}}, sc.Plan.Order)
}

func TestServiceOf(t *testing.T) {
	for text, want := range map[string]string{"90": "90%", " 99.9": "99.9%", "50": "50%", "": "", "49.9": "", "100": "", "NaN": "", "x": ""} {
		got, err := serviceOf(text)
		assert.Equal(t, want, got, text)
		assert.Equal(t, want == "", err != nil, text)
	}
}

// What is worth choosing is given back as switches; of what is chosen for some days only it is said that they take it
// whole.
func TestChoiceOf(t *testing.T) {
	answer := func(name string) present.Plans {
		return present.Plans{PlansAnswer: &study.PlansAnswer{Chosen: 1, Nearest: -1, Plans: []study.PlansPlan{{Name: scenarios.BaseName}, {Name: name, Chosen: []string{"hired"}}}}}
	}
	assert.Equal(t, &choiceFound{Names: []string{"hired"}, List: `["hired"]`, Whole: true, Kept: true}, choiceOf(answer("with hired")))
	assert.False(t, choiceOf(answer("with hired (week 1 day 4)")).Whole)
}
