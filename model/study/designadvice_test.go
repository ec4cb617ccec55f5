package study

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model/modeltest"
	"netrate/model/money"
	"netrate/model/worth"
	"netrate/sim"
)

// knownDesign is a random search among 36 lines of which the long-run rates are known: without a stock or a
// walk that is V/(1 + V/3600·p·d). One option changes nothing, and has its price all the same.
type knownDesign struct {
	Design
	speeds, faults, downs []float64
}

func newKnownDesign(seed uint64) *knownDesign {
	random := rand.New(rand.NewPCG(seed, 23))
	between := func(low, high float64) float64 { return low + float64(random.Float64()*(high-low)) }
	d := &knownDesign{
		speeds: []float64{9000, between(9000, 9200), between(9000, 9800)},
		faults: []float64{0.003, between(0.002, 0.003), between(0.001, 0.003)},
		downs:  []float64{20, between(17, 20)},
	}
	option := func(name string, n int) {
		o := DesignOption{Name: name, Choices: []DesignChoice{{Name: name + " now"}}}
		for k := range n - 1 {
			o.Choices = append(o.Choices, DesignChoice{Name: fmt.Sprint(name, k), Price: Number(math.Round(between(1, 20)) * 1000)})
		}
		d.Options = append(d.Options, o)
	}
	option("speed", 3)
	option("faults", 3)
	option("down", 2)
	option("paint", 2)
	d.Worth, d.Plan = 150, sim.Plan{Seed: seed, Min: 300, Max: 300}
	d.Line = d.line
	return d
}

func (d *knownDesign) line(x []int) (*Alternative, error) {
	l := modeltest.ZeroBufferLine(d.speeds[x[0]], 1, modeltest.ZeroBufferFaults{Stations: 1, Fault: d.faults[x[1]], Caught: 1, Down: sim.Seconds(d.downs[x[2]])})
	l.Shift = 1800
	a := &Alternative{Line: l}
	if d.Goal.InMoney() {
		price := 0.0
		for i, k := range x {
			price += float64(d.Options[i].Choices[k].Price)
		}
		a.Costs = &worth.Costs{Currency: "EUR", Life: 8, Rate: 0.08, Price: money.Fixed(price), LineHour: money.Fixed(90), Volume: money.Fixed(2e7)}
	}
	return a, nil
}

// rate returns the long-run rate of a line.
func (d *knownDesign) rate(x []int) float64 {
	v := d.speeds[x[0]]
	return v / (1 + v/3600*d.faults[x[1]]*d.downs[x[2]])
}

// of returns the numbers of the choices of a finalist, and its price.
func (d *knownDesign) of(f DesignOne) (x []int) {
	for i := range d.Options {
		x = append(x, d.Options[i].in(&f))
	}
	return x
}

func (d *knownDesign) price(x []int) (price Number) {
	for i, k := range x {
		price += d.Options[i].Choices[k].Price
	}
	return price
}

// What is advised is within the tolerance of the best there is, within the difference that matters of what
// was chosen, and the cheapest of which that is plain. Were the best advised, something cheaper that is as
// good would be passed over in most of these problems.
func TestDesignAdvisesTheCheapest(t *testing.T) {
	beyond, behind, dear, dearBest := 0, 0, 0, 0
	const rounds = 40
	for n := range uint64(rounds) {
		d := newKnownDesign(n)
		a, err := d.Ask(t.Context(), nil)
		require.NoError(t, err)
		advice, chosen := d.of(a.Finalists[a.Advice]), d.of(a.Finalists[a.Best])
		best, cheapest := 0.0, Number(math.Inf(1))
		for _, x := range everyChoice(d.Options) {
			best = max(best, d.rate(x))
			if d.rate(x) >= d.rate(chosen)-d.Worth/3 {
				cheapest = min(cheapest, d.price(x))
			}
		}
		count := func(n *int, is bool) {
			if is {
				*n++
			}
		}
		count(&beyond, d.rate(advice) < best-float64(a.Tolerance))
		count(&behind, d.rate(advice) < d.rate(chosen)-d.Worth)
		count(&dear, cheapest < d.price(advice))
		count(&dearBest, cheapest < d.price(chosen))
	}
	assert.LessOrEqual(t, beyond, 2, "at 95 %% each")
	assert.LessOrEqual(t, behind, 1, "at 99.5 %% each")
	assert.LessOrEqual(t, dear, 2, "the intervals are wider than two thirds of what matters in a few")
	assert.Greater(t, dearBest, rounds/2, "this test cannot fail")
}

