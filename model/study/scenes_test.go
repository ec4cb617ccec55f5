package study

import (
	"os"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
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

// The stocks of the median shift go from full, or from where the shift begins, to what the ledger has
// at its end, and never beyond.
func TestScenesHaveTheStocks(t *testing.T) {
	text, err := os.ReadFile("../../cmd/netrate/testdata/small.yaml")
	require.NoError(t, err)
	sc, err := scenarios.Load("small.yaml", text)
	require.NoError(t, err)
	for _, level := range []float64{1, 0.5} {
		line := sc.Line.Clone()
		line.Begins.Level = level
		a, err := Run{Alternative: Alternative{Line: line}, Plan: sim.Plan{Seed: 1, Min: 24, Max: 24}, Scenes: true}.Ask(t.Context(), nil)
		require.NoError(t, err)
		shift := a.Scenes.MedianShift
		running, err := model.New(line)
		require.NoError(t, err)
		var o model.Outcome
		require.NoError(t, running.Run(shift.Seed, shift.Replication, &o))
		assert.Len(t, shift.Stocks, 5, "three hoppers, a bin and the belt")
		for _, s := range shift.Stocks {
			i := slices.IndexFunc(line.Stations, func(x model.Station) bool { return x.Where().Name == s.Station })
			assert.Zero(t, s.Levels[0].At, s.Station)
			if !line.Stations[i].Stocked().Pieces {
				assert.Equal(t, s.Capacity, s.Levels[0].After, "%s begins empty", s.Station)
				continue
			}
			assert.Equal(t, int64(level*float64(s.Capacity)), s.Levels[0].After, s.Station)
			for _, l := range s.Levels {
				assert.True(t, 0 <= l.Before && l.Before <= l.After && l.After <= s.Capacity, "%s at %v", s.Station, l.At)
			}
			assert.Equal(t, o.Stations[i].Pieces.Left, s.Levels[len(s.Levels)-1].After, s.Station)
		}
	}
}

// The mean settles: its last value is that of the run, and its interval as of the first replications
// alone.
func TestScenesHaveTheSettlingMean(t *testing.T) {
	l := modeltest.ReferenceLine()
	l.Shift = 3600
	ask := func(n int) *RunAnswer {
		a, err := Run{Alternative: Alternative{Line: l}, Plan: sim.Plan{Seed: 1, Min: n, Max: n}, Scenes: true}.Ask(t.Context(), nil)
		require.NoError(t, err)
		return a
	}
	assert.Nil(t, ask(19).Scenes.Settling)
	all := ask(40)
	settling := all.Scenes.Settling
	assert.Equal(t, SettlingMean{40, Mean{all.NetRate.Mean, all.NetRate.Half}}, settling[len(settling)-1])
	for _, x := range settling[:3] {
		alone := ask(x.Replications).NetRate
		assert.Equal(t, Mean{alone.Mean, alone.Half}, x.Mean, "of the first %d", x.Replications)
	}
}
