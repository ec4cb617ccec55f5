package seasons

import (
	"context"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/sim"
)

// annaAway is two jobs on one line, 4 h a day: Anna, who alone changes over, is away on the second day. The short job
// takes 4 h, the long one 7 h; the first is changed over in 20 min, the next in 10. Both are due after 12 h 30.
func annaAway() *Plan {
	p := skilled()
	p.Lines, p.Order = p.Lines[:1], nil
	p.Jobs[0].Sets, p.Jobs[1].Sets = 14395, 25195
	p.Jobs[0].Due, p.Jobs[1].Due = 3*day+8.5*hour, 3*day+8.5*hour
	p.Staffed = []Staffed{{Name: "sick", Days: []int{2}, Operators: AsElse, Absent: []string{"Anna"}}}
	return p
}

// By hand: whichever is first ends on the second day, and Anna comes again after 8 h. The long one first ends after
// 7 h 20, the short one after 8 h 10 and 4 h: that is found, and is in time. The short one first ends after 4 h 20, the
// long one after 8 h 10 and 7 h: too late. The wait is in neither factor.
func TestPlanKnowsWhoMayChangeOver(t *testing.T) {
	p := annaAway()
	how := sim.Plan{Seed: 1, Workers: 1}
	m, err := p.Make(context.Background(), how, nil)
	require.NoError(t, err)
	assert.Equal(t, [][]int{{1, 0}}, m.Order)
	assert.True(t, m.Exact)
	assert.InDelta(t, 1, m.Factor, 1e-6)
	assert.InDelta(t, 12+1.0/6, float64(m.Done)/3600, 1e-6)
	assert.InDelta(t, float64(m.Done), runTogether(t, m.Together(), 1).Finished[0], 1)
	assert.LessOrEqual(t, m.Bounds.Last, m.Done)
	other, err := p.Keep(context.Background(), how, m.Times, [][]int{{0, 1}})
	require.NoError(t, err)
	assert.False(t, other.Exact)
	assert.InDelta(t, 1, other.Factor, 1e-6, "a wait is no work")
	assert.InDelta(t, 15+1.0/6, float64(other.Done)/3600, 1e-6)
	assert.InDelta(t, 8, float64(other.OnPaper(other.Order)[0][1].From)/3600, 1e-3, "changed over when she is back")
}

// randomAbsences returns a plan of some jobs on two lines, with dates that are tight and people who are away.
func randomAbsences(r *rand.Rand) *Plan {
	p := skilled()
	p.Order = nil
	p.Crew.Operators = 3
	p.Crew.People = append(p.Crew.People, model.Person{Name: "Cem", Operators: 1, Lines: []string{"b"}})
	for _, l := range p.Lines {
		l.Crew = p.Crew
	}
	p.Jobs = nil
	for i := range 5 {
		p.Jobs = append(p.Jobs, PlanJob{
			Name: string(rune('p' + i)), Product: r.IntN(len(p.Products)), Sets: int64(3600 * (1 + r.IntN(5))), Priority: float64(1 + r.IntN(2)), InHand: -1,
			Due: sim.Seconds(r.IntN(3))*day + 12*hour,
		})
	}
	for _, who := range []string{"Anna", "Cem"} {
		p.Staffed = append(p.Staffed, Staffed{Name: who, Days: []int{1 + r.IntN(3)}, Operators: AsElse, Absent: []string{who}})
	}
	return p
}

// A plan that is made beside an order that is known is not later than that order in the simulation by more than chance,
// whoever is away; and often less late.
func TestPlanIsNoWorseThanWhatIsKnown(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	better, tried := 0, 0
	for range 12 {
		p := randomAbsences(r)
		p.Known = [][][]int{{nil, nil}}
		for _, j := range r.Perm(len(p.Jobs)) {
			i := r.IntN(2)
			p.Known[0][i] = append(p.Known[0][i], j)
		}
		how := sim.Plan{Seed: 1, Workers: 1}
		m, err := p.Make(context.Background(), how, nil)
		require.NoError(t, err)
		by, err := p.Keep(context.Background(), how, m.Times, p.Known[0])
		require.NoError(t, err)
		own, given := trueLate(t, p, m.Order, 20).Mean(), trueLate(t, p, by.Order, 20).Mean()
		assert.LessOrEqual(t, own, given+0.1)
		if own < given-1 {
			better++
		}
		if m.Tried > 0 {
			tried++
		}
	}
	assert.Greater(t, better, 5, "orders at random are easily beaten")
	assert.Greater(t, tried, 3, "of what is never late nothing is tried")
}

// What is known is taken, and that is said, where it is better in the simulation than what paper has first.
func TestChooseTakesWhatIsBetter(t *testing.T) {
	p, how := annaAway(), sim.Plan{Seed: 1, Workers: 1}
	m, err := p.Keep(context.Background(), how, nil, [][]int{{0, 1}})
	require.NoError(t, err)
	p.Known = [][][]int{{{1, 0}}}
	m.Plan = p
	require.NoError(t, m.choose(context.Background(), how, m.inTheMean(p.shop(m.Horizon, m.Times)), nil))
	assert.Equal(t, p.Known[0], m.Order)
	assert.True(t, m.Other)
	assert.Equal(t, 2, m.Tried)
}

// A week of four jobs on two lines with one operator, of which all orders were simulated: the plan found is less than
// 2 h times priorities from the best at any seed. The best on paper is over 5 h from it: without the simulation of
// others this test fails.
func TestPlanFoundIsNearTheBest(t *testing.T) {
	p := smallWeek(rand.New(rand.NewPCG(7, 81)), 4)
	best := bestOf(t, p, simulatedRound{4, 20}, simulatedRound{40, 3}, simulatedRound{150, 1})
	for seed := range uint64(5) {
		m, err := p.Make(context.Background(), sim.Plan{Seed: seed + 1, Max: 100}, nil)
		require.NoError(t, err)
		loss, _ := lossOf(t, p, m.Order, best, 150)
		assert.Less(t, loss, 2.0, "seed %d", seed+1)
		onPaper, _ := lossOf(t, p, m.inTheMean(p.shop(m.Horizon, m.Times)).Assign().Order, best, 150)
		assert.Greater(t, onPaper, 5.0, "seed %d", seed+1)
		assert.True(t, m.Other)
	}
}

// The plan is the same at any number of workers.
func TestPlanFoundOnAnyMachine(t *testing.T) {
	p := smallWeek(rand.New(rand.NewPCG(7, 81)), 4)
	one, err := p.Make(context.Background(), sim.Plan{Seed: 1, Workers: 1}, nil)
	require.NoError(t, err)
	three, err := p.Make(context.Background(), sim.Plan{Seed: 1, Workers: 3}, nil)
	require.NoError(t, err)
	assert.Equal(t, one, three)
	assert.Greater(t, one.Tried, 10)
}
