package learn

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/model"
	"netrate/scenarios"
	"netrate/scenarios/stoplog"
)

// learntInto fits a log and writes what it says into a scenario; all are given as text.
func learntInto(t *testing.T, scenario, log, counts string) (*target, error) {
	t.Helper()
	x := textsOf(t, log, counts)
	file := filepath.Join(t.TempDir(), "line.yaml")
	require.NoError(t, os.WriteFile(file, []byte(scenario), 0o600))
	var says strings.Builder
	to, err := readTarget(desk.Env{Err: &says}, file, "")
	if err == nil {
		err = to.tell(x.Log.Log)
	}
	if err == nil {
		x = learntOf(t, x.Log, true)
		err = to.take(desk.Env{Err: &says}, x)
	}
	if err != nil {
		assert.Equal(t, 2, desk.Status(err))
		t.Log(says.String())
	}
	return to, err
}

// saidOf returns what is said of the scenario, without where it is.
func (t *target) saidOf() string {
	return strings.ReplaceAll(strings.Join(t.said, "\n"), t.File, "line.yaml")
}

// The rates that a simulated line shows are those of the scenario that they are written into,
// and its comments are still there.
func TestFitIntoRoundTrip(t *testing.T) {
	log, counts := written(t, plainScenario(t).Line, 1)
	x := learntFrom(t, log, counts, true)
	file := filepath.Join(t.TempDir(), "line.yaml")
	require.NoError(t, os.WriteFile(file, []byte(plainLineText+"# the end\n"), 0o600))
	to, err := readTarget(desk.Env{}, file, "")
	require.NoError(t, err)
	require.NoError(t, to.tell(x.Log.Log))
	require.NoError(t, to.take(desk.Env{Err: os.Stderr}, x))
	assert.True(t, strings.HasSuffix(string(to.edited), "# the end\n"))
	sc, err := scenarios.Load("line.yaml", to.edited)
	require.NoError(t, err)
	assert.Len(t, sc.Line.UncertainInputs, 9+3*2, "an uncertainty of each rate, and of the mean and the cv of each clearing time")
	letter, inserter := sc.Line.Stations[0].(*model.Feeder), sc.Line.Stations[2].(*model.Inserter)
	assert.InEpsilon(t, x.Stations[0].Faults[0].Rate.P, letter.Misfeed, 1e-9)
	assert.InEpsilon(t, x.Stations[2].Faults[1].Rate.P, inserter.Flap, 1e-9)
	assert.InDelta(t, float64(x.Stations[0].Clearing.Chosen.Mean()), float64(letter.Clear.Mean()), 0.01)
	assert.NotEqual(t, plainScenario(t).Line.Stations[0].(*model.Feeder).Misfeed, letter.Misfeed)
	assert.Equal(t, "Estimated in it: letter, card and inserter.", to.saidOf())
}

// incomplete is a line that lacks what is to be learnt.
const incomplete = `name: To be fitted
line:
  restart: 4 s # as measured
  stations:
    - kind: envelope feeder
      name: covers
      at: 0
      rated: 9000/h
      hopper: {pieces: 900, warn: 10%, refill: 9 s}
      material: 2
      growth: 1.5
      stream: {name: envelopes, realign: 60 s}
      # the rates are not known yet
    - kind: reader
      name: camera
      at: 1
      reads: envelopes
      verifies: presence
    - {kind: inserter, name: press, at: 4, rated: 9000/h, flap: 1/700, jam: 1/800, clear: 9 s}
    - {kind: exit gate, name: exit, at: 5}
    - {kind: delivery, name: belt, at: 6, belt: {envelopes: 100, warn: 10, sweep: 30 s}}
crew: {operators: 1, walk: 12 s}
policy: {misfeed: stop, double: stop, flap: stop, no_read: stop, mismatch: stop, match: by hand}
work: {shift: 8 h}
`

// stopsOf returns twelve stops of a station, the causes by turns.
func stopsOf(station string, causes ...string) string {
	var b strings.Builder
	for i, length := range []string{"4", "9", "10", "12", "15", "20", "25", "30", "45", "60", "80", "100"} {
		b.WriteString("2026-03-02 06:10:00," + station + "," + causes[i%len(causes)] + "," + length + "\n")
	}
	return b.String()
}

const logHead = "start,station,cause,duration (s)\n"

