package stoplog

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model/study"
)

// joined reads a log and counts, and joins them.
func joined(t *testing.T, stops, counts string, starts time.Duration) (l *study.Log, timed bool, err error) {
	t.Helper()
	l = &study.Log{}
	_, err = AddCounts(l, strings.NewReader(counts), Mapping{File: "counts.csv"})
	require.NoError(t, err)
	_, err = AddStops(l, strings.NewReader(stops), Mapping{File: "stops.csv"})
	require.NoError(t, err)
	timed, err = Join(l, starts)
	return l, timed, err
}

const hourlyCounts = `day,hour,job,speed,letter,inserter
2026-03-02,22,letters,12000,5000,5000
2026-03-02,23,letters,12000,5000,5000
2026-03-02,23,cards,9000,100,100
2026-03-02,5,cards,9000,4000,4000
`

// A stop of an hour is of the job and the speed of that hour, where there was but one, and began when
// the hour did: before the day began, on the day after.
func TestJoinByHour(t *testing.T) {
	l, timed, err := joined(t, `day,hour,station,cause,seconds,job
2026-03-02,22,letter,misfeed,30,
2026-03-02,23,letter,misfeed,31,
2026-03-02,23,letter,misfeed,32,cards
2026-03-02,5,inserter,jam,33,
`, hourlyCounts, 6*time.Hour)
	require.NoError(t, err)
	assert.True(t, timed)
	var told []string
	for _, s := range l.Stations {
		for _, x := range s.Stops {
			assert.True(t, x.Untimed)
			told = append(told, strings.Join([]string{x.When.Format("2 15:04"), x.Job, study.LogSpeed(x.Speed)}, " "))
		}
	}
	assert.Equal(t, []string{"2 22:00 letters 12000/h", "2 23:00  ", "2 23:00 cards 9000/h", "3 05:00 cards 9000/h"}, told)
	assert.Equal(t, time.Date(2026, 3, 3, 5, 0, 0, 0, time.UTC), l.Find("letter").Counts[3].Day)
	n, mixed := l.Untimed()
	assert.Equal(t, [2]int{4, 2}, [2]int{n, mixed}, "in the hour of two jobs a stop names none, so neither tells of its job")
	assert.Zero(t, l.OverMidnight())
}

// Where stops do not say which of several works of a shift they are of, neither they nor the feeds of
// that shift are of a job: also not those of a shift without a stop, or jobs would differ by which
// shifts are taken. A station that fed in one job only is told by that.
func TestJoinOfSeveralWorks(t *testing.T) {
	const counts = `day,shift,job,speed,letter,card
2026-03-02,early,letters,12000,5000,0
2026-03-02,early,cards,9000,4000,4000
2026-03-02,late,letters,12000,7000,0
2026-03-03,early,letters,12000,6000,0
2026-03-03,early,cards,9000,1000,1000
`
	mixed := func(s *study.LogStation) (feeds int64) {
		for _, c := range s.Counts {
			if c.Mixed {
				feeds += c.Feeds
			}
		}
		return feeds
	}
	l, _, err := joined(t, "day,shift,station,cause,seconds\n2026-03-02,early,letter,misfeed,30\n2026-03-02,early,card,misfeed,30\n2026-03-02,late,letter,misfeed,30\n", counts, 0)
	require.NoError(t, err)
	letter, card := l.Find("letter"), l.Find("card")
	assert.EqualValues(t, 16_000, mixed(letter))
	assert.True(t, letter.Stops[0].Mixed)
	assert.Empty(t, letter.Stops[0].Job)
	assert.False(t, letter.Stops[1].Mixed)
	assert.Zero(t, mixed(card))
	assert.Equal(t, study.LogStop{Line: 3, When: card.Stops[0].When, Station: "card", Called: "misfeed", Seconds: 30, Job: "cards", Speed: 9000, Untimed: true, Shift: "early"}, card.Stops[0])

	l, _, err = joined(t, "day,shift,station,cause,seconds,job\n2026-03-02,early,letter,misfeed,30,cards\n2026-03-02,late,letter,misfeed,30,letters\n", counts, 0)
	require.NoError(t, err)
	assert.Zero(t, mixed(l.Find("letter")), "the job says which")
	assert.InDelta(t, 9000, l.Find("letter").Stops[0].Speed, 0, "and so the speed, as the job had but one")
}

