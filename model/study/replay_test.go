package study_test

import (
	"context"
	_ "embed"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/study"
	"netrate/scenarios"
	"netrate/scenarios/stoplog"
	"netrate/sim"
	"netrate/sim/output"
)

//go:embed testdata/plain.yaml
var plainText string

// plain returns a line of which every fault is noticed and stops it.
func plain(t *testing.T) *model.Line {
	t.Helper()
	sc, err := scenarios.Load("plain.yaml", []byte(plainText))
	require.NoError(t, err)
	return sc.Line
}

// logOf reads a log and counts that are given as text.
func logOf(t *testing.T, stops, counts string) *study.Log {
	t.Helper()
	log := &study.Log{}
	_, err := stoplog.AddCounts(log, strings.NewReader(counts), stoplog.Mapping{File: "counts.csv"})
	require.NoError(t, err)
	_, err = stoplog.AddStops(log, strings.NewReader(stops), stoplog.Mapping{File: "stops.csv"})
	require.NoError(t, err)
	return log
}

const stopsHead = "Start,Station,Cause,Duration (s)\n"

// Six stops, of 1, 2, 4, 8, 16 and 32 s, so that a sum tells which of them are in it.
//
//go:embed testdata/six-stops.csv
var sixStops string

func TestReplayPeriods(t *testing.T) {
	const hour = time.Hour
	for name, c := range map[string]struct {
		counts    string
		dayStarts time.Duration
		word      string
		names     []string
		sets      []int64
		seconds   []sim.Seconds
		before    int
	}{
		"days": {
			"Day,Station,Feeds\n2026-03-03,inserter,200\n2026-03-02,inserter,100\n2026-03-02,letter,101\n", 0, "day",
			[]string{"2026-03-02", "2026-03-03"},
			[]int64{100, 200},
			[]sim.Seconds{1 + 2, 4 + 8 + 16},
			0,
		},
		"days that start in the morning": {
			"Day,Station,Feeds\n2026-03-03,inserter,200\n2026-03-02,inserter,100\n2026-03-02,letter,101\n", 6 * hour, "day",
			[]string{"2026-03-02", "2026-03-03"},
			[]int64{100, 200},
			[]sim.Seconds{2 + 4, 8 + 16},
			1,
		},
		"shifts": {
			"Day,Station,Feeds\n2026-03-02 06:00,inserter,100\n2026-03-02 22:00,inserter,50\n2026-03-03 06:00,inserter,70\n2026-03-03 14:30,inserter,80\n2026-03-02 06:00,letter,9\n", 0, "period",
			[]string{"2026-03-02 06:00", "2026-03-02 22:00", "2026-03-03 06:00", "2026-03-03 14:30"},
			[]int64{100, 50, 70, 80},
			[]sim.Seconds{2, 4, 8, 16},
			1,
		},
		"zones": { // half past two in the east is half past one in the log
			"Day,Station,Feeds\n2026-03-03T00:00+01:00,inserter,200\n2026-03-02T00:00+01:00,inserter,100\n2026-03-02T00:00+01:00,letter,1\n", 5 * hour / 2, "day",
			[]string{"2026-03-02", "2026-03-03"},
			[]int64{100, 200},
			[]sim.Seconds{1 + 2, 4 + 8 + 16},
			0,
		},
		"one shift a day, two jobs": {
			"Day,Station,Job,Feeds\n2026-03-02 06:00,inserter,a,60\n2026-03-02 06:00,inserter,b,40\n2026-03-03 06:00,inserter,a,70\n2026-03-02 06:00,letter,a,1\n", 0, "day",
			[]string{"2026-03-02", "2026-03-03"},
			[]int64{100, 70},
			[]sim.Seconds{2 + 4, 8 + 16},
			1,
		},
		"no inserter: the most feeds": {
			"Day,Station,Feeds\n2026-03-02,letter,100\n2026-03-02,card,50\n2026-03-03,letter,70\n", 0, "day",
			[]string{"2026-03-02", "2026-03-03"},
			[]int64{100, 70},
			[]sim.Seconds{1 + 2, 8 + 16 + 32},
			0,
		},
		"a day without work": {
			"Day,Station,Feeds\n2026-03-02,inserter,100\n2026-03-02,letter,5\n2026-03-03,inserter,0\n2026-03-03,letter,7\n", 0, "day",
			[]string{"2026-03-02"},
			[]int64{100},
			[]sim.Seconds{1 + 2},
			0,
		},
	} {
		t.Run(name, func(t *testing.T) {
			x, err := study.Replay{Line: plain(t), Log: logOf(t, sixStops, c.counts), DayStarts: c.dayStarts}.Beside()
			require.NoError(t, err)
			var names []string
			var sets []int64
			var seconds []sim.Seconds
			for i, p := range x.Periods {
				names, sets = append(names, p.Name), append(sets, p.Sets)
				seconds = append(seconds, x.Logged.Periods[i].Seconds)
			}
			assert.Equal(t, c.word, x.Period)
			assert.Equal(t, c.names, names)
			assert.Equal(t, c.sets, sets)
			assert.Equal(t, c.seconds, seconds)
			assert.Equal(t, c.before, x.Left.Before)
			all := int(x.Logged.IntegerDistribution().Stops) + x.Left.Before + x.Left.Idle + x.Left.Uncounted + x.Left.Others
			for _, n := range x.Left.Strangers {
				all += n
			}
			assert.Equal(t, 6, all, "every stop is somewhere")
		})
	}
}

