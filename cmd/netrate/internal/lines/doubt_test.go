package lines

import (
	"bytes"
	"context"
	"os"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/spf13/pflag"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/golden"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/runs"
	"netrate/model/study"
	"netrate/scenarios"
	"netrate/sim"
	"netrate/sim/output"
)

// inDoubtField returns the lines of doubt.yaml, simulated, and drawn so often.
func inDoubtField(t *testing.T, draws int) *field {
	t.Helper()
	f := fileField(t, "doubt.yaml", "compare")
	for i, x := range f.entrants {
		s, err := runs.Run(t.Context(), x.line, sim.Plan{Seed: 1, Min: 50, Max: 50}, nil)
		require.NoError(t, err)
		f.entrants[i].study = s
	}
	if draws > 0 {
		studies, _, err := runs.RunDoubted(t.Context(), f.lines(), sim.Plan{Seed: 1, Max: draws}, study.UncertaintyEach, nil)
		require.NoError(t, err)
		for i, s := range studies {
			f.entrants[i].doubt = s
		}
	}
	return f
}

// fileField enters the lines of a file of testdata.
func fileField(t *testing.T, file, verb string) *field {
	t.Helper()
	sc, text, err := desk.Load(desk.Env{}, "../../testdata/"+file)
	require.NoError(t, err)
	f, err := variantsOf(page.Origin{Scenario: sc, Text: text}, "netrate "+verb+" "+file, file)
	require.NoError(t, err)
	return f
}

// told returns what an answer says of the doubt of a line.
func told(x entrant) string {
	found, table, note := inDoubt(study.UncertaintyOf(x.doubt), x.line)
	return found + table + note
}

func TestDoubtGolden(t *testing.T) {
	f := inDoubtField(t, 100)
	x := f.entrants[0]
	golden.Check(t, "../../testdata/doubt.txt", told(x))
	c := decide(f)
	golden.Check(t, "../../testdata/doubt.compare.txt", c.answer())
	var doc bytes.Buffer
	require.NoError(t, page.WriteDocument(&doc, c.Uncertainty))
	golden.Check(t, "../../testdata/doubt.compare.json", doc.String())
	for line := range strings.Lines(told(x) + c.answer()) {
		assert.LessOrEqual(t, utf8.RuneCountInString(strings.TrimSuffix(line, "\n")), say.Screen, line)
	}
}

// What is told of the doubt is what the draws say, counted here by hand.
func TestDoubtSaysWhatTheDrawsSay(t *testing.T) {
	f := inDoubtField(t, 100)
	x := f.entrants[0]
	d := present.UncertaintyIn(study.UncertaintyOf(x.doubt))
	require.Len(t, x.doubt.Shifts, 100*study.UncertaintyEach)
	var rates sim.Sample
	for i := range x.doubt.Shifts {
		rates = append(rates, x.doubt.Shifts[i].NetRate)
	}
	assert.Equal(t, rates, d.Doubted.All)
	text := d.Finding()
	below, above := present.UncertaintyEnds(rates.Quantile(0.05), rates.Quantile(0.95))
	assert.Contains(t, text, "falls below "+below+", one in twenty exceeds "+above)
	assert.Contains(t, text, "from 5 uncertain inputs")
	assert.Contains(t, d.Text(), "Drawn anew 100 times.")

	a := decide(f).Uncertainty.Lines[1]
	n := 0
	for _, lead := range a.Ahead.Doubted.LongRun {
		if lead > 0 {
			n++
		}
	}
	assert.InDelta(t, float64(n)/100, float64(*a.Sure), 1e-12)
}

func TestDoubtReport(t *testing.T) {
	f := inDoubtField(t, 100)
	alone := &ran{study.RunAnswerOf(f.entrants[0].study, f.entrants[0].doubt), f.origins[0], "netrate run doubt.yaml"}
	one, err := runReport("v0", alone)
	require.NoError(t, err)
	two, err := compareReport("v0", decide(f))
	require.NoError(t, err)
	for name, r := range map[string]*page.Report{"run": one, "compare": two} {
		var page bytes.Buffer
		require.NoError(t, r.Page.HTML(&page))
		assert.Contains(t, page.String(), "Uncertainty of the inputs", name)
		assert.Contains(t, page.String(), "letter, misfeed", name)
	}
}

func TestNothingIsSaidWhereNothingIsInDoubt(t *testing.T) {
	sc, _, s := golden.Small(t, 3)
	assert.Empty(t, told(entrant{line: sc.Line}))
	a, err := study.Run{Alternative: study.Alternative{Line: s.Line}, Plan: s.Plan, Draws: usualDoubtDraws}.Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.Nil(t, a.Draws)
	assert.Nil(t, a.Uncertainty)
}