// At night stops may have the date of the calendar, and counts that on which the shift began: where the
// jobs that both name agree only so, they are read so; where they never agree, their number is told.
func TestJoinByCalendar(t *testing.T) {
	const stops = "day,hour,station,cause,seconds,job\n2026-03-02,22-23,letter,misfeed,30,letters\n2026-03-03,02-03,letter,misfeed,30,letters\n2026-03-04,02-03,letter,misfeed,30,cards\n"
	const counts = "day,hour,job,speed,letter\n2026-03-02,22-23,letters,12000,5000\n2026-03-02,02-03,letters,12000,5000\n2026-03-03,02-03,cards,9000,4000\n2026-03-04,02-03,letters,9000,4000\n"
	l, timed, err := joined(t, stops, counts, 6*time.Hour)
	require.NoError(t, err)
	assert.True(t, timed && l.Time.Calendar)
	var told []string
	for _, x := range l.Find("letter").Stops {
		told = append(told, strings.Join([]string{x.When.Format("2 15:04"), x.Job, study.LogSpeed(x.Speed)}, " "))
	}
	assert.Equal(t, []string{"2 22:00 letters 12000/h", "3 02:00 letters 12000/h", "4 02:00 cards 9000/h"}, told)

	l, _, err = joined(t, stops, counts, 0)
	require.NoError(t, err)
	assert.Equal(t, study.LogTime{Strangers: 2}, l.Time, "nobody says when a day begins")
}

// Hours are the same however they are written; a shift is joined by its name, with the day if the
// stops have days, and its stops have no time of day.
func TestJoinByName(t *testing.T) {
	l, timed, err := joined(t, "period,station,cause,seconds\n22:00-23:00,letter,misfeed,30\n05:00,letter,misfeed,30\n", hourlyCounts, 0)
	require.NoError(t, err)
	assert.False(t, timed, "there is no date")
	assert.Equal(t, "letters", l.Find("letter").Stops[0].Job)
	assert.True(t, l.Find("letter").Stops[0].When.IsZero())

	l, timed, err = joined(t, "day,shift,station,cause,seconds\n2026-03-02,Early,letter,misfeed,30\n2026-03-03,early,letter,misfeed,30\n",
		"day,shift,station,feeds,job\n2026-03-02,early,letter,9000,a\n2026-03-03,early,letter,9000,b\n", 6*time.Hour)
	require.NoError(t, err)
	assert.False(t, timed)
	stops := l.Find("letter").Stops
	assert.Equal(t, []string{"a", "b"}, []string{stops[0].Job, stops[1].Job})
	assert.Equal(t, 6, stops[0].When.Hour(), "of the day that begins then")
}

// What the counts do not have is named, and a row must name its period.
func TestJoinOfNothing(t *testing.T) {
	_, _, err := joined(t, "day,hour,station,cause,seconds\n2026-03-02,7,letter,misfeed,30\n2026-03-04,22,letter,misfeed,30\n", hourlyCounts, 0)
	require.EqualError(t, err, `stops of stops.csv are of "2026-03-02 07:00" and "2026-03-04 22:00", which counts.csv does not have: rows of both files must name hours or shifts, and days, alike`)

	_, err = Read(strings.NewReader("day,hour,station,cause,seconds\n2026-03-02,,letter,misfeed,30\n"), Mapping{}, func(Stop) error { return nil })
	require.ErrorContains(t, err, "the hour or the shift that the stop was in")

	l, timed, err := joined(t, "start,hour,station,cause,seconds\n2026-03-02 22:10:00,9,letter,misfeed,30\n", hourlyCounts, 0)
	require.NoError(t, err, "a moment says more than an hour")
	assert.True(t, timed, "and the counts have hours")
	assert.False(t, l.Find("letter").Stops[0].Untimed)
}

func TestClockOf(t *testing.T) {
	for text, want := range map[string]time.Duration{
		"06:00": 6 * time.Hour, "6.30 - 7.30": 6*time.Hour + 30*time.Minute, "06-07": 6 * time.Hour, "22:00:00": 22 * time.Hour, "6h30": 6*time.Hour + 30*time.Minute,
	} {
		at, is := clockOf(text, false)
		assert.True(t, is, text)
		assert.Equal(t, want, at, text)
	}
	for _, text := range []string{"6", "early", "24:00", "06:70", "", "2026-03-02", "shift 1"} {
		_, is := clockOf(text, false)
		assert.False(t, is, text)
	}
	at, is := clockOf("6", true)
	assert.Equal(t, 6*time.Hour, at)
	assert.True(t, is)
}
