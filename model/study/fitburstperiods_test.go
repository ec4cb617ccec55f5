package study

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/sim"
	"netrate/sim/output"
)

// hourlyLog returns an invented log of three feeders over five days of 12 hours, of which each holds one of
// two jobs, and whose stops name only their hour. Misfeeds of the second come so many times as often
// on the third day from 10:00 to 12:00.
func hourlyLog(seed uint64, times float64) *Log {
	l := &Log{Kinds: LogKindsOf(&model.Feeder{})}
	random := sim.NewStream("test", "hours")
	random.Seed(seed, 0)
	for day := range 5 {
		for hour := 6; hour < 18; hour++ {
			at := time.Date(2026, 3, 2+day, hour, 0, 0, 0, time.UTC)
			w := []logWork{{"letters", 12000}, {"cards", 9000}}[(day+hour/6)%2]
			for k, rate := range []float64{1. / 1500, 1. / 2500, 1. / 4000} {
				name := fmt.Sprintf("feeder %d", k+1)
				if k == 1 && day == 2 && hour >= 10 && hour < 12 {
					rate *= times
				}
				if w.job == "cards" { // that one job has more stops than the other is no burst
					rate *= 2
				}
				feeds := int64(w.speed * (0.5 + 0.3*random.Uniform()))
				l.AddCount(LogCount{Station: name, Job: w.job, Speed: w.speed, Day: at, Period: at.Format("15:04"), Feeds: feeds})
				for fed := random.Exponential() / rate; fed < float64(feeds); fed += random.Exponential() / rate {
					l.AddStop(LogStop{When: at, Untimed: true, Period: at.Format("15:04"), Station: name, Cause: LogCause(model.Misfeed), Job: w.job, Speed: w.speed, Seconds: 40})
				}
			}
		}
	}
	return l
}

func askFit(t *testing.T, l *Log) *FitAnswer {
	t.Helper()
	a, err := Fit{Log: l, Seed: 1}.Ask(t.Context(), nil)
	require.NoError(t, err)
	return a
}

// Of 60 logs without bursts as many have some as the level says, or fewer; in 15 with two bad hours these
// are found, where they were, and the interval of the rate allows for them.
func TestBurstsOfHours(t *testing.T) {
	const logs, bads = 60, 15
	alarms, found, wider := int64(0), 0, 0
	alarm := func(a *FitAnswer) bool {
		some := false
		for i := range a.Stations {
			require.NotNil(t, a.Stations[i].ByPeriod)
			require.True(t, a.Stations[i].ByPeriod.Clocked)
			require.Equal(t, time.Hour, a.Stations[i].ByPeriod.Long)
			some = some || a.Stations[i].InBursts()
		}
		return some
	}
	for seed := range uint64(logs) {
		if alarm(askFit(t, hourlyLog(seed, 1))) {
			alarms++
		}
	}
	for seed := range uint64(bads) {
		s := &askFit(t, hourlyLog(seed, 6)).Stations[1]
		for k := range s.Found {
			b := &s.Found[k]
			if b.From.Format("2 15:04") == "4 10:00" && b.To.Format("2 15:04") == "4 12:00" {
				found++
				assert.Greater(t, float64(b.Stops), 3*b.Expected)
				assert.Equal(t, "cards", b.Job)
				if f := s.Faults[0]; f.Varies > 2 && f.Like.Faults < f.Rate.Faults/2 {
					wider++
				}
			}
		}
	}
	atMost := func(n, logs int64) bool {
		low, _ := output.ExactInterval(n, logs, 0.999)
		return low <= ShownP
	}
	assert.True(t, atMost(alarms, logs), "%d of %d", alarms, logs)
	assert.Greater(t, found, bads*8/10)
	assert.Equal(t, found, wider)
	assert.False(t, atMost(int64(found), bads), "this test cannot fail")
}

