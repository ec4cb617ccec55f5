package study

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model/money"
	"netrate/model/worth"
	"netrate/scenarios"
	"netrate/sim"
)

// offered has a fast line that is dear and a careful one at a fair price.
const offered = `name: Two offers
line:
  restart: 4 s
  stations:
    - {kind: feeder, name: letter, at: 0, rated: 12000/h, hopper: {pieces: 3000, warn: 600, refill: 25 s}, misfeed: 1/900, double: 1/9000, jam: 1/4000, clear: 60 s}
    - {kind: inserter, name: inserter, at: 6, rated: 18000/h, hopper: {pieces: 1500, warn: 500, refill: 20 s}, envelope_misfeed: 1/4000, flap: 1/1500, jam: 1/5000, clear: 90 s}
    - {kind: delivery, name: delivery, at: 9}
crew: {operators: 1, walk: 15 s}
work: {shift: 8 h}
costs: {currency: EUR, life: 8, rate: 8%, line_hour: 20, operator_hour: 30, volume: 5000000}
variants:
  - {name: fast, changes: [{set: stations.letter.rated, to: 18000/h}, {set: costs.price, to: 400000}]}
  - {name: careful, changes: [{set: stations.letter.misfeed, times: 0.3}, {set: costs.price, to: 20000}]}
`

func offers(t *testing.T, why *[2]int) Comparison {
	t.Helper()
	sc, err := scenarios.Load("offers.yaml", []byte(offered))
	require.NoError(t, err)
	q := Comparison{Alternatives: []Alternative{{Name: "base", Line: sc.Line, Costs: sc.Costs}}, Plan: sim.Plan{Seed: 1, Min: 30, Max: 30}, Why: why}
	for _, v := range sc.Variants {
		q.Alternatives = append(q.Alternatives, Alternative{Name: v.Name, Line: v.Line, Costs: v.Costs})
	}
	return q
}

// Why is said of the line that is recommended, not of the fastest, unless two others are asked for.
func TestWhyOfTheRecommended(t *testing.T) {
	c, err := offers(t, nil).Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.Equal(t, 1, c.Leader, "fast is the fastest")
	a := c.Money
	assert.Equal(t, 2, a.Cheapest)
	assert.Equal(t, [2]int{0, 2}, [2]int{c.From, c.To})
	sum := 0.0
	for _, s := range c.Steps {
		sum += s.Change
	}
	assert.InDelta(t, float64(c.Lines[2].NetRate.Mean-c.Lines[0].NetRate.Mean), sum, 1e-6)
	require.Len(t, a.Pairs, 3)
	assert.Equal(t, "careful", a.Pairs[2].Of)
	assert.Equal(t, "fast", a.Pairs[2].Against)
	assert.EqualValues(t, 1, a.Pairs[2].Chance.Share)

	asked, err := offers(t, &[2]int{2, 1}).Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.Equal(t, [2]int{2, 1}, [2]int{asked.From, asked.To})

	free := offers(t, nil)
	for i := range free.Alternatives {
		free.Alternatives[i].Costs = nil
	}
	c, err = free.Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.Nil(t, c.Money)
	assert.Equal(t, [2]int{0, 1}, [2]int{c.From, c.To}, "without costs, of the fastest")
}

// A what-if of costs alone asks the worth again of the shifts that are there: none is simulated.
func TestOtherCostsSimulateNothing(t *testing.T) {
	simulated := 0
	count := func(Sofar[ComparisonAnswer]) { simulated++ }
	q := offers(t, nil)
	c, err := q.Ask(t.Context(), count)
	require.NoError(t, err)
	assert.Equal(t, 30, simulated, "the count counts")

	dear := *q.Alternatives[2].Costs
	dear.Price = money.Fixed(900_000)
	simulated = 0
	again := offers(t, nil)
	again.Kept = c
	again.Alternatives[2].Costs = &dear
	kept, err := again.Ask(t.Context(), count)
	require.NoError(t, err)
	assert.Zero(t, simulated)
	first, err := Worth{Comparison: kept, Draws: 100}.Ask()
	require.NoError(t, err)
	second, err := Worth{Comparison: c, Draws: 100, Costs: []*worth.Costs{q.Alternatives[0].Costs, q.Alternatives[1].Costs, &dear}}.Ask()
	require.NoError(t, err)
	assert.Equal(t, first.Lines[2].AllIn, second.Lines[2].AllIn)
	assert.Equal(t, 0, second.Cheapest, "at that price it is not recommended")
}