// What does not draw what is in doubt says so.
func TestTakenAsGiven(t *testing.T) {
	f := inDoubtField(t, 0)
	const note = "5 uncertain inputs of the file: not drawn here, but taken at nominal values."
	x := f.entrants[0]
	assert.Equal(t, "\n"+note+"\n", told(x))
	assert.Contains(t, decide(f).answer(), note)
	assert.Contains(t, page.Repeated(x.study, "netrate sweep"), note)
	assert.Nil(t, decide(f).Uncertainty)
}

func TestDoubtFlag(t *testing.T) {
	flags := pflag.NewFlagSet("run", pflag.ContinueOnError)
	n := newDoubtFlag(flags)
	assert.Empty(t, n.again())
	require.NoError(t, flags.Parse([]string{"--uncertainty", "0"}))
	assert.Equal(t, " --uncertainty 0", n.again())
	for _, bad := range []string{"39", "-1", "x", "100001"} {
		assert.Error(t, flags.Parse([]string{"--uncertainty", bad}))
	}
}

// A job is judged by when it is finished.
func TestDoubtOfAJob(t *testing.T) {
	_, text, err := desk.Load(desk.Env{}, "../../testdata/doubt.yaml")
	require.NoError(t, err)
	sc, err := scenarios.Load("job.yaml", bytes.Replace(text, []byte("work: {shift: 8 h}"), []byte("work: {sets: 20000}"), 1))
	require.NoError(t, err)
	a, err := study.Run{Alternative: study.Alternative{Line: sc.Line}, Plan: sim.Plan{Seed: 1, Min: 1, Max: 1}, Draws: 50}.Ask(t.Context(), nil)
	require.NoError(t, err)
	d := present.UncertaintyIn(a.Uncertainty)
	assert.InDelta(t, a.Draws.Shifts[3].Finish, d.Doubted.All[3], 1e-12)
	assert.Contains(t, d.Finding(), " h until it is finished (95 %: ± ")
	assert.Contains(t, d.Finding(), "One job in twenty falls below ")
	assert.Equal(t, "finish", d.Figure)
	for _, s := range d.Sources { // what fails more often takes longer
		if s.Input.Name == "misfeed" {
			assert.Greater(t, float64(s.Slope), 0.0)
		}
	}
}

// Lines that share a crew: the answer, its JSON and the comparison of halls tell of the doubt
// of all lines together.
func TestDoubtOfLinesWithOneCrew(t *testing.T) {
	text, err := os.ReadFile("../../testdata/hall.yaml")
	require.NoError(t, err)
	unsure := regexp.MustCompile(`walk: [^,}\n]+`).ReplaceAll(text, []byte("walk: {constant: {low: 5 s, likely: 10 s, high: 60 s}}"))
	sc, err := scenarios.Load("hall.yaml", unsure)
	require.NoError(t, err)
	require.NotEmpty(t, sc.Hall.Doubts())
	s := sharing(t, sc, unsure, 20, 0)
	assert.Contains(t, s.answer(), "1 uncertain input of the file: not drawn here")
	s = sharing(t, sc, unsure, 20, 40)
	require.NotNil(t, s.Draws)
	assert.Contains(t, s.answer(), "\nLong run  ")
	assert.Contains(t, s.answer(), "\ncrew walk, mean ")
	assert.NotNil(t, s.document().Uncertainty)
}

// A signal ends the draws with the answer up to there, or without any.
func TestDoubtCutShort(t *testing.T) {
	f := inDoubtField(t, 0)
	ctx, stop := context.WithCancelCause(t.Context())
	n := 0
	f.entrants[0].line.Doubts[0].Of = countingBelief{f.entrants[0].line.Doubts[0].Of, func() {
		if n++; n == 400 {
			stop(desk.Interrupted{})
		}
	}}
	q := study.Comparison{Plan: sim.Plan{Seed: 1, Min: 3, Max: 3, Workers: 1}, Draws: 100_000}
	for i := range f.entrants {
		q.Alternatives = append(q.Alternatives, f.entrants[i].alternative())
	}
	a, err := q.Ask(ctx, nil)
	require.NoError(t, err)
	require.NotNil(t, a.Uncertainty)
	assert.Less(t, a.Lines[0].Draws.Draws(), 500)
	assert.True(t, a.Settings.Partial, "the answer is partial, and must say so")

	q.Draws, n = 100, 0
	ctx, stop = context.WithCancelCause(t.Context())
	a, err = q.Ask(ctx, func(so study.Sofar[study.ComparisonAnswer]) {
		if !so.Draws && so.Done == 3 {
			stop(desk.Interrupted{})
		}
	})
	require.NoError(t, err)
	assert.Nil(t, a.Uncertainty, "no draw was done, but the shifts were")
	assert.True(t, a.Settings.Partial)
}

// countingBelief tells of every look at a belief.
type countingBelief struct {
	output.Belief
	looked func()
}

func (b countingBelief) Quantile(p float64) float64 {
	b.looked()
	return b.Belief.Quantile(p)
}
