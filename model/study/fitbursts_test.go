package study

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
)

// Pauses do not count as time for which the line ran; the ends get a usual gap.
func TestWithoutPauses(t *testing.T) {
	assert.Equal(t, []float64{200, 100, 300, 200}, withoutPauses([]float64{100, 300}))
	assert.Equal(t, []float64{200, 100, 200, 300, 200}, withoutPauses([]float64{100, 60_000, 300}))
	assert.Equal(t, []float64{1, 1}, withoutPauses(nil))
	rare := []float64{6000, 40_000, 6000} // a line that seldom stops had no pause
	assert.Equal(t, rare, withoutPauses(rare)[1:4])
}

// What ran between does not count for bursts: stops of one job that come every second day are
// as evenly spread as if the other job had never been.
func TestBurstsOfOneJob(t *testing.T) {
	l := &Log{Kinds: LogKindsOf(&model.Feeder{})}
	for _, at := range []struct{ clock, job string }{
		{"06:00", "a"}, {"06:30", "a"}, {"07:00", "b"}, {"07:30", "b"}, {"07:45", "b"}, {"08:15", "a"},
	} {
		when, err := time.Parse("2006-01-02 15:04", "2026-03-02 "+at.clock)
		require.NoError(t, err)
		l.AddStop(LogStop{When: when, Station: "letter", Cause: LogCause(model.Misfeed), Job: at.job})
	}
	l.AddCount(LogCount{Station: "letter", Job: "a", Feeds: 100})
	l.AddCount(LogCount{Station: "letter", Job: "b", Feeds: 100})
	require.NoError(t, l.Take("a", 0))
	places := (&FitAnswer{Log: l}).places()
	// Gaps of 30, 30, 30, 15 and 30 min; of job a the first and the last, and a usual
	// one of 27 at both ends: 27 + 30 + 30 + 27 in all.
	require.Len(t, places[0], 3)
	assert.InDeltaSlice(t, []float64{27.0 / 114, 57.0 / 114, 87.0 / 114}, places[0], 1e-12)
}
