package runs

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/sim"
)

// The mean of a shift's windows is its net rate, and the track is empty in the beginning.
func TestCourse(t *testing.T) {
	l := modeltest.ReferenceLine()
	c, err := CourseOf(&Study{Line: l, Plan: sim.Plan{Seed: 3}}, 20, 8)
	require.NoError(t, err)
	require.Len(t, c.Rates, 8)
	assert.Equal(t, l.Shift/8, c.Window)
	study, err := Run(context.Background(), l, sim.Plan{Seed: 3, Min: 20, Max: 20}, nil)
	require.NoError(t, err)
	for i, shift := range study.Shifts {
		sum := 0.0
		for _, rates := range c.Rates {
			sum += rates[i]
		}
		assert.InEpsilon(t, shift.NetRate, sum/8, 1e-12)
	}
}

func TestCourseIsRefused(t *testing.T) {
	_, err := CourseOf(&Study{Line: &model.Line{}}, 1, 1)
	require.Error(t, err)
	assert.Panics(t, func() { _, _ = CourseOf(&Study{Line: modeltest.ReferenceLine()}, 0, 4) })
	assert.Panics(t, func() { _, _ = CourseOf(&Study{Line: modeltest.ReferenceLine()}, 4, 0) })
}
