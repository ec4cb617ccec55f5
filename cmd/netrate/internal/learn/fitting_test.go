package learn

import (
	"bytes"
	"context"
	"fmt"
	"math"
	"os"
	"strings"
	"syscall"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/cmd/netrate/internal/say"
	"netrate/internal/golden"
	"netrate/model/study"
	"netrate/scenarios/stoplog"
)

// answerOf runs the verb in the directory of the invented log.
func answerOf(t *testing.T, args ...string) string {
	t.Helper()
	t.Chdir("../../testdata/fitting")
	var out, says strings.Builder
	require.NoError(t, FitVerb().Run(append([]string{"stops.csv", "--counts", "counts.csv"}, args...), desk.Env{Out: &out, Err: &says, Getenv: os.Getenv}), says.String())
	return out.String()
}

func TestFitGolden(t *testing.T) {
	got := answerOf(t)
	golden.Check(t, "answer.txt", got)
	for line := range strings.Lines(got) {
		assert.LessOrEqual(t, utf8.RuneCountInString(strings.TrimSuffix(line, "\n")), say.Screen(), line)
	}
}

func TestFitFragmentGolden(t *testing.T) {
	golden.Check(t, "fragment.yaml", answerOf(t, "--out", "-"))
}

func TestFitJSONGolden(t *testing.T) {
	t.Chdir("../..") // the document names its files
	x := learntFrom(t, "testdata/fitting/stops.csv", "testdata/fitting/counts.csv", false)
	x.Log.Stations, x.Stations = x.Log.Stations[:1], x.Stations[:1]
	var out strings.Builder
	require.NoError(t, page.WriteDocument(&out, x.Document("v0")))
	golden.Check(t, "testdata/fitting/answer.json", out.String())
}

// The invented log was drawn with misfeeds of feeder 2 that come in bad times, and misfeeds
// of feeder 1 that double from 9,000 to 12,000 an hour, which is an exponent of
// log 2 / log (4/3) = 2.41.
func TestFitFindsWhatWasPutIn(t *testing.T) {
	x := learntFrom(t, "../../testdata/fitting/stops.csv", "../../testdata/fitting/counts.csv", false)
	assert.False(t, x.Stations[0].InBursts())
	assert.True(t, x.Stations[1].InBursts())
	assert.False(t, x.Stations[2].InBursts())
	assert.Contains(t, x.Finding(), "come in bursts at feeder 2")
	g := x.Stations[0].Faults[0].Growth
	require.NotNil(t, g)
	assert.Greater(t, math.Log(2)/math.Log(4.0/3), g.Low)
	assert.Less(t, math.Log(2)/math.Log(4.0/3), g.High)
	assert.Greater(t, g.Low, 0.0)
	assert.Equal(t, "inserter", x.Stations[2].As.Name)
	assert.Empty(t, x.Stations[3].As.Name)
	assert.Contains(t, stoplog.Fragment(x.FitAnswer), "# feeder 3: no fault in ")
}

// What hardly anything is known of is written with its uncertainty all the same.
func TestFragmentOfFewStops(t *testing.T) {
	var log strings.Builder
	log.WriteString("when,station,cause,seconds\n")
	for i, length := range []int{4, 9, 10, 12, 15, 20, 25, 30, 45, 60, 240, 900} {
		fmt.Fprintf(&log, "2026-03-02 %02d:00:00,letter,misfeed,%d\n", 6+i, length)
	}
	fragment := textsOf(t, log.String(), "station,feeds\nletter,90000\n").output()
	assert.Regexp(t, `clear: {lognormal: {mean: {about: .*}, cv: {about: .*}}}\n`, fragment)
	assert.Contains(t, fragment, "misfeed: {seen: 12, of: 90000}")
}

// textsOf fits a log and counts that are given as text.
func textsOf(t *testing.T, log, counts string) *fitting {
	t.Helper()
	logFile, countFile := writtenFiles(t, log, counts)
	return learntFrom(t, logFile, countFile, true)
}

