package present

import (
	"bytes"
	"encoding/json"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/cmd/netrate/internal/small"
	"netrate/internal/golden"
	"netrate/model"
	"netrate/model/runs"
	"netrate/model/study"
	"netrate/scenarios"
)

// Lines with streams, and jobs: what is said of them besides.

// fileStudy returns the run of a scenario of the tests, and its study.
func fileStudy(t *testing.T, name string, reps int) (Run, *runs.Study) {
	t.Helper()
	text, err := os.ReadFile("../../testdata/" + name)
	require.NoError(t, err)
	sc, err := scenarios.Load(name, text)
	require.NoError(t, err)
	s := small.Study(t, sc, reps)
	return Run{RunAnswer: seen(t, study.RunAnswerOf(s, nil)), Origin: page.Origin{Scenario: sc, Text: text}, Command: "netrate run " + name}, s
}

func TestPersonalGolden(t *testing.T) {
	for _, name := range []string{"matched", "job"} {
		f, _ := fileStudy(t, name+".yaml", 60)
		golden.Check(t, "../../testdata/"+name+".txt", f.Text())
	}
}

// The two ledgers of the answer: the parts of the time are the whole, and remakes are
// told by the faults that made them necessary.
func TestPersonalFiguresAddUp(t *testing.T) {
	for _, name := range []string{"matched.yaml", "job.yaml"} {
		_, s := fileStudy(t, name, 20)
		told, end := 0.0, float64(s.Line.Shift)*20
		for i := range s.Shifts {
			told += study.AtWork(&s.Shifts[i])
		}
		if job := &s.Total.Job; s.Line.Job.Sets > 0 {
			told, end = told+float64(job.Setup+job.Hand), float64(job.Finish)
		}
		assert.InEpsilon(t, end, told, 1e-9)
		sum := int64(0)
		for _, x := range study.RemakesByFault(&s.Total) {
			assert.LessOrEqual(t, x.Remakes, x.Sets)
			sum += x.Remakes
		}
		assert.Equal(t, s.Total.Remakes(), sum)
		assert.Positive(t, sum)
	}
}

func TestJobIsNoShift(t *testing.T) {
	for _, reps := range []int{1, 5, 30} {
		f, _ := fileStudy(t, "job.yaml", reps)
		text := f.Text()
		assert.NotContains(t, text, "shift")
		assert.Contains(t, text, "Finished  after ")
		for line := range strings.Lines(text) {
			assert.LessOrEqual(t, len([]rune(line)), say.Screen()+1, line)
		}
	}
	f, _ := fileStudy(t, "job.yaml", 1)
	two := basesOf(f, f)
	two.all[1].Name = "the same again"
	c := compared(t, two, reps(5))
	assert.NotContains(t, c.Text(), "shift")
}

func TestJobSays(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*runs.Study)
		want   string
	}{
		"by hand":     {nil, " remakes are made by hand, in "},
		"beside":      {func(s *runs.Study) { s.Line.Job.Closing = model.Beside }, " remakes are made by hand beside the line; the job waits "},
		"second pass": {func(s *runs.Study) { s.Line.Job.Closing, s.Total.Job.Passes = model.SecondPass, 50 }, "2.5 passes of the line, with "},
		"left open":   {func(s *runs.Study) { s.Line.Job.Closing = model.Open }, "Remakes are left open"},
		"longer":      {nil, " h less than simulated\n"},
		"shorter": {func(s *runs.Study) {
			for i := range s.Shifts {
				s.Shifts[i].Finish /= 10
			}
		}, " h more than simulated\n"},
	} {
		t.Run(name, func(t *testing.T) {
			f, s := fileStudy(t, "job.yaml", 20)
			if c.change != nil {
				c.change(s)
			}
			f.RunAnswer = study.RunAnswerOf(s, nil)
			assert.Contains(t, f.Text(), c.want)
		})
	}
}

func TestPersonalJSON(t *testing.T) {
	f, s := fileStudy(t, "job.yaml", 20)
	var out bytes.Buffer
	require.NoError(t, page.WriteDocument(&out, Run{RunAnswer: study.RunAnswerOf(s, nil), Origin: f.Origin}.Document("v0")))
	var doc study.RunAnswer
	require.NoError(t, json.Unmarshal(out.Bytes(), &doc))
	assert.Equal(t, int64(9000), doc.Job.Sets)
	assert.InEpsilon(t, float64(doc.Job.ByHand), float64(doc.Remakes.Mean), 1e-9)
	assert.InEpsilon(t, 60*float64(doc.Job.ByHand), float64(doc.Job.Hand), 1e-9, "60 an hour are closed by hand")
	assert.Positive(t, doc.Time.Starved.Mean)
	assert.Contains(t, doc.Stations[1].Remakes, "misfeed")
	assert.Contains(t, doc.Stations[2].Faults, "no_read")

	_, text, plain := small.Scenario(t, 2)
	out.Reset()
	require.NoError(t, page.WriteDocument(&out, Run{RunAnswer: study.RunAnswerOf(plain, nil), Origin: page.Origin{Scenario: f.Origin.Scenario, Text: text}}.Document("v0")))
	doc = study.RunAnswer{}
	require.NoError(t, json.Unmarshal(out.Bytes(), &doc))
	assert.Nil(t, doc.Job)
	assert.Nil(t, doc.Remakes)
}

