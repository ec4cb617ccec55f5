package stoplog

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model/study"
)

// ofDays writes a log of a stop every ten minutes of some days, from 06:00 to 14:00, and the counts of some
// days, by the hour where that is wanted.
func ofDays(stopDays, countDays []int, hourly bool) (stops, counts string) {
	var s, c strings.Builder
	s.WriteString("start,station,cause,seconds\n")
	c.WriteString("day,hour,letter\n")
	if !hourly {
		c.Reset()
		c.WriteString("day,letter\n")
	}
	for _, day := range stopDays {
		for i := range 48 {
			fmt.Fprintf(&s, "2026-03-%02d %02d:%02d:07,letter,misfeed,30\n", day, 6+i/6, 10*(i%6))
		}
	}
	for _, day := range countDays {
		if !hourly {
			fmt.Fprintf(&c, "2026-03-%02d,48000\n", day)
			continue
		}
		for hour := 6; hour < 14; hour++ {
			fmt.Fprintf(&c, "2026-03-%02d,%02d-%02d,6000\n", day, hour, hour+1)
		}
	}
	return s.String(), c.String()
}

// Stops and feeds that only one of the files has leave both: half a log over all counts once halved every
// rate, and a log over half of the counts doubled it.
func TestSameTime(t *testing.T) {
	week := []int{2, 3, 4, 5}
	for _, c := range []struct {
		stops, counts []int
		left          int
		silent        string
	}{
		{week, week, 0, "[]"},
		{week[:2], week, 0, "[2026-03-04 to 2026-03-05]"},
		{week, week[:3], 48, "[]"},
		{[]int{2, 4, 5}, week, 0, "[2026-03-03]"},
		{[]int{2, 3, 4, 5, 25}, week, 48, "[]"},
	} {
		for _, hourly := range []bool{false, true} {
			stops, counts := ofDays(c.stops, c.counts, hourly)
			l, timed, err := joined(t, stops, counts, 0)
			require.NoError(t, err)
			assert.Equal(t, hourly, timed, "the hours of counts are moments")
			require.NoError(t, SameTime(l, 0))
			letter := l.Find("letter")
			assert.EqualValues(t, 1000*len(letter.Stops), letter.Feeds, "%v over %v: one in a thousand", c.stops, c.counts)
			assert.Len(t, l.Time.Uncounted, c.left)
			if !hourly {
				assert.Equal(t, c.silent, fmt.Sprint(l.Time.Silent))
			}
		}
	}
	l, _, err := joined(t, "start,station,cause,seconds\n2026-07-02 06:00:07,letter,misfeed,30\n", "day,letter\n2026-10-05,9000\n", 0)
	require.NoError(t, err)
	require.EqualError(t, SameTime(l, 0), "no stop of stops.csv is of a day of counts.csv: stops are from 2026-07-02, counts from 2026-10-05")
}

// A day without a stop is none that was not written down, where few were to be expected; the morning
// after may be of the night before where nobody says when a day begins; and what was planned needs no feeds.
func TestSameTimeLeavesWhatMayBe(t *testing.T) {
	for _, stops := range []string{
		"2026-03-02 06:00:07,letter,misfeed,30\n2026-03-02 07:00:07,letter,misfeed,30\n",
		"2026-03-04 05:00:07,letter,misfeed,30\n",
		"2026-03-02 06:00:07,letter,misfeed,30\n2026-03-09 06:00:07,letter,break,900\n",
	} {
		l, _, err := joined(t, "start,station,cause,seconds\n"+stops, "day,letter\n2026-03-02,9000\n2026-03-03,9000\n", 0)
		require.NoError(t, err)
		n := l.Stops()
		require.NoError(t, SameTime(l, 0))
		assert.Equal(t, n, l.Stops())
		assert.EqualValues(t, 18_000, l.FeedsOf("letter"))
	}
	l, _, err := joined(t, "start,station,cause,seconds\n2026-03-04 05:00:07,letter,misfeed,30\n", "day,letter\n2026-03-03,9000\n", 6*time.Hour)
	require.NoError(t, err)
	require.NoError(t, SameTime(l, 6*time.Hour), "of the day that began the morning before")
	assert.Equal(t, 1, l.Stops())
}

// Rows that are there twice are taken once, if they cannot be two.
func TestOnce(t *testing.T) {
	const again = "2026-03-02 06:00:07,letter,misfeed,30\n2026-03-02 06:00:07,letter,misfeed,31\n2026-03-02 06:00:07,letter,misfeed,30\n"
	l, _, err := joined(t, "start,station,cause,seconds\n"+again, "day,shift,letter,card\n2026-03-02,early,9000,9000\n2026-03-02,early,9000,9000\n2026-03-02,late,9000,0\n", 0)
	require.NoError(t, err)
	Once(l)
	assert.Equal(t, [2]int{1, 1}, [2]int{l.Time.TwiceStops, l.Time.TwiceCounts})
	assert.Equal(t, 2, l.Stops())
	assert.Equal(t, [2]int64{18_000, 9000}, [2]int64{l.FeedsOf("letter"), l.FeedsOf("card")})

	l, _, err = joined(t, "start,station,cause,seconds\n"+strings.ReplaceAll(again, ":07", ":00"), "day,letter\n2026-03-02,5000\n2026-03-02,5000\n", 0)
	require.NoError(t, err)
	Once(l)
	assert.Equal(t, study.LogTime{}, l.Time, "in one minute there may be two, and on one day two lots")
	assert.EqualValues(t, 10_000, l.FeedsOf("letter"))
}
