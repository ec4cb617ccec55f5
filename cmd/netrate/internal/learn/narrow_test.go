package learn

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/sim"
)

// Two jobs at two speeds; what a row belongs to is told by its length, 1, 2, 4, 8 … s.
const (
	mixedLog = `start,station,cause,duration (s),job,speed
2026-03-02 06:10:00,letter,misfeed,1,plain,9000
2026-03-02 06:20:00,letter,misfeed,2,plain,12000
2026-03-02 06:30:00,press,jam,4,coated,9000
2026-03-02 06:40:00,press,flap,8,coated,12000
2026-03-02 06:50:00,letter,jam,16,,
2026-03-03 06:10:00,letter,double,32,coated,12000
`
	mixedCounts = `day,station,job,speed,feeds
2026-03-02,letter,plain,9000,1000
2026-03-02,letter,plain,12000,2000
2026-03-02,letter,coated,9000,4000
2026-03-02,press,coated,9000,4000
2026-03-02,press,coated,12000,8000
2026-03-03,letter,coated,12000,16000
`
)

// narrowedTo reads the mixed log with only some of its rows.
func narrowedTo(t *testing.T, o only, log, counts string) (*records, error) {
	t.Helper()
	directory := t.TempDir()
	logFile, countFile := filepath.Join(directory, "stops.csv"), filepath.Join(directory, "counts.csv")
	require.NoError(t, os.WriteFile(logFile, []byte(log), 0o600))
	require.NoError(t, os.WriteFile(countFile, []byte(counts), 0o600))
	return (&mappingFlags{only: o}).read(desk.Env{Err: os.Stderr}, logFile, countFile)
}

func TestOnlySomeRows(t *testing.T) {
	for name, c := range map[string]struct {
		only    only
		feeds   map[string]int64
		seconds sim.Seconds
		words   string
	}{
		"all":            {only{}, map[string]int64{"letter": 23000, "press": 12000}, 63, ""},
		"a speed":        {only{speed: 12000}, map[string]int64{"letter": 18000, "press": 8000}, 2 + 8 + 32, "Only rows at 12,000/h were taken: 3 of 6 stops and 3 of 6 counts."},
		"a job":          {only{job: "coated"}, map[string]int64{"letter": 20000, "press": 12000}, 4 + 8 + 32, "Only rows of coated were taken: 3 of 6 stops and 4 of 6 counts."},
		"both":           {only{speed: 9000, job: "coated"}, map[string]int64{"letter": 4000, "press": 4000}, 4, "Only rows of coated at 9,000/h were taken: 1 of 6 stops and 2 of 6 counts."},
		"without a twin": {only{job: "plain"}, map[string]int64{"letter": 3000}, 3, "Only rows of plain were taken: 2 of 6 stops and 2 of 6 counts."},
	} {
		t.Run(name, func(t *testing.T) {
			r, err := narrowedTo(t, c.only, mixedLog, mixedCounts)
			require.NoError(t, err)
			feeds, length := map[string]int64{}, sim.Seconds(0)
			for _, s := range r.stations {
				feeds[s.name] = s.feeds
				for _, stop := range s.stops {
					length += stop.Seconds
				}
			}
			assert.Equal(t, c.feeds, feeds)
			assert.Equal(t, c.seconds, length)
			assert.Equal(t, c.words, r.narrowed())
		})
	}
}

// What a station is, is known by all its stops, and days without such work are idle.
func TestOnlySomeRowsOfAStation(t *testing.T) {
	r, err := narrowedTo(t, only{speed: 9000}, mixedLog, mixedCounts)
	require.NoError(t, err)
	assert.Equal(t, "inserter", r.kindOf(r.stations[1]).name, "a jam alone would make a feeder of it")
	x := &against{Scenario: plainScenario(t), line: *plainScenario(t).Line, records: r}
	require.NoError(t, x.arrange(0))
	require.Len(t, x.periods, 1)
	assert.EqualValues(t, 5000, x.periods[0].Sets, "of the letter, as there is no inserter of the name press")
	assert.InDelta(t, 9000, x.periods[0].Speed, 0)
}

func TestOnlyRowsThatAreThere(t *testing.T) {
	plain := "start,station,cause,duration (s)\n2026-03-02 06:10:00,letter,misfeed,1\n"
	for name, c := range map[string]struct {
		only        only
		log, counts string
		want        string
	}{
		"no jobs in the log":      {only{job: "plain"}, plain, mixedCounts, "stops.csv has no column of jobs: --column job=HEADING says which it is"},
		"no speeds in the counts": {only{speed: 9000}, mixedLog, "station,feeds\nletter,10\n", "counts.csv has no column of speeds: --counts-column speed=HEADING says which it is"},
		"no such job":             {only{job: "Coted"}, mixedLog, mixedCounts, `stops.csv has no row of the job "Coted": did you mean coated?`},
		"no job near":             {only{job: "annual report"}, mixedLog, mixedCounts, `stops.csv has no row of the job "annual report": there are plain and coated`},
		"no such speed":           {only{speed: 11000}, mixedLog, mixedCounts, "stops.csv has no row at 11000/h: did you mean 12000/h?"},
		"not in the counts":       {only{speed: 9000}, mixedLog, "station,speed,feeds\nletter,12000,10\n", "counts.csv has no row at 9000/h: did you mean 12000/h?"},
		"not together": {
			only{speed: 9000, job: "coated"},
			mixedLog, "station,job,speed,feeds\nletter,coated,12000,10\nletter,plain,9000,10\n",
			"counts.csv has no row of coated at 9,000/h",
		},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := narrowedTo(t, c.only, c.log, c.counts)
			require.ErrorContains(t, err, c.want)
			assert.Equal(t, 2, desk.Status(err))
		})
	}
}

func TestSpeedFlag(t *testing.T) {
	for text, want := range map[string]speedFlag{"12000/h": 12000, "200/min": 12000, "2.5/s": 9000, "9000": 9000, "9500.5 / h": 9500.5} {
		var s speedFlag
		require.NoError(t, s.Set(text))
		assert.Equal(t, want, s)
	}
	for _, text := range []string{"", "0", "-1/h", "NaN", "Inf/h", "2e6/h", "9000/day", "9000 h"} {
		var s speedFlag
		assert.Error(t, s.Set(text), text)
	}
}

// What ran between does not count for bursts: stops of one job that come every second day are
// as evenly spread as if the other job had never been.
func TestBurstsOfOneJob(t *testing.T) {
	var log strings.Builder
	log.WriteString("start,station,cause,duration (s),job\n")
	for _, row := range []string{"2026-03-02 06:00:00", "2026-03-02 06:30:00"} {
		log.WriteString(row + ",letter,misfeed,0,a\n")
	}
	for _, row := range []string{"2026-03-02 07:00:00", "2026-03-02 07:30:00", "2026-03-02 07:45:00"} {
		log.WriteString(row + ",letter,misfeed,0,b\n")
	}
	log.WriteString("2026-03-02 08:15:00,letter,misfeed,0,a\n")
	r, err := narrowedTo(t, only{job: "a"}, log.String(), "station,job,feeds\nletter,a,100\nletter,b,100\n")
	require.NoError(t, err)
	places := (&fitting{records: r}).places()
	// Gaps of 30, 30, 30, 15 and 30 min; of job a the first and the last, and a usual
	// one of 27 at both ends: 27 + 30 + 30 + 27 in all.
	require.Len(t, places[0], 3)
	assert.InDeltaSlice(t, []float64{27.0 / 114, 57.0 / 114, 87.0 / 114}, places[0], 1e-12)
}
