package seasons

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/sim"
)

// withoutAnna is the plan of skilled, in which she never comes, and Cem changes over b alone.
func withoutAnna() *Plan {
	p := skilled()
	p.Order = nil
	p.Crew.Operators = 3
	p.Crew.People = append(p.Crew.People, model.Person{Name: "Cem", Operators: 1, Only: model.Changing, Lines: []string{"b"}})
	p.Staffed = []Staffed{{Name: "gone", Operators: AsElse, Absent: []string{"Anna"}}}
	for _, l := range p.Lines {
		l.Crew = p.Crew
	}
	return p
}

// By hand: nobody who is ever there changes over a, so that b does both jobs, in 20 min and 2 h, and 3 h, or the other
// way round; a would have done one of them beside it. Where a is at a job already it needs no changeover for it.
func TestLineIsNotTaken(t *testing.T) {
	p := withoutAnna()
	aside := p.NotTaken()
	require.Len(t, aside, 2)
	for j, x := range aside {
		assert.Equal(t, [2]int{0, j}, [2]int{x.Line, x.Job})
		assert.Equal(t, []string{"change over"}, x.Lacks)
	}
	made, err := p.Make(context.Background(), sim.Plan{Seed: 1, Workers: 1}, nil)
	require.NoError(t, err)
	assert.Empty(t, made.Order[0])
	assert.Len(t, made.Order[1], 2)

	p.Jobs[0].InHand = 0
	assert.Len(t, p.NotTaken(), 1)
	made, err = p.Make(context.Background(), sim.Plan{Seed: 1, Workers: 1}, nil)
	require.NoError(t, err)
	assert.Equal(t, [][]int{{0}, {1}}, made.Order)
}

// A job that no other line may do is refused, and so is an order that has a job there.
func TestLineNotTakenIsRefused(t *testing.T) {
	p := withoutAnna()
	p.Jobs[1].Lines = []int{0}
	err := p.Check()
	require.ErrorContains(t, err, "a: nobody who is ever there may change over, as two may need, and no other line can do it")
	assert.NotContains(t, err.Error(), "one")

	p = withoutAnna()
	p.Order = [][]int{{1}, {0}}
	err = p.Check()
	require.ErrorAs(t, err, new(*Misplaced))
	assert.ErrorContains(t, err, "a cannot do two: nobody who is ever there may change over")

	p.Staffed = nil
	require.NoError(t, p.Check())
	assert.Empty(t, p.NotTaken())
}
