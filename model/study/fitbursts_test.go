package study

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/sim/fit"
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
	// Gaps of 30, 30, 30, 15 and 30 min; of job a the first and the last, and a usual
	// one of 27 at both ends: 27 + 30 + 30 + 27 in all, for 100 feeds.
	d := (&FitAnswer{Log: l}).divide()[0]
	assert.Equal(t, []logWork{{job: "a"}}, d.of)
	assert.Equal(t, []fit.Stretch{{Gaps: []int64{23, 27, 26}, Rest: 24}}, d.gaps)
}

// Stops of two jobs are two stretches, each with the feeds of its own; of a station whose counts
// do not all say the job they are one.
func TestStretchesOfJobs(t *testing.T) {
	l := &Log{Kinds: LogKindsOf(&model.Feeder{})}
	begin := time.Date(2026, 3, 2, 6, 0, 0, 0, time.UTC)
	for i := range 6 {
		job := []string{"a", "b"}[i/3]
		l.AddStop(LogStop{When: begin.Add(time.Duration(i) * time.Hour), Station: "letter", Cause: LogCause(model.Misfeed), Job: job})
	}
	l.AddCount(LogCount{Station: "letter", Job: "a", Feeds: 300})
	l.AddCount(LogCount{Station: "letter", Job: "b", Feeds: 40})
	d := (&FitAnswer{Log: l}).divide()[0]
	assert.Equal(t, []logWork{{job: "a"}, {job: "b"}}, d.of)
	assert.Equal(t, []fit.Stretch{{Gaps: []int64{100, 100, 100}}, {Gaps: []int64{10, 10, 10}, Rest: 10}}, d.gaps)
	l.AddCount(LogCount{Station: "letter", Feeds: 10})
	d = (&FitAnswer{Log: l}).divide()[0]
	assert.Equal(t, []logWork{{}}, d.of)
	assert.Len(t, d.gaps[0].Gaps, 6)
}

// Stops that all came at one moment say nothing of where they lie.
func TestNoBurstsWithoutTime(t *testing.T) {
	l := &Log{Kinds: LogKindsOf(&model.Feeder{})}
	for range 40 {
		l.AddStop(LogStop{When: time.Date(2026, 3, 2, 6, 0, 0, 0, time.UTC), Station: "letter", Cause: LogCause(model.Misfeed)})
	}
	l.AddCount(LogCount{Station: "letter", Feeds: 300})
	a, err := Fit{Log: l, Seed: 1}.Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.Nil(t, a.Stations[0].Bursts)
	assert.Equal(t, "too few stops: 0", a.Stations[0].NoBursts)
}

// By hand: of 30 faults 12 are in a burst where two were expected, so that the burst has ten more;
// (20 + 10²) / 30 = 4. The interval is that of 30/4 = 7.5, so eight, faults, with the same share.
func TestIntervalsAllowForBursts(t *testing.T) {
	rate, err := fit.NewRate(30, 30_000, 0.95)
	require.NoError(t, err)
	s := &FitStation{
		Bursts: &fit.Bursts{Stops: 30, Dispersion: 1.5},
		Found:  []FitBurst{{Stops: 12, Expected: 2, faults: map[LogCause]int{LogCause(model.Misfeed): 12}}},
	}
	f := &FitFault{Rate: rate}
	f.allow(s, LogCause(model.Misfeed), 0.95)
	assert.InDelta(t, 4, f.Varies, 1e-12)
	assert.Equal(t, fit.Group{Faults: 8, Feeds: 8000}, f.Like)
	assert.Equal(t, 30.0/30_000, f.Rate.P)
	assert.Less(t, f.Rate.Low, 0.65*rate.Low)
	assert.Greater(t, f.Rate.High, 1.3*rate.High)
}
