package present

import (
	"bytes"
	"encoding/json"
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
	"netrate/scenarios"
	"netrate/sim"
)

func TestAnswerGolden(t *testing.T) {
	_, _, s := small.Scenario(t, 50)
	golden.Check(t, "../../testdata/small.txt", Run{RunAnswer: study.RunAnswerOf(s, nil), Command: "netrate run small.yaml"}.Text())
}

func TestJSONGolden(t *testing.T) {
	sc, text, s := small.Scenario(t, 50)
	var out bytes.Buffer
	require.NoError(t, page.WriteDocument(&out, Run{RunAnswer: study.RunAnswerOf(s, nil), Origin: page.Origin{Scenario: sc, Text: text}}.Document("v0")))
	golden.Check(t, "../../testdata/small.json", out.String())
}

// What a document holds is enough to run its scenario again.
func TestJSONHoldsItsScenario(t *testing.T) {
	sc, text, s := small.Scenario(t, 3)
	var out bytes.Buffer
	require.NoError(t, page.WriteDocument(&out, Run{RunAnswer: study.RunAnswerOf(s, nil), Origin: page.Origin{Scenario: sc, Text: text}}.Document("v0")))
	var doc struct {
		Scenario page.ScenarioJSON
		Settings study.Settings
	}
	require.NoError(t, json.Unmarshal(out.Bytes(), &doc))
	again, err := scenarios.Load(doc.Scenario.File, []byte(doc.Scenario.Source))
	require.NoError(t, err)
	assert.Equal(t, doc.Scenario.Digest, again.Digest)
	assert.Equal(t, s.Shifts, small.Study(t, again, doc.Settings.Reps).Shifts)
}

func TestJSONOfOneShiftHasNoInterval(t *testing.T) {
	sc, text, s := small.Scenario(t, 1)
	var out bytes.Buffer
	require.NoError(t, page.WriteDocument(&out, Run{RunAnswer: study.RunAnswerOf(s, nil), Origin: page.Origin{Scenario: sc, Text: text}}.Document("v0")))
	assert.Contains(t, out.String(), `"half": null`)
}

func TestAnswerFitsTheScreen(t *testing.T) {
	if golden.Raced {
		t.Skip("the width of the answers is not what the race detector looks at")
	}
	for _, x := range scenarios.Examples() {
		sc, err := scenarios.Load(x.Name, x.Data)
		require.NoError(t, err)
		for _, reps := range []int{1, 2, 30} {
			s := small.Study(t, sc, reps)
			for _, ending := range []sim.Ending{sim.AtMost, sim.Precise, sim.Cancelled} {
				s.Ending = ending
				text := Run{RunAnswer: study.RunAnswerOf(s, nil), Command: "netrate run --example " + x.Name}.Text()
				lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
				assert.LessOrEqual(t, len(lines), 24, text)
				for _, line := range lines {
					assert.LessOrEqual(t, utf8.RuneCountInString(line), say.Screen(), line)
					assert.Equal(t, strings.TrimRight(line, " "), line)
				}
			}
		}
	}
}

func TestAnswerSays(t *testing.T) {
	for name, c := range map[string]struct {
		reps   int
		change func(*runs.Study)
		want   string
	}{
		"partial":              {30, func(s *runs.Study) { s.Ending = sim.Cancelled }, "PARTIAL ANSWER, interrupted: Two inserts (30 shifts of 4 h)\n"},
		"interrupted when":     {30, func(s *runs.Study) { s.Ending, s.Plan.Max = sim.Cancelled, 5000 }, "Interrupted after 30 shifts of at most 5,000. To repeat it:"},
		"fixed number":         {30, nil, "Stopped after the number of shifts asked for."},
		"most of the file":     {30, func(s *runs.Study) { s.Plan.Min = 10 }, "Stopped at the maximum number of shifts that the file allows."},
		"precise":              {30, func(s *runs.Study) { s.Ending, s.Plan.Precision = sim.Precise, 0.005 }, "Known to ± 1.8 % (asked for: ± 0.5 %)"},
		"precise at once":      {30, func(s *runs.Study) { s.Ending, s.Plan.Precision, s.Plan.Min, s.Plan.Max = sim.Precise, 0.005, 10, 30 }, "Known to ± 1.8 % (asked for: ± 0.5 %) at the minimum of shifts."},
		"precise later":        {30, func(s *runs.Study) { s.Ending, s.Plan.Precision, s.Plan.Min, s.Plan.Max = sim.Precise, 0.005, 10, 400 }, "Known to ± 1.8 % (asked for: ± 0.5 %). To"},
		"cap reached":          {30, func(s *runs.Study) { s.Plan.Precision = 0.001 }, "NOT KNOWN TO ± 0.1 % AS ASKED: stopped at the maximum number of shifts, at\n± 1.8 %."},
		"how to repeat it":     {30, nil, "\n  netrate run x.yaml --seed 5 --reps 30\n"},
		"one shift":            {1, nil, "One shift alone does not say"},
		"few shifts":           {5, nil, "The worst shift had "},
		"many shifts":          {30, nil, "Lots and days alike: one shift in 20 is below "},
		"name too long":        {1, func(s *runs.Study) { s.Line.Name = strings.Repeat("x", 200) }, "x… (1 shift of 4 h)\n"},
		"no stops":             {2, func(s *runs.Study) { clear(s.Total.Stations) }, "\nNo stops\n"},
		"more than on paper":   {30, speedUp(1.2), " more in the simulation, for no one cause that was measured\n"},
		"less than on paper":   {30, nil, " less in the simulation: stocks used up, a busy operator\n"},
		"same as on paper":     {30, onPaperRate, "shows no difference"},
		"defects seen":         {30, nil, "defective       2.3 ± 0.5       0.10\n"},
		"no defect seen":       {30, withoutDefects, "defective       none seen    <0.0044\n"},
		"no defect possible":   {30, func(s *runs.Study) { withoutDefects(s); perfect(s.Line) }, "defective    none possible          –\n"},
		"more than one worker": {30, func(s *runs.Study) { s.Line.Crew.Operators = 3 }, "crew of 3, busy"},
	} {
		t.Run(name, func(t *testing.T) {
			_, _, s := small.Scenario(t, c.reps)
			if c.change != nil {
				c.change(s)
			}
			assert.Contains(t, Run{RunAnswer: study.RunAnswerOf(s, nil), Command: "netrate run x.yaml"}.Text(), c.want)
		})
	}
}

