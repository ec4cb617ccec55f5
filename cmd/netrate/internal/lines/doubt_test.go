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
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/scenarios"
	"netrate/sim"
	"netrate/sim/output"
)

// inDoubtField returns the lines of doubt.yaml, simulated, and drawn so often.
func inDoubtField(t *testing.T, draws int) *field {
	t.Helper()
	f := fileField(t, "doubt.yaml", "compare")
	for i, x := range f.entrants {
		s, err := model.Run(t.Context(), x.line, sim.Plan{Seed: 1, Min: 50, Max: 50}, nil)
		require.NoError(t, err)
		f.entrants[i].study = s
	}
	if draws > 0 {
		studies, _, err := model.RunDoubted(t.Context(), f.lines(), sim.Plan{Seed: 1, Max: draws}, shiftsOfADraw, nil)
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
	found, table, note := inDoubt(x)
	return found + table + note
}

func TestDoubtGolden(t *testing.T) {
	f := inDoubtField(t, 100)
	x := f.entrants[0]
	golden.Check(t, "../../testdata/doubt.txt", told(x))
	c := decide(f, nil)
	golden.Check(t, "../../testdata/doubt.compare.txt", c.answer())
	var doc bytes.Buffer
	require.NoError(t, page.WriteDocument(&doc, c.doubtDocument()))
	golden.Check(t, "../../testdata/doubt.compare.json", doc.String())
	for line := range strings.Lines(told(x) + c.answer()) {
		assert.LessOrEqual(t, utf8.RuneCountInString(strings.TrimSuffix(line, "\n")), say.Screen, line)
	}
}

// What is told of the doubt is what the draws say, counted here by hand.
func TestDoubtSaysWhatTheDrawsSay(t *testing.T) {
	f := inDoubtField(t, 100)
	x := f.entrants[0]
	d := doubtIn(x.doubt)
	require.Len(t, x.doubt.Shifts, 100*shiftsOfADraw)
	var rates sim.Sample
	for i := range x.doubt.Shifts {
		rates = append(rates, x.doubt.Shifts[i].NetRate)
	}
	assert.Equal(t, rates, d.All)
	text := d.finding()
	below, above := within(rates.Quantile(0.05), rates.Quantile(0.95))
	assert.Contains(t, text, "falls below "+below+", one in twenty exceeds "+above)
	assert.Contains(t, text, "is not knowing 5 numbers")
	assert.Contains(t, d.doubtTable(), "Drawn anew 100 times.")

	a := decide(f, nil).aheadOf(0, 1)
	n := 0
	for _, lead := range a.LongRun {
		if lead > 0 {
			n++
		}
	}
	assert.InDelta(t, float64(n)/100, a.sure, 1e-12)
}

func TestDoubtReport(t *testing.T) {
	f := inDoubtField(t, 100)
	alone := &field{entrants: f.entrants[:1], origins: f.origins, again: "netrate run doubt.yaml"}
	one, err := runReport("v0", alone)
	require.NoError(t, err)
	two, err := compareReport("v0", decide(f, nil))
	require.NoError(t, err)
	for name, r := range map[string]*page.Report{"run": one, "compare": two} {
		var page bytes.Buffer
		require.NoError(t, r.Page.HTML(&page))
		assert.Contains(t, page.String(), "What is not known", name)
		assert.Contains(t, page.String(), "letter, misfeed", name)
	}
}

func TestNothingIsSaidWhereNothingIsInDoubt(t *testing.T) {
	sc, _, s := golden.Small(t, 3)
	assert.Empty(t, told(entrant{line: sc.Line}))
	f := &field{entrants: []entrant{{line: s.Line}}}
	require.NoError(t, f.drawDoubt(t.Context(), desk.Env{}, s.Plan, usualDoubtDraws))
	assert.Nil(t, f.entrants[0].doubt)
	assert.Nil(t, doubtDocument(nil))
}

// What does not draw what is in doubt says so.
func TestTakenAsGiven(t *testing.T) {
	f := inDoubtField(t, 0)
	const note = "5 numbers of the file in doubt: not drawn here, but taken as given."
	x := f.entrants[0]
	assert.Equal(t, "\n"+note+"\n", told(x))
	assert.Contains(t, decide(f, nil).answer(), note)
	assert.Contains(t, page.Repeated(x.study, "netrate sweep"), note)
	assert.Nil(t, decide(f, nil).doubtDocument())
}

func TestDoubtFlag(t *testing.T) {
	flags := pflag.NewFlagSet("run", pflag.ContinueOnError)
	n := newDoubtFlag(flags)
	assert.Empty(t, n.again())
	require.NoError(t, flags.Parse([]string{"--doubt", "0"}))
	assert.Equal(t, " --doubt 0", n.again())
	for _, bad := range []string{"39", "-1", "x", "100001"} {
		assert.Error(t, flags.Parse([]string{"--doubt", bad}))
	}
}

func TestDoubtValues(t *testing.T) {
	for _, c := range []struct {
		model.Doubt
		x            float64
		called, text string
	}{
		{model.Doubt{Station: "letter", Name: "misfeed"}, 1.0 / 2431, "letter, misfeed", "1/2,431"},
		{model.Doubt{Station: "letter", Name: "false_calls"}, 0, "letter, false calls", "0"},
		{model.Doubt{Station: "letter", Name: "caught"}, 0.975, "letter, caught", "97.5 %"},
		{model.Doubt{Station: "letter", Name: "growth"}, 1.5, "letter, growth", "1.5"},
		{model.Doubt{Station: "letter", Name: "hopper.refill", Part: model.MeanPart}, 20, "letter, hopper refill, mean", "20 s"},
		{model.Doubt{Name: "crew.walk", Part: model.MeanPart}, 1234, "crew walk, mean", "1,230 s"},
		{model.Doubt{Station: "letter", Name: "clear", Part: model.CVPart}, 0.8123, "letter, clear, cv", "0.812"},
	} {
		assert.Equal(t, c.called, doubtCalled(c.Doubt))
		assert.Equal(t, c.text, doubtValue(c.Doubt, c.x))
	}
}

// A job is judged by when it is finished.
func TestDoubtOfAJob(t *testing.T) {
	_, text, err := desk.Load(desk.Env{}, "../../testdata/doubt.yaml")
	require.NoError(t, err)
	sc, err := scenarios.Load("job.yaml", bytes.Replace(text, []byte("work: {shift: 8 h}"), []byte("work: {sets: 20000}"), 1))
	require.NoError(t, err)
	f := &field{entrants: []entrant{{line: sc.Line}}}
	require.NoError(t, f.drawDoubt(t.Context(), desk.Env{}, sim.Plan{Seed: 1, Max: 1}, 50))
	study := f.entrants[0].doubt
	d := doubtIn(study)
	assert.InDelta(t, study.Shifts[3].Finish, d.All[3], 1e-12)
	assert.Contains(t, d.finding(), " h until it is finished, on average (95 %)")
	assert.Contains(t, d.finding(), "One job in twenty falls below ")
	assert.Equal(t, "finish", doubtDocument(study).Figure)
	for _, s := range d.Sources { // what fails more often takes longer
		if s.Doubt.Name == "misfeed" {
			assert.Greater(t, s.Slope, 0.0)
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
	var all [][]*model.Study
	for _, h := range []*model.Hall{sc.Hall, {Lines: sc.Hall.Lines[:1], Crew: sc.Hall.Crew}, {Lines: sc.Hall.Lines[1:2], Crew: sc.Hall.Crew}} {
		studies, err := model.RunHall(t.Context(), h, sim.Plan{Seed: 1, Min: 20, Max: 20}, nil)
		require.NoError(t, err)
		all = append(all, studies)
	}
	s := newShared(sc, unsure, "netrate run hall.yaml", all)
	o := &runFlags{doubt: new(doubtDraws)}
	require.NoError(t, o.drawDoubtOf(desk.Env{}, s, sim.Plan{Seed: 1, Max: 1}))
	assert.Contains(t, s.answer(), "in doubt: not drawn here")
	*o.doubt = 40
	require.NoError(t, o.drawDoubtOf(desk.Env{}, s, sim.Plan{Seed: 1, Max: 1}))
	require.NotNil(t, s.doubt)
	assert.Contains(t, s.answer(), "\nIn doubt  ")
	assert.Contains(t, s.answer(), "\ncrew walk, mean ")
	assert.NotNil(t, s.document().Doubt)
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
	var early desk.Interrupted
	require.ErrorAs(t, f.drawDoubt(ctx, desk.Env{}, sim.Plan{Seed: 1, Max: 1, Workers: 1}, 100_000), &early)
	require.NotNil(t, f.entrants[0].doubt)
	assert.Less(t, f.entrants[0].doubt.Draws(), 500)
	assert.Equal(t, sim.Cancelled, f.entrants[0].study.Ending, "the answer is partial, and must say so")

	f = inDoubtField(t, 0)
	require.EqualError(t, f.drawDoubt(ctx, desk.Env{}, sim.Plan{Seed: 1, Max: 1}, 100), "interrupted: the answer is partial")
	assert.Nil(t, f.entrants[0].doubt, "no draw was done, but the shifts were")
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