func TestReplaySpeeds(t *testing.T) {
	counts := `Day,Station,Speed,Feeds
2026-03-02,inserter,10000,100
2026-03-03,inserter,8000,60
2026-03-03,inserter,8000,60
2026-03-04,inserter,8000,60
2026-03-04,inserter,9000,60
2026-03-05,inserter,12000,60
2026-03-06,inserter,,60
2026-03-02,letter,10000,100
`
	x, err := study.Replay{Line: plain(t), Log: logOf(t, sixStops, counts)}.Beside()
	require.NoError(t, err)
	var speeds []float64
	for _, p := range x.Periods {
		speeds = append(speeds, p.Speed)
	}
	assert.Equal(t, []float64{0, 8000, 0, 12000, 0}, speeds)
	assert.Equal(t, study.ReplaySpeeds{Own: 2, Slow: 1, Mixed: 1}, x.Speeds())
}

// What is only on one side is left out on both.
func TestReplayOfOtherStations(t *testing.T) {
	log := stopsHead + `2026-03-02 07:00:00,letter,misfeed,1
2026-03-02 07:10:00,letter,flap,1
2026-03-02 07:20:00,letter,lunch,1
2026-03-02 07:30:00,card,misfeed,1
2026-03-02 07:40:00,folder,jam,1
2026-03-02 07:50:00,inserter,jam,1
2026-03-02 07:55:00,inserter,misfeed,1
`
	counts := "Day,Station,Feeds\n2026-03-02,inserter,100\n2026-03-02,letter,100\n2026-03-02,stacker,100\n"
	x, err := study.Replay{Line: plain(t), Log: logOf(t, log, counts)}.Beside()
	require.NoError(t, err)
	assert.Equal(t, []bool{false, true, false, false}, x.Out)
	assert.Equal(t, []string{"card"}, x.LeftOut())
	assert.Equal(t, study.ReplayLeftOut{Uncounted: 1, Others: 2, Strangers: map[string]int{"folder": 1, "stacker": 0}}, x.Left)
	assert.EqualValues(t, 3, x.Logged.IntegerDistribution().Stops)
	assert.EqualValues(t, 1, x.Logged.Causes[2][model.CauseInsertionJam].Stops, "a jam of the inserter is one at insertion")
	assert.EqualValues(t, 1, x.Logged.Causes[2][model.CauseEnvelopeMisfeed].Stops)
	assert.False(t, x.Compares(1, model.CauseJam))
	assert.True(t, x.Compares(0, model.CauseStreak))
	assert.False(t, x.Compares(0, model.CauseStock), "the log has no stops for stocks")
}

func TestReplayOfStocks(t *testing.T) {
	counts := "Day,Station,Feeds\n2026-03-02,inserter,100\n2026-03-02,letter,100\n2026-03-02,card,100\n"
	log := stopsHead + "2026-03-02 07:00:00,belt,belt full,5\n2026-03-02 07:00:00,belt,hopper empty,5\n2026-03-02 07:10:00,card,hopper empty,5\n"
	x, err := study.Replay{Line: plain(t), Log: logOf(t, log, counts)}.Beside()
	require.NoError(t, err)
	assert.True(t, x.Compares(0, model.CauseStock))
	assert.True(t, x.Stocks)
	assert.EqualValues(t, 2, x.Logged.IntegerDistribution().Stops)
	assert.Equal(t, 1, x.Left.Others, "a belt has no hopper")
}

