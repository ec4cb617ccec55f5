package study

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model/modeltest"
	"netrate/model/runs"
	"netrate/sim"
)

// toyDesign is a search among 24 designs of the reference line: speeds, operators and walks.
func toyDesign() Design {
	speeds, walks := []float64{1, 1.1, 0.7}, []sim.Seconds{10, 5}
	return Design{
		Options: []DesignOption{
			{Name: "speed", Choices: []DesignChoice{{Name: "now"}, {Name: "faster", Price: 40, Excludes: []string{"alone"}}, {Name: "slower"}}},
			{Name: "crew", Choices: []DesignChoice{{Name: "one"}, {Name: "two", Price: 10}, {Name: "alone"}, {Name: "three", Price: 30, Needs: []string{"near"}}}},
			{Name: "shelves", Choices: []DesignChoice{{Name: "far"}, {Name: "near", Price: 5}}},
		},
		Line: func(choices []int) (*Alternative, error) {
			l := *modeltest.ReferenceLine()
			l.Shift = 3600
			l.Speed *= speeds[choices[0]]
			l.Crew.Operators = []int{1, 2, 1, 3}[choices[1]]
			l.Crew.Walk = sim.Constant(walks[choices[2]])
			return &Alternative{Line: &l}, nil
		},
		Worth: 20, Plan: sim.Plan{Seed: 5, Min: 200, Max: 400},
	}
}

// Every combination is either ruled out, over the limits, left out on paper or simulated; the rules
// are those that a look at all of them finds.
func TestDesignCountsAll(t *testing.T) {
	q := toyDesign()
	limit, operators := 45.0, 2
	q.Limits = DesignLimits{Price: &limit, Operators: &operators}
	a, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	ruled, outside := 0, 0
	for _, x := range everyChoice(q.Options) {
		speed, crew, near := x[0], x[1], x[2] == 1
		price := []float64{0, 40, 0}[speed] + []float64{0, 10, 0, 30}[crew]
		if near {
			price += 5
		}
		switch {
		case price > limit, speed == 1 && crew == 2, crew == 3 && !near:
			ruled++
		case crew == 3:
			outside++
		}
	}
	assert.Equal(t, Number(24), a.Counts.Combinations)
	assert.Equal(t, Number(ruled), a.Counts.Ruled)
	assert.Equal(t, outside, a.Counts.Limits)
	assert.Equal(t, []DesignOutside{{DesignCrew, outside, outside}}, a.Counts.Outside)
	assert.Equal(t, 24-ruled-outside, a.Counts.Ceiling+a.Counts.Simulated)
	assert.Positive(t, a.Counts.Ceiling, "so much slower cannot be the best")
	for _, f := range a.Finalists {
		assert.LessOrEqual(t, float64(f.Price), limit)
		assert.LessOrEqual(t, f.Operators, operators)
	}
}

// everyChoice returns all combinations of the choices of options.
func everyChoice(options []DesignOption) (all [][]int) {
	all = [][]int{nil}
	for _, o := range options {
		var longer [][]int
		for _, x := range all {
			for k := range o.Choices {
				longer = append(longer, append(append([]int(nil), x...), k))
			}
		}
		all = longer
	}
	return all
}

// What is chosen is what a comparison of all combinations finds, or within what matters of it; and
// the comparison at the end is that of Comparison.
func TestDesignFindsTheBest(t *testing.T) {
	q := toyDesign()
	a, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	require.True(t, a.Promised)

	c := Comparison{Plan: sim.Plan{Seed: 77, Min: 300, Max: 300}}
	for i, x := range everyChoice(q.Options) {
		if x[0] == 1 && x[1] == 2 || x[1] == 3 && x[2] == 0 {
			continue // against the rules
		}
		one, err := q.Line(x)
		require.NoError(t, err)
		one.Name = fmt.Sprint(i, x)
		c.Alternatives = append(c.Alternatives, *one)
	}
	all, err := c.Ask(t.Context(), nil)
	require.NoError(t, err)
	best := all.Lines[all.Leader].NetRate
	chosen := a.Comparison.Lines[a.Best].NetRate
	assert.Greater(t, float64(chosen.Mean), float64(best.Mean)-q.Worth-float64(chosen.Half)-float64(best.Half))
	assert.Equal(t, []string{"three", "near"}, a.Finalists[a.Best].Choices, "asked for faster it runs no faster, and of equals the cheapest is taken")
	assert.Equal(t, "base", a.Finalists[0].Name)
	assert.Empty(t, a.Finalists[0].Choices)
}

