package learn

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/golden"
	"netrate/cmd/netrate/internal/page"
	"netrate/model"
	"netrate/sim"
)

func TestAgainstJSONGolden(t *testing.T) {
	t.Chdir("../../testdata/fitting")
	sc, _, err := desk.Load(desk.Env{}, "line.yaml")
	require.NoError(t, err)
	x := &against{Scenario: sc, source: []byte("as in line.yaml"), line: *sc.Line, plan: sim.Plan{Seed: 1, Min: 1, Max: 400}, again: "netrate run line.yaml"}
	x.records, err = (&mappingFlags{}).read(desk.Env{Err: os.Stderr}, "stops.csv", "counts.csv")
	require.NoError(t, err)
	require.NoError(t, x.arrange(0))
	require.NoError(t, x.simulate(desk.Env{Err: os.Stderr}))
	var out strings.Builder
	require.NoError(t, page.WriteDocument(&out, x.document("v0")))
	golden.Check(t, "against.json", out.String())
}

// A run that fails has no answer, and one that is interrupted says that it is partial.
func TestAgainstFails(t *testing.T) {
	log, counts := daysWritten(t, 1, 2, func(int) *model.Line { return plainScenario(t).Line })
	x := compareWith(t, log, counts, 1)
	x.ending = sim.Cancelled
	assert.Contains(t, x.title(), "PARTIAL ANSWER, interrupted: ")
	assert.True(t, x.document("v0").Partial)
	x.line.Stations, x.tests = nil, nil
	require.ErrorContains(t, x.simulate(desk.Env{Err: os.Stderr}), "the line has no inserter")
	assert.Nil(t, x.tests)
}

// Where clearing times are whole stops and the scenario has walk besides, it is said.
func TestAgainstHintsAtTimeTwice(t *testing.T) {
	log, counts := daysWritten(t, 1, 4, func(int) *model.Line { return plainScenario(t).Line })
	x := compareWith(t, log, counts, 1)
	const hint = "they count twice"
	assert.NotContains(t, strings.Join(x.notes(), " "), hint)
	x.line.Crew.Walk = sim.Constant(40)
	require.NoError(t, x.simulate(desk.Env{Err: os.Stderr}))
	assert.Contains(t, strings.Join(x.notes(), " "), hint)
}

// One day alone shows nothing of how days differ.
func TestAgainstOfOneDay(t *testing.T) {
	x, err := logOf(t, plainScenario(t), sixStops, "Day,Station,Feeds\n2026-03-02,inserter,5000\n2026-03-02,letter,5000\n2026-03-02,card,5000\n", 0)
	require.NoError(t, err)
	x.plan = sim.Plan{Seed: 1, Min: 1, Max: 199}
	require.NoError(t, x.simulate(desk.Env{Err: os.Stderr}))
	assert.Len(t, x.tests, 2)
	assert.Contains(t, strings.Join(x.notes(), " "), "With one day alone")
	assert.Contains(t, x.finding(), "The model does not reproduce the log: it has")
	_, err = x.report("v0")
	require.NoError(t, err)
}

func TestProbability(t *testing.T) {
	for p, want := range map[float64]string{1: "1.00", 0.5: "0.50", 0.0951: "0.10", 0.0499: "0.050", 2.0 / 401: "0.005", 0.0004: "<0.001"} {
		assert.Equal(t, want, probability(p))
	}
	assert.Equal(t, "P = 0.005", withP(0.005))
	assert.Equal(t, "P < 0.001", withP(0.0001))
}

func TestDayTime(t *testing.T) {
	var d dayTime
	require.NoError(t, d.Set("22:30"))
	assert.Equal(t, "22:30", d.String())
	require.NoError(t, d.Set("00:00"))
	assert.Equal(t, "00:00", d.String())
	for _, text := range []string{"", "24:00", "6", "06:60", "-1:00"} {
		assert.Error(t, d.Set(text), text)
	}
}

// How much more or less a log has is told in percent, and from twice on in times.
func TestFold(t *testing.T) {
	of := func(log float64) string {
		return fold(model.RecordTest{Log: log, Simulated: sim.Sample{90, 110}}, "as many stops as", "more stops than", "fewer stops than")
	}
	for log, want := range map[float64]string{
		0: "100 % fewer stops than", 73: "27 % fewer stops than", 99.5: "0.50 % fewer stops than", 100: "0 % fewer stops than",
		135: "35 % more stops than", 199: "99 % more stops than", 199.6: "2.0 times as many stops as", 214: "2.1 times as many stops as",
	} {
		assert.Equal(t, want, of(log))
	}
	assert.Equal(t, "any number of times as many", fold(model.RecordTest{Log: 3, Simulated: sim.Sample{0, 0}}, "as many", "more", "fewer"))
}

// What the log is too short to show is told beside the verdict: 0 to 200 about 100 are
// ± 95 % between their 2.5th and 97.5th percentiles, and 900 to 1,100 about 1,000 ± 9.5 %.
func TestVerdictSaysWhatItCannotShow(t *testing.T) {
	x := &against{word: "day", periods: make([]logPeriod, 3), drawn: make([]model.Replica, 999)}
	var stops, seconds sim.Sample
	for i := range 201 {
		stops, seconds = append(stops, float64(i)), append(seconds, 900+float64(i))
	}
	x.tests = []model.RecordTest{{Figure: model.AllStops, Log: 100, Simulated: stops, P: 1}, {Figure: model.AllSeconds, Log: 1000, Simulated: seconds, P: 1}}
	assert.Equal(t, "The log does not contradict the model: in none of two tests is it out of line. "+
		"Three days would show some 95 % more or fewer stops, or 9.5 % more or fewer seconds, at the least.", x.verdict())
	x.periods = x.periods[:1]
	assert.Contains(t, x.verdict(), " One day would show ")
	x.tests[0].Simulated = sim.Sample{0, 0, 0}
	assert.NotContains(t, x.verdict(), "would show")
}

// 1 is what chance makes of the days of one line, and less is, where something is in doubt:
// the variance then holds the doubt too.
func TestAgainstSaysWhatDaysDifferBy(t *testing.T) {
	log, counts := daysWritten(t, 1, 4, func(int) *model.Line { return plainScenario(t).Line })
	x := compareWith(t, log, counts, 1)
	for _, test := range x.tests[model.VaryingStops:] {
		assert.InDelta(t, 1, test.Simulated.Mean(), 0.2) // 199 records of a chi-square with 3 degrees: ± 3.29 × 0.058
	}
	notes := strings.Join(x.notes(), " ")
	assert.Contains(t, notes, "Where days differ, 1 is what chance makes on average. If the rates come from this log, its stops agree by construction, its seconds nearly")
	assert.NotContains(t, notes, "less here")
	x.line.Doubts = make([]model.Doubt, 1)
	assert.Contains(t, strings.Join(x.notes(), " "), "1 is what chance makes on average in one line; less here")
}
