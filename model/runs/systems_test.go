package runs

import (
	"context"
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/sim"
)

// Lines that are run one by one have the shifts that they have together.
func TestSystemsAreRunAsTogether(t *testing.T) {
	lines := []*model.Line{modeltest.ReferenceLine(), modeltest.LettersLine(3), modeltest.CalmLine()}
	for _, l := range lines {
		l.Shift = 3600
	}
	plan := sim.Plan{Seed: 3, Min: 20, Max: 20}
	want, err := Together(t.Context(), lines, plan, nil, nil)
	require.NoError(t, err)
	systems := Systems{len(lines), func(i int) (*model.Line, error) { return lines[i], nil }}
	for _, workers := range []int{1, 2, 5} {
		plan.Workers = workers
		for _, part := range [][2]int{{0, 20}, {7, 12}} {
			var numbers []int
			whole, err := systems.Run(t.Context(), plan, part[0], part[1], func(i int, s *Study) {
				assert.Equal(t, want[i].Shifts[part[0]:part[1]], s.Shifts)
				numbers = append(numbers, i)
			})
			require.NoError(t, err)
			assert.True(t, whole)
			assert.Equal(t, []int{0, 1, 2}, numbers)
		}
	}
}

func TestSystemsEndEarly(t *testing.T) {
	line := modeltest.CalmLine()
	systems := Systems{500, func(int) (*model.Line, error) { return line, nil }}
	ctx, cancel := context.WithCancel(t.Context())
	taken := 0
	whole, err := systems.Run(ctx, sim.Plan{}, 0, 1, func(int, *Study) {
		if taken++; taken == 64 {
			cancel()
		}
	})
	require.NoError(t, err)
	assert.False(t, whole)
	assert.Less(t, taken, 500)

	systems.Line = func(i int) (*model.Line, error) { return nil, errors.New("no such line") }
	_, err = systems.Run(t.Context(), sim.Plan{}, 0, 1, func(int, *Study) {})
	assert.ErrorContains(t, err, "no such line")
	_, err = systems.Run(t.Context(), sim.Plan{}, 1, 1, func(int, *Study) {})
	assert.Error(t, err)
}