// A file that lacks what is learnt is complete with it; what a station is the file says, and
// keys that a kind does not have are not written.
func TestFitIntoWhatIsNotComplete(t *testing.T) {
	log := logHead + stopsOf("covers", "misfeed") + stopsOf("camera", "no-read", "mismatch") + stopsOf("press", "misfeed", "flap") + stopsOf("exit", "jam") + stopsOf("Belt 1", "jam")
	counts := "station,feeds\ncovers,9000\ncamera,9000\npress,9000\nexit,9000\n"
	to, err := learntInto(t, incomplete, log, counts)
	require.NoError(t, err)
	text := string(to.edited)
	for _, want := range []string{
		"      misfeed: {seen: 12, of: 9000}  # 1/750; 95 %: ",
		"      no_read: {seen: 6, of: 9000}  # 1/1,500; 95 %: ",
		"flap: {seen: 6, of: 9000}, jam: {seen: 0, of: 9000}, clear: {",
		"  restart: 4 s # as measured\n", "      # the rates are not known yet\n",
	} {
		assert.Contains(t, text, want)
	}
	assert.NotContains(t, text, "envelope_misfeed")
	assert.NotContains(t, text, "mismatch: {")
	said := to.saidOf()
	assert.Contains(t, said, "Estimated in it: covers, camera and press.")
	assert.Contains(t, said, "exit is an exit gate, whose rates are not estimated, so left as before.")
	assert.Contains(t, said, "In the log and the counts, but not in line.yaml: Belt 1.")
	assert.Contains(t, said, "growth of covers: its rates are those at the rated speed")
	assert.Contains(t, said, "factor for the material of covers,")
	assert.Contains(t, said, "The scenario has walk or restart besides")
}

// Rates counted at one speed beside a growth from the rated speed: a forecast at the speed of the log
// has (6000/12000)^2 = a quarter of its faults, and that is said.
func TestFitIntoGrowthIsOut(t *testing.T) {
	text := strings.Replace(plainLineText, "envelope_misfeed: 1/600", "growth: 2, envelope_misfeed: 1/600", 1)
	require.NotEqual(t, plainLineText, text)
	line, err := scenarios.Load("line.yaml", []byte(text))
	require.NoError(t, err)
	rated := line.Line.Stations[line.Line.First(model.Inserts)].Where().Rated
	log := logHead + stopsOf("inserter", "flap", "jam")
	to, err := learntInto(t, text, log, fmt.Sprintf("station,feeds,speed\ninserter,900,%g\n", rated/2))
	require.NoError(t, err)
	assert.Contains(t, to.saidOf(), "it has 0.25 times as many faults of inserter as the log")
}

// Clearing times by fault are not overwritten by one time for all faults.
func TestFitIntoClearingByFault(t *testing.T) {
	log := logHead + stopsOf("inserter", "flap", "jam")
	const one, own = "clear: {weibull: {mean: 60 s, cv: 0.7}}", "clear: {jam: 2 min, others: 20 s}"
	for _, clear := range []string{one, own} {
		require.Contains(t, plainLineText, one)
		to, err := learntInto(t, strings.Replace(plainLineText, one, clear, 1), log, "station,feeds\ninserter,900\n")
		require.NoError(t, err)
		kept := strings.Contains(string(to.edited), clear)
		assert.Equal(t, clear == own, kept, string(to.edited))
		assert.Equal(t, clear == own, strings.Contains(to.saidOf(), "clear (it has times by fault, and the log does not show that faults differ)"))
	}
}

// Where a log shows that faults take different times, each gets its own: 30 flaps of 9 to 11 s and
// 30 jams of 90 to 110 s, from the arrival of an operator on if the log has it. Where it does not,
// all have one. The time of other faults that a scenario has by itself stays.
func TestFitIntoTimesByFault(t *testing.T) {
	const one, own = "clear: {weibull: {mean: 60 s, cv: 0.7}}", "clear: {jam: 2 min, others: 20 s}"
	for _, c := range []struct {
		name, clear string
		jam         int // seconds
		waited      int // seconds until an operator is there; below 0 where the log does not say
		means       map[string]float64
	}{
		{"differ", one, 100, -1, map[string]float64{"flap": 10, "jam": 100, "": 55}},
		{"alike", one, 10, -1, map[string]float64{"": 10}},
		{"differ, by arrival", one, 100, 20, map[string]float64{"flap": 10, "jam": 100, "": 55}},
		{"differ, others are written", own, 100, 20, map[string]float64{"flap": 10, "jam": 100, "": 20}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var log strings.Builder
			log.WriteString("start,station,cause,duration (s),arrival\n")
			row := func(hour, minute int, cause string, work int) {
				arrival := ""
				if c.waited >= 0 {
					arrival = fmt.Sprintf("2026-03-02 %02d:%02d:%02d", hour, minute, c.waited)
				}
				fmt.Fprintf(&log, "2026-03-02 %02d:%02d:00,inserter,%s,%d,%s\n", hour, minute, cause, work+max(0, c.waited), arrival)
			}
			for i := range 30 {
				tenth := i%3 - 1
				row(6, i, "flap", 10+tenth)
				row(7, i, "jam", c.jam+tenth*c.jam/10)
			}
			require.Contains(t, plainLineText, one)
			to, err := learntInto(t, strings.Replace(plainLineText, one, c.clear, 1), log.String(), "station,feeds\ninserter,90000\n")
			require.NoError(t, err)
			s, err := scenarios.Load("learnt.yaml", to.edited)
			require.NoError(t, err, string(to.edited))
			means := map[string]float64{}
			for _, p := range s.Line.Parameters() {
				if p.Station == "inserter" && model.IsClearing(p.Name) {
					means[strings.TrimPrefix(strings.TrimPrefix(p.Name, "clear"), ".")] = math.Round(p.Size())
				}
			}
			assert.Equal(t, c.means, means)
		})
	}
}

