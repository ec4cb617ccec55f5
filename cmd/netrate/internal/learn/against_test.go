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
	require.ErrorContains(t, x.simulate(desk.Env{Err: os.Stderr}), "draw 1 of the line: ")
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