// A fit that a signal ends has the stations until then, and says so; one that had none yet has
// no answer.
func TestFitInterrupted(t *testing.T) {
	whole := textsOf(t, "start,station,cause,seconds\n2026-03-02 06:00,a,misfeed,20\n2026-03-02 06:05,b,jam,30\n", "station,feeds\na,1000\nb,1000\n")
	for stations, want := range map[int]string{0: "not even one station was done", 1: "the answer is partial"} {
		ctx, cancel := context.WithCancelCause(t.Context())
		if stations == 0 {
			cancel(desk.Interrupted{Signal: syscall.SIGINT})
		}
		x := &fitting{Fit: present.Fit{Log: whole.Log}}
		err := x.ask(&endsAfter{Context: ctx, end: func() { cancel(desk.Interrupted{Signal: syscall.SIGINT}) }, calls: stations}, desk.Env{}, study.Fit{Log: whole.Log.Log})
		require.ErrorContains(t, err, want)
		assert.Equal(t, 130, desk.Status(err))
		assert.Len(t, x.Stations, stations)
		assert.True(t, x.Partial)
		if stations == 0 {
			continue
		}
		assert.True(t, strings.HasPrefix(x.Text(), "PARTIAL ANSWER, interrupted: 1 of 2 stations\n\n"))
		var document bytes.Buffer
		require.NoError(t, page.WriteDocument(&document, x.Document("v")))
		assert.Regexp(t, `"partial": ?true`, document.String())
		r, err := x.Report("v")
		require.NoError(t, err)
		assert.True(t, strings.HasPrefix(r.Page.Lead, "PARTIAL ANSWER, interrupted: 1 of 2 stations. "))
	}
}

// endsAfter is a context that ends after it was asked some times whether it has ended.
type endsAfter struct {
	context.Context
	end   func()
	calls int
}

func (e *endsAfter) Err() error {
	if e.calls--; e.calls < 0 {
		e.end()
	}
	return e.Context.Err()
}

// Where each job has a speed of its own, the answer says that the two cannot be told apart, and
// what of the log is outside.
func TestFitSaysOfJobsWithASpeedEach(t *testing.T) {
	var log strings.Builder
	log.WriteString("when,station,cause,seconds,job,speed\n")
	for i := range 40 {
		log.WriteString("2026-03-02 06:10:00,letter,misfeed," + []string{"30", "41", "55"}[i%3])
		log.WriteString([]string{",plain,8000\n", ",coated,6000\n"}[i/35])
	}
	log.WriteString("2026-03-02 06:10:00,letter,misfeed,0,gone,7000\n")
	counts := "station,job,speed,feeds\nletter,plain,8000,50000\nletter,coated,6000,50000\n"
	text := textsOf(t, log.String(), counts).Text()
	for _, want := range []string{
		"letter, misfeed, by job: The groups differ", "compared in 1 test, of which 1 shows a difference", "Each job ran at one speed only",
		"letter: 1 stop of no length not in the clearing time.", "letter: 1 stop for misfeed in jobs that have no feeds.",
	} {
		assert.Contains(t, text, want)
	}
	assert.NotContains(t, text, "by speed")
	assert.NotContains(t, textsOf(t, log.String(), counts+"letter,coated,8000,900\n").Text(), "one speed only")
}

// What is written of a reader is what is a rate there, and of a belt nothing.
func TestFragmentOfOtherKinds(t *testing.T) {
	log := "when,station,cause,seconds\n2026-03-02 06:50:00,camera,no-read,30\n2026-03-02 07:10:00,camera,mismatch,30\n2026-03-02 07:20:00,belt,belt full,30\n" +
		"2026-03-02 07:30:00,camera,double,30\n"
	x := textsOf(t, log, "station,feeds\ncamera,900\n")
	assert.Contains(t, stoplog.Fragment(x.FitAnswer), "    no_read: {seen: 1, of: 900}  # ")
	assert.NotContains(t, stoplog.Fragment(x.FitAnswer), "mismatch: ")
	assert.NotContains(t, stoplog.Fragment(x.FitAnswer), "belt")
	assert.Contains(t, strings.Join(x.Notes(), " "), "2 stops for stocks")
}

// The page has a table of each difference between jobs or speeds, and one of all that were
// looked for and not found: of the 16 that the answer speaks of, 13.
func TestFitReportsDivisions(t *testing.T) {
	x := learntFrom(t, "../../testdata/fitting/stops.csv", "../../testdata/fitting/counts.csv", true)
	r, err := x.Report("v0")
	require.NoError(t, err)
	tables := r.Tables[1:5] // behind the rates
	var names []string
	for _, table := range tables {
		names = append(names, table.Name)
	}
	require.Equal(t, []string{"feeder 1 misfeed by speed", "feeder 1 double by job", "feeder 1 jam by speed", "No difference shown"}, names)
	assert.Contains(t, tables[0].Caption, "Faults per feed grow with the speed")
	alike := tables[3]
	assert.Len(t, alike.Rows, 13)
	assert.Equal(t, "feeder 1, misfeed, by job", alike.Rows[0][0].Text)
	for _, row := range alike.Rows {
		assert.NotRegexp(t, `^(<|0\.0[0-4])`, row[2].Shown, "%s shows a difference", row[0].Text)
	}
}
