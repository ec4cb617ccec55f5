package lines

import (
	"bytes"
	"os"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/golden"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/runs"
	"netrate/model/study"
	"netrate/plots"
	"netrate/scenarios"
)

// jobField enters the lines of the file with yearly volumes of jobs, after a change of its text.
func jobField(t *testing.T, old, with string) *field {
	t.Helper()
	text, err := os.ReadFile("../../testdata/costjobs.yaml")
	require.NoError(t, err)
	require.Contains(t, string(text), old)
	text = []byte(strings.Replace(string(text), old, with, 1))
	sc, err := scenarios.Load("costjobs.yaml", text)
	require.NoError(t, err)
	f, err := variantsOf(page.Origin{Scenario: sc, Text: text}, "netrate compare costjobs.yaml", "costjobs.yaml")
	require.NoError(t, err)
	return f
}

func weighedByJobs(t *testing.T, args ...string) *contest {
	t.Helper()
	f := jobField(t, "", "")
	c := compared(t, f, args...)
	c.weigh()
	return c
}

func TestJobsGolden(t *testing.T) {
	c := weighedByJobs(t)
	golden.Check(t, "../../testdata/costjobs.txt", c.answer())
	for line := range strings.Lines(c.answer()) {
		assert.LessOrEqual(t, utf8.RuneCountInString(strings.TrimSuffix(line, "\n")), say.Screen, line)
	}
	var doc bytes.Buffer
	require.NoError(t, writeCompareJSON(&doc, "v0", c))
	golden.Check(t, "../../testdata/costjobs.json", doc.String())
}

// The hours of the jobs are those of the year, at the net rate of the mix; and what the report
// says of them is what was worked out.
func TestJobsAddUp(t *testing.T) {
	c := weighedByJobs(t, "--reps", "20")
	section := c.jobsSection()
	require.Len(t, section.Tables[0].Rows, 4)
	for i := range c.entrants {
		y := &c.worth.Worth.Lines[i]
		sum := 0.0
		for j := range c.jobs() {
			row := section.Tables[0].Rows[2*i+j]
			assert.Equal(t, y.JobHours[j].Mean(), row[len(row)-1].Number)
			sum += y.JobHours[j].Mean()
		}
		assert.InEpsilon(t, y.Hours.Mean(), sum, 1e-9)
		volume := c.worth.Worth.Volume.Mean()
		// Volumes are drawn and shifts differ, so that this is not exact: 1 in a hundred.
		assert.InEpsilon(t, volume/c.entrants[i].study.NetRates().Mean(), sum, 0.01)
		faults, stocks := study.CrewParts(c.entrants[i].study)
		assert.InDelta(t, study.CrewBusy(c.entrants[i].study).Mean, faults+stocks, 1e-9)
	}
	steps, change := c.Steps, 0.0
	assert.Equal(t, study.MeanSpeed, steps[0].Name)
	for _, s := range steps {
		change += s.Change
	}
	assert.InDelta(t, c.Compared[c.Rival][c.Leader].Difference.Mean, change, 1e-6)
}

// A report tells of the jobs what it cannot tell of them together, and what is not made.
func TestJobsReport(t *testing.T) {
	c := weighedByJobs(t, "--reps", "5")
	r, err := compareReport("v0", c)
	require.NoError(t, err)
	var names []string
	for _, f := range r.Figures {
		names = append(names, f.Name)
	}
	assert.Subset(t, names, []string{
		"stops-0-base-adverts", "stops-1-with-a-track-gate-statements", "timeline-0-base-statements", "fan-1-with-a-track-gate-adverts", "npv",
	})
	var html bytes.Buffer
	require.NoError(t, r.Page.HTML(&html))
	for _, says := range []string{"Job by job", "the volumes of its jobs", "at each of its jobs", "netrate season has them"} {
		assert.Contains(t, html.String(), says)
	}
	all := page.Assumed(c.bases()...)
	for _, want := range []plots.Assumption{
		{What: "jobs that are not made", Value: "terms: no volume is given"},
		{What: "job adverts: feeders", Value: "advert in letter, card in card"},
		{What: "job statements: speed, as it runs", Value: "11,000/h, set by inserter"},
		{What: "job statements: share of the good envelopes", Value: "64.86 %"},
		{What: "costs.volumes", Value: "statements: 8000000, adverts: {low: 3000000, likely: 4000000, high: 6000000}"},
	} {
		assert.Contains(t, all, want)
	}
}

