package learn

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/model"
	"netrate/model/setup"
	"netrate/scenarios"
)

// workedLog returns a log of two jobs, of which the second has five times the misfeeds of the
// first, each at two speeds, of which the higher has twice as many as the lower; and its counts.
func workedLog() (log, counts string) {
	var l, c strings.Builder
	l.WriteString("start,station,cause,duration (s),job,speed\n")
	c.WriteString("day,station,job,speed,feeds\n")
	minute := 0
	for day, work := range []struct {
		job      string
		speed    int
		misfeeds int
	}{{"plain", 5000, 20}, {"plain", 10000, 40}, {"coated", 5000, 100}, {"coated", 10000, 200}} {
		for i := range work.misfeeds {
			minute = i * 480 / work.misfeeds
			fmt.Fprintf(&l, "2026-03-%02d %02d:%02d:00,letter,misfeed,%d,%s,%d\n", day+2, 6+minute/60, minute%60, 20+i%17, work.job, work.speed)
		}
		fmt.Fprintf(&c, "2026-03-%02d,letter,%s,%d,40000\n", day+2, work.job, work.speed)
	}
	return l.String(), c.String()
}

// Where jobs and speeds differ each job of the scenario gets its own rates, at the rated speed, and
// the growth that leads there. One rate for both jobs, 360 in 160,000, would hold for neither.
func TestFitIntoJobs(t *testing.T) {
	log, counts := workedLog()
	own := plainLineText + "jobs:\n  - {name: plain, envelope: C5, inserts: [{name: page, feeder: letter}]}\n  - {name: coated, envelope: C5, inserts: [{name: page, feeder: letter}]}\n"
	to, err := learntInto(t, own, log, counts)
	require.NoError(t, err)
	sc, err := scenarios.Load("line.yaml", to.edited)
	require.NoError(t, err, string(to.edited))
	rated := sc.Line.Stations[0].Where().Rated
	for i, want := range []float64{20. / 40000, 100. / 40000} {
		line, fit := setup.Fitted(sc.Line, sc.Products[i])
		require.NotNil(t, line, fit.Reasons)
		letter := line.Stations[0].(*model.Feeder)
		assert.InEpsilon(t, 1, letter.Growth, 0.01)
		assert.InEpsilon(t, want*rated/5000, letter.Misfeed, 0.01, sc.Products[i].Name)
	}
	assert.Contains(t, to.saidOf(), "Jobs differ at letter: the rates of each are written for plain and coated.")
	assert.NotContains(t, to.saidOf(), "has a growth of")
	assert.InEpsilon(t, 360./160000*4/3*rated/10000, sc.Line.Stations[0].(*model.Feeder).Misfeed, 0.01, "of all jobs together")
}

// Jobs that the scenario does not have are named; a fragment has them as a scenario would.
func TestFitIntoWithoutJobs(t *testing.T) {
	log, counts := workedLog()
	to, err := learntInto(t, plainLineText, log, counts)
	require.NoError(t, err)
	assert.Contains(t, to.saidOf(), "Jobs of the log that differ and are no jobs of line.yaml: plain and coated. Their faults are in the rates of all jobs")
	fragment := textsOf(t, log, counts).output()
	assert.Contains(t, fragment, "jobs:\n  - name: 'plain'\n    rates:\n      'letter': {misfeed: {seen: 60, of: 80000}")
	assert.Contains(t, fragment, "  - name: 'coated'\n    rates:\n      'letter': {misfeed: {seen: 300, of: 80000}", "as counted: at no speed but its own would other feeds hold")
}

// What is wrong with both files is said at once.
func TestBothFilesAreLookedAt(t *testing.T) {
	log, counts := writtenFiles(t, logHead+"2026-03-02 06:10,letter,misfeed,forty\n", "station,feeds\nletter,many\n")
	var says strings.Builder
	_, err := (&mappingFlags{}).read(desk.Env{Err: &says}, log, counts, new(dayTime))
	require.Error(t, err)
	assert.Equal(t, 2, desk.Status(err))
	assert.Contains(t, says.String(), `length is "forty"`)
	assert.Contains(t, says.String(), `feeds is "many"`)
}
