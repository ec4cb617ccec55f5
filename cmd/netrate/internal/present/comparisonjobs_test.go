package present

import (
	"bytes"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/cmd/netrate/internal/small"
	"netrate/internal/golden"
	"netrate/model"
	"netrate/model/runs"
	"netrate/model/study"
	"netrate/plots"
)

// jobLines returns the lines of the file with yearly volumes of jobs, after a change of its text.
func jobLines(t *testing.T, old, with string) alternatives {
	t.Helper()
	sc, text := small.CostJobs(t, old, with)
	return variantsOf(page.Origin{Scenario: sc, Text: text}, "netrate compare costjobs.yaml")
}

func weighedByJobs(t *testing.T, args ...ask) Comparison {
	t.Helper()
	f := jobLines(t, "", "")
	c := compared(t, f, args...)
	return c
}

func TestJobsGolden(t *testing.T) {
	c := weighedByJobs(t)
	golden.Check(t, "../../testdata/costjobs.txt", c.Text())
	for line := range strings.Lines(c.Text()) {
		assert.LessOrEqual(t, utf8.RuneCountInString(strings.TrimSuffix(line, "\n")), say.Screen(), line)
	}
	var doc bytes.Buffer
	require.NoError(t, page.WriteDocument(&doc, c.Document("v0")))
	golden.Check(t, "../../testdata/costjobs.json", withoutScenario(t, doc.String()))
}

// The hours of the jobs are those of the year, at the net rate of the mix; and what the report
// says of them is what was worked out.
func TestJobsAddUp(t *testing.T) {
	c := weighedByJobs(t, reps(20))
	section := c.jobsSection()
	hours := section.Tables[1]
	require.Len(t, hours.Rows, 2)
	require.Len(t, section.Tables[2].Rows, 4)
	for i := range c.Lines {
		y := &c.Money.Worth.Lines[i]
		sum := 0.0
		for j := range c.jobs() {
			assert.Equal(t, y.JobHours[j].Mean(), hours.Rows[i][1+j].Number)
			sum += y.JobHours[j].Mean()
		}
		assert.InEpsilon(t, y.Hours.Mean(), sum, 1e-9)
		volume := c.Money.Worth.Volume.Mean()
		// Volumes are drawn and shifts differ, so that this is not exact: 1 in a hundred.
		assert.InEpsilon(t, volume/c.Lines[i].Study.NetRates().Mean(), sum, 0.01)
		faults, stocks := study.CrewParts(c.Lines[i].Study)
		assert.InDelta(t, study.CrewBusy(c.Lines[i].Study).Mean, faults+stocks, 1e-9)
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
	c := weighedByJobs(t, reps(5), pictured)
	r, err := c.Report("v0")
	require.NoError(t, err)
	var names []string
	for _, f := range r.Figures {
		names = append(names, f.Name)
	}
	assert.Subset(t, names, []string{
		"stops-1", "stops-2", "timeline-0-base-statements", "fan-1-with-a-track-gate-adverts", "npv",
	})
	var html bytes.Buffer
	require.NoError(t, r.Page.HTML(&html))
	for _, says := range []string{"Job by job", "the volumes of its jobs", "at each of its jobs", "netrate season has them"} {
		assert.Contains(t, html.String(), says)
	}
	all := page.Assumed(c.bases()...)
	for _, want := range []plots.Assumption{
		{What: "jobs that are not made", Value: "terms: no volume is given", Source: "worked out"},
		{What: "job adverts: feeders", Value: "advert in letter, card in card", Source: "worked out"},
		{What: "job statements: speed, as it runs", Value: "11,000/h, set by inserter", Source: "worked out"},
		{What: "job statements: share of the good envelopes", Value: "64.86 %", Source: "worked out"},
		{What: "costs.volumes", Value: "statements: 8000000, adverts: 3000000 to 6000000, most likely 4000000"},
	} {
		assert.Contains(t, all, want)
	}
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
	assert.Equal(t, "100", DefectsPerMillion(s))
	assert.NotEqual(t, "100", DefectsPerMillion(mixed(job(1_000_000, 0), job(999_600, 400))))
	// None of 1 million and none of 3: three in a million of a quarter, one of the others.
	assert.Equal(t, "<0.75", DefectsPerMillion(mixed(job(1_000_000, 0), job(3_000_000, 0))))
	assert.Equal(t, "<2.2", DefectsPerMillion(mixed(job(1_000_000, 0), job(1_000_000, 0))))
}

// One job with the whole volume is the line with that volume, where the job changes nothing.
func TestOneJobIsOneVolume(t *testing.T) {
	jobs := "  volumes: {statements: 8000000, adverts: {low: 3000000, likely: 4000000, high: 6000000}}"
	var years [2]float64
	for i, volume := range []string{"  volume: 9000000", "  volumes: {adverts: 9000000}"} {
		f := jobLines(t, jobs, volume)
		c := compared(t, f, reps(10))
		years[i] = c.Money.Worth.Lines[1].Cost.Mean()
	}
	assert.InEpsilon(t, years[0], years[1], 1e-9)
}

// Nothing but the money and the comparison looks at the volumes.
func TestJobsAtRest(t *testing.T) {
	f := jobLines(t, "", "")
	assert.Len(t, f.all[0].Lines(), 1)
	assert.Equal(t, 10_000.0, f.all[0].Line.RunSpeed())
}