// What is no dearer than the chosen and shown to be ahead of it takes its place; what is the same, and painted
// besides, does not.
func TestDesignImprovesTheChosen(t *testing.T) {
	d := newKnownDesign(1)
	q := d.Design
	q.Confidence = Level
	s := &designSearch{Design: &q}
	for _, step := range []func(context.Context) error{s.combine, s.onPaper, s.some, s.leaveOut, s.choose, s.followFrontier} {
		require.NoError(t, step(t.Context()))
	}
	top := &s.lean[len(s.lean)-1]
	painted := *top
	painted.choices = slices.Clone(top.choices)
	painted.choices[3] = 1 - painted.choices[3]
	worse := *top
	worse.choices = slices.Clone(top.choices)
	worse.choices[1] = (worse.choices[1] + 1) % 3
	require.Less(t, d.rate(wide(worse.choices)), d.rate(wide(top.choices))-10)
	for _, c := range []struct{ chosen, then *candidate }{{&painted, &painted}, {&worse, top}, {top, top}} {
		s.chosen[0].candidate, s.chosen[0].left = c.chosen, []*candidate{top, &painted}
		require.NoError(t, s.improve(t.Context()))
		assert.Equal(t, c.then.choices, s.chosen[0].choices)
	}
	s.chosen[0].candidate, s.chosen[0].left = &worse, []*candidate{top, &painted}
	require.NoError(t, s.improve(t.Context()))
	assert.Equal(t, []*candidate{&painted}, s.chosen[0].left, "it is not told apart from itself")
	s.asItIs, s.broken, s.chosen[0].candidate = *top, []DesignLimit{DesignPitches}, &worse
	require.NoError(t, s.improve(t.Context()))
	assert.Equal(t, worse.choices, s.chosen[0].choices, "the line as it is is outside the limits")
}

// Where designs count as equal in money, that with the fewest changes is advised; nothing is bought where
// nothing pays.
func TestDesignAdvisesTheFewestChanges(t *testing.T) {
	d := newKnownDesign(3)
	d.Goal, d.Worth = DesignCost, 50 // a thousand cost some 10 euros
	a, err := d.Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.NotZero(t, a.Best)
	assert.Zero(t, a.Advice)
	assert.Empty(t, a.Finalists[a.Advice].Choices)
	assert.Negative(t, float64(a.Behind.Mean), "of a cost less is better")

	for i := range d.Options {
		for k := range d.Options[i].Choices {
			d.Options[i].Choices[k].Price *= 1000
		}
	}
	d.Worth = 0.01
	a, err = d.Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.Zero(t, a.Best)
	assert.Zero(t, a.Advice)
	assert.Equal(t, a.Indifference, a.Tolerance)
	assert.Nil(t, a.Behind)
}

// An operator who costs nothing here, and is worth nothing, is not advised: not even where that is a change more.
func TestDesignAdvisesTheFewestOperators(t *testing.T) {
	d := newKnownDesign(4)
	d.Options = append(d.Options, DesignOption{Name: "crew", Choices: []DesignChoice{{Name: "two"}, {Name: "one"}, {Name: "three"}}})
	d.Line = func(x []int) (*Alternative, error) {
		a, err := d.line(x)
		a.Line.Crew.Operators = []int{2, 1, 3}[x[4]]
		return a, err
	}
	a, err := d.Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.Equal(t, 1, a.Finalists[a.Advice].Operators)
	assert.Contains(t, a.Finalists[a.Advice].Choices, "one")
}

// What one answer says in several places agrees: the counts, the frontier, its steps, the choices one by
// one and why, of random problems and each goal.
func TestDesignAgreesWithItself(t *testing.T) {
	turned := 0
	for n := range uint64(12) {
		d := newKnownDesign(100 + n)
		d.Goal = []DesignGoal{DesignNetRate, DesignCost, DesignValue}[n%3]
		if d.Goal.InMoney() {
			d.Worth = 0.05
		}
		a, err := d.Ask(t.Context(), nil)
		require.NoError(t, err)
		c := a.Counts
		assert.InDelta(t, float64(c.Combinations), float64(c.Ruled)+float64(c.Impossible+c.Limits+c.Ceiling+c.Simulated), 0)
		assert.LessOrEqual(t, c.Near, c.Ceiling)
		frontierAgrees(t, a)
		stepsAgree(t, a)
		pricesAgree(t, a)
		turned += turnsAgree(t, d, a)
		if a.Advice != 0 {
			whyAgrees(t, a)
		}
	}
	assert.Greater(t, turned, 5, "finalists that differ from the advice in one choice")
}

