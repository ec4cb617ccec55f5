package study

import (
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/scenarios"
	"netrate/sim"
)

// Scenes are of the two lines that are set against each other, and only if they are asked for; what
// is compared is the same with them and without.
func TestScenesOfAComparison(t *testing.T) {
	x, err := scenarios.ExampleNamed("seventh-feeder")
	require.NoError(t, err)
	sc, err := scenarios.Load("x.yaml", x.Data)
	require.NoError(t, err)
	q := Comparison{Alternatives: []Alternative{{Name: "base", Line: sc.Line}}, Plan: sim.Plan{Seed: 1, Min: 8, Max: 8}}
	for _, v := range sc.Variants {
		q.Alternatives = append(q.Alternatives, Alternative{Name: v.Name, Line: v.Line})
	}
	require.Greater(t, len(q.Alternatives), 2)
	without, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	q.Scenes = true
	with, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	for i := range with.Lines {
		assert.Nil(t, without.Lines[i].Scenes)
		if i != with.From && i != with.To {
			assert.Nil(t, with.Lines[i].Scenes)
			continue
		}
		require.Len(t, with.Lines[i].Scenes, 1)
		seen := &with.Lines[i].Scenes[0]
		assert.Equal(t, 8, seen.Course.Shifts)
		assert.Equal(t, seen.MedianShift.NetRate, Number(with.Lines[i].Study.Shifts[seen.MedianShift.Replication].NetRate))
		with.Lines[i].Scenes = nil
	}
	assert.Equal(t, without, with)
}

// A run has its own: of a job no course, as it has no end that is known; of streams that are matched
// an incident.
func TestScenesOfARun(t *testing.T) {
	for file, want := range map[string]struct{ course, incident bool }{
		"small.yaml": {true, false}, "matched.yaml": {true, true}, "job.yaml": {false, true},
	} {
		text, err := os.ReadFile("../../cmd/netrate/testdata/" + file)
		require.NoError(t, err)
		sc, err := scenarios.Load(file, text)
		require.NoError(t, err)
		a, err := Run{Alternative: Alternative{Line: sc.Line}, Plan: sim.Plan{Seed: 1, Min: 4, Max: 4}, Scenes: true}.Ask(t.Context(), nil)
		require.NoError(t, err)
		assert.Equal(t, want.course, a.Scenes.Course != nil, file)
		assert.Equal(t, want.course, a.Scenes.MedianShift != nil, file)
		assert.Equal(t, want.incident, a.Scenes.Incident != nil, file)
	}
}