// What of a log keeps it from being compared is an error that says so.
func TestReplayRefuses(t *testing.T) {
	counts := "Day,Station,Feeds\n2026-03-02 06:00,inserter,100\n"
	for name, c := range map[string]struct {
		stops, counts string
		starts        time.Duration
		want          string
	}{
		"no day":      {sixStops, "Station,Feeds\ninserter,100\n", 0, "counts.csv does not say of which day its line 2 is"},
		"two clocks":  {sixStops, counts, time.Hour, "counts.csv says at what time of day its periods begin"},
		"no work":     {sixStops, "Day,Station,Feeds\n2026-03-02,inserter,0\n2026-03-02,letter,0\n", 0, "counts.csv has no feeds of"},
		"too early":   {stopsHead + "2026-03-01 07:00:00,letter,misfeed,1\n", counts, 0, "all stops of stops.csv are before the first day of counts.csv, 2026-03-02"},
		"other names": {stopsHead + "2026-03-02 07:00:00,folder,jam,1\n", counts, 0, "no stop of stops.csv can be compared: its stations are inserter and folder, and those of line.yaml are letter, card, inserter and belt"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := study.Replay{Line: plain(t), File: "line.yaml", Log: logOf(t, c.stops, c.counts), DayStarts: c.starts}.Beside()
			require.ErrorContains(t, err, c.want)
		})
	}
}

// The callback hears of each record in order, and can have the answer so far, which is that of
// a question about a number of records; a context ends the work with the records until then.
func TestReplayTells(t *testing.T) {
	counts := "Day,Station,Feeds\n2026-03-02,inserter,2000\n2026-03-03,inserter,2000\n2026-03-02,letter,4000\n2026-03-02,card,4000\n"
	q := study.Replay{Line: plain(t), Log: logOf(t, sixStops, counts), Plan: sim.Plan{Seed: 3, Min: 1, Max: 2000}}
	ctx, stop := context.WithCancel(t.Context())
	defer stop()
	var early *study.ReplayAnswer
	heard := 0
	cut, err := q.Ask(ctx, func(s study.Sofar[study.ReplayAnswer]) {
		heard++
		assert.Equal(t, heard, s.Done)
		assert.Equal(t, 2000, s.Most)
		if heard == 8 {
			early = s.Answer()
			stop()
		}
	})
	require.NoError(t, err)
	assert.Equal(t, sim.Cancelled, cut.Ending)
	assert.Less(t, len(cut.Drawn), 2000)
	require.GreaterOrEqual(t, len(cut.Drawn), 8)
	q.Plan.Max = 8
	eight, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.Equal(t, eight.Tests, early.Tests)
	assert.Equal(t, eight.Drawn, early.Drawn)
}

// Of a feeder of a stream that only some sets have the counts say how many: as many are simulated,
// also where the scenario has another share, or is uncertain of it.
func TestReplayOfSomeSetsOfAStream(t *testing.T) {
	l := plain(t)
	l.Attributes = []model.Attribute{{Name: "gold", Share: 0.2}}
	l.Stations[0].(*model.Feeder).Stream = model.Stream{Name: "letters", Tries: 1}
	card := l.Stations[1].(*model.Feeder)
	card.Only, card.Stream = "gold", model.Stream{Name: "cards", Tries: 1}
	l.UncertainInputs = []model.UncertainInput{{Name: "line.attributes.gold.share", Of: output.Between{Low: 0.1, Likely: 0.2, High: 0.3}}}
	counts := "Day,Station,Feeds\n2026-03-02,inserter,20000\n2026-03-02,letter,20000\n2026-03-02,card,12000\n"
	a, err := study.Replay{Line: l, Log: logOf(t, sixStops, counts), Plan: sim.Plan{Seed: 3, Min: 4, Max: 4}}.Ask(t.Context(), nil)
	require.NoError(t, err)
	_, parts := a.Parted()
	assert.Equal(t, []string{"card"}, parts)
	for _, r := range a.Drawn {
		// Of 20,000 sets the standard error is 0.0035.
		assert.InDelta(t, 0.6, float64(r.Feeds[1])/float64(r.Feeds[0]), 0.02)
	}
	assert.InDelta(t, 0.2, l.Attributes[0].Share, 0, "the scenario's own line stays as it is")
	assert.Len(t, l.UncertainInputs, 1)
}
