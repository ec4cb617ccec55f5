package learn

import (
	_ "embed"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/model"
	"netrate/scenarios"
	"netrate/sim"
)

// logOf reads a log and counts that are given as text beside a line.
func logOf(t *testing.T, sc *scenarios.Scenario, log, counts string, dayStarts dayTime) (*against, error) {
	t.Helper()
	directory := t.TempDir()
	logFile, countFile := filepath.Join(directory, "stops.csv"), filepath.Join(directory, "counts.csv")
	require.NoError(t, os.WriteFile(logFile, []byte(log), 0o600))
	require.NoError(t, os.WriteFile(countFile, []byte(counts), 0o600))
	x := &against{Scenario: sc, line: *sc.Line}
	var err error
	x.records, err = (&mappingFlags{}).read(desk.Env{Err: os.Stderr}, logFile, countFile)
	require.NoError(t, err)
	return x, x.arrange(dayStarts)
}

const stopsHead = "Start,Station,Cause,Duration (s)\n"

// Six stops, of 1, 2, 4, 8, 16 and 32 s, so that a sum tells which of them are in it.
//
//go:embed testdata/six-stops.csv
var sixStops string

func TestAgainstPeriods(t *testing.T) {
	const hour = 3600e9
	for name, c := range map[string]struct {
		counts    string
		dayStarts dayTime
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
			"Day,Station,Feeds\n2026-03-03T00:00+01:00,inserter,200\n2026-03-02T00:00+01:00,inserter,100\n2026-03-02T00:00+01:00,letter,1\n", 2.5 * hour, "day",
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
			x, err := logOf(t, plainScenario(t), sixStops, c.counts, c.dayStarts)
			require.NoError(t, err)
			var names []string
			var sets []int64
			var seconds []sim.Seconds
			for i, p := range x.periods {
				names, sets = append(names, p.Name), append(sets, p.Sets)
				seconds = append(seconds, x.log.Periods[i].Seconds)
			}
			assert.Equal(t, c.word, x.word)
			assert.Equal(t, c.names, names)
			assert.Equal(t, c.sets, sets)
			assert.Equal(t, c.seconds, seconds)
			assert.Equal(t, c.before, x.left.before)
			all := int(x.log.Whole().Stops) + x.left.before + x.left.idle + x.left.uncounted + x.left.others
			for _, n := range x.left.strangers {
				all += n
			}
			assert.Equal(t, 6, all, "every stop is somewhere")
		})
	}
}

func TestAgainstSpeeds(t *testing.T) {
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
	x, err := logOf(t, plainScenario(t), sixStops, counts, 0)
	require.NoError(t, err)
	var speeds []float64
	for _, p := range x.periods {
		speeds = append(speeds, p.Speed)
	}
	assert.Equal(t, []float64{0, 8000, 0, 12000, 0}, speeds)
	assert.Equal(t, " 2 days at a speed of their own, 1 no faster than the stations are rated. "+
		"1 day had several speeds, simulated at that of the scenario, 10,000/h.", x.speeds())
	x.periods = []logPeriod{x.periods[2], x.periods[2], x.periods[3]}
	assert.Equal(t, " 1 day at a speed of its own, 1 no faster than the stations are rated. "+
		"2 days had several speeds, simulated at that of the scenario, 10,000/h.", x.speeds())
}

// What is only on one side is left out on both, and said.
func TestAgainstOtherStations(t *testing.T) {
	log := stopsHead + `2026-03-02 07:00:00,letter,misfeed,1
2026-03-02 07:10:00,letter,flap,1
2026-03-02 07:20:00,letter,lunch,1
2026-03-02 07:30:00,card,misfeed,1
2026-03-02 07:40:00,folder,jam,1
2026-03-02 07:50:00,inserter,jam,1
2026-03-02 07:55:00,inserter,misfeed,1
`
	counts := "Day,Station,Feeds\n2026-03-02,inserter,100\n2026-03-02,letter,100\n2026-03-02,stacker,100\n"
	x, err := logOf(t, plainScenario(t), log, counts, 0)
	require.NoError(t, err)
	assert.Equal(t, []bool{false, true, false, false}, x.out)
	assert.Equal(t, map[string]int{"folder": 1, "stacker": 0}, x.left.strangers)
	assert.Equal(t, leftOutStops{uncounted: 1, others: 2, strangers: x.left.strangers}, x.left)
	assert.EqualValues(t, 3, x.log.Whole().Stops)
	assert.EqualValues(t, 1, x.log.Causes[2][model.CauseInsertionJam].Stops, "a jam of the inserter is one at insertion")
	assert.EqualValues(t, 1, x.log.Causes[2][model.CauseEnvelopeMisfeed].Stops)
	assert.False(t, x.counted(1, model.CauseJam))
	assert.True(t, x.counted(0, model.CauseStreak))
	assert.False(t, x.counted(0, model.CauseStock), "the log has no stops for stocks")
	said := strings.Join(x.leftOutNotes(), " ")
	for _, want := range []string{
		"Left out on both sides, as their feeds are not counted: card.", "Not in the scenario, and left out: folder (1 stop) and stacker (no stop).",
		"The log has no stops for stocks used up, so these are left out on both sides.",
		"1 stop at stations whose feeds are not counted; 2 stops for what is no fault or stock of such a station.", `"lunch" (1)`,
	} {
		assert.Contains(t, said, want)
	}
}

func TestAgainstStocks(t *testing.T) {
	counts := "Day,Station,Feeds\n2026-03-02,inserter,100\n2026-03-02,letter,100\n2026-03-02,card,100\n"
	x, err := logOf(t, plainScenario(t), stopsHead+"2026-03-02 07:00:00,belt,belt full,5\n2026-03-02 07:00:00,belt,hopper empty,5\n2026-03-02 07:10:00,card,hopper empty,5\n", counts, 0)
	require.NoError(t, err)
	assert.True(t, x.counted(0, model.CauseStock))
	assert.EqualValues(t, 2, x.log.Whole().Stops)
	assert.Equal(t, 1, x.left.others, "a belt has no hopper")
	assert.Equal(t, "stops, stocks among them", x.testName(model.AllStops))
}