// Stops of a shift are counted by day and shift, in the order of the counts; shifts of several works
// that cannot be told apart are left out, and where all are, or nobody says the day, it is said.
func TestBurstsOfShifts(t *testing.T) {
	log := func(mixed bool, day time.Time) *Log {
		l := &Log{Kinds: LogKindsOf(&model.Feeder{})}
		for d := range 6 {
			at := day
			if !day.IsZero() {
				at = day.AddDate(0, 0, d)
			}
			for k, shift := range []string{"Early", "late"} {
				n := 3
				if d == 3 && k == 1 {
					n = 30
				}
				l.AddCount(LogCount{Line: 2*d + k, Station: "letter", Shift: shift, Day: at, Feeds: 30_000, Mixed: mixed})
				for range n {
					l.AddStop(LogStop{When: at, Untimed: true, Shift: []string{"early", "Late"}[k], Station: "letter", Cause: LogCause(model.Misfeed), Mixed: mixed, Seconds: 40})
				}
			}
		}
		return l
	}
	monday := time.Date(2026, 3, 2, 0, 0, 0, 0, time.UTC)
	s := &askFit(t, log(false, monday)).Stations[0]
	require.True(t, s.InBursts())
	require.Len(t, s.Found, 1)
	b := s.Found[0]
	assert.Equal(t, "2026-03-05", b.From.Format(time.DateOnly))
	assert.Equal(t, "late", b.Shift)
	assert.True(t, b.Dated)
	assert.Equal(t, 30, b.Stops)
	assert.InDelta(t, 63./12, b.Expected, 1e-9)
	logCourse, even := s.Course()
	assert.Len(t, logCourse, 63)
	assert.Len(t, even, 63)
	assert.Empty(t, s.Unseen())

	s = &askFit(t, log(true, monday)).Stations[0]
	assert.Equal(t, "too few stops in hours or shifts of one job and speed: 0", s.Unseen())
	s = &askFit(t, log(false, time.Time{})).Stations[0]
	assert.Equal(t, "stops or counts do not say on which day they were", s.Unseen())
	l := log(false, monday)
	l.AddStop(LogStop{When: monday.Add(8 * time.Hour), Station: "letter", Cause: LogCause(model.Misfeed)})
	s = &askFit(t, l).Stations[0]
	assert.Equal(t, "some stops say when they began, and others only in which hour or shift", s.Unseen())
	assert.False(t, s.InBursts())
}

// The hours of a night are in the order in which they are written where nobody says when a day begins:
// two bad ones, before midnight and after it, are one burst, which ends when the counts say.
func TestBurstsOverMidnight(t *testing.T) {
	for _, starts := range []time.Duration{0, 6 * time.Hour} {
		l := &Log{Kinds: LogKindsOf(&model.Feeder{})}
		for d := range 4 {
			for i := range 8 {
				hour := (20 + i) % 24
				at := time.Date(2026, 3, 2+d, hour, 0, 0, 0, time.UTC)
				if hour < 6 && starts > 0 {
					at = at.AddDate(0, 0, 1)
				}
				n := 2
				if d == 1 && (hour == 23 || hour == 0) {
					n = 12
				}
				l.AddCount(LogCount{Line: 1 + 8*d + i, Station: "letter", Day: at, Feeds: 8000})
				for range n {
					l.AddStop(LogStop{When: at, Untimed: true, Station: "letter", Cause: LogCause(model.Misfeed), Seconds: 40})
				}
			}
		}
		a, err := Fit{Log: l, Seed: 1, DayStarts: starts}.Ask(t.Context(), nil)
		require.NoError(t, err)
		s := &a.Stations[0]
		require.True(t, s.InBursts())
		require.Len(t, s.Found, 1)
		assert.Equal(t, "3 23:00", s.Found[0].From.Format("2 15:04"))
		assert.Equal(t, map[time.Duration]string{0: "3 01:00", 6 * time.Hour: "4 01:00"}[starts], s.Found[0].To.Format("2 15:04"))
		assert.Equal(t, 24, s.Found[0].Stops)
	}
}