func TestJobsThatCannotBeCompared(t *testing.T) {
	narrow := "      rated: 11000/h\n"
	for want, c := range map[string]struct{ old, with string }{
		"not every line can run all jobs that have a yearly volume:\n" +
			"the base: job adverts: ": {narrow, narrow + "      takes: {height: up to 150 mm}\n"},
		"the base: job statements: ": {narrow, narrow + "      takes: {height: up to 150 mm}\n"},
		"“with a track gate”: job adverts: ": {
			"      - {set: policy,", "      - {remove: card}\n      - {set: policy,",
		},
		"“with a track gate” has other yearly volumes of jobs than the base: lines are compared at the same work": {
			"      - {set: policy,", "      - {set: costs.volumes.statements, to: 9000000}\n      - {set: policy,",
		},
	} {
		f := jobField(t, c.old, c.with)
		_, err := newCompareFlags(desk.NewFlags("compare")).question(desk.Env{}, f)
		require.Error(t, err)
		assert.Equal(t, 2, desk.Status(err))
		assert.Contains(t, err.Error(), want)
	}
	o := newCompareFlags(desk.NewFlags("compare"))
	require.NoError(t, o.Parse([]string{"--best"}))
	_, err := o.question(desk.Env{}, jobField(t, "", ""))
	assert.EqualError(t, err, "--best is not built for yearly volumes of jobs: without it compare runs all lines")

	// Without volumes of jobs nothing is set up, whatever jobs there are.
	f := jobField(t, "  volumes: {statements: 8000000, adverts: {low: 3000000, likely: 4000000, high: 6000000}}", "  volume: 12000000")
	o = newCompareFlags(desk.NewFlags("compare"))
	q, err := o.question(desk.Env{Getenv: func(string) string { return "" }}, f)
	require.NoError(t, err)
	assert.False(t, q.Mixed())
}

// Defective envelopes count by the shares of the jobs, and so does not having seen any.
func TestDefectiveOfJobs(t *testing.T) {
	job := func(good, bad int64) *runs.Study {
		f := &model.Feeder{Misfeed: 0.001, Noticed: 0.5, Material: 1, Share: 1}
		s := &runs.Study{Line: &model.Line{Stations: []model.Station{f}}}
		s.Shifts = []runs.Shift{{NetRate: 1000, Good: float64(good), Defective: float64(bad)}}
		s.Total.Sets = model.Sets{Good: good, Defective: bad}
		return s
	}
	mixed := func(a, b *runs.Study) *runs.Study {
		return runs.Mixed(&model.Line{}, []*runs.Study{a, b}, []float64{0.25, 0.75})
	}
	// A quarter of 400 in a million, and none of the others; known to 2 · 100/√400.
	s := mixed(job(999_600, 400), job(1_000_000, 0))
	assert.InEpsilon(t, 100.0, study.DefectivePerMillion(s), 1e-3)
	assert.Equal(t, "100", present.DefectsPerMillion(s))
	assert.NotEqual(t, "100", present.DefectsPerMillion(mixed(job(1_000_000, 0), job(999_600, 400))))
	// None of 1 million and none of 3: three in a million of a quarter, one of the others.
	assert.Equal(t, "<0.75", present.DefectsPerMillion(mixed(job(1_000_000, 0), job(3_000_000, 0))))
	assert.Equal(t, "<2.2", present.DefectsPerMillion(mixed(job(1_000_000, 0), job(1_000_000, 0))))
}

// One job with the whole volume is the line with that volume, where the job changes nothing.
func TestOneJobIsOneVolume(t *testing.T) {
	jobs := "  volumes: {statements: 8000000, adverts: {low: 3000000, likely: 4000000, high: 6000000}}"
	var years [2]float64
	for i, volume := range []string{"  volume: 9000000", "  volumes: {adverts: 9000000}"} {
		f := jobField(t, jobs, volume)
		c := compared(t, f, "--reps", "10")
		c.weigh()
		years[i] = c.worth.Worth.Lines[1].Cost.Mean()
	}
	assert.InEpsilon(t, years[0], years[1], 1e-9)
}

// Nothing but the money and the comparison looks at the volumes.
func TestJobsAtRest(t *testing.T) {
	f := jobField(t, "", "")
	assert.Nil(t, f.mixes())
	assert.Len(t, f.entrants[0].linesOf(), 1)
	assert.Equal(t, 10_000.0, f.entrants[0].line.RunSpeed())
}
