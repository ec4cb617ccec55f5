package learn

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
)

// Of a log in whole minutes it is said that bursts within them are not seen, and of a break in the middle
// of which other stops began that the line is taken to have run; of one with seconds, and of a break that
// was kept, neither.
func TestFitTellsOfMinutesAndBreaks(t *testing.T) {
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("counts.csv", []byte("station,feeds\nfeeder 1,9000\n"), 0o600))
	said := func(seconds string, length int, inBreak string) string {
		rows := "start,station,cause,seconds\n"
		for i := range 20 {
			rows += fmt.Sprintf("2026-03-02 %02d:10%s,feeder 1,jam,%d\n", 6+i/2, seconds, length)
			rows += fmt.Sprintf("2026-03-02 %02d:%02d%s,feeder 1,misfeed,%d\n", 6+i/2, 20+i, seconds, length)
		}
		rows += "2026-03-02 16:00:00,line,break,1800\n" + inBreak
		require.NoError(t, os.WriteFile("stops.csv", []byte(rows), 0o600))
		var out strings.Builder
		require.NoError(t, FitVerb().Run([]string{"stops.csv", "--counts", "counts.csv", "--draws", "0"}, desk.Env{Out: &out, Err: &out, Getenv: os.Getenv}))
		return strings.Join(strings.Fields(out.String()), " ")
	}
	const minutes, ran = "The log is in whole minutes: where in them stops lie was drawn as independent ones do.", "In the middle of 1 of them other stops began: the line is taken to have run then."
	both := said("", 60, "2026-03-02 16:10,feeder 1,jam,60\n")
	assert.Contains(t, both, minutes)
	assert.Contains(t, both, ran)
	neither := said(":07", 67, "2026-03-02 16:31:09,feeder 1,jam,61\n")
	assert.NotContains(t, neither, "whole minutes")
	assert.NotContains(t, neither, "other stops began")
}
