package study_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/study"
	"netrate/sim"
)

// interfering returns five lines that stop for a fault every 20 minutes or so and share a crew, each
// stop a tenth as long: exponential both.
func interfering(t *testing.T, operators int) *model.LineGroup {
	t.Helper()
	clear, err := sim.NewExponential(120)
	require.NoError(t, err)
	g := &model.LineGroup{Crew: model.Crew{Operators: operators, Walk: sim.Constant(0)}}
	for i := range 5 {
		g.Lines = append(g.Lines, &model.Line{
			Name: fmt.Sprint("line ", i+1), Speed: 18_000, Shift: 480_000, Restart: sim.Constant(0),
			Stations: []model.Station{
				&model.Inserter{Place: model.Place{Name: "inserter"}, Hopper: model.Stock{Capacity: 1e9, Work: sim.Constant(0)}, Jam: 1.0 / 6000, Clear: clear},
				&model.Delivery{Place: model.Place{Name: "delivery", At: 1}},
			},
		})
	}
	return g
}

// A sweep of the operators of five lines comes to the table of the finite queue: of N = 5 machines that
// run for 20 and are served for 2, 4.360478 run on average with one operator and 4.535206 with two
// (Heizer and Render, Operations Management, module D, limited-population example: 4.36 and 4.54).
func TestSweepOfAGroup(t *testing.T) {
	q := study.Sweep{
		Vary: []study.SweepParameter{{Path: "crew.operators", Values: []study.SweepValue{{Text: "1", Number: 1}, {Text: "2", Number: 2}}}},
		Plan: sim.Plan{Seed: 1, Min: 20, Max: 20},
	}
	for n := range 2 {
		q.Groups = append(q.Groups, interfering(t, n+1))
	}
	a, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	const good = 18_000 * (1 - 1.0/6000) // of a cycle that runs: a jam spoils its set
	for i, running := range []float64{4.360478, 4.535206} {
		rates := a.Points[i].Study.NetRates()
		tolerance := 3.29 * rates.SD() / math.Sqrt(float64(len(rates)))
		assert.InDelta(t, running*good, rates.Mean(), tolerance)
		assert.Less(t, tolerance, 0.01*running*good, "a bias of 1 % would not be seen")
		assert.InDelta(t, 90_000, float64(a.Points[i].Speed), 1e-9, "cycles an hour of all lines")
	}
	assert.Equal(t, 1, a.Best)
	q.Lines = []*model.Line{interfering(t, 1).Lines[0]}
	_, err = q.Ask(t.Context(), nil)
	assert.ErrorContains(t, err, "a sweep of 2 points has 3 lines")
}

// The best of a selection among line groups is that of a comparison of them all, and the usual
// difference that matters is a hundredth of what all lines deliver on paper.
func TestBestOfGroups(t *testing.T) {
	q := study.Comparison{Selection: &study.ComparisonSelection{}, Plan: sim.Plan{Seed: 2, Min: 1000, Max: 1000}}
	for n := range 3 {
		g := interfering(t, 3-n)
		for _, l := range g.Lines {
			l.Shift = 8 * 3600
		}
		q.Alternatives = append(q.Alternatives, study.Alternative{Name: fmt.Sprint(3-n, " operators"), Group: g})
	}
	q.Alternatives[0], q.Alternatives[2] = q.Alternatives[2], q.Alternatives[0] // the one with one operator is the base
	a, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.NotEqual(t, 0, a.Leader)
	assert.True(t, a.Selection.Promised)
	assert.Equal(t, "3 operators", a.Selection.Dropped[0].By)
	assert.Equal(t, 0, a.Selection.Dropped[0].Line)
	assert.InDelta(t, 0.01*5*18_000/1.1, float64(a.Selection.Indifference), 5, "on paper, in two digits")

	q.Selection, q.Plan.Min, q.Plan.Max = nil, 64, 64
	whole, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.Equal(t, a.Best.Name, whole.Best.Name)
	assert.Equal(t, whole.Lines[0].NetRate.Mean, a.Lines[0].NetRate.Mean, "the same shifts")
}
