package study

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/model"
	"netrate/sim"
)

// A question that lacks its line, or names two alternatives alike, is refused in words.
func TestCarelessQuestions(t *testing.T) {
	ctx, plan := t.Context(), sim.Plan{Seed: 1, Min: 2, Max: 2}
	two := func(a, b Alternative) error {
		_, err := Comparison{Alternatives: []Alternative{a, b}, Plan: plan}.Ask(ctx, nil)
		return err
	}
	line, group := &model.Line{Name: "l"}, &model.LineGroup{}
	for want, ask := range map[string]func() error{
		"the question has no line": func() error { return two(Alternative{Name: "a", Line: line}, Alternative{Name: "b"}) },
		"has both": func() error {
			return two(Alternative{Name: "a", Line: line}, Alternative{Name: "b", Line: line, Group: group})
		},
		`two alternatives are called "a"`: func() error { return two(Alternative{Name: "a", Line: line}, Alternative{Name: "a", Line: line}) },
		"a group of lines has no lines": func() error {
			_, err := GroupRun{Alternative: Alternative{Group: group}, Plan: plan}.Ask(ctx, nil)
			return err
		},
		"drawn 3 times, want 0 for none, or 40 or more": func() error {
			_, err := Run{Alternative: Alternative{Line: line}, Plan: plan, Draws: 3}.Ask(ctx, nil)
			return err
		},
		"a replay is of one line and its log": func() error { _, err := Replay{Plan: plan}.Ask(ctx, nil); return err },
		"the worth is asked of no comparison": func() error { _, err := Worth{}.Ask(); return err },
	} {
		assert.ErrorContains(t, ask(), want)
	}
	for _, ask := range []func() error{
		func() error { _, err := Incident{}.Ask(); return err },
		func() error { _, err := Strategies{Plan: plan}.Ask(ctx, nil); return err },
		func() error { _, err := (&SensitivityAnalysis{Plan: plan}).Ask(ctx, nil); return err },
	} {
		assert.ErrorIs(t, ask(), errNoLine)
	}
}
