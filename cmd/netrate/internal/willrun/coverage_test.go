package willrun

import (
	"bytes"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/golden"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/formats"
	"netrate/scenarios"
)

// jobsOfFile returns the scenario of the tests that has jobs, and its text.
func jobsOfFile(t *testing.T) (*scenarios.Scenario, []byte) {
	t.Helper()
	sc, text, err := desk.Load(desk.Env{Err: t.Output()}, "../../testdata/jobs.yaml")
	require.NoError(t, err)
	return sc, text
}

func TestCoverageGolden(t *testing.T) {
	sc, _ := jobsOfFile(t)
	var out bytes.Buffer
	willItRun(&out, sc)
	golden.Check(t, "testdata/jobs.check.txt", out.String())
	lines := strings.Split(out.String(), "\n")
	assert.LessOrEqual(t, len(lines), 48, "no more than a screen for six jobs on three lines")
	for _, line := range lines {
		assert.LessOrEqual(t, utf8.RuneCountInString(line), 88, line)
	}
}

// Each sentence stands once; where it is true is said only where it is not true everywhere.
func TestReasonsAreGrouped(t *testing.T) {
	fit := func(reasons ...string) *model.Fit {
		return &model.Fit{Runs: len(reasons) == 0, Speed: 1, Reasons: reasons}
	}
	c := &Coverage{
		jobs: []*model.Product{{Name: "one"}, {Name: "two"}, {Name: "three"}},
		columns: []configuration{
			{name: "base", fits: []*model.Fit{fit("too thick"), fit("too thick", "too long"), fit("too thick")}},
			{name: "other", fits: []*model.Fit{fit("too thick"), fit("too thick"), fit()}},
		},
	}
	c.explain()
	require.Len(t, c.reasons, 2)
	assert.Equal(t, "one and two; three on base", c.trueOf(c.reasons[0]))
	assert.Equal(t, "two on base", c.trueOf(c.reasons[1]))
	assert.Equal(t, "cannot: a b", c.cell(1, 0))
	assert.Equal(t, "cannot: a", c.cell(1, 1))
	assert.Equal(t, "1 of 3 jobs can be run on one line or another. No line runs one and two.", c.finding())
}

// Lines of several, variants that make no difference, and jobs that only a variant has.
func TestCoverageColumns(t *testing.T) {
	line := func(name string, speed float64) *model.Line {
		return &model.Line{
			Name: name, Speed: speed, Shift: 3600, Crew: model.Crew{Operators: 1, Walk: nil},
			Stations: []model.Station{&model.Delivery{}},
		}
	}
	jobs := []*model.Product{{Name: "one"}}
	c := &Coverage{}
	c.enter("", []*model.Line{line("a", 100), line("b", 200)}, jobs)
	c.enter("same", []*model.Line{line("a", 100), line("b", 200)}, jobs)
	c.enter("more jobs", []*model.Line{line("a", 100), line("b", 200)}, append(jobs, &model.Product{Name: "two"}))
	var names []string
	for _, x := range c.columns {
		names = append(names, x.name)
	}
	assert.Equal(t, []string{"a", "b", "more jobs: a", "more jobs: b"}, names)
	assert.Equal(t, []string{"same"}, c.columns[0].alike)
	assert.Equal(t, []string{"same"}, c.columns[1].alike)
	assert.Len(t, c.jobs, 2)
}

// Sources: the sizes are ISO 269 (C5, DL); what they are as mail is a reading of the
// Domestic Mail Manual, see the package formats. A C5 is too high for a letter; a set of
// 7 mm, over a quarter of an inch, makes a flat of a DL.
func TestMailpieces(t *testing.T) {
	product := func(name, envelope string, thickness float64) *model.Product {
		e, ok := formats.Named(envelope)
		require.True(t, ok)
		return &model.Product{
			Name: name, Envelope: model.Envelope{Name: e.Name, Height: e.Height, Length: e.Length},
			Inserts: []model.Insert{{Name: "insert", Thickness: thickness}},
		}
	}
	pieces := mailpieces([]*model.Product{
		product("thin", "DL", 0.3), product("high", "C5", 0.3), product("thick", "DL", 7), product("thicker", "DL", 0.8), product("any", "C5", 0),
	})
	var said []string
	for _, m := range pieces {
		said = append(said, strings.Join([]string{m.envelope.Name, m.inches(), m.thickness(), m.asMail(), say.List(m.jobs)}, "; "))
	}
	assert.Equal(t, []string{
		"DL; 4.331 × 8.661; 0.3 to 0.8; letter; thin and thicker",
		"C5; 6.378 × 9.016; 0 to 0.3 or more; flat: height 6.378 in, over 6.125 in; high and any",
		"DL; 4.331 × 8.661; 7; flat: thickness 0.2756 in, over 0.25 in; thick",
	}, said)
}

func TestCoverageReport(t *testing.T) {
	sc, text := jobsOfFile(t)
	c := Covered(sc)
	r, err := c.report("v0", "netrate check jobs.yaml", page.Origin{Scenario: sc, Text: text})
	require.NoError(t, err)
	var html bytes.Buffer
	require.NoError(t, r.Page.HTML(&html))
	assert.NotContains(t, html.String(), "Seed", "nothing was simulated")
	require.Len(t, r.Figures, 1)
	doc := c.document(sc, text)
	require.Len(t, doc.Jobs, 6)
	assert.Equal(t, []string{scenarios.BaseName, "wider inserter", "faster card feeder"}, doc.Lines)
	assert.Equal(t, map[string]string{"bill": "letter", "card": "card"}, doc.Jobs[1].Fits[0].Feeders)
}
