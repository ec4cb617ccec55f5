package learn

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// attendedLog has twelve misfeeds that last twenty seconds more than the work, until somebody was free,
// and says when he was there or not.
func attendedLog(told bool) string {
	var b strings.Builder
	b.WriteString("start,station,cause,duration (s)" + map[bool]string{true: ",arrival"}[told] + "\n")
	for i, work := range []int{24, 29, 30, 32, 35, 40, 45, 50, 65, 80, 100, 120} {
		fmt.Fprintf(&b, "2026-03-02 06:%02d:00,letter,misfeed,%d", 2*i, work+20)
		if told {
			fmt.Fprintf(&b, ",2026-03-02 06:%02d:20", 2*i)
		}
		b.WriteString("\n")
	}
	return b.String()
}

// Where the log says when somebody was there, the wait is not in the clearing time.
func TestWaitsThatAreTold(t *testing.T) {
	counts := "station,feeds\nletter,9000\n"
	with, without := textsOf(t, attendedLog(true), counts), textsOf(t, attendedLog(false), counts)
	mean := func(x *fitting) float64 { return float64(x.Stations[0].Clearing.Chosen.Mean()) }
	assert.InDelta(t, 54, mean(with), 2)
	assert.InDelta(t, 74, mean(without), 2, "the old answer")
	assert.Contains(t, strings.Join(with.Notes(), " "), "says when an operator was there, 12 stops, clearing times are from then on")
}

// Where it does not, the scenario with one busy operator says how large the wait is.
func TestWaitsThatAreNotTold(t *testing.T) {
	busy := strings.ReplaceAll(plainLineText, "hopper: {pieces: 1000000, warn: 1, refill: 1 s}", "hopper: {pieces: 300, warn: 200, refill: 30 s}")
	to, err := learntInto(t, busy, attendedLog(false), "station,feeds\nletter,9000\n")
	require.NoError(t, err)
	assert.Regexp(t, `Simulated, a stop at these stations lasts [0-9.]+ s, [0-9.]+ s of it waiting for somebody free\..* some [0-9]+(\.[0-9])? % too long`, to.saidOf())
	to, err = learntInto(t, strings.Replace(plainLineText, "operators: 1", "operators: 9", 1), attendedLog(false), "station,feeds\nletter,9000\n")
	require.NoError(t, err)
	assert.NotContains(t, to.saidOf(), "waiting for somebody free")
}
