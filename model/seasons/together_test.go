package seasons

import (
	"context"
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/model/setup"
	"netrate/sim"
)

// together is the fortnight's jobs, given to some calm lines that share an operator.
func together(order ...[]int) *Together {
	s := fortnight(modeltest.CalmLine())
	t := &Together{
		Products: s.Products, Change: s.Change, Crew: s.Line.Crew, Order: order,
		Jobs: []Job{{Product: 0, Sets: 7195}, {Product: 1, Sets: 10795}, {Product: 0, Sets: 3595}},
	}
	for i := range order {
		l := modeltest.CalmLine()
		l.Name = string(rune('a' + i))
		t.Lines = append(t.Lines, l)
	}
	return t
}

func runTogether(t *testing.T, work *Together, replications int) *TogetherStudy {
	t.Helper()
	study, err := RunTogether(context.Background(), work, sim.Plan{Seed: 1, Min: replications, Max: replications}, nil)
	require.NoError(t, err)
	return study
}

// On one line it is as a season is: see TestSeasonByHand.
func TestTogetherByHand(t *testing.T) {
	study := runTogether(t, together([]int{0, 1, 2}), 2)
	for j, want := range []struct{ begun, first, finished float64 }{
		{0, 1.0 / 3, 2 + 1.0/3}, {2 + 1.0/3, 2.5, 5.5}, {5.5, 5.5 + 1.0/6, 5.5 + 7.0/6},
	} {
		assert.InDelta(t, want.begun, study.Jobs[j].Begun[1]/3600, 1e-9)
		assert.InDelta(t, want.first, study.Jobs[j].First[1]/3600, 1e-9)
		assert.InDelta(t, want.finished, study.Jobs[j].Finished[1]/3600, 1e-9)
	}
	assert.InDelta(t, 5.5+7.0/6, study.Finished[0]/3600, 1e-9)
}

// Two lines with one operator: he puts two inserts into the first for 20 min, then two into the
// second. Each line then runs by itself. A line that is at a job needs no change, not even what is done
// at each; its next job needs that, 5 min.
func TestTogetherShares(t *testing.T) {
	work := together([]int{0, 2}, []int{1})
	study := runTogether(t, work, 1)
	assert.InDelta(t, 2+1.0/3, study.Jobs[0].Finished[0]/3600, 1e-9)
	assert.InDelta(t, 3+2.0/3, study.Jobs[1].Finished[0]/3600, 1e-9, "it begins 20 min later")
	assert.InDelta(t, 3+1.0/3, study.Jobs[2].Finished[0]/3600, 1e-9)
	work.Crew.Operators = 4
	assert.InDelta(t, 3+1.0/6, runTogether(t, work, 1).Jobs[1].Finished[0]/3600, 1e-9, "each insert by an operator")
	work.InHand, work.Change.Always = []int{0, -1}, setup.Change{Time: sim.Constant(300)}
	study = runTogether(t, work, 1)
	assert.InDelta(t, 2.0, study.Jobs[0].Finished[0]/3600, 1e-9)
	assert.InDelta(t, 3+1.0/12, study.Jobs[2].Finished[0]/3600, 1e-9)
	work.Jobs[0].NotBefore, work.Down = 3600, [][]model.Stretch{nil, {{From: 7200, To: 9000}}}
	study = runTogether(t, work, 1)
	assert.InDelta(t, 3.0, study.Jobs[0].Finished[0]/3600, 1e-9)
	assert.InDelta(t, 3.5+1.0/6, study.Jobs[1].Finished[0]/3600, 0.01, "down for half an hour; restarts")
}

// What is uncertain is drawn anew in each replication: the same on a line whatever it makes.
func TestTogetherDraws(t *testing.T) {
	work := together([]int{0, 2}, []int{1})
	for _, l := range work.Lines {
		for _, s := range l.Stations {
			if f, is := s.(*model.Feeder); is {
				f.Jam = 0.002
				l.UncertainInputs = append(l.UncertainInputs, model.UncertainInput{Station: f.Name, Name: "jam", Of: evenly{0, 0.004}})
				break
			}
		}
	}
	settled := runTogether(t, work, 60)
	work.Draws = true
	drawn := runTogether(t, work, 60)
	assert.Greater(t, drawn.Jobs[1].Finished.SD(), 1.5*settled.Jobs[1].Finished.SD())
	assert.NotEqual(t, drawn.Jobs[0].Finished[0], drawn.Jobs[0].Finished[1])
	assert.Equal(t, drawn.Jobs[1].Finished, runTogether(t, work, 60).Jobs[1].Finished)
}

// What a draw makes impossible is said of the line that it does it to.
func TestTogetherNamesTheLine(t *testing.T) {
	work := together([]int{0, 2}, []int{1})
	b := work.Lines[1]
	for _, s := range b.Stations {
		if f, is := s.(*model.Feeder); is {
			f.Misfeed = 0.9
			b.UncertainInputs = append(b.UncertainInputs, model.UncertainInput{Station: f.Name, Name: "jam", Of: evenly{0.2, 0.3}})
			break
		}
	}
	work.Draws = true
	_, err := RunTogether(context.Background(), work, sim.Plan{Seed: 1, Min: 2, Max: 2}, nil)
	draw, is := errors.AsType[*model.ImpossibleDraw](err)
	require.True(t, is, "%v", err)
	assert.Equal(t, "b", draw.Line)
}

// evenly is a prior: anything from one number to another.
type evenly [2]float64

func (e evenly) Quantile(p float64) float64 { return e[0] + float64(p*(e[1]-e[0])) }
func (e evenly) Expected() float64          { return e.Quantile(0.5) }
func (e evenly) Nominal() float64           { return e.Quantile(0.5) }
func (evenly) FromData() bool               { return false }
func (evenly) Check() error                 { return nil }

func TestTogetherRefuses(t *testing.T) {
	for text, change := range map[string]func(w *Together){
		"of 1 what they do":   func(w *Together) { w.Order = w.Order[:1] },
		"there is no job 9":   func(w *Together) { w.Order[0][0] = 9 },
		"is done 2 times":     func(w *Together) { w.Order[0] = []int{0, 1} },
		"0 sets of product 0": func(w *Together) { w.Jobs[0].Sets = 0 },
		"no free feeder":      func(w *Together) { w.Products[0].Inserts = append(w.Products[0].Inserts, make([]setup.Insert, 9)...) },
	} {
		w := together([]int{0, 2}, []int{1})
		change(w)
		assert.ErrorContains(t, w.Check(), text)
	}
	require.NoError(t, together([]int{0, 2}, []int{1}).Check())
}
