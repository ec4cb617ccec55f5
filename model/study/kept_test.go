package study_test

import (
	"context"
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/study"
	"netrate/sim"
)

// alternatives returns the line of the examples, and others.
func alternatives() []study.Alternative {
	second, faster := twoInserts(), twoInserts()
	second.Crew.Operators = 2
	faster.Stations[3].(*model.Inserter).Rated = 11_000
	return []study.Alternative{
		{Name: "base", Line: twoInserts()}, {Name: "second operator", Line: second}, {Name: "faster inserter", Line: faster},
	}
}

// closeOnes returns three lines that differ by little. Their inserters have different names, and so
// random events of their own, so that it takes a while to tell the lines apart.
func closeOnes() []study.Alternative {
	all := alternatives()
	for i, walk := range []sim.Seconds{10, 9.5, 9} {
		all[i].Line = twoInserts()
		all[i].Line.Stations[3].(*model.Inserter).Name = all[i].Name
		all[i].Line.Crew.Walk = sim.Constant(walk)
	}
	return all
}

// group returns two lines with one crew.
func group(operators int) *model.LineGroup {
	one, two := twoInserts(), twoInserts()
	one.Name, two.Name = "one", "two"
	return &model.LineGroup{Lines: []*model.Line{one, two}, Crew: model.Crew{Operators: operators, Walk: sim.Constant(10)}}
}

// encoded returns an answer as JSON has it.
func encoded(t *testing.T, answer any) string {
	t.Helper()
	text, err := json.Marshal(answer)
	require.NoError(t, err)
	return string(text)
}

// until returns a callback that cancels after a number of replications.
func until[A any](done int, stop func()) func(study.Sofar[A]) {
	return func(so study.Sofar[A]) {
		if so.Done == done {
			stop()
		}
	}
}

// A comparison that was cancelled and is asked again comes to the same, to the last bit, as one
// that was not; whether the replications are a fixed number, as many as a precision takes, or
// those of a selection.
func TestComparisonAskedAgain(t *testing.T) {
	groups := []study.Alternative{{Name: "base", Group: group(1)}, {Name: "more", Group: group(2)}}
	for name, q := range map[string]study.Comparison{
		"a fixed number": {Alternatives: alternatives(), Plan: sim.Plan{Seed: 3, Min: 200, Max: 200}},
		"a precision":    {Alternatives: alternatives(), Plan: sim.Plan{Seed: 3, Min: 10, Max: 2000, Precision: 0.003}},
		"a selection":    {Alternatives: closeOnes(), Plan: sim.Plan{Seed: 3, Min: 1, Max: 3000}, Selection: &study.ComparisonSelection{Indifference: 5}},
		"groups":         {Alternatives: groups, Plan: sim.Plan{Seed: 3, Min: 150, Max: 150}},
	} {
		t.Run(name, func(t *testing.T) {
			whole, err := q.Ask(t.Context(), nil)
			require.NoError(t, err)
			require.Greater(t, whole.Settings.Reps, 64, "so that there is something to cancel")
			ctx, stop := context.WithCancel(t.Context())
			defer stop()
			early, err := q.Ask(ctx, until[study.ComparisonAnswer](20, stop))
			require.NoError(t, err)
			require.True(t, early.Settings.Partial)
			require.Less(t, early.Settings.Reps, whole.Settings.Reps)
			before := encoded(t, early)
			q.Kept = early
			again, err := q.Ask(t.Context(), nil)
			require.NoError(t, err)
			assert.Equal(t, encoded(t, whole), encoded(t, again))
			for i := range whole.Lines {
				assert.Equal(t, whole.Lines[i].Study.Total, again.Lines[i].Study.Total)
			}
			assert.Equal(t, before, encoded(t, early), "what was kept stays what it was")
			q.Kept = again
			more, err := q.Ask(t.Context(), nil)
			require.NoError(t, err)
			assert.Equal(t, encoded(t, whole), encoded(t, more), "there is nothing more to run")
		})
	}
}

