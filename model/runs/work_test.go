package runs

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/model/setup"
	"netrate/sim"
	"netrate/sim/output"
)

// truthWorks returns, for two factors, a line at two jobs in equal shares and two lines with an operator
// each, all with random streams of their own. Their true net rates are those of the lines.
func truthWorks(name string, first, second float64) (mixed, group Work) {
	lines := []*model.Line{modeltest.TruthLine(first), modeltest.TruthLine(second)}
	m := &Mix{Line: lines[0], Shares: []float64{0.5, 0.5}}
	for i, l := range lines {
		l.Name = name + string(rune('1'+i))
		atJob := l.Clone()
		atJob.Random = l.Name
		m.Setups = append(m.Setups, &setup.Setup{Line: atJob})
	}
	crew := lines[0].Crew
	crew.Operators = 2 // a line without buffers keeps one busy at most
	return Work{Mix: m}, Work{Group: &model.LineGroup{Lines: lines, Crew: crew}}
}

// Each work has the studies that its lines would have had alone, and is taken at the rate that these
// come to together.
func TestTogetherWork(t *testing.T) {
	mixed, group := truthWorks("a", 1.1, 0.7)
	single := Work{Line: modeltest.TruthLine(1)}
	plan := sim.Plan{Seed: 3, Min: 20, Max: 20, Workers: 2}
	all, err := TogetherWork(context.Background(), []Work{mixed, group, single}, plan, nil, nil)
	require.NoError(t, err)
	for i, w := range []Work{mixed, group, single} {
		alone, err := TogetherWork(context.Background(), []Work{w}, plan, nil, nil)
		require.NoError(t, err)
		assert.Equal(t, alone[0], all[i])
		joined := w.Joined("all", all[i])
		for k := range joined.Shifts {
			var rates []float64
			for _, s := range all[i] {
				rates = append(rates, s.Shifts[k].NetRate)
			}
			assert.InEpsilon(t, joined.Shifts[k].NetRate, w.Rate(rates), 1e-12)
		}
		assert.InEpsilon(t, w.Paper(), joined.NetRates().Mean(), 0.02, "on paper")
	}
	assert.Zero(t, mixed.Rate([]float64{5000, 0}), "a job that is never made takes all the time")

	// More of them later are the same as all at once.
	begun, err := TogetherWork(context.Background(), []Work{mixed, group}, sim.Plan{Seed: 3, Min: 7, Max: 7}, nil, nil)
	require.NoError(t, err)
	require.NoError(t, FurtherWork(context.Background(), []Work{mixed, group}, begun, plan, nil, nil))
	assert.Equal(t, all[:2], begun)
}

// The promise of a selection holds for lines at several jobs and for lines that share a crew: four
// alternatives, of which one is ahead by just as much as matters. Its first line, or job, is the worst of
// all, so that a selection by that alone would never choose it.
func TestKnownTruthOfTheSelectionOfWork(t *testing.T) {
	modeltest.Briefly(t)
	const first, second = 1.15, 0.5
	harmonic := func(a, b float64) float64 { return 2 / (1/modeltest.Truth(a) + 1/modeltest.Truth(b)) }
	ahead := map[string]float64{
		"jobs":  harmonic(first, second) - harmonic(1, 1),
		"lines": modeltest.Truth(first) + modeltest.Truth(second) - 2*modeltest.Truth(1),
	}
	for _, kind := range []string{"jobs", "lines"} {
		right := 0
		for seed := range *macro {
			var works []Work
			for i, name := range []string{"a", "b", "c", "d"} {
				mixed, group := truthWorks(name, 1, 1)
				if i == 2 {
					mixed, group = truthWorks(name, first, second)
				}
				if kind == "lines" {
					mixed = group
				}
				works = append(works, mixed)
			}
			selection, err := output.NewSelection(4, 10, ahead[kind], 0.95)
			require.NoError(t, err)
			_, err = TogetherWork(context.Background(), works, sim.Plan{Seed: uint64(seed), Min: 1e5, Max: 1e5}, selection, nil)
			require.NoError(t, err)
			if best, promised := selection.Best(); promised && best == 2 {
				right++
			}
		}
		atLeast(t, "selections that find the best of four, "+kind, right, 0.95)
	}
}

// A rate of a line of a group is moved on that line, and the crew's walk for all of them: the effects are
// the differences from groups that are written so.
func TestSensitivityOfAGroup(t *testing.T) {
	two := func(change func(a, b *model.Line)) Work {
		a, b := modeltest.ReferenceLine(), modeltest.ReferenceLine()
		a.Name, b.Name = "left", "right"
		change(a, b)
		return Work{Group: &model.LineGroup{Lines: []*model.Line{a, b}, Crew: a.Crew}}
	}
	plan := sim.Plan{Seed: 2, Min: 12, Max: 12}
	base := two(func(_, _ *model.Line) {})
	s, err := Sensitivities(t.Context(), base, plan, 2, 0.95, nil)
	require.NoError(t, err)
	byHand := map[string]Work{
		"lines.right.restart": two(func(_, b *model.Line) { b.Restart = sim.Scaled(b.Restart, 2) }),
		"crew.walk":           two(func(a, _ *model.Line) { a.Crew.Walk = sim.Scaled(a.Crew.Walk, 2) }),
		"lines.left.stations." + base.Group.Lines[0].Stations[0].Where().Name + ".misfeed": two(func(a, _ *model.Line) {
			a.Stations[0].(*model.Feeder).Misfeed *= 2
		}),
	}
	for path, w := range byHand {
		studies, err := TogetherWork(t.Context(), []Work{base, w}, plan, nil, nil)
		require.NoError(t, err)
		was, is := base.Joined("", studies[0]).NetRates(), w.Joined("", studies[1]).NetRates()
		found := 0
		for _, x := range s.Effects {
			if x.Parameters[0].Path() == path {
				found++
				assert.InDelta(t, is.Mean()-was.Mean(), x.Higher.NetRate.Difference.Mean, 1e-9, path)
				assert.NotZero(t, x.Higher.NetRate.Difference.Mean, path)
			}
		}
		assert.Equal(t, 1, found, path)
	}
}