// What only one side has is said, with the name that was probably meant.
func TestFitIntoOtherStations(t *testing.T) {
	log := logHead + stopsOf("Letter_", "misfeed") + stopsOf("inserter", "flap", "hm") + "2026-03-02 06:10:00,folder,jam,30\n"
	to, err := learntInto(t, plainLineText, log, "station,feeds\nLetter_,900\ninserter,900\nfolder,90\n")
	require.NoError(t, err)
	said := to.saidOf()
	assert.Contains(t, said, "Estimated in it: inserter.")
	assert.Contains(t, said, "In the log and the counts, but not in line.yaml: Letter_ (did you mean letter?) and folder.")
	assert.Contains(t, said, "In line.yaml, but not in the log and the counts, so left as before: letter and card.")
	assert.Contains(t, said, `inserter, as before: envelope_misfeed and jam (none seen, but what "hm" (6) was is not known); clear (too few stops: 6).`)
	assert.Contains(t, string(to.edited), "envelope_misfeed: 1/600, flap: {seen: 6, of: 900}, jam: 1/700, clear: {weibull: {mean: 60 s, cv: 0.7}}, source: '6 flaps in 900 feeds, stops.csv; all else: not stated'}")
	assert.Contains(t, string(to.edited), "misfeed: 1/400, double: 1/600", "of letter nothing is known")
}

func TestFitIntoWhatCannotBe(t *testing.T) {
	log, counts := logHead+stopsOf("letter", "misfeed"), "station,feeds\nletter,900\n"
	group, err := os.ReadFile("../../testdata/group.yaml")
	require.NoError(t, err)
	for name, c := range map[string]struct{ scenario, want string }{
		"no station of it": {strings.ReplaceAll(plainLineText, "name: letter", "name: flier"), "nothing of "},
		"several lines":    {string(group), "the file has several lines, and --into is about one"},
		"no yaml":          {"name: [", "cannot take the estimates: see above"},
		"no stations":      {"name: Nothing\n", "cannot take the estimates: see above"},
		"wrong elsewhere":  {strings.ReplaceAll(plainLineText, "walk: 0 s", "walk: far"), "cannot take the estimates: see above"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := learntInto(t, c.scenario, log, counts)
			assert.ErrorContains(t, err, c.want)
		})
	}
}

// A kind that the command line and the scenario see differently is refused.
func TestFitIntoAnotherKind(t *testing.T) {
	x := textsOf(t, logHead+stopsOf("letter", "misfeed"), "station,feeds\nletter,900\n")
	x.Log.Find("letter").Kind = "envelope feeder"
	to := &target{Target: &stoplog.Target{File: "line.yaml", Stations: []stoplog.TargetStation{{Kind: "feeder", Name: "letter"}}}}
	assert.ErrorContains(t, to.tell(x.Log.Log), "--kind says that letter is an envelope feeder, and in line.yaml it is a feeder")
}

// What is wrong in the scenario is said of the file as the user has it; one that is too large
// to be read whole is not written back.
func TestFitIntoWhatCannotBeRead(t *testing.T) {
	for text, want := range map[string]string{
		"line: [":                               "line.yaml:",
		"line: {}\n":                            "line.yaml:",
		incomplete + strings.Repeat("#", 1<<20): "line.yaml:1:1: the file is too large",
	} {
		file := filepath.Join(t.TempDir(), "line.yaml")
		require.NoError(t, os.WriteFile(file, []byte(text), 0o600))
		var says strings.Builder
		_, err := readTarget(desk.Env{Err: &says}, file, "")
		require.Error(t, err)
		assert.Contains(t, says.String(), want)
		assert.NotContains(t, says.String(), "(edited)")
	}
}