func speedUp(by float64) func(*runs.Study) {
	return func(s *runs.Study) {
		for i := range s.Shifts {
			s.Shifts[i].NetRate *= by
		}
	}
}

func onPaperRate(s *runs.Study) {
	gap := s.Line.Analytic().NetRate - s.NetRates().Mean()
	for i := range s.Shifts {
		s.Shifts[i].NetRate += gap
	}
}

func withoutDefects(s *runs.Study) {
	s.Total.Sets.Good += s.Total.Sets.Defective
	s.Total.Sets.Defective = 0
}

// perfect makes a line on which nobody overlooks a double.
func perfect(l *model.Line) {
	for _, s := range l.Stations {
		if f, ok := s.(*model.Feeder); ok {
			f.Caught = 1
		}
	}
}

// The rule of three: 3 million sets without a defect are less than 1 in a million.
func TestNoneDefective(t *testing.T) {
	_, _, s := small.Scenario(t, 2)
	for delivered, want := range map[int64]string{
		3_000_000: "<0.0010", 3_800_000: "<0.00079", 3_000: "<1.0", 34_567: "<0.087", 5: "–", 9_000_000_000: "<0.000001",
	} {
		t.Run(want, func(t *testing.T) {
			s.Total.Sets = model.Sets{Started: delivered, Good: delivered}
			row := setsTable(s).Rows[1]
			assert.Equal(t, []string{"defective", "none seen", want}, []string{row[0].Text, row[1].Text, row[3].Text})
		})
	}
}

func TestCanBeDefective(t *testing.T) {
	feeder := func(change func(*model.Feeder)) *model.Line {
		f := &model.Feeder{Misfeed: 0.01, Double: 0.01, Material: 1, Share: 1, Noticed: 1, Caught: 1, OnMisfeed: model.Divert, OnDouble: model.Divert}
		change(f)
		return &model.Line{Stations: []model.Station{f, &model.Delivery{}}}
	}
	for name, c := range map[string]struct {
		change func(*model.Feeder)
		want   bool
	}{
		"all caught":               {func(*model.Feeder) {}, false},
		"doubles overlooked":       {func(f *model.Feeder) { f.Caught = 0.99 }, true},
		"no doubles to overlook":   {func(f *model.Feeder) { f.Caught, f.Double = 0.99, 0 }, false},
		"doubles shipped":          {func(f *model.Feeder) { f.OnDouble = model.Ship }, true},
		"misfeeds shipped":         {func(f *model.Feeder) { f.OnMisfeed = model.Ship }, true},
		"misfeeds overlooked":      {func(f *model.Feeder) { f.Noticed = 0.99 }, true},
		"no misfeeds to overlook":  {func(f *model.Feeder) { f.Noticed, f.Misfeed = 0.99, 0 }, false},
		"no misfeeds to ship":      {func(f *model.Feeder) { f.OnMisfeed, f.Misfeed = model.Ship, 0 }, false},
		"every misfeed stops":      {func(f *model.Feeder) { f.OnMisfeed, f.Streak.StopAfter = model.Ship, 1 }, false},
		"the second misfeed stops": {func(f *model.Feeder) { f.OnMisfeed, f.Streak.StopAfter = model.Ship, 2 }, true},
	} {
		t.Run(name, func(t *testing.T) { assert.Equal(t, c.want, feeder(c.change).CanLeak()) })
	}
}
