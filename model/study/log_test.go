package study_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model/modeltest"
	"netrate/model/study"
	"netrate/sim"
)

func TestTakeSomeRows(t *testing.T) {
	for name, c := range map[string]struct {
		job     string
		speed   float64
		feeds   map[string]int64
		seconds sim.Seconds
		only    *study.LogOnly
	}{
		"all":            {"", 0, map[string]int64{"letter": 23000, "press": 12000}, 63, nil},
		"a speed":        {"", 12000, map[string]int64{"letter": 18000, "press": 8000}, 2 + 8 + 32, &study.LogOnly{Speed: 12000, Stops: 3, Counts: 3}},
		"a job":          {"coated", 0, map[string]int64{"letter": 20000, "press": 12000}, 4 + 8 + 32, &study.LogOnly{Job: "coated", Stops: 3, Counts: 4}},
		"both":           {"coated", 9000, map[string]int64{"letter": 4000, "press": 4000}, 4, &study.LogOnly{Job: "coated", Speed: 9000, Stops: 1, Counts: 2}},
		"without a twin": {"plain", 0, map[string]int64{"letter": 3000}, 3, &study.LogOnly{Job: "plain", Stops: 2, Counts: 2}},
	} {
		t.Run(name, func(t *testing.T) {
			l := logOf(t, modeltest.MixedLog, modeltest.MixedCounts)
			require.NoError(t, l.Take(c.job, c.speed))
			feeds, length := map[string]int64{}, sim.Seconds(0)
			for _, s := range l.Stations {
				feeds[s.Name] = s.Feeds
				for _, stop := range s.Stops {
					length += stop.Seconds
				}
			}
			assert.Equal(t, c.feeds, feeds)
			assert.Equal(t, c.seconds, length)
			assert.Equal(t, c.only, l.Only)
		})
	}
}

// What a station is, is known by all its stops, and days without such work are idle.
func TestTakeSomeRowsOfAStation(t *testing.T) {
	l := logOf(t, modeltest.MixedLog, modeltest.MixedCounts)
	require.NoError(t, l.Take("", 9000))
	assert.Equal(t, "inserter", l.KindOf(l.Stations[1]).Name, "a jam alone would make a feeder of it")
	x, err := study.Replay{Line: plain(t), Log: l}.Beside()
	require.NoError(t, err)
	require.Len(t, x.Periods, 1)
	assert.EqualValues(t, 5000, x.Periods[0].Sets, "of the letter, as there is no inserter of the name press")
	assert.InDelta(t, 9000, x.Periods[0].Speed, 0)
}

// Rows that are not there are an error with what there is instead.
func TestTakeRowsThatAreThere(t *testing.T) {
	plain := "start,station,cause,duration (s)\n2026-03-02 06:10:00,letter,misfeed,1\n"
	for name, c := range map[string]struct {
		job         string
		speed       float64
		log, counts string
		want        study.LogLacks
		says        string
	}{
		"no jobs in the log":      {"plain", 0, plain, modeltest.MixedCounts, study.LogLacks{File: "stops.csv", Column: "job"}, "stops.csv has no column of jobs"},
		"no speeds in the counts": {"", 9000, modeltest.MixedLog, "station,feeds\nletter,10\n", study.LogLacks{File: "counts.csv", InCounts: true, Column: "speed"}, "counts.csv has no column of speeds"},
		"no such job":             {"Coted", 0, modeltest.MixedLog, modeltest.MixedCounts, study.LogLacks{File: "stops.csv", Job: "Coted", Jobs: []string{"plain", "coated"}}, `stops.csv has no row of the job "Coted"`},
		"no such speed":           {"", 11000, modeltest.MixedLog, modeltest.MixedCounts, study.LogLacks{File: "stops.csv", Speed: 11000, Speeds: []float64{9000, 12000}}, "stops.csv has no row at 11000/h"},
		"not together": {
			"coated", 9000,
			modeltest.MixedLog, "station,job,speed,feeds\nletter,coated,12000,10\nletter,plain,9000,10\n",
			study.LogLacks{File: "counts.csv", InCounts: true, Job: "coated", Speed: 9000},
			"counts.csv has no row of coated at 9000/h",
		},
	} {
		t.Run(name, func(t *testing.T) {
			err := logOf(t, c.log, c.counts).Take(c.job, c.speed)
			assert.Equal(t, c.want, err)
			assert.EqualError(t, err, c.says)
		})
	}
}
