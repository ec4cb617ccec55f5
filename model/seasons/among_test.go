package seasons

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim"
)

// What was found for another plan is taken where it is better, and only there; not if that has other jobs, or where
// an order was given.
func TestAmongTakesWhatIsBetter(t *testing.T) {
	how := sim.Plan{Seed: 1, Workers: 1}
	made := func(orders ...int) *Made {
		p := annaAway()
		m, err := p.Keep(context.Background(), how, nil, [][]int{orders})
		require.NoError(t, err)
		m.Plan = p // in which no order is given
		return m
	}
	better, worse := made(1, 0), made(0, 1)
	require.NoError(t, better.Among(context.Background(), how, []*Made{better, worse}))
	assert.Equal(t, [][]int{{1, 0}}, better.Order)

	given, err := worse.Plan.Keep(context.Background(), how, nil, worse.Order)
	require.NoError(t, err)
	require.NoError(t, given.Among(context.Background(), how, []*Made{better}))
	assert.Equal(t, [][]int{{0, 1}}, given.Order)

	other := made(1, 0)
	other.Plan.Jobs[1].Name = "another"
	require.NoError(t, worse.Among(context.Background(), how, []*Made{worse, other}))
	assert.Equal(t, [][]int{{0, 1}}, worse.Order)

	require.NoError(t, worse.Among(context.Background(), how, []*Made{worse, better}))
	assert.Equal(t, [][]int{{1, 0}}, worse.Order)
	assert.True(t, worse.Other)
	assert.Equal(t, 2, worse.Tried)
}
