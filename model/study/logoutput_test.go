package study

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

// By hand: 7000 and 6000 good letters in two hours, of which half an hour was planned, are 13,000 in
// 1.5 h; 5000 good cards in an hour of their own; an hour with both is of neither. A break that began in
// one hour and ended in the next is of both.
func TestLogOutput(t *testing.T) {
	day := time.Date(2026, 3, 2, 0, 0, 0, 0, time.UTC)
	l := &Log{}
	add := func(period, job string, good int64) {
		l.AddCount(LogCount{Station: "a", Feeds: 8000, Day: day, Period: period, Job: job, Good: good})
		l.AddCount(LogCount{Station: "b", Feeds: 8000, Day: day, Period: period, Job: job})
	}
	add("06:00", "letters", 7000)
	add("07:00", "letters", 6000)
	add("08:00", "cards", 5000)
	add("09:00", "letters", 100)
	add("09:00", "cards", 100)
	l.AddStop(LogStop{When: day.Add(6*time.Hour + 50*time.Minute), Cause: LogPlanned, Seconds: 1800})
	out := l.Output(0)
	assert.Equal(t, []LogOutput{
		{Job: "letters", Good: 13_000, Hours: 1.5, Periods: 2, Each: time.Hour},
		{Job: "cards", Good: 5000, Hours: 1, Periods: 1, Each: time.Hour},
	}, out)
	assert.InDelta(t, 13_000/1.5, out[0].Rate(), 1e-9)

	l.AddStop(LogStop{When: day, Cause: LogPlanned, Seconds: 60, Untimed: true})
	assert.Zero(t, l.Output(0)[0].Rate(), "when the line stood as planned is not known")
	assert.Empty(t, (&Log{}).Output(0))

	night := &LogCount{Day: day, Period: "02:00"}
	assert.Equal(t, day.Add(26*time.Hour), beginOf(night, 6*time.Hour), "of the night after its day")
}
