package worth

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/model/money"
	"netrate/model/runs"
	"netrate/sim"
)

// lettersBesideCards returns the study of two lines with one crew, letters at 10 000 an hour and cards
// at 5000 or a number of times that.
func lettersBesideCards(timesCards int64) *runs.Study {
	letters := slow()
	letters.Line.Name = "letters"
	return runs.Gathered("both", []*runs.Study{letters, cards(timesCards)})
}

// By hand: the same volumes as in TestWorthOfJobsByHand, each on a line of its own. Letters take
// 400 h and cards 200 h beside them, so that the crew of two is there for 400 h, though the lines
// together run for 600. Nothing else of the year differs.
func TestWorthOfLinesByHand(t *testing.T) {
	c := pricesOfBoth()
	c.Overtime.Beyond = 300
	w, err := Weigh([]*runs.Study{lettersBesideCards(1), lettersBesideCards(2)}, []*Costs{c, c}, 20, 1)
	require.NoError(t, err)
	y := w.Lines[0]
	assert.InDelta(t, 400, steadily(t, y.Hours), 1e-9)
	assert.InDelta(t, 200, steadily(t, y.JobHours[0]), 1e-9, "cards")
	assert.InDelta(t, 400, steadily(t, y.JobHours[1]), 1e-9, "letters")
	for p, want := range map[CostPart]float64{
		LineHours:     30_000,             // (400 + 200) · 50
		OperatorHours: 24_000,             // 400 · 2 · 30
		OvertimePay:   3000,               // 100 · 2 · 30 · ½
		InsertCost:    140_094 + 60_033.5, // as there
		EnvelopeCost:  80_038 + 20_005,
		RemakeCost:    3000 + 312.5,
		SpoiledCost:   1000 + 250,
		DefectiveCost: 8000 + 2000,
		UpkeepCost:    1500,
	} {
		assert.InDelta(t, want, steadily(t, y.Parts[p]), 0.001, "%s", p)
	}
	// Cards twice as fast save 100 h of their line, and none of the crew, which attends to the letters.
	assert.InDelta(t, 400, steadily(t, w.Lines[1].Hours), 1e-9)
	assert.InDelta(t, 100*50, steadily(t, w.Gains[1].Saving), 0.001)
}

// With one volume for all lines together they run side by side until it is made: 15 000 an hour.
func TestWorthOfLinesTogether(t *testing.T) {
	c := pricesOfBoth()
	c.Volumes, c.Volume, c.Overtime.Beyond = nil, money.Fixed(6_000_000), 300
	w, err := Weigh([]*runs.Study{lettersBesideCards(1)}, []*Costs{c}, 5, 1)
	require.NoError(t, err)
	y := w.Lines[0]
	assert.InDelta(t, 400, steadily(t, y.Hours), 1e-9)
	assert.InDelta(t, 2*400*50, steadily(t, y.Parts[LineHours]), 1e-6, "two lines")
	assert.InDelta(t, 400*2*30, steadily(t, y.Parts[OperatorHours]), 1e-6, "one crew")
	assert.InDelta(t, 100*2*30*0.5, steadily(t, y.Parts[OvertimePay]), 1e-6)
}

// A group of one line costs what the line costs by itself, shift for shift, also where what is
// uncertain of it is drawn.
func TestWorthOfAGroupOfOne(t *testing.T) {
	l := modeltest.ReferenceLine()
	l.Name = "only"
	group := &model.LineGroup{Lines: []*model.Line{l}, Crew: l.Crew}
	plan := sim.Plan{Seed: 4, Min: 20, Max: 20}
	lines, err := runs.RunLineGroup(context.Background(), group, plan, nil)
	require.NoError(t, err)
	c := pricesOfBoth()
	c.Pieces, c.Volumes, c.Volume = nil, nil, money.Value{Low: 1e6, Likely: 2e6, High: 3e6}
	alone, err := Weigh(lines, []*Costs{c}, 30, 3)
	require.NoError(t, err)
	gathered := runs.Gathered("group", lines)
	inOne, err := Weigh([]*runs.Study{gathered}, []*Costs{c}, 30, 3)
	require.NoError(t, err)
	assert.Equal(t, alone.Lines, inOne.Lines)

	drawn := &runs.UncertaintyStudy{Study: gathered, Values: make([][]float64, 10)}
	drawn.Each, lines[0].Each = 2, 2
	byGroup, err := Weigh([]*runs.Study{gathered}, []*Costs{c}, 30, 3, drawn)
	require.NoError(t, err)
	byLine, err := Weigh(lines, []*Costs{c}, 30, 3, &runs.UncertaintyStudy{Study: lines[0], Values: drawn.Values})
	require.NoError(t, err)
	assert.Equal(t, byLine.Lines, byGroup.Lines)
	assert.NotEqual(t, alone.Lines[0].Hours, byLine.Lines[0].Hours)

	ofLine := *c
	ofLine.Volume, ofLine.Volumes = money.Value{}, map[string]money.Value{"other": money.Fixed(1e6)}
	_, err = Weigh([]*runs.Study{gathered}, []*Costs{&ofLine}, 5, 1)
	assert.EqualError(t, err, "there are volumes of other, and the lines that share the crew are only")
}
