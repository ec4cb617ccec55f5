package present

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/say"
	"netrate/internal/golden"
	"netrate/model/study"
	"netrate/plots/terminal"
	"netrate/sim"
)

// togetherOf returns the strategies of the two lines of the tests, in a number of shifts.
func togetherOf(t *testing.T, limit *float64, reps int) StrategiesTogether {
	t.Helper()
	g := twoLines(t, 1)
	q := study.StrategiesTogether{Group: g.Of.Group, MaxDefective: limit, Plan: sim.Plan{Seed: 1, Min: reps, Max: reps}}
	a, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	return StrategiesTogether{StrategiesTogetherAnswer: a, Origin: g.Origin, Command: "netrate strategy group.yaml"}
}

// The answer is as recorded, and no wider than the terminal.
func TestStrategiesTogetherGolden(t *testing.T) {
	t.Cleanup(func() { say.Fit(0) })
	s := togetherOf(t, new(0.01), 20)
	golden.Check(t, "../../testdata/strategies.txt", s.Text())
	for _, width := range []int{60, 80, 120} {
		say.Fit(width)
		for line := range strings.Lines(s.Text()) {
			if !strings.HasPrefix(line, "  netrate ") {
				assert.LessOrEqual(t, terminal.Width(strings.TrimSuffix(line, "\n")), width, line)
			}
		}
	}
}

// What is said of a gain that is not shown, of none, and of what is not to be taken as it is.
func TestStrategiesTogetherFinding(t *testing.T) {
	s := togetherOf(t, new(0.01), 4)
	require.NotNil(t, s.Gain)
	assert.Contains(t, s.Finding(), "With other responses at letters and cards the lines deliver ")
	s.Gain.Half = 2 * s.Gain.Mean
	assert.Contains(t, s.Finding(), "which is not shown to be more than with those of the file.")
	s.Gain = nil
	assert.Contains(t, s.Finding(), "The lines keep the strategies of the file: ")
	s.Lines[0].Within, s.Lines[0].AsGood = false, nil
	s.Lines[1].AsGood = []int{0}
	s.Lines[1].Leading().ShipsUnread = true
	assert.Contains(t, s.Finding(), "At letters no strategy is within the limit. At cards others may be as good. CAUTION: at cards personalised sets ")
}
