package present

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/internal/golden"
	"netrate/model/study"
	"netrate/scenarios"
	"netrate/sim"
)

// chosen returns what is found for a scenario; limit is as the flag has it, "" for none.
func chosen(t *testing.T, about desk.Subject, limit string, reps int) *Strategies {
	t.Helper()
	return asked(t, about, limit, sim.Plan{Seed: about.Run.Seed, Min: reps, Max: reps})
}

func asked(t *testing.T, about desk.Subject, limit string, plan sim.Plan) *Strategies {
	t.Helper()
	c := &Strategies{Origin: page.OriginOf(about), Command: about.Again}
	q := study.Strategies{Line: about.Line, Plan: plan}
	if limit != "" {
		part := &desk.Part{}
		require.NoError(t, part.Set(limit))
		q.MaxDefective = &part.Value
		c.Command += " --max-defective " + desk.Quoted(limit)
	}
	var err error
	c.StrategiesAnswer, err = q.Ask(t.Context(), nil)
	require.NoError(t, err)
	return c
}

// strategyOf returns a scenario of the tests.
func strategyOf(t *testing.T, name string) desk.Subject {
	t.Helper()
	f, _ := fileStudy(t, name, 1)
	return desk.Subject{Scenario: f.Origin.Scenario, Source: f.Origin.Text, Again: "netrate strategy " + name}
}

func chosenOf(t *testing.T, name, limit string, reps int) *Strategies {
	t.Helper()
	return chosen(t, strategyOf(t, name), limit, reps)
}

func TestStrategyGolden(t *testing.T) {
	golden.Check(t, "../../testdata/strategy.txt", chosenOf(t, "matched.yaml", "", 20).Text())
	c := chosenOf(t, "gateless.yaml", "0.1%", 60)
	golden.Check(t, "../../testdata/strategy2.txt", c.Text())
	golden.Check(t, "../../testdata/strategy.json", shortDocument(t, c))
}

// shortDocument returns the document without the scenario, and with the best strategy alone: the
// others are like it, which is seen to, and nobody reads all of them.
func shortDocument(t *testing.T, c *Strategies) string {
	t.Helper()
	text, err := json.Marshal(c.Document(desk.Version()))
	require.NoError(t, err)
	var doc map[string]any
	require.NoError(t, json.Unmarshal(text, &doc))
	all, is := doc["strategies"].([]any)
	require.True(t, is)
	require.Len(t, all, len(c.Strategies))
	for i, one := range all {
		x, is := one.(map[string]any)
		require.True(t, is)
		assert.Equal(t, c.Strategies[i].Name, x["name"])
		assert.Len(t, x["responses"], len(c.Decisions))
		rate, is := x["net_rate"].(map[string]any)
		require.True(t, is)
		assert.InEpsilon(t, float64(c.Strategies[i].NetRate.Mean), rate["mean"], 1e-8, "nine digits")
	}
	delete(doc, "scenario")
	doc["strategies"] = all[c.Leader : c.Leader+1]
	text, err = json.MarshalIndent(doc, "", "  ")
	require.NoError(t, err)
	return string(text) + "\n"
}

// A set that was not read is no defective envelope, so that to ship it seems to cost nothing: the
// best strategy of this line does it if it may, and it may only if that is asked for.
func TestStrategyLetsNothingUnreadGo(t *testing.T) {
	x, err := scenarios.ExampleNamed("statements")
	require.NoError(t, err)
	sc, err := scenarios.Load(x.Name, x.Data)
	require.NoError(t, err)
	for name, allowed := range map[string]bool{"allowed": true, "not allowed": false} {
		t.Run(name, func(t *testing.T) {
			q := study.Strategies{Line: sc.Line, AllowUnread: allowed, Plan: sim.Plan{Seed: 1, Min: 10, Max: 10}}
			a, err := q.Ask(t.Context(), nil)
			require.NoError(t, err)
			assert.Equal(t, allowed, a.Leading().ShipsUnread)
			assert.Equal(t, allowed, strings.Contains(a.Leading().Otherwise, "no read ship"), a.Leading().Otherwise)
			assert.Equal(t, allowed, slices.ContainsFunc(a.Strategies, func(x study.StrategiesOne) bool { return x.ShipsUnread }))
			said := StrategiesText(a, sc.Name, "netrate strategy")
			assert.Equal(t, allowed, strings.Contains(said, "CAUTION:"), said)
			assert.Equal(t, !allowed, strings.Contains(said, "(--allow-unread"), said)
		})
	}
}

// The number of workers changes nothing.
func TestStrategyWorkers(t *testing.T) {
	about := strategyOf(t, "small.yaml")
	var answers [2]string
	for i := range answers {
		c := asked(t, about, "", sim.Plan{Seed: 5, Min: 70, Max: 70, Workers: i + 1})
		answers[i] = c.Text()
	}
	assert.Equal(t, answers[0], answers[1])
}