// The same bits for any number of workers.
func TestDesignSameBits(t *testing.T) {
	q := toyDesign()
	var first *DesignAnswer
	for _, workers := range []int{1, 3} {
		q.Plan.Workers = workers
		a, err := q.Ask(t.Context(), nil)
		require.NoError(t, err)
		for i := range a.Finalists {
			a.Comparison.Lines[i].Study.Plan.Workers = 0
		}
		if first == nil {
			first = a
			continue
		}
		assert.Equal(t, first.Counts, a.Counts)
		assert.Equal(t, first.Finalists, a.Finalists)
		assert.Equal(t, first.Comparison.Pairs, a.Comparison.Pairs)
	}
}

// Lines that cannot be are counted, with why.
func TestDesignOfImpossibleLines(t *testing.T) {
	q := toyDesign()
	line := q.Line
	q.Line = func(choices []int) (*Alternative, error) {
		if choices[1] == 3 {
			return nil, errors.New("there is no room for three")
		}
		return line(choices)
	}
	a, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.Equal(t, []DesignReason{{"there is no room for three", 3, []string{"three"}}}, a.Reasons)
	assert.Equal(t, 3, a.Counts.Impossible)
	assert.NotContains(t, a.Finalists[a.Best].Choices, "three")
}

// The fewest operators with whom nine shifts of ten reach a target.
func TestDesignOfFewestOperators(t *testing.T) {
	q := toyDesign()
	q.Goal, q.Share = DesignOperators, 0.9
	q.Target = 0
	assert.Error(t, q.Check())
	for _, c := range []struct {
		target    float64
		operators int
		reached   bool
	}{{1000, 1, true}, {1e6, 3, false}} {
		q.Target = c.target
		a, err := q.Ask(t.Context(), nil)
		require.NoError(t, err)
		assert.Equal(t, c.reached, a.Reached, "%v", c.target)
		if c.reached {
			assert.Equal(t, c.operators, a.Finalists[a.Best].Operators)
		}
	}
}

// On 200 random problems with a known best the choice is right, or within what matters, as often as is
// stated, at 90 % in 180 of them (with no bands in the selection it is 157).
func TestDesignIsRightAsOftenAsStated(t *testing.T) {
	right := 0
	const rounds = 200
	for n := range rounds {
		if randomDesignIsRight(t, uint64(n)) {
			right++
		}
	}
	assert.GreaterOrEqual(t, right, 180, "of %d", rounds)
}

// randomDesignIsRight searches among 48 lines of which only the speed and one kind of stop differ, so that
// their long-run rates are known: V/(1 + V/3600·p·d), without a stock or a walk.
func randomDesignIsRight(t *testing.T, seed uint64) bool {
	t.Helper()
	random := rand.New(rand.NewPCG(seed, 9))
	const worth = 20
	faults, speeds := make([]float64, 8), make([]float64, 6)
	for i := range faults {
		faults[i] = 0.0005 + float64(random.Float64()*0.003)
	}
	for i := range speeds {
		speeds[i] = 9000 + float64(random.Float64()*2000)
	}
	option := func(name string, n int) DesignOption {
		o := DesignOption{Name: name}
		for k := range n {
			o.Choices = append(o.Choices, DesignChoice{Name: fmt.Sprint(name, k)})
		}
		return o
	}
	rate := func(x []int) float64 { return speeds[x[1]] / (1 + speeds[x[1]]/3600*faults[x[0]]*20) }
	q := Design{
		Options: []DesignOption{option("faults", len(faults)), option("speeds", len(speeds))},
		Line: func(x []int) (*Alternative, error) {
			l := modeltest.ZeroBufferLine(speeds[x[1]], 1, modeltest.ZeroBufferFaults{Stations: 1, Fault: faults[x[0]], Caught: 1, Down: 20})
			l.Shift, l.Random = 600, fmt.Sprint(x) // no random numbers in common: the hardest case
			return &Alternative{Line: l}, nil
		},
		Worth: worth, Confidence: 0.9, Plan: sim.Plan{Seed: seed, Min: 2, Max: 30000, Precision: 1},
	}
	best := 0.0
	for _, x := range everyChoice(q.Options) {
		best = max(best, rate(x))
	}
	s := &designSearch{Design: &q}
	for _, step := range []func() error{
		func() error { return s.combine(t.Context()) }, func() error { return s.onPaper(t.Context()) },
		func() error { return s.leaveOut(t.Context()) }, func() error { return s.choose(t.Context()) },
	} {
		require.NoError(t, step())
	}
	return rate(wide(s.chosen[0].choices)) >= best-worth
}