// A selection that is cut within a batch goes on with all alternatives that began the batch.
func TestSelectionCutWithinABatch(t *testing.T) {
	q := study.Comparison{
		Alternatives: closeOnes(), Plan: sim.Plan{Seed: 3, Min: 1, Max: 3000},
		Selection: &study.ComparisonSelection{Indifference: 5},
	}
	whole, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	lengths := func(a *study.ComparisonAnswer) (all []int) {
		for _, x := range a.Lines {
			all = append(all, len(x.Study.Shifts))
		}
		return all
	}
	q.Plan.Max = 100 // which is no whole batch
	q.Kept, err = q.Ask(t.Context(), nil)
	require.NoError(t, err)
	require.Contains(t, lengths(q.Kept), 100)
	q.Plan.Max = 3000
	again, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.Equal(t, lengths(whole), lengths(again))
	assert.Equal(t, encoded(t, whole), encoded(t, again))
}

// A run and a group run may be asked again too.
func TestRunAskedAgain(t *testing.T) {
	run := study.Run{Alternative: alternatives()[0], Plan: sim.Plan{Seed: 3, Min: 10, Max: 2000, Precision: 0.003}}
	whole, err := run.Ask(t.Context(), nil)
	require.NoError(t, err)
	run.Plan.Precision = 0.02
	run.Kept, err = run.Ask(t.Context(), nil)
	require.NoError(t, err)
	require.Less(t, run.Kept.Settings.Reps, whole.Settings.Reps)
	run.Plan.Precision = 0.003
	again, err := run.Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.Equal(t, encoded(t, whole), encoded(t, again))

	share := study.GroupRun{Alternative: study.Alternative{Name: "both", Group: group(1)}, Plan: sim.Plan{Seed: 3, Min: 90, Max: 90}}
	all, err := share.Ask(t.Context(), nil)
	require.NoError(t, err)
	share.Plan.Min, share.Plan.Max = 20, 20
	share.Kept, err = share.Ask(t.Context(), nil)
	require.NoError(t, err)
	share.Plan.Min, share.Plan.Max = 90, 90
	more, err := share.Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.Equal(t, encoded(t, all), encoded(t, more))
}

// What is kept must be of the same lines and the same seed.
func TestKeptOfSomethingElse(t *testing.T) {
	q := study.Comparison{Alternatives: alternatives(), Plan: sim.Plan{Seed: 3, Min: 5, Max: 5}}
	var err error
	q.Kept, err = q.Ask(t.Context(), nil)
	require.NoError(t, err)
	q.Plan.Seed = 4
	require.EqualError(t, q.Check(), "what is kept of “base”: the seed was 3, want 4")
	q.Plan.Seed = 3
	q.Alternatives = alternatives()
	require.NoError(t, q.Check(), "lines that are built alike are the same")
	q.Alternatives[1].Line.Crew.Operators = 3
	require.EqualError(t, q.Check(), "what is kept of “second operator”: the line has changed since")
	q.Alternatives = q.Alternatives[:2]
	require.EqualError(t, q.Check(), "what is kept has 3 alternatives, want 2")
}

// The answer so far is the answer to a question that ends there, but for its ending; and it
// stays what it was while the question goes on.
func TestAnswerSoFar(t *testing.T) {
	q := study.Comparison{Alternatives: alternatives(), Plan: sim.Plan{Seed: 3, Min: 150, Max: 150}}
	var early *study.ComparisonAnswer
	_, err := q.Ask(t.Context(), func(so study.Sofar[study.ComparisonAnswer]) {
		if so.Done == 40 {
			early = so.Answer()
		}
	})
	require.NoError(t, err)
	assert.True(t, early.Settings.Partial)
	q.Plan.Min, q.Plan.Max = 40, 40
	short, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	early.Settings, short.Settings = study.Settings{}, study.Settings{}
	assert.Equal(t, encoded(t, short), encoded(t, early))
}
