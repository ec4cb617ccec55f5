package learn

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/say"
	"netrate/internal/golden"
	"netrate/model"
	"netrate/model/runs"
	"netrate/scenarios"
	"netrate/scenarios/stoplog"
	"netrate/sim"
	"netrate/sim/output"
)

// pasted returns the plain line with the rates and times of a fragment, all uncertain as the
// fit says.
func pasted(t *testing.T, fragment string) *model.Line {
	t.Helper()
	for i, name := range []string{"letter", "card", "inserter"} {
		head := fmt.Sprintf("    name: '%s'\n", name)
		require.Contains(t, fragment, head)
		fragment = strings.Replace(fragment, head, head+fmt.Sprintf("    at: %d\n    rated: 10000/h\n    hopper: {pieces: 1000000, warn: 1, refill: 1 s}\n", []int{0, 2, 5}[i]), 1)
	}
	stations := "  " + strings.ReplaceAll(strings.TrimSpace(fragment), "\n", "\n  ") + "\n    - {kind: delivery, name: belt, at: 8}\n"
	sc, err := scenarios.Load("pasted.yaml", []byte("name: Pasted\nline:\n  restart: 0 s\n"+stations+
		"policy: {misfeed: stop, double: stop, flap: stop}\ncrew: {operators: 1, walk: 0 s}\nwork: {shift: 8 h}\n"))
	require.NoError(t, err, stations)
	return sc.Line
}

// From a log to the uncertainty of a forecast, and back to the line: a day of a known line is
// simulated, logged and fitted, what was learnt is put into a scenario with its uncertainty, and the
// 95 % interval of the net rate in the long run holds that of the line. Intervals half as wide
// do not.
func TestKnownTruthOfAForecast(t *testing.T) {
	if golden.Raced {
		t.Skip("what runs at once is watched in other tests")
	}
	line := plainScenario(t).Line
	shift := *line
	shift.Shift = 8 * 3600
	settled, err := runs.Run(t.Context(), &shift, sim.Plan{Seed: 77, Min: 4000, Max: 4000}, nil)
	require.NoError(t, err)
	truth := settled.NetRates().Mean()
	held, narrow := int64(0), int64(0)
	for i := range *macro {
		log, counts := written(t, line, uint64(500_000+i))
		x := learntFrom(t, log, counts, true)
		learnt := pasted(t, stoplog.Fragment(x.FitAnswer))
		require.Len(t, learnt.UncertainInputs, 15, "nine rates, and the mean and the cv of three clearing times")
		studies, _, err := runs.RunUncertain(t.Context(), []*model.Line{learnt}, sim.Plan{Seed: uint64(i), Max: 300}, 4, nil)
		require.NoError(t, err)
		low, high := studies[0].Of(func(s *runs.Shift) float64 { return s.NetRate }).Interval(say.Level)
		quarter := (high - low) / 4
		if low <= truth && truth <= high {
			held++
		}
		if low+quarter <= truth && truth <= high-quarter {
			narrow++
		}
	}
	all := int64(*macro)
	low, high := output.ExactInterval(held, all, 0.999)
	assert.True(t, low <= 0.97 && high >= 0.93, "%d of %d", held, all)
	if all >= 300 {
		assert.InDelta(t, 0.95, float64(held)/float64(all), 0.04)
		assert.Less(t, float64(narrow)/float64(all), 0.85, "intervals half as wide go unseen")
	}
	t.Logf("%.1f %% of %d intervals held, %.1f %% of those half as wide", 100*float64(held)/float64(all), all, 100*float64(narrow)/float64(all))
}