// What is left out on paper is not the best: of random searches among lines of the reference line's kind
// each design that is left out is simulated all the same, and none delivers more than the best of the
// others. If every second ceiling were a fifth lower, some that do would be left out.
func TestDesignLeavesOutWorseOnly(t *testing.T) {
	left, wrong := 0, 0
	for n := range 12 {
		left += leftOutWrongly(t, uint64(n), 1, func() { assert.Fail(t, "a better one is left out", "problem %d", n) })
		leftOutWrongly(t, uint64(n), 0.8, func() { wrong++ })
	}
	assert.Greater(t, left, 40)
	assert.Positive(t, wrong, "this test cannot fail")
}

// leftOutWrongly searches on paper among 36 random lines, with every second ceiling as it is or lower,
// calls wrongly if a design is left out that is better than the best of the rest, and returns how many are left out.
func leftOutWrongly(t *testing.T, seed uint64, ceilings float64, wrongly func()) int {
	t.Helper()
	random := rand.New(rand.NewPCG(seed, 11))
	among := func(low, high float64, n int) (all []float64) {
		for range n {
			all = append(all, low+float64(random.Float64()*(high-low)))
		}
		return all
	}
	faults, speeds, crews := among(0.3, 3, 4), among(9000, 18_000, 3), among(1, 3.99, 3)
	q := Design{Worth: 20, Confidence: 0.95, Plan: sim.Plan{Seed: seed}}
	for name, n := range map[string]int{"a": 4, "b": 3, "c": 3} {
		o := DesignOption{Name: name}
		for k := range n {
			o.Choices = append(o.Choices, DesignChoice{Name: fmt.Sprint(name, k)})
		}
		q.Options = append(q.Options, o)
	}
	slices.SortFunc(q.Options, func(x, y DesignOption) int { return strings.Compare(x.Name, y.Name) })
	q.Line = func(x []int) (*Alternative, error) {
		l := runs.Faultier(modeltest.ReferenceLine(), faults[x[0]]).Clone()
		l.Shift, l.Speed, l.Crew.Operators = 3600, speeds[x[1]], int(crews[x[2]])
		return &Alternative{Line: l}, nil
	}
	s := &designSearch{Design: &q}
	require.NoError(t, s.combine(t.Context()))
	require.NoError(t, s.onPaper(t.Context()))
	for i := 0; i < len(s.all); i += 2 {
		s.all[i].ceiling *= ceilings
	}
	before := slices.Clone(s.all)
	require.NoError(t, s.leaveOut(t.Context()))
	best, out := math.Inf(-1), []*candidate{}
	for i := range before {
		one := &before[i]
		if slices.ContainsFunc(s.all, func(c candidate) bool { return slices.Equal(c.choices, one.choices) }) {
			continue
		}
		out = append(out, one)
	}
	const shifts = 40
	require.NoError(t, s.search(t.Context(), pointers(s.all), 0, shifts, func(_ int, x sim.Sample) { best = max(best, x.Mean()) }))
	if len(out) == 0 {
		return 0
	}
	is := false
	require.NoError(t, s.search(t.Context(), out, 0, shifts, func(_ int, x sim.Sample) { is = is || x.Mean() > best }))
	if is {
		wrongly()
	}
	return len(out)
}

// Once the choice is made Ctrl-C leaves an answer: of the comparison as far as it is, or of all of it
// without the choices one by one. Before it there is none.
func TestDesignInterrupted(t *testing.T) {
	ask := func(last int) (a *DesignAnswer, told int) {
		ctx, cancel := context.WithCancel(t.Context())
		defer cancel()
		q := toyDesign()
		q.Plan.Workers = 1
		a, err := q.Ask(ctx, func(Sofar[DesignAnswer]) {
			if told++; told == last {
				cancel()
			}
		})
		require.NoError(t, err)
		return a, told
	}
	whole, all := ask(0)
	designs := 1
	for _, x := range whole.Turns {
		if x.Why == "" {
			designs++
		}
	}
	a, _ := ask(all - designs + 2)
	require.NotNil(t, a, "in the turns")
	assert.Nil(t, a.Turns)
	assert.True(t, a.Settings.Partial)
	assert.Equal(t, whole.Comparison.Pairs, a.Comparison.Pairs)
	assert.Equal(t, whole.Finalists, a.Finalists)

	a, _ = ask(all - designs - 20)
	require.NotNil(t, a, "in the comparison")
	assert.True(t, a.Settings.Partial)
	assert.Less(t, a.Settings.Reps, whole.Settings.Reps)
	assert.Equal(t, whole.Best, a.Best)
	assert.Nil(t, a.Turns)

	a, _ = ask(3)
	assert.Nil(t, a, "before the choice")
}