// Of each example there is an answer that is not wider than the screen, a page, and a table
// as wide as its heading; also after a single shift.
func TestStrategyOfExamples(t *testing.T) {
	for _, x := range scenarios.Examples() {
		t.Run(x.Name, func(t *testing.T) {
			sc, err := scenarios.Load(x.Name, x.Data)
			require.NoError(t, err)
			for _, reps := range []int{1, 2} {
				c := chosen(t, desk.Subject{Scenario: sc, Source: x.Data, Again: "netrate strategy"}, "", reps)
				for line := range strings.Lines(c.Text()) {
					assert.LessOrEqual(t, utf8.RuneCountInString(line), say.Screen()+1, line)
				}
				table := c.Rows()
				for _, row := range table.Rows {
					assert.Len(t, row, len(table.Columns))
				}
				r, err := c.Report("v0")
				assert.NotEmpty(t, pageOf(t, r, err))
			}
		})
	}
}

func TestStrategySays(t *testing.T) {
	for name, c := range map[string]struct {
		file, limit string
		change      func(*Strategies)
		want        []string
	}{
		"the file's own":  {"gateless.yaml", "", nil, []string{"the file’s own strategy delivers most", "no more defective envelopes than the file’s own (11"}},
		"none":            {"small.yaml", "0.01/1e6", nil, []string{"No strategy of this line has at most 0.01 defective in a million.", "own over limit "}},
		"from where":      {"small.yaml", "", nil, []string{"In a million, its defective envelopes come from letter, double unnoticed 11"}},
		"no single fault": {"matched.yaml", "", nil, []string{"No single fault lets a defective envelope through"}},
		"not told apart":  {"matched.yaml", "", nil, []string{"none is shown to be best", "may be as good."}},
		"makes least again": {
			"matched.yaml", "", func(c *Strategies) { c.Leader, c.AsGood = 0, []int{1} },
			[]string{"and “A” may be as good. Of these, “A” needs the fewest remakes: "},
		},
		"how many":         {"matched.yaml", "", nil, []string{"of 23,328 strategies", "Simulated: 24.", " more, and their responses: --csv, --report."}},
		"how to repeat it": {"small.yaml", "300/1e6", nil, []string{"netrate strategy small.yaml --max-defective 300/1e6 --seed 5 --reps 30\n"}},
		"a gain": {"gateless.yaml", "0.1%", nil, []string{
			"Of the strategies with at most 1,000 defective in a million, “B” delivers most: ", "more than the file’s own strategy", "B best ", "O over limit ",
			"“B” differs from the file in its responses: card: misfeed ship.", "card, misfeed shipped 7",
		}},
		"partial": {
			"small.yaml", "", func(c *Strategies) { c.Own().Study.Ending = sim.Cancelled },
			[]string{"PARTIAL ANSWER, interrupted: Two inserts: 1 strategy"},
		},
		"nothing worth a run": {"small.yaml", "", nil, []string{"delivers most on paper: no other is worth a simulation", "Simulated: 1."}},
		"two faults at once": {
			"matched.yaml", "", func(c *Strategies) { c.Leading().Defective.Counted = 9 },
			[]string{"Its defective envelopes take two faults at once;"},
		},
	} {
		t.Run(name, func(t *testing.T) {
			reps := 30
			if c.file == "matched.yaml" { // 24 strategies
				reps = 8
			}
			x := chosenOf(t, c.file, c.limit, reps)
			if c.change != nil {
				c.change(x)
			}
			for _, want := range c.want {
				assert.Contains(t, unwrapped(x.Text()), unwrapped(want))
			}
		})
	}
}

// unwrapped puts a text on one line.
func unwrapped(text string) string { return strings.Join(strings.Fields(text), " ") }

func TestPart(t *testing.T) {
	for text, want := range map[string]float64{"2/1e6": 2e-6, "2/1000000": 2e-6, "0.0002%": 2e-6, " 0.5 % ": 0.005, "2e-6": 2e-6, "0": 0, "1/4": 0.25} {
		var p desk.Part
		require.NoError(t, p.Set(text), text)
		assert.InDelta(t, want, p.Value, 1e-18)
		assert.Equal(t, text, p.String())
	}
	for _, text := range []string{"", "2", "1", "-1/1e6", "x", "2/", "/2", "2/0", "2/-1", "NaN", "1/NaN", "Inf", "1/4%", "2 ppm"} {
		assert.Error(t, new(desk.Part).Set(text), text)
	}
}

func TestFewDigits(t *testing.T) {
	for x, want := range map[float64]string{0: "0", 1e-9: "<0.000001", 0.000123: "0.00012", 1.07: "1.1", 12.3: "12", 123.4: "123", 18_765: "18,800"} {
		assert.Equal(t, want, say.FewDigits(x))
	}
}
