package present

import (
	"bytes"
	"context"
	"os"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/cmd/netrate/internal/small"
	"netrate/internal/golden"
	"netrate/model"
	"netrate/model/runs"
	"netrate/model/study"
	"netrate/scenarios"
	"netrate/sim"
	"netrate/sim/output"
)

// uncertainComparison compares the lines of uncertain.yaml, with a number of draws.
func uncertainComparison(t *testing.T, draws int) Comparison {
	t.Helper()
	of := uncertainLines(t)
	var lines []*model.Line
	var studies []*runs.Study
	for i := range of.all {
		s, err := runs.Run(t.Context(), of.all[i].Line, sim.Plan{Seed: 1, Min: 50, Max: 50}, nil)
		require.NoError(t, err)
		lines, studies = append(lines, of.all[i].Line), append(studies, s)
	}
	drawn := make([]*runs.UncertaintyStudy, len(lines))
	if draws > 0 {
		var err error
		drawn, _, err = runs.RunUncertain(t.Context(), lines, sim.Plan{Seed: 1, Max: draws}, study.UncertaintyEach, nil)
		require.NoError(t, err)
	}
	return Comparison{ComparisonAnswer: study.ComparedStudies(of.all, studies, drawn), Origins: of.origins, Command: of.command}
}

func uncertainLines(t *testing.T) alternatives {
	t.Helper()
	sc, text, err := desk.Load(desk.Env{}, "../../testdata/uncertain.yaml")
	require.NoError(t, err)
	return variantsOf(page.Origin{Scenario: sc, Text: text}, "netrate compare uncertain.yaml")
}

// told returns what the answer of a run says of the uncertainty of a line.
func told(x study.LineAnswer) string {
	run := Run{RunAnswer: study.RunAnswerOf(x.Nominal, x.Draws)}
	return factLines(run.Finding()...) + "\n" + uncertaintyText(run.Uncertainty, run.Basis)
}

func TestUncertaintyGolden(t *testing.T) {
	c := uncertainComparison(t, 100)
	x := c.Lines[0]
	golden.Check(t, "../../testdata/uncertain.txt", told(x))
	golden.Check(t, "../../testdata/uncertain.compare.txt", c.Text())
	var doc bytes.Buffer
	require.NoError(t, page.WriteDocument(&doc, c.Uncertainty))
	golden.Check(t, "../../testdata/uncertain.compare.json", doc.String())
	for line := range strings.Lines(told(x) + c.Text()) {
		assert.LessOrEqual(t, utf8.RuneCountInString(strings.TrimSuffix(line, "\n")), say.Screen(), line)
	}
}

// What is said of the uncertainty is what the draws say, counted here by hand.
func TestUncertaintySaysWhatTheDrawsSay(t *testing.T) {
	c := uncertainComparison(t, 100)
	x := c.Lines[0]
	d := UncertaintyIn(study.UncertaintyOf(x.Draws))
	require.Len(t, x.Draws.Shifts, 100*study.UncertaintyEach)
	var rates sim.Sample
	for i := range x.Draws.Shifts {
		rates = append(rates, x.Draws.Shifts[i].NetRate)
	}
	assert.Equal(t, rates, d.UncertainFigure.All)
	text := factLines(d.found(x.Nominal.Interval(d.Of(), say.Level)))
	assert.Contains(t, text, "Net rate  "+d.mean()+" good envelopes an hour in the long run")
	below, above := UncertaintyEnds(rates.Quantile(0.05), rates.Quantile(0.95))
	assert.Contains(t, text, "one shift in 20 is below "+below+", one above "+above)
	assert.Contains(t, text, "from 5 uncertain inputs")
	assert.Contains(t, d.Text(), "Drawn 100 times.")

	a := c.Uncertainty.Lines[1]
	n := 0
	for _, lead := range a.Ahead.UncertainFigure.LongRun {
		if lead > 0 {
			n++
		}
	}
	assert.InDelta(t, float64(n)/100, float64(*a.Sure), 1e-12)
}

func TestUncertaintyReport(t *testing.T) {
	c := uncertainComparison(t, 100)
	alone := Run{RunAnswer: seen(t, study.RunAnswerOf(c.Lines[0].Nominal, c.Lines[0].Draws)), Origin: c.Origins[0], Command: "netrate run uncertain.yaml"}
	one, err := alone.Report("v0")
	require.NoError(t, err)
	two, err := c.Report("v0")
	require.NoError(t, err)
	for name, r := range map[string]*page.Report{"run": one, "compare": two} {
		var page bytes.Buffer
		require.NoError(t, r.Page.HTML(&page))
		assert.Contains(t, page.String(), "Uncertainty of the inputs", name)
		assert.Contains(t, page.String(), "letter, misfeed", name)
	}
}

