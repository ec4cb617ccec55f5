package study

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/model/money"
	"netrate/model/worth"
	"netrate/scenarios"
	"netrate/sim"
	"netrate/sim/output"
)

// worthComparison compares the base and the variants of the example with costs.
func worthComparison(t *testing.T, reps int) *ComparisonAnswer {
	t.Helper()
	x, err := scenarios.ExampleNamed("gate-worth")
	require.NoError(t, err)
	sc, err := scenarios.Load("gate-worth", x.Data)
	require.NoError(t, err)
	q := Comparison{
		Alternatives: []Alternative{{Name: "base", Line: sc.Line, Costs: sc.Costs}},
		Plan:         sim.Plan{Seed: 1, Min: reps, Max: reps},
	}
	for _, v := range sc.Variants {
		q.Alternatives = append(q.Alternatives, Alternative{Name: v.Name, Line: v.Line, Costs: v.Costs})
	}
	a, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	return a
}

// The steps lead from the cost of the base to that of the line, the net present value crosses 0
// where the line breaks even, and the favourite is the one that is worth most.
func TestWorth(t *testing.T) {
	c := worthComparison(t, 40)
	a, err := Worth{Comparison: c, Draws: 200}.Ask()
	require.NoError(t, err)
	require.Len(t, a.Lines, len(c.Lines))
	assert.Nil(t, a.Lines[0].Against)
	for i := 1; i < len(a.Lines); i++ {
		x := &a.Lines[i]
		sum := float64(a.Lines[0].PerThousand.Mean)
		for _, s := range a.Steps(i) {
			sum += s.Change
		}
		assert.InEpsilon(t, float64(x.PerThousand.Mean), sum, 1e-6, x.Name)
		assert.LessOrEqual(t, x.Against.NPV.Mean, a.Lines[a.Favourite].Against.NPV.Mean)

		curve := a.Curve(i)
		middle := curve[len(curve)/2] // at the volume of the costs, in the mean
		assert.InEpsilon(t, a.Worth.Volume.Mean(), middle.Volume, 1e-9)
		assert.Equal(t, middle.NPV.Mean > 0, x.Against.Chance.Share > 0.5, x.Name)
	}
}

// What cannot be stated has a reason, which the comparison has as data; lines without costs have
// nothing to tell, and wrong costs are refused before anything is simulated.
func TestWorthAside(t *testing.T) {
	c := worthComparison(t, 3)
	require.NotNil(t, c.Money)
	assert.Nil(t, c.Aside)
	assert.Equal(t, WorthDraws, c.Money.Draws)

	c.Selection = &ComparisonSelected{}
	_, err := Worth{Comparison: c}.Ask()
	assert.Equal(t, &worth.Aside{Why: worth.ShiftsDiffer}, err)

	c = worthComparison(t, 1)
	assert.Nil(t, c.Money)
	assert.Equal(t, &worth.Aside{Why: worth.ShiftsTooFew, Lines: []int{0, 1, 2, 3}[:len(c.Lines)]}, c.Aside)

	for i := range c.Lines {
		c.Lines[i].Of.Costs = nil
	}
	a, err := Worth{Comparison: c}.Ask()
	require.NoError(t, err)
	assert.Nil(t, a)

	wrong := *worthComparison(t, 2).Lines[0].Of.Costs
	wrong.Life = 0
	q := Comparison{Alternatives: []Alternative{c.Lines[0].Of, c.Lines[1].Of}, Plan: sim.Plan{Seed: 1, Min: 2, Max: 2}}
	q.Alternatives[1].Costs = &wrong
	assert.EqualError(t, q.Check(), "costs of "+q.Alternatives[1].InWords()+": life is 0 years, want from 1 to 100")
}

// From the draws: nearly certain is 95 in a hundred; a line breaks even at once, never, within
// what it can make in a year, or beyond.
func TestWorthVerdicts(t *testing.T) {
	one := sim.Sample{1}
	draws := func(up int) sim.Sample {
		s := make(sim.Sample, 100)
		for i := range s {
			s[i] = -1
			if i < up {
				s[i] = 1
			}
		}
		return s
	}
	gain := func(up int, even float64) *WorthGain {
		g := worth.Gain{Saving: one, Payback: one, Discounted: one, NPV: draws(up), BreakEven: sim.Sample{even}}
		g.Chance.Share = float64(up) / 100
		return worthGain(&g, 1000)
	}
	for up, want := range map[int]WorthVerdict{95: WorthIs, 94: WorthMay, 50: WorthMay, 49: WorthLikelyNot, 6: WorthLikelyNot, 4: WorthIsNot} {
		assert.Equal(t, want, gain(up, 1).Verdict, up)
	}
	never := math.Inf(1)
	for even, want := range map[float64]WorthPays{0: WorthPaysAlways, 999: WorthPaysFrom, 1001: WorthPaysBeyond, never: WorthPaysNever} {
		assert.Equal(t, want, gain(50, even).Pays, even)
	}
}

// The hours of a year are its volume over the rate that stands beside them: with uncertain inputs that
// is the volume over the rate of each draw, in the mean, which the closed form has, too. Over the
// mean net rate they would be too few.
func TestHoursAreVolumeOverRate(t *testing.T) {
	const volume = 5e6
	l := modeltest.TruthLine(1)
	guess := output.Between{Low: 0.001, Likely: 0.005, High: 0.06} // of a station that stops the line for 20 cycles
	first := l.Stations[0].(*model.Feeder)
	first.Double = guess.Nominal()
	l.UncertainInputs = []model.UncertainInput{{Station: first.Name, Name: "double", Of: guess}}
	costs := &worth.Costs{Currency: "EUR", LineHour: money.Fixed(50), Volume: money.Fixed(volume), Life: 5}
	alternative := Alternative{Name: "a", Line: l, Costs: costs}
	other := alternative
	other.Name = "b"
	c, err := Comparison{Alternatives: []Alternative{alternative, other}, Plan: sim.Plan{Seed: 1, Min: 4, Max: 4}, Draws: 400}.Ask(t.Context(), nil)
	require.NoError(t, err)
	require.NotNil(t, c.Money)
	x := &c.Money.Lines[0]
	assert.InEpsilon(t, volume, float64(x.HourRate*x.Hours.Mean), 1e-9)

	hours, rate := 0.0, 0.0
	for p := 0.0005; p < 1; p += 0.001 {
		r := modeltest.OnPaper([]float64{guess.Quantile(p), 0.002, 0.002, 0.002, 0.002, 0.002})
		hours, rate = hours+volume/r/1000, rate+r/1000
	}
	assert.InEpsilon(t, hours, float64(x.Hours.Mean), 0.01)
	assert.InEpsilon(t, hours*rate/volume-1, x.MoreHours(), 0.1)
	assert.Greater(t, x.MoreHours(), 0.02, "the mean rate would do: this test cannot fail")
}
