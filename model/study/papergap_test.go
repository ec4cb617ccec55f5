package study

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/sim"
)

// withoutBuffers is the line without buffers of the textbooks: six stations alike, a cycle a second,
// each of which stops the line in one cycle of a hundred for 20 s, and stocks that outlast the shift.
func withoutBuffers(operators int, shift sim.Seconds) *model.Line {
	l := &model.Line{
		Name: "no buffers", Speed: 3600, Shift: shift, Restart: sim.Constant(0),
		Crew: model.Crew{Operators: operators, Walk: sim.Constant(0)},
	}
	endless := model.Stock{Capacity: 1e9, Work: sim.Constant(0)}
	for at := range 6 {
		l.Stations = append(l.Stations, &model.Feeder{
			Place: model.Place{Name: fmt.Sprint("station ", at+1), At: at, Rated: 3600}, Hopper: endless,
			Double: 0.01, Caught: 1, Noticed: 1, Material: 1, Share: 1, OnDouble: model.Stop, Clear: sim.Constant(20),
		})
	}
	l.Stations = append(l.Stations,
		&model.Inserter{Place: model.Place{Name: "inserter", At: 6}, Hopper: endless, Clear: sim.Constant(0)},
		&model.Delivery{Place: model.Place{Name: "delivery", At: 7}})
	return l
}

// gapOf returns why a line delivers another number than on paper, and its parts by name.
func gapOf(t *testing.T, l *model.Line, shifts int) (*PaperGap, map[string]PaperPart) {
	t.Helper()
	a, err := Run{Alternative: Alternative{Line: l}, Plan: sim.Plan{Seed: 7, Min: shifts, Max: shifts}}.Ask(t.Context(), nil)
	require.NoError(t, err)
	g := a.OnPaper.Difference
	parts, sum := map[string]PaperPart{}, 0.0
	for _, x := range g.Parts {
		parts[x.Name] = x
		sum += float64(x.Mean.Mean)
	}
	assert.InDelta(t, float64(g.Whole.Mean), sum, 1e-6, "the parts add up")
	rest := parts[PaperRest]
	assert.Less(t, abs(rest.Mean.Mean), 1.68*float64(rest.Half), "what is left is chance (99.9 %: 3.29 standard errors)")
	return g, parts
}

func abs(x Number) float64 { return max(float64(x), -float64(x)) }

// names returns what the parts are called.
func names(parts []PaperPart) (all []string) {
	for _, x := range parts {
		all = append(all, x.Name)
	}
	return all
}

// With an operator a station, stops of one cycle overlap: E is 0.460745 instead of 0.454545, which is
// 22.3 an hour (Σ pᵢ dᵢ becomes d·(1 − Π(1 − pᵢ)), computed). That is what is named, and of that size.
func TestOverlapIsMeasured(t *testing.T) {
	g, parts := gapOf(t, withoutBuffers(6, 8*3600), 600)
	overlap := parts[PaperOverlap]
	assert.InDelta(t, (0.460745-0.454545)*3600, float64(overlap.Mean.Mean), 1.68*float64(overlap.Half)+0.05)
	assert.Equal(t, []string{PaperOverlap}, names(g.Causes()))
	assert.Less(t, float64(overlap.Half), 1.0)
}

// In shifts of ten minutes one operator sees to one stop after the other, so that none overlap, and
// still the line delivers more than on paper: it starts without a stop, with stations that have no
// set yet, and the last stop is cut off. It was once said that stops overlap.
func TestStartAndEndAreMeasured(t *testing.T) {
	l := withoutBuffers(1, 600)
	for i := range 6 {
		f, is := l.Stations[i].(*model.Feeder)
		require.True(t, is)
		f.Double, f.Clear = 0.002, sim.Constant(200)
	}
	g, parts := gapOf(t, l, 4000)
	assert.Greater(t, float64(g.Whole.Mean), 3*float64(g.Whole.Half))
	assert.InDelta(t, 0, float64(parts[PaperOverlap].Mean.Mean), 1e-9)
	assert.Zero(t, float64(parts[PaperUsedUp].Mean.Mean))
	assert.Equal(t, []string{PaperEnds}, names(g.Causes()))

	// In a long shift there is next to nothing of it, and nothing is named.
	l.Shift = 200 * 3600
	g, parts = gapOf(t, l, 100)
	assert.Less(t, abs(parts[PaperEnds].Mean.Mean), 2.0)
	assert.Empty(t, g.Causes())
}

// What is used up and not refilled in time costs what the line stood for it, and faults that wait for
// somebody who refills what they wait.
func TestBusyOperatorIsMeasured(t *testing.T) {
	l := withoutBuffers(1, 8*3600)
	for i := range 6 {
		f, is := l.Stations[i].(*model.Feeder)
		require.True(t, is)
		f.Hopper = model.Stock{Capacity: 200, Warn: 190, Work: sim.Constant(10)}
		f.Double = 0.001
	}
	g, parts := gapOf(t, l, 300)
	assert.Negative(t, float64(parts[PaperOverlap].Mean.Mean))
	assert.Negative(t, float64(g.Whole.Mean))
	assert.Contains(t, names(g.Causes()), PaperOverlap)
}
