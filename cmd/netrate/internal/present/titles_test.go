package present

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/runs"
	"netrate/model/study"
	"netrate/sim"
)

// The titles of the pictures of single shifts are true of what they show: all is counted here once
// more, from the windows, the stretches and the shifts, so that ends that are exchanged, a stop more
// or less and a range taken for another fail.
func TestTitlesOfShifts(t *testing.T) {
	s, err := runs.Run(t.Context(), lineOfFile(t, "../../testdata/small.yaml"), sim.Plan{Seed: 1, Min: 120, Max: 120}, nil)
	require.NoError(t, err)
	seen, err := study.ScenesOf(s)
	require.NoError(t, err)

	t.Run("fan", func(t *testing.T) {
		course, err := s.Course()
		require.NoError(t, err)
		var all sim.Sample
		for _, rates := range course.Rates {
			all = append(all, rates...)
		}
		low, high := all.Quantile(0.05), all.Quantile(0.95)
		require.Less(t, say.Rough(low, 50), say.Rough(high, 50))
		figure, err := CourseFigure(seen[0].Course, "Small")
		require.NoError(t, err)
		minutes := int(s.Line.Shift) / len(course.Rates) / 60
		assert.Equal(t, fmt.Sprintf("Small: in nine of ten stretches of %d minutes it delivers at a rate of %s to %s an hour", minutes, say.Rough(low, 50), say.Rough(high, 50)), figure.Title)
		within := 0
		for _, rate := range all {
			if low <= rate && rate <= high {
				within++
			}
		}
		assert.InDelta(t, 0.9, float64(within)/float64(len(all)), 0.01, "nine times in ten")
		assert.Contains(t, figure.Subtitle, "120 shifts")
	})

	t.Run("timeline", func(t *testing.T) {
		a := seen[0].MedianShift
		sim, err := model.New(s.Line)
		require.NoError(t, err)
		var o model.Outcome
		require.NoError(t, sim.Run(1, a.Replication, &o))
		figure, err := MedianShiftFigure(a, "Small")
		require.NoError(t, err)
		stood := float64(o.Stopped().Total()) / 60
		length := float64(s.Line.Shift) / 60
		require.Less(t, stood, length/2, "it stands less than it runs, so that the two are told apart")
		assert.Equal(t, fmt.Sprintf("Small: in the median shift the line stands %d times, %s of %s minutes", o.Stopped().Count, say.Rounded(stood, 0), say.Rounded(length, 0)), figure.Title)
		rates := s.NetRates()
		slices.Sort(rates)
		assert.Contains(t, []float64{rates[59], rates[60]}, o.NetRate(), "as many shifts are better as are worse")
	})
}
