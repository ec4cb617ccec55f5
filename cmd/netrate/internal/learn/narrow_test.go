package learn

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/model/modeltest"
)

// narrowedTo fits the rows of a log that are wanted.
func narrowedTo(t *testing.T, o only, log, counts string) (*fitting, error) {
	t.Helper()
	logFile, countFile := writtenFiles(t, log, counts)
	l, err := (&mappingFlags{only: o}).read(desk.Env{Err: os.Stderr}, logFile, countFile, new(dayTime))
	if err != nil {
		return nil, err
	}
	return learntOf(t, l, true), nil
}

// Which rows were taken is said first of all notes.
func TestOnlySomeRows(t *testing.T) {
	for want, o := range map[string]only{
		"Only rows at 12,000/h were taken: 3 of 6 stops and 3 of 6 counts.":          {speed: 12000},
		"Only rows of coated were taken: 3 of 6 stops and 4 of 6 counts.":            {job: "coated"},
		"Only rows of coated at 9,000/h were taken: 1 of 6 stops and 2 of 6 counts.": {speed: 9000, job: "coated"},
		"Only rows of plain were taken: 2 of 6 stops and 2 of 6 counts.":             {job: "plain"},
	} {
		x, err := narrowedTo(t, o, modeltest.MixedLog, modeltest.MixedCounts)
		require.NoError(t, err)
		assert.Equal(t, want, x.Notes()[0])
	}
	x, err := narrowedTo(t, only{}, modeltest.MixedLog, modeltest.MixedCounts)
	require.NoError(t, err)
	assert.NotContains(t, strings.Join(x.Notes(), " "), "Only rows")
}

func TestOnlyRowsThatAreThere(t *testing.T) {
	plain := "start,station,cause,duration (s)\n2026-03-02 06:10:00,letter,misfeed,1\n"
	for name, c := range map[string]struct {
		only        only
		log, counts string
		want        string
	}{
		"no jobs in the log":      {only{job: "plain"}, plain, modeltest.MixedCounts, "stops.csv has no column of jobs: --column job=HEADING says which it is"},
		"no speeds in the counts": {only{speed: 9000}, modeltest.MixedLog, "station,feeds\nletter,10\n", "counts.csv has no column of speeds: --counts-column speed=HEADING says which it is"},
		"no such job":             {only{job: "Coted"}, modeltest.MixedLog, modeltest.MixedCounts, `stops.csv has no row of the job "Coted": did you mean coated?`},
		"no job near":             {only{job: "annual report"}, modeltest.MixedLog, modeltest.MixedCounts, `stops.csv has no row of the job "annual report": there are plain and coated`},
		"no such speed":           {only{speed: 11000}, modeltest.MixedLog, modeltest.MixedCounts, "stops.csv has no row at 11000/h: did you mean 12000/h?"},
		"not in the counts":       {only{speed: 9000}, modeltest.MixedLog, "station,speed,feeds\nletter,12000,10\n", "counts.csv has no row at 9000/h: did you mean 12000/h?"},
		"not together": {
			only{speed: 9000, job: "coated"},
			modeltest.MixedLog, "station,job,speed,feeds\nletter,coated,12000,10\nletter,plain,9000,10\n",
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
