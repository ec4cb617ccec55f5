package present

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/study"
)

// A burst over days is shaded on each of them, and on no other.
func TestBurstOverDays(t *testing.T) {
	at := func(day, hour int) time.Time { return time.Date(2026, 3, day, hour, 0, 0, 0, time.UTC) }
	s := &study.FitStation{LogStation: &study.LogStation{Name: "letter"}}
	for day := 2; day <= 7; day++ {
		for hour := 6; hour < 14; hour++ {
			s.Stops = append(s.Stops, study.LogStop{When: at(day, hour)})
		}
	}
	s.Found = []study.FitBurst{{From: at(3, 12), To: at(6, 8), Stops: 20, Expected: 4}}
	f, err := burstTimes(s)
	require.NoError(t, err)
	svg, err := f.SVG()
	require.NoError(t, err)
	assert.Equal(t, 4, strings.Count(string(svg), "<title>2026-03-03 12:00 to 2026-03-06 08:00, 20 stops</title>"))
}

// Bursts that could not be looked for, or not closely, are in the finding, with what that may do.
func TestUnseenBursts(t *testing.T) {
	ask := func(stop, count func(shift int) (study.LogStop, study.LogCount)) string {
		l := &study.Log{Kinds: study.LogKindsOf(&model.Feeder{})}
		for shift := range 8 {
			_, c := count(shift)
			c.Station, c.Feeds = "letter", 30_000
			l.AddCount(c)
			for range 4 {
				x, _ := stop(shift)
				x.Station, x.Cause, x.Untimed, x.Seconds = "letter", study.LogCause(model.Misfeed), true, 40
				l.AddStop(x)
			}
		}
		a, err := study.Fit{Log: l, Seed: 1}.Ask(t.Context(), nil)
		require.NoError(t, err)
		return Fit{FitAnswer: a, Log: Log{Log: l}}.Finding()
	}
	of := func(day time.Time, shift string) func(int) (study.LogStop, study.LogCount) {
		return func(k int) (x study.LogStop, c study.LogCount) {
			at := day
			if !day.IsZero() {
				at = day.Add(time.Duration(k) * 24 * time.Hour)
			}
			return study.LogStop{When: at, Shift: shift}, study.LogCount{Line: k + 1, Day: at, Shift: shift}
		}
	}
	nobody, monday := of(time.Time{}, "early"), of(time.Date(2026, 3, 2, 0, 0, 0, 0, time.UTC), "early")
	hours := of(time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC), "")
	assert.Contains(t, ask(nobody, nobody), "Bursts were not looked for at letter (stops or counts do not say on which day they were): if there are any, the intervals of the rates are too narrow.")
	assert.Contains(t, ask(monday, monday), "At letter bursts were looked for shift by shift only, and none are shown: a bad pallet of an hour or two may go unseen, and the intervals of the rates are too narrow then.")
	assert.NotContains(t, ask(hours, hours), "ursts")
}

// Of stops that name only an hour a burst is drawn over its hours, and the stops evenly in theirs; of those
// that name a shift there is no time of day to draw.
func TestBurstsOfHoursAreDrawn(t *testing.T) {
	at := time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)
	s := &study.FitStation{LogStation: &study.LogStation{Name: "letter"}, ByPeriod: &study.FitPeriods{Clocked: true, Long: time.Hour}}
	for range 4 {
		s.Stops = append(s.Stops, study.LogStop{When: at})
	}
	s.Found = []study.FitBurst{{From: at, To: at.Add(time.Hour), Stops: 4, Expected: 0.5}}
	assert.Equal(t, []time.Time{at.Add(450 * time.Second), at.Add(1350 * time.Second), at.Add(2250 * time.Second), at.Add(3150 * time.Second)}, whenStopped(s))
	f, err := burstTimes(s)
	require.NoError(t, err)
	svg, err := f.SVG()
	require.NoError(t, err)
	assert.Contains(t, string(svg), "<title>2026-03-02 09:00 to 10:00, 4 stops</title>")
	assert.Equal(t, "2026-03-02, late", burstAt(&study.FitBurst{From: at, To: at, Dated: true, Shift: "late"}))
	assert.Equal(t, "2026-03-02 to 2026-03-03, late", burstAt(&study.FitBurst{From: at, To: at.Add(24 * time.Hour), Dated: true, Shift: "late"}))
}
