package study

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model/money"
	"netrate/model/worth"
	"netrate/sim"
)

// The steps of the frontier lead from its cheapest design to its dearest, and add up.
func TestDesignSteps(t *testing.T) {
	q := toyDesign()
	a, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	require.NotEmpty(t, a.Steps)
	gain, price := 0.0, 0.0
	for i, s := range a.Steps {
		assert.Positive(t, s.Price)
		assert.Positive(t, s.Gain)
		assert.InDelta(t, 1000*float64(s.Gain/s.Price), float64(s.PerGrand), 1e-9)
		if i > 0 {
			assert.Equal(t, a.Steps[i-1].From, s.To)
		}
		gain, price = gain+float64(s.Gain), price+float64(s.Price)
	}
	first, last := a.Steps[len(a.Steps)-1].From, a.Steps[0].To
	assert.InDelta(t, float64(a.Comparison.Lines[last].NetRate.Mean-a.Comparison.Lines[first].NetRate.Mean), gain, 1e-6)
	assert.InDelta(t, float64(a.Finalists[last].Price-a.Finalists[first].Price), price, 1e-9)
}

// A step adds what is taken or not, takes one choice instead of another, and leaves out what it had.
func TestDesignStepsSayWhatTheyChange(t *testing.T) {
	a := DesignAnswer{
		Options: []DesignOption{
			{Name: "gate", Optional: true, Choices: []DesignChoice{{Name: "without gate"}, {Name: "gate"}}},
			{Name: "feeder", Choices: []DesignChoice{{Name: "friction"}, {Name: "rotary"}, {Name: "suction"}}},
			{Name: "belt", Optional: true, Choices: []DesignChoice{{Name: "without belt"}, {Name: "belt"}}},
		},
		Finalists: []DesignOne{{}, {Choices: []string{"rotary", "belt"}}, {Choices: []string{"gate", "suction"}}},
	}
	first, second := DesignStep{From: 0, To: 1}, DesignStep{From: 1, To: 2}
	a.differ(&first)
	a.differ(&second)
	assert.Equal(t, DesignStep{To: 1, Added: []string{"belt"}, Replaced: []DesignReplaced{{"rotary", "friction"}}}, first)
	assert.Equal(t, DesignStep{From: 1, To: 2, Added: []string{"gate"}, Away: []string{"belt"}, Replaced: []DesignReplaced{{"suction", "rotary"}}}, second)
}

// No step begins with a design that another beats for no more money, of all there are. A second operator
// is worth nothing on paper, which knows of no waiting: among what is best for its money there alone,
// the last step would begin with a design that he beats by far.
func TestDesignStepsAreNotBeaten(t *testing.T) {
	q := toyDesign()
	q.Options[1].Choices[1].Price = 4 // the second operator, less than the shelves
	a, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	c := &a.Counts
	assert.LessOrEqual(t, c.Near, c.Ceiling, "none is counted twice: what was simulated for the choice is not simulated besides")
	assert.InDelta(t, float64(c.Combinations), float64(c.Ruled)+float64(c.Impossible+c.Limits+c.Ceiling+c.Simulated), 0)

	s := &designSearch{Design: &q}
	require.NoError(t, s.combine(t.Context()))
	require.NoError(t, s.onPaper(t.Context()))
	all := pointers(s.all)
	require.NoError(t, s.search(t.Context(), all, 0, q.Plan.Max, func(int, sim.Sample) {}))
	beaten := func(choices []string) (most float64) { // by how much
		own := all[slices.IndexFunc(all, func(c *candidate) bool { return slices.Equal(s.chosenNames(c), choices) })]
		for _, c := range all {
			if c.price <= own.price {
				most = max(most, c.mean()-own.mean())
			}
		}
		return most
	}
	best := a.Finalists[a.Best]
	for i := range a.Steps {
		from := a.Finalists[a.Steps[i].From].Choices
		assert.Less(t, beaten(from), q.Worth, "%v", from)
	}
	lean := bestForMoney(s.all, func(c *candidate) float64 { return c.paper })
	lean = slices.DeleteFunc(lean, func(c candidate) bool { return Number(c.price) >= best.Price })
	onPaper := s.chosenNames(&lean[len(lean)-1])
	assert.Greater(t, beaten(onPaper), 2*q.Worth, "this test cannot fail: %v", onPaper)
}

// A net present value is the saving of the years and the extra price, at interest: the step is that
// between two of them, and lies where nineteen draws in twenty do.
func TestDesignStepsOfValue(t *testing.T) {
	q := toyDesign()
	q.Goal, q.Worth = DesignValue, 0.5
	line := q.Line
	q.Line = func(choices []int) (*Alternative, error) {
		a, err := line(choices)
		price := 0.0
		for i, k := range choices {
			price += 100 * float64(q.Options[i].Choices[k].Price)
		}
		a.Costs = &worth.Costs{
			Currency: "EUR", Life: 8, Rate: 0.08, Price: money.Fixed(price), LineHour: money.Fixed(80), OperatorHour: money.Fixed(5), Volume: money.Fixed(9e6),
		}
		return a, err
	}
	a, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	require.NotEmpty(t, a.Steps)
	w := a.Comparison.Money
	of := func(i int) Number {
		if i == 0 {
			return 0
		}
		return w.Lines[i].Against.NPV.Mean
	}
	for _, s := range a.Steps {
		assert.InDelta(t, float64(of(s.To)-of(s.From)), float64(s.Gain), 1e-6)
		assert.Less(t, float64(s.Between.Low), float64(s.Gain))
		assert.Greater(t, float64(s.Between.High), float64(s.Gain))
	}
	for i, x := range a.Finalists {
		if i != a.Best {
			require.NotNil(t, x.Better)
			assert.InDelta(t, float64(w.Lines[a.Best].AllIn.Mean-w.Lines[i].AllIn.Mean), float64(x.Better.Mean), 1e-6)
		}
	}
}
