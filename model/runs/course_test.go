package runs

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/sim"
	"netrate/sim/output"
)

// The mean of a shift's windows is its net rate; and each shift that is kept is one of its own,
// the first ones.
func TestCourse(t *testing.T) {
	l := modeltest.ReferenceLine()
	study, err := Run(t.Context(), l, sim.Plan{Seed: 3, Min: 20, Max: 20}, nil)
	require.NoError(t, err)
	c := courseOf(t, study)
	require.Len(t, c.Rates, int(l.Shift/1800))
	assert.InEpsilon(t, 1800, float64(c.Window), 1e-12)
	for i, shift := range study.Shifts {
		sum := 0.0
		for _, rates := range c.Rates {
			require.Len(t, rates, 20)
			sum += rates[i]
		}
		assert.InEpsilon(t, shift.NetRate, sum/float64(len(c.Rates)), 1e-12)
	}
}

// To look on changes no figure of a shift, and 200 shifts are looked at.
func TestCourseChangesNothing(t *testing.T) {
	l := modeltest.ReferenceLine()
	l.Shift = 3601
	study, err := Run(t.Context(), l, sim.Plan{Seed: 3, Min: courseShifts + 5, Max: courseShifts + 5}, nil)
	require.NoError(t, err)
	line, err := model.New(l)
	require.NoError(t, err)
	for i, shift := range study.Shifts {
		var o model.Outcome
		require.NoError(t, line.Run(3, i, &o))
		require.Equal(t, shiftOf(l, &o), shift)
	}
	assert.Len(t, courseOf(t, study).Rates[0], courseShifts)
}

// Of what is uncertain the course is that of the draws, shift by shift.
func TestCourseOfDraws(t *testing.T) {
	l := modeltest.ReferenceLine()
	l.UncertainInputs = []model.UncertainInput{{Station: l.Stations[0].Where().Name, Name: "misfeed", Of: output.Counted{Seen: 30, Of: 60_000}}}
	studies, _, err := RunUncertain(t.Context(), []*model.Line{l}, sim.Plan{Seed: 4, Max: 5}, 2, nil)
	require.NoError(t, err)
	c := courseOf(t, studies[0].Study)
	for i := range studies[0].Shifts {
		sum := 0.0
		for _, rates := range c.Rates {
			require.Len(t, rates, 10)
			sum += rates[i]
		}
		assert.InEpsilon(t, studies[0].Shifts[i].NetRate, sum/float64(len(c.Rates)), 1e-12)
	}
}

func TestCourseIsRefused(t *testing.T) {
	_, err := (&Study{Line: modeltest.ReferenceLine()}).Course()
	require.Error(t, err)
	job := modeltest.ReferenceLine()
	job.Shift, job.Job = 0, model.Job{Sets: 100}
	study, err := Run(t.Context(), job, sim.Plan{Seed: 3, Min: 1, Max: 1}, nil)
	require.NoError(t, err)
	_, err = study.Course()
	require.Error(t, err)
}

// The windows of any shift are of one length, end one after the other, and the last with the shift.
func TestWindows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shift := rapid.Float64Range(1e-300, 1e300).Draw(t, "shift")
		ends := windows(&model.Line{Shift: sim.Seconds(shift)})
		require.GreaterOrEqual(t, len(ends), fewestWindows)
		require.LessOrEqual(t, len(ends), mostWindows)
		before := 0.0
		for _, end := range ends {
			require.InEpsilon(t, shift/float64(len(ends)), float64(end)-before, 1e-9)
			before = float64(end)
		}
		require.Equal(t, sim.Seconds(shift), ends[len(ends)-1])
	})
	for hours, want := range map[float64]int{1: 4, 2: 4, 3: 6, 7.5: 15, 8: 16, 48: 96, 100: 96} {
		assert.Len(t, windows(&model.Line{Shift: sim.Seconds(hours * 3600)}), want, hours)
	}
}

func courseOf(t *testing.T, s *Study) *Course {
	t.Helper()
	c, err := s.Course()
	require.NoError(t, err)
	return c
}