func TestNothingIsSaidWhereNothingIsUncertain(t *testing.T) {
	_, _, s := small.Scenario(t, 3)
	assert.NotContains(t, told(study.LineAnswer{Nominal: s}), "uncertain")
	a, err := study.Run{Alternative: study.Alternative{Line: s.Line}, Plan: s.Plan, Draws: study.UncertaintyDraws}.Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.Nil(t, a.Draws)
	assert.Nil(t, a.Uncertainty)
}

// What does not draw what is uncertain says so.
func TestTakenAsGiven(t *testing.T) {
	c := uncertainComparison(t, 0)
	const note = "5 uncertain inputs of the file: not drawn here, but taken at nominal values."
	x := c.Lines[0]
	assert.Contains(t, told(x), "\n"+note+"\n")
	assert.Contains(t, c.Text(), note)
	means := study.Basis{On: study.OnMeans, Inputs: 5}
	assert.Contains(t, page.Repeated(x.Study, means, "netrate sweep"), "5 uncertain inputs of the file: not drawn here, but taken at their means.")
	assert.Nil(t, c.Uncertainty)
}

// A job is judged by when it is finished.
func TestUncertaintyOfAJob(t *testing.T) {
	_, text, err := desk.Load(desk.Env{}, "../../testdata/uncertain.yaml")
	require.NoError(t, err)
	sc, err := scenarios.Load("job.yaml", bytes.Replace(text, []byte("work: {shift: 8 h}"), []byte("work: {sets: 20000}"), 1))
	require.NoError(t, err)
	a, err := study.Run{Alternative: study.Alternative{Line: sc.Line}, Plan: sim.Plan{Seed: 1, Min: 1, Max: 1}, Draws: 50}.Ask(t.Context(), nil)
	require.NoError(t, err)
	d := UncertaintyIn(a.Uncertainty)
	assert.InDelta(t, a.Draws.Shifts[3].Finish, d.UncertainFigure.All[3], 1e-12)
	found := factLines(d.found(a.Nominal.Interval(d.Of(), say.Level)))
	assert.Contains(t, found, "Finished  after "+d.mean()+" h in the long run (95 %: ")
	assert.Contains(t, found, "one job in 20 is below ")
	assert.Equal(t, "finish", d.Figure)
	for _, s := range d.Sources { // what fails more often takes longer
		if s.Input.Name == "misfeed" {
			assert.Greater(t, float64(s.Slope), 0.0)
		}
	}
}

// Lines that share a crew: the answer, its JSON and the comparison of line groups tell of the uncertainty
// of all lines together.
func TestUncertaintyOfLinesWithOneCrew(t *testing.T) {
	text, err := os.ReadFile("../../testdata/group.yaml")
	require.NoError(t, err)
	unsure := regexp.MustCompile(`walk: [^,}\n]+`).ReplaceAll(text, []byte("walk: {constant: {low: 5 s, likely: 10 s, high: 60 s}}"))
	sc, err := scenarios.Load("group.yaml", unsure)
	require.NoError(t, err)
	require.NotEmpty(t, sc.LineGroup.UncertainInputs())
	s := sharing(t, sc, unsure, 20, 0)
	assert.Contains(t, s.Text(), "1 uncertain input of the file: not drawn here")
	s = sharing(t, sc, unsure, 20, 40)
	require.NotNil(t, s.Draws)
	assert.Contains(t, s.Text(), " in the long run (95 %: ")
	assert.Contains(t, s.Text(), "\ncrew walk, mean ")
	var out bytes.Buffer
	require.NoError(t, page.WriteDocument(&out, s.Document("v0")))
	assert.Contains(t, out.String(), `"uncertainty": {`)
}

// A signal ends the draws with the answer up to there, or without any.
func TestUncertaintyCutShort(t *testing.T) {
	of := uncertainLines(t)
	ctx, stop := context.WithCancelCause(t.Context())
	n := 0
	of.all[0].Line.UncertainInputs[0].Of = countingPrior{of.all[0].Line.UncertainInputs[0].Of, func() {
		if n++; n == 400 {
			stop(desk.Interrupted{})
		}
	}}
	q := study.Comparison{Plan: sim.Plan{Seed: 1, Min: 3, Max: 3, Workers: 1}, Draws: 100_000, Alternatives: of.all}
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

// countingPrior tells of every look at a prior.
type countingPrior struct {
	output.Prior
	looked func()
}

func (b countingPrior) Quantile(p float64) float64 {
	b.looked()
	return b.Prior.Quantile(p)
}
