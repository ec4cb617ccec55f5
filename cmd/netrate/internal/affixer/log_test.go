package affixer

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/learn"
	"netrate/cmd/netrate/internal/lines"
	"netrate/model"
	"netrate/scenarios"
)

// logged writes a log of the affixer and its counts: twelve misfeeds, four jams and a roll that
// was used up in 9,000 envelopes.
func logged(t *testing.T) (log, counts string) {
	t.Helper()
	var b strings.Builder
	b.WriteString("start,station,cause,seconds\n")
	for i := range 16 {
		cause := []string{"misfeed", "misfeed", "misfeed", "jam"}[i%4]
		b.WriteString("2026-03-02 " + []string{"06", "07", "08", "09"}[i/4] + ":" + []string{"01", "16", "31", "46"}[i%4] + ":00,stamps," + cause + "," + []string{"30", "41", "55", "80"}[i%4] + "\n")
	}
	b.WriteString("2026-03-02 09:58:00,stamps,roll empty,95\n")
	directory := t.TempDir()
	log, counts = filepath.Join(directory, "stops.csv"), filepath.Join(directory, "counts.csv")
	require.NoError(t, os.WriteFile(log, []byte(b.String()), 0o600))
	require.NoError(t, os.WriteFile(counts, []byte("day,station,feeds\n2026-03-02,stamps,9000\n2026-03-02,inserter,9000\n"), 0o600))
	return log, counts
}

// What a log says of the affixer is written into its scenario by the names that its numbers have
// there, and no more: it has no double.
func TestFitLearnsTheAffixer(t *testing.T) {
	log, counts := logged(t)
	own := filepath.Join(t.TempDir(), "fitted.yaml")
	said(t, learn.FitVerb(), log, "--counts", counts, "--into", file, "--out", own, "--draws", "0")
	text, err := os.ReadFile(own)
	require.NoError(t, err)
	assert.True(t, bytes.Contains(text, []byte("misfeed: {seen: 12, of: 9000}  # 1/750")), "%s", text)
	assert.NotContains(t, string(text), "of: 9000}  # none seen")
	sc, err := scenarios.Load(own, text)
	require.NoError(t, err)
	a, is := sc.Line.Stations[2].(*affixer)
	require.True(t, is)
	assert.InEpsilon(t, 12.0/9000, a.Misfeed, 1e-12)
	assert.InEpsilon(t, 4.0/9000, a.Jam, 1e-12)
	assert.InDelta(t, 51.5, float64(a.Clear.Mean()), 5)

	fragment := said(t, learn.FitVerb(), log, "--counts", counts, "--kind", "stamps=stamp affixer", "--out", "-", "--draws", "0")
	assert.Contains(t, fragment, "kind: stamp affixer")
	assert.NotContains(t, fragment, "double")
}

// A log is set against the affixer as against any other station, its roll with it.
func TestAgainstTheAffixer(t *testing.T) {
	log, counts := logged(t)
	text := said(t, lines.RunVerb(), file, "--against", log, "--counts", counts, "--reps", "39")
	assert.Regexp(t, `stamps, misfeed +12 `, text)
	assert.Regexp(t, `stamps, jam +4 `, text)
	assert.Regexp(t, `stamps, roll empty +1 `, text)
}

// The affixer says of itself which of its numbers are the rates of its faults.
func TestAffixerHasRates(t *testing.T) {
	assert.Equal(t, []model.FaultRate{{Fault: model.Misfeed, Name: "misfeed"}, {Fault: model.Jam, Name: "jam"}}, model.FaultRates(new(affixer)))
}