// The rows have a column only for what a line has.
func TestFiguresOf(t *testing.T) {
	_, plain := fileStudy(t, "small.yaml", 1)
	_, matched := fileStudy(t, "matched.yaml", 1)
	_, job := fileStudy(t, "job.yaml", 1)
	count := func(studies ...*runs.Study) int {
		var lines []*model.Line
		for _, s := range studies {
			lines = append(lines, s.Line)
		}
		return len(study.FiguresOf(lines...))
	}
	all := len(runs.Figures()) - 2 // none of these lines stands for breaks, or has slow cycles
	assert.Equal(t, all-3, count(plain), "without starved, remakes and finish")
	assert.Equal(t, all-1, count(matched))
	assert.Equal(t, all, count(job))
	assert.Equal(t, all-1, count(plain, matched), "several lines share their columns")
}

func TestPersonalReport(t *testing.T) {
	f, s := fileStudy(t, "matched.yaml", 30)
	r, err := f.Report("v0")
	page := pageOf(t, r, err)
	assert.Equal(t, []string{"line", "distribution", "running-mean", "waterfall", "stops", "incident", "fan", "timeline", "stocks"}, names(r.Figures))
	assert.Contains(t, headings(page), "What must be made again, and why")
	assert.Contains(t, page, "letter, misfeed")
	assert.Contains(t, page, "No-reads")
	assert.Len(t, lostTable(f.Alternatives()[0]).Rows, len(study.RemakesByFault(&s.Total)))

	f, _ = fileStudy(t, "job.yaml", 30)
	r, err = f.Report("v0")
	page = pageOf(t, r, err)
	assert.NotContains(t, headings(page), "How a shift goes")
	assert.Contains(t, page, "Jobs of each line")
}

// Lines that lose different things are set side by side by name.
func TestComparePlainWithPersonal(t *testing.T) {
	plain, _ := fileStudy(t, "small.yaml", 1)
	matched, _ := fileStudy(t, "matched.yaml", 1)
	c := compared(t, basesOf(plain, matched), reps(20))
	assert.Contains(t, c.Text(), "‰ remade")
	gained := 0.0
	for _, step := range c.Steps {
		gained += step.Change
	}
	rates := c.Lines[c.Leader].Study.NetRates().Mean() - c.Lines[c.Rival].Study.NetRates().Mean()
	assert.InEpsilon(t, rates, gained, 1e-6)
	table := lossesTable(c.Lines)
	for _, row := range table.Rows {
		assert.Len(t, row, 3)
	}
	assert.Equal(t, "channel too slow", table.Rows[6][0].Text)
	assert.Zero(t, table.Rows[6][1].Number)
	assert.Negative(t, table.Rows[6][2].Number)
}

// A channel that gathers every document in time costs what its faults cost, by fault, and none of it
// for being too slow. The two were once one lump, "waiting for documents".
func TestFaultsOfAChannel(t *testing.T) {
	x, err := scenarios.ExampleNamed("statements")
	require.NoError(t, err)
	sc, err := scenarios.Load(x.Name, x.Data)
	require.NoError(t, err)
	sc, err = sc.Set([]scenarios.Setting{{Path: "stations.statements.pages", Value: "2"}})
	require.NoError(t, err)
	a := study.RunAnswerOf(small.Study(t, sc, 20), nil)

	_, losses, _ := a.Study.Losses()
	assert.Zero(t, study.LossOf(losses, "channel too slow"))
	assert.Zero(t, float64(a.Time.Starved.Mean))
	stops := a.Stations[0].Stops
	for _, fault := range []string{"misfeed", "double", "jam"} {
		assert.Positive(t, float64(stops[fault].Working), fault)
		assert.Positive(t, float64(stops[fault].Waiting), fault)
	}
	assert.NotContains(t, stops, "channel_too_slow")

	sc, err = sc.Set([]scenarios.Setting{{Path: "stations.statements.sheets", Value: "20000/h"}, {Path: "stations.statements.jam", Value: "0"}})
	require.NoError(t, err)
	slow := study.RunAnswerOf(small.Study(t, sc, 20), nil)
	_, losses, _ = slow.Study.Losses()
	assert.Greater(t, study.LossOf(losses, "channel too slow"), 1000.0)
	assert.NotContains(t, slow.Stations[0].Stops, "jam")
}

// The picture of an incident: a misfeed answered in line takes two sets off at the gate,
// one answered by hand none.
func TestIncident(t *testing.T) {
	inLine := lineOfFile(t, "../../testdata/matched.yaml")
	stopping := lineOfFile(t, "../../testdata/matched.yaml")
	byHand(stopping)
	for name, c := range map[string]struct {
		line *model.Line
		says []string
	}{
		"in line": {inLine, []string{"costs 2 sets, and the line runs on", "set 2 leaves at gate", "letters: 1 and 2"}},
		"by hand": {stopping, []string{"costs no set and 1 stop", "the line stops: letter, misfeed"}},
	} {
		t.Run(name, func(t *testing.T) {
			a, err := study.Incident{Line: c.line}.Ask()
			require.NoError(t, err)
			f, err := IncidentFigure(a, "It")
			require.NoError(t, err)
			svg, err := f.SVG()
			require.NoError(t, err)
			for _, said := range c.says {
				assert.Contains(t, string(svg), said)
			}
		})
	}
	assert.Equal(t, 1, study.IncidentLane(inLine), "the feeder, not the channel before it")
	assert.Equal(t, -1, study.IncidentLane(lineOfFile(t, "../../testdata/small.yaml")))
}
