package study

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model/runs"
	"netrate/sim"
)

func shiftsOf(t *testing.T, n int) *runs.Study {
	t.Helper()
	s, err := runs.Run(t.Context(), riskLine(t, "small.yaml"), sim.Plan{Seed: 5, Min: n, Max: n}, nil)
	require.NoError(t, err)
	return s
}

// What is said of each window are the quantiles of its rates, and of all windows those of all.
func TestCourse(t *testing.T) {
	s := shiftsOf(t, 30)
	course, err := s.Course()
	require.NoError(t, err)
	a, err := Course{Study: s}.Ask()
	require.NoError(t, err)
	require.Len(t, a.Windows, len(course.Rates))
	assert.Equal(t, 30, a.Shifts)
	assert.InEpsilon(t, float64(s.Line.Shift), float64(a.Window)*float64(len(a.Windows)), 1e-12)
	all := slices.Concat(course.Rates...)
	for i, w := range a.Windows {
		assert.InEpsilon(t, (float64(i)+0.5)*float64(a.Window), float64(w.Middle), 1e-12)
		assert.InEpsilon(t, course.Rates[i].Quantile(0.25), float64(w.P25), 1e-12)
		assert.InEpsilon(t, course.Rates[i].Quantile(0.95), float64(w.P95), 1e-12)
	}
	assert.InEpsilon(t, all.Quantile(0.05), float64(a.P5), 1e-12)
	assert.InEpsilon(t, all.Quantile(0.95), float64(a.P95), 1e-12)

	_, err = Course{Study: &runs.Study{Line: s.Line}}.Ask()
	require.Error(t, err)
	_, err = Course{}.Ask()
	assert.Error(t, err)
}

// As many shifts are better than the median one as are worse, and what is said of it adds up: the
// stretches are all that the line stood, and so are the causes.
func TestMedianShift(t *testing.T) {
	s := shiftsOf(t, 31)
	a, err := MedianShift{Study: s}.Ask()
	require.NoError(t, err)
	better, worse := 0, 0
	for _, rate := range s.NetRates() {
		switch {
		case rate > float64(a.NetRate):
			better++
		case rate < float64(a.NetRate):
			worse++
		}
	}
	assert.Equal(t, better, worse)
	assert.InEpsilon(t, s.Shifts[a.Replication].NetRate, float64(a.NetRate), 1e-12)

	stretches, causes, stops, at := 0.0, 0.0, int64(0), Number(0)
	for i := range a.Stretches {
		x := &a.Stretches[i]
		assert.GreaterOrEqual(t, x.From, at)
		assert.Greater(t, x.To, x.From)
		stretches, at = stretches+float64(x.To-x.From), x.To
	}
	for _, c := range a.Causes {
		causes, stops = causes+float64(c.Stood), stops+c.Stops
	}
	assert.LessOrEqual(t, at, a.Length)
	assert.InDelta(t, float64(a.Stood), stretches, 1e-6)
	assert.InDelta(t, float64(a.Stood), causes, 1e-6)
	assert.Equal(t, a.Stops, stops)

	_, err = MedianShift{Study: &runs.Study{}}.Ask()
	assert.Error(t, err)
}
