package learn

import (
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/internal/golden"
	"netrate/model"
	"netrate/model/runs"
	"netrate/model/study"
	"netrate/sim"
	"netrate/sim/output"
)

// against compares a line with a log.
func against(t *testing.T, line *model.Line, log study.Log, seed uint64) *study.ReplayAnswer {
	t.Helper()
	a, err := study.Replay{Line: line, File: "plain.yaml", Log: &log, Plan: sim.Plan{Seed: seed, Max: 199}}.Ask(t.Context(), nil)
	require.NoError(t, err)
	return a
}

// A log of bad lots and bad days, written set by set, is told apart from what its line makes as seldom as
// chance has it: P is 0.05 or less in one round of twenty, and something is out of line in no more. Nor
// is it beside the line that was fitted from it. Where lots and days are ignored its days are found to
// differ; and that faults come twice as often is found in spite of them, or more often than not that
// stops last half as long again.
func TestKnownTruthOfLotsAgainst(t *testing.T) {
	if golden.Raced {
		t.Skip("what runs at once is watched in other tests")
	}
	rounds := max(10, int64(*macro)/2)
	low, out := map[runs.RecordFigure]int64{}, map[string]int64{}
	for round := range uint64(rounds) {
		log, counts := setBySet(t, lottedLine(t), 40_000+round, 20)
		l, err := (&mappingFlags{}).read(desk.Env{Err: os.Stderr}, log, counts, new(dayTime))
		require.NoError(t, err)
		_, fitted := intoLotted(t, *l.Log)
		_, ignoring := intoLotted(t, undated(l.Log))
		seldom := failing(lottedLine(t), 0.5)
		itself := against(t, lottedLine(t), *l.Log, round)
		for _, test := range itself.Tests {
			if test.P <= 0.05 {
				low[test.Figure]++
			}
		}
		for name, a := range map[string]*study.ReplayAnswer{
			"itself": itself, "fitted": against(t, fitted, *l.Log, round),
		} {
			if len(a.Contradicted()) > 0 {
				out[name]++
			}
		}
		if against(t, ignoring, *l.Log, round).Tests[runs.VaryingStops].Out {
			out["ignoring"]++
		}
		if against(t, seldom, *l.Log, round).Tests[runs.AllStops].Out {
			out["seldom"]++
		}
		if against(t, slower(lottedLine(t)), *l.Log, round).Tests[runs.AllSeconds].Out {
			out["slower"]++
		}
	}
	t.Logf("of %d rounds: P is 0.05 or less in %v; out of line: %v", rounds, low, out)
	const surely = 1 - 0.001/6 // six checks share the 0.1 %
	for figure := range runs.VaryingSeconds + 1 {
		least, most := output.ExactInterval(low[figure], rounds, surely)
		assert.True(t, least <= 0.05 && 0.05 <= most, "figure %d: P is 0.05 or less in %d of %d", figure, low[figure], rounds)
	}
	for _, name := range []string{"itself", "fitted"} {
		least, _ := output.ExactInterval(out[name], rounds, surely)
		assert.LessOrEqual(t, least, 0.05, "%s: out of line in %d of %d", name, out[name], rounds)
	}
	assert.Greater(t, out["ignoring"], rounds*9/10)
	assert.Greater(t, out["seldom"], rounds*9/10)
	assert.Greater(t, out["slower"], rounds/2)
}
