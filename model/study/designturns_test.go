package study

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model/money"
	"netrate/model/runs"
	"netrate/model/worth"
	"netrate/sim"
)

// The best with one choice taken otherwise: what needs it goes too, what cannot be is said, and what
// changes is what a comparison of the two finds in the same shifts.
func TestDesignTurns(t *testing.T) {
	q := toyDesign()
	a, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	require.Equal(t, []string{"three", "near"}, a.Finalists[a.Best].Choices)
	turns := map[string]DesignTurn{}
	for _, x := range a.Turns {
		turns[x.Instead] = x
	}
	require.Len(t, a.Turns, 6)
	assert.Equal(t, []string{"three"}, turns["far"].Without, "three operators need near shelves")
	assert.EqualValues(t, -35, turns["far"].Price)
	assert.Equal(t, DesignCertain, turns["slower"].Verdict)
	assert.Equal(t, DesignSmall, turns["faster"].Verdict, "asked for faster it runs no faster")
	assert.Zero(t, turns["faster"].Change.Mean)

	best, err := q.Line([]int{0, 3, 1})
	require.NoError(t, err)
	slower, err := q.Line([]int{2, 3, 1})
	require.NoError(t, err)
	best.Name, slower.Name = "best", "slower"
	c, err := Comparison{Alternatives: []Alternative{*best, *slower}, Plan: sim.Plan{Seed: 5, Min: q.Plan.Max, Max: q.Plan.Max}}.Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.InDelta(t, c.Compared[0][1].Difference.Mean, float64(turns["slower"].Change.Mean), 1e-9)
	assert.Greater(t, float64(turns["slower"].Change.Half), c.Compared[0][1].Difference.Half, "of several intervals that are right at once each is wider")

	price := 30.0
	q.Limits = DesignLimits{Price: &price}
	a, err = q.Ask(t.Context(), nil)
	require.NoError(t, err)
	for _, x := range a.Turns {
		if x.Instead == "faster" {
			assert.Equal(t, "too dear", x.Why)
			assert.Nil(t, x.Change)
		}
	}
}

// At another volume the designs that were compared cost what they cost where the file has that volume.
func TestDesignAtVolumes(t *testing.T) {
	ask := func(volume float64) *DesignAnswer {
		q := toyDesign()
		q.Goal, q.Worth = DesignCost, 0.5
		line := q.Line
		q.Line = func(choices []int) (*Alternative, error) {
			a, err := line(choices)
			price := 0.0
			for i, k := range choices {
				price += 1000 * float64(q.Options[i].Choices[k].Price)
			}
			a.Costs = &worth.Costs{
				Currency: "EUR", Life: 8, Rate: 0.08, Price: money.Fixed(price), LineHour: money.Fixed(40), OperatorHour: money.Fixed(30), Volume: money.Fixed(volume),
			}
			return a, err
		}
		a, err := q.Ask(t.Context(), nil)
		require.NoError(t, err)
		return a
	}
	a, twice := ask(5e6), ask(1e7)
	require.Len(t, a.Volumes, len(designVolumes))
	double := a.Volumes[3]
	assert.EqualValues(t, 2, double.Times)
	name := a.Finalists[double.Cheapest].Choices
	for i, f := range twice.Finalists {
		if assert.ObjectsAreEqual(f.Choices, name) {
			assert.InDelta(t, float64(twice.Comparison.Money.Lines[i].AllIn.Mean), float64(double.AllIn), 1e-9)
			assert.InDelta(t, float64(twice.Comparison.Money.Lines[0].AllIn.Mean), float64(double.OfBase), 1e-9)
			return
		}
	}
	t.Fatalf("%v is not compared at twice the volume", name)
}

// By hand: of those that cost no more than 0.1 above the cheapest that with the fewest choices is to be had, of these
// that of the least price; what is outside the limits never is, unless it is the cheapest.
func TestDesignAdvisedAtAVolume(t *testing.T) {
	a := &DesignAnswer{Indifference: 0.1, Finalists: []DesignOne{
		{}, {Within: true, Choices: []string{"x"}, Price: 300}, {Within: true, Choices: []string{"y"}, Price: 200}, {Within: true, Choices: []string{"x", "y"}, Price: 100},
	}}
	costs := []Number{50, 50.09, 50.05, 50}
	at := func(line int) Number { return costs[line] }
	assert.Equal(t, 2, a.advisedAt(3, at))
	costs[2] = 50.2
	assert.Equal(t, 1, a.advisedAt(3, at))
	costs[1] = 50.2
	assert.Equal(t, 3, a.advisedAt(3, at))
	a.Finalists[0].Within = true
	assert.Equal(t, 0, a.advisedAt(3, at))
}

// Of the fewest operators a choice is needed if without it too few shifts reach the target, by the same shifts
// simulated one by one; what has more operators is no better, and of what reaches it with fewer it is said.
func TestDesignTurnsOfOperators(t *testing.T) {
	q := toyDesign()
	q.Goal, q.Share = DesignOperators, 0.9
	rates := func(choices []int) sim.Sample {
		x, err := q.Line(choices)
		require.NoError(t, err)
		study, err := runs.Run(t.Context(), x.Line, sim.Plan{Seed: 5, Min: 400, Max: 400}, nil)
		require.NoError(t, err)
		return study.Sample(func(s *runs.Shift) float64 { return s.NetRate })
	}
	q.Target = rates([]int{0, 0, 1}).Quantile(0.05) // with near shelves one operator is enough
	a, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	require.Equal(t, 1, a.Finalists[a.Advice].Operators)
	require.Equal(t, []string{"near"}, a.Finalists[a.Advice].Choices)
	seen := 0
	for _, x := range a.Turns {
		if x.Why != "" {
			continue
		}
		speed, crew, shelves := map[string]int{"faster": 1, "slower": 2}[x.Instead], map[string]int{"two": 1, "alone": 2, "three": 3}[x.Instead], 1
		if x.Instead == "far" {
			shelves = 0
		}
		met := 0
		for _, r := range rates([]int{speed, crew, shelves}) {
			if r >= q.Target {
				met++
			}
		}
		assert.InDelta(t, float64(met)/400, float64(x.Reaches.Share), 1e-12, x.Instead)
		assert.Less(t, x.Reaches.Low, x.Reaches.High)
		assert.Equal(t, map[string]DesignVerdict{"faster": DesignCertain, "slower": DesignCertain, "two": DesignCertain, "alone": DesignSmall, "three": DesignCertain, "far": DesignTossUp}[x.Instead], x.Verdict, "%s: %+v", x.Instead, x.Reaches)
		seen++
	}
	assert.Equal(t, 6, seen)

	q.Target = 1e6
	a, err = q.Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.False(t, a.Reached)
	assert.Nil(t, a.Turns, "nothing reaches it: nothing is needed for it")
}