// frontierAgrees checks that of two designs of the frontier the dearer one is the better.
func frontierAgrees(t *testing.T, a *DesignAnswer) {
	t.Helper()
	for i, x := range a.Finalists {
		for k, y := range a.Finalists {
			if x.Frontier && y.Price <= x.Price && k != i {
				assert.LessOrEqual(t, a.score(k), a.score(i), "%s is beaten by %s", x.Name, y.Name)
			}
		}
	}
}

// pricesAgree checks that of each measure the dearer designs are better, in money where there are costs, and that
// what is best of all is no better than the last but for what is not shown.
func pricesAgree(t *testing.T, a *DesignAnswer) {
	t.Helper()
	measures := []DesignMeasure{DesignByRate, DesignByDefects}
	if a.Goal.InMoney() {
		measures = []DesignMeasure{DesignByRate, DesignByCost, DesignByDefects}
	}
	for n, x := range a.ForPrices {
		assert.Equal(t, measures[n], x.Measure)
		for k, i := range x.Finalists[1:] {
			last := x.Finalists[k]
			assert.Greater(t, a.Finalists[i].Price, a.Finalists[last].Price)
			switch x.Measure {
			case DesignByRate:
				assert.Positive(t, a.Comparison.Compared[last][i].Difference.Low())
			case DesignByCost:
				assert.Less(t, a.Comparison.Money.Lines[i].AllIn.Mean, a.Comparison.Money.Lines[last].AllIn.Mean)
			case DesignByDefects:
				assert.Fail(t, "none of these lines delivers any")
			}
		}
	}
	assert.Len(t, a.ForPrices, len(measures))
}

// stepsAgree checks that steps lead from one design of the frontier to the next, by their prices, and that
// what is said of one is what its interval shows.
func stepsAgree(t *testing.T, a *DesignAnswer) {
	t.Helper()
	for i, s := range a.Steps {
		from, to := &a.Finalists[s.From], &a.Finalists[s.To]
		assert.True(t, from.Frontier && to.Frontier)
		assert.InDelta(t, float64(to.Price-from.Price), float64(s.Price), 1e-9)
		assert.Positive(t, len(s.Added)+len(s.Away)+len(s.Replaced))
		ahead := a.ahead(s.To, s.From)
		assert.Equal(t, designVerdict(float64(ahead.Low), float64(ahead.High), float64(a.Indifference)), s.Verdict)
		assert.GreaterOrEqual(t, float64(ahead.Mean), -1e-9)
		if a.Goal != DesignValue {
			assert.Equal(t, ahead.Mean, s.Gain)
		}
		if i > 0 {
			assert.Equal(t, a.Steps[i-1].From, s.To)
		}
	}
}

// turnsAgree checks that of each turn that was compared as a finalist both say the same, and returns how many
// these are. That a turn saves what counts as equal is what the advice says of it too.
func turnsAgree(t *testing.T, d *knownDesign, a *DesignAnswer) (turned int) {
	t.Helper()
	for _, x := range a.Turns {
		if x.Why != "" {
			continue
		}
		choices := d.of(a.Finalists[a.Advice])
		for o := range d.Options {
			if d.Options[o].Name == x.Option {
				choices[o] = slices.IndexFunc(d.Options[o].Choices, func(c DesignChoice) bool { return c.Name == x.Instead })
			}
		}
		i := slices.IndexFunc(a.Finalists, func(f DesignOne) bool { return slices.Equal(d.of(f), choices) })
		if i < 0 {
			continue
		}
		turned++
		f := &a.Finalists[i]
		assert.InDelta(t, float64(f.Price-a.Finalists[a.Advice].Price), float64(x.Price), 1e-9)
		tolerance := 1e-6
		if a.Goal.InMoney() {
			tolerance = 0.01 // the mean of the shifts' costs, and the cost of their mean
		}
		assert.InDelta(t, a.score(i)-a.score(a.Advice), a.turnScore(&x)-a.score(a.Advice), tolerance)
		if i == a.Best {
			assert.Equal(t, DesignSmall, x.Verdict, "it counts as equal")
		}
	}
	return turned
}

// whyAgrees checks that the reasons why the advice delivers more than the line as it is add up to what it does.
func whyAgrees(t *testing.T, a *DesignAnswer) {
	t.Helper()
	sum := 0.0
	for _, s := range a.Comparison.Steps {
		sum += s.Change
	}
	assert.Equal(t, []int{0, a.Advice}, []int{a.Comparison.From, a.Comparison.To})
	assert.InDelta(t, float64(a.Comparison.Lines[a.Advice].NetRate.Mean-a.Comparison.Lines[0].NetRate.Mean), sum, 0.5)
}
