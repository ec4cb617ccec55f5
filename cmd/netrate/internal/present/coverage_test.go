package present

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/formats"
	"netrate/model/setup"
	"netrate/model/study"
)

// Each sentence stands once; where it is true is said only where it is not true everywhere.
func TestCoverageSays(t *testing.T) {
	one, two, three := &setup.Product{Name: "one"}, &setup.Product{Name: "two"}, &setup.Product{Name: "three"}
	fit := func(reasons ...string) *setup.Fit {
		return &setup.Fit{Runs: len(reasons) == 0, Speed: 1, Reasons: reasons}
	}
	a := study.Covered([]*setup.Product{one, two, three}, []study.CoverageColumn{
		{Name: "base", Fits: []*setup.Fit{fit("too thick"), fit("too thick", "too long"), fit("too thick")}},
		{Name: "other", Fits: []*setup.Fit{fit("too thick"), fit("too thick"), fit()}},
	})
	require.Len(t, a.Reasons, 2)
	assert.Equal(t, "one and two; three on base", coverageTrueOf(a, &a.Reasons[0]))
	assert.Equal(t, "two on base", coverageTrueOf(a, &a.Reasons[1]))
	assert.Equal(t, "cannot: a b", coverageCell(a, 1, 0))
	assert.Equal(t, "cannot: a", coverageCell(a, 1, 1))
	assert.Equal(t, "1 of 3 jobs can be run on one line or another. No line runs one and two.", CoverageFinding(a))
}

// One job is the job, not all 1 of them.
func TestCoverageOfOneJob(t *testing.T) {
	job := []*setup.Product{{Name: "one"}}
	for want, fit := range map[string]*setup.Fit{
		"The job can be run on the line.": {Runs: true, Speed: 1},
		"The job cannot be run.":          {Reasons: []string{"too thick"}},
	} {
		assert.Equal(t, want, CoverageFinding(study.Covered(job, []study.CoverageColumn{{Name: "base", Fits: []*setup.Fit{fit}}})))
	}
}

// Sources: the sizes are ISO 269 (C5, DL); what they are as mail is a reading of the
// Domestic Mail Manual, see the package formats. A C5 is too high for a letter; a set of
// 7 mm, over a quarter of an inch, makes a flat of a DL.
func TestEnvelopesSay(t *testing.T) {
	product := func(name, envelope string, thickness float64) *setup.Product {
		e, ok := formats.Named(envelope)
		require.True(t, ok)
		return &setup.Product{
			Name: name, Envelope: setup.Envelope{Name: e.Name, Height: e.Height, Length: e.Length},
			Inserts: []setup.Insert{{Name: "insert", Thickness: thickness}},
		}
	}
	a := study.Covered([]*setup.Product{
		product("thin", "DL", 0.3), product("high", "C5", 0.3), product("thick", "DL", 7), product("thicker", "DL", 0.8), product("any", "C5", 0),
	}, nil)
	var said []string
	for i := range a.Envelopes {
		e := &a.Envelopes[i]
		mail, _ := asMail(e)
		said = append(said, strings.Join([]string{e.Name, inches(e), thickness(e), mail, say.List(e.Jobs)}, "; "))
	}
	assert.Equal(t, []string{
		"DL; 4.331 × 8.661; 0.3 to 0.8; letter; thin and thicker",
		"C5; 6.378 × 9.016; 0 to 0.3 or more; flat: height 6.378 in, over 6.125 in; high and any",
		"DL; 4.331 × 8.661; 7; flat: thickness 0.2756 in, over 0.25 in; thick",
	}, said)
}
