package study

import (
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

// One window is the whole shift: its rates are the net rates, however many shifts are looked at.
func TestCourseOfOneWindow(t *testing.T) {
	s := shiftsOf(t, 30)
	a, err := Course{Study: s, Most: 200, Windows: 1}.Ask()
	require.NoError(t, err)
	require.Len(t, a.Windows, 1)
	assert.Equal(t, 30, a.Shifts)
	assert.InEpsilon(t, float64(s.Line.Shift), float64(a.Window), 1e-12)
	assert.InEpsilon(t, float64(s.Line.Shift)/2, float64(a.Windows[0].Middle), 1e-12)
	assert.InEpsilon(t, s.NetRates().Quantile(0.25), float64(a.Windows[0].P25), 1e-12)
	assert.InEpsilon(t, s.NetRates().Quantile(0.95), float64(a.P95), 1e-12)

	a, err = Course{Study: s, Most: 10, Windows: 8}.Ask()
	require.NoError(t, err)
	assert.Equal(t, 10, a.Shifts)
	assert.Len(t, a.Windows, 8)
	assert.InEpsilon(t, 8*float64(a.Window), float64(s.Line.Shift), 1e-12)

	_, err = Course{Study: &runs.Study{}, Most: 1, Windows: 1}.Ask()
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
