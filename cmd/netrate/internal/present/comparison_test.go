package present

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/internal/golden"
	"netrate/model"
	"netrate/model/runs"
	"netrate/model/study"
	"netrate/plots/terminal"
	"netrate/scenarios"
	"netrate/sim"
	"netrate/sim/output"
)

// variants returns the comparison of the tests, once it is simulated as the flags say.
func variants(t *testing.T, args ...ask) Comparison {
	t.Helper()
	text, err := os.ReadFile("../../testdata/variants.yaml")
	require.NoError(t, err)
	sc, err := scenarios.Load("variants.yaml", text)
	require.NoError(t, err)
	return compared(t, variantsOf(page.Origin{Scenario: sc, Text: text}, "netrate compare variants.yaml"), args...)
}

// withoutScenario returns a document without its scenarios, whose text and sources have tests of
// their own: what is left can be read.
func withoutScenario(t *testing.T, doc string) string {
	t.Helper()
	head, rest, found := strings.Cut(doc, "  \"scenarios\": [\n")
	require.True(t, found)
	_, tail, found := strings.Cut(rest, "\n  ],\n")
	require.True(t, found)
	return head + tail
}

func TestCompareGolden(t *testing.T) {
	c := variants(t)
	golden.Check(t, "../../testdata/variants.txt", c.Text())

	var doc bytes.Buffer
	require.NoError(t, page.WriteDocument(&doc, c.Document("v0")))
	golden.Check(t, "../../testdata/variants.json", withoutScenario(t, doc.String()))

	r, err := c.Report("v0")
	require.NoError(t, err)
	var tables strings.Builder
	for i := range r.Tables {
		require.NoError(t, r.Tables[i].WriteText(&tables, 0))
		tables.WriteString("\n")
	}
	golden.Check(t, "../../testdata/variants.tables.txt", tables.String())
}

func TestSelectionGolden(t *testing.T) {
	c := variants(t, best(20, 0.99))
	golden.Check(t, "../../testdata/selection.txt", c.Text())
	var doc bytes.Buffer
	require.NoError(t, page.WriteDocument(&doc, c.Document("v0")))
	golden.Check(t, "../../testdata/selection.json", withoutScenario(t, doc.String()))
}

// The number of workers changes nothing, in a comparison or in a selection.
func TestCompareWorkers(t *testing.T) {
	for _, args := range [][]ask{{reps(70)}, {best(0, say.Level)}} {
		var docs [2]bytes.Buffer
		for i := range docs {
			c := variants(t, append(args, workers(i+1))...)
			require.NoError(t, page.WriteDocument(&docs[i], c.Document("v0")))
		}
		assert.Equal(t, docs[0].String(), docs[1].String())
	}
}

// The document holds what it takes to repeat it, and its losses lead to the net rate.
func TestCompareJSON(t *testing.T) {
	c := variants(t, reps(5))
	var out bytes.Buffer
	require.NoError(t, page.WriteDocument(&out, c.Document("v0")))
	var doc comparisonDocument
	require.NoError(t, json.Unmarshal(out.Bytes(), &doc))
	again, err := scenarios.Load(doc.Scenarios[0].File, []byte(doc.Scenarios[0].Source))
	require.NoError(t, err)
	assert.Equal(t, doc.Scenarios[0].Digest, again.Digest)
	for _, l := range doc.Lines {
		left := float64(l.Rated)
		for _, loss := range l.Losses {
			left -= float64(loss.PerHour)
		}
		assert.InEpsilon(t, float64(l.NetRate.Mean), left, 1e-6)
	}
	assert.Len(t, doc.Pairs.Pairs, 6)
	assert.Len(t, doc.Leads.Leads, 4)
	gained := 0.0
	for _, step := range doc.Steps {
		gained += step.Change
	}
	assert.InDelta(t, float64(doc.Lines[doc.Leader].NetRate.Mean-doc.Lines[doc.Rival].NetRate.Mean), gained, 1e-3, "why the leader is ahead")
}

// sampled returns a comparison of lines with the given net rates.
func sampled(samples ...[]float64) Comparison {
	var all []study.Alternative
	var studies []*runs.Study
	for i, rates := range samples {
		s := &runs.Study{Line: &model.Line{}, Ending: sim.AtMost}
		for _, rate := range rates {
			s.Shifts = append(s.Shifts, runs.Shift{NetRate: rate})
		}
		one := study.Alternative{Name: string(rune('A' + i)), Line: s.Line}
		if i == 0 {
			one.Name, one.Called = scenarios.BaseName, "the base"
		}
		all, studies = append(all, one), append(studies, s)
	}
	return Comparison{ComparisonAnswer: study.ComparedStudies(all, studies, make([]*runs.UncertaintyStudy, len(all)))}
}

// noisy returns rates around a mean, common random numbers moving all samples of the same phase.
func noisy(mean, own float64, phase int) []float64 {
	var x []float64
	for i := range 50 {
		x = append(x, mean+100*math.Sin(float64(i))+own*math.Cos(float64(7*i+phase)))
	}
	return x
}

func TestDecide(t *testing.T) {
	for name, c := range map[string]struct {
		systems    [][]float64
		best, next int
		rival      int
		candidates []int
		says       string
	}{
		"a variant is best":    {[][]float64{noisy(1000, 5, 0), noisy(1100, 5, 1), noisy(1050, 5, 2)}, 1, 2, 0, []int{1}, "“B” delivers most: "},
		"the base is best":     {[][]float64{noisy(1100, 5, 0), noisy(1000, 5, 1), noisy(1050, 5, 2)}, 0, 2, 2, []int{0}, "The base delivers most: "},
		"two may be best":      {[][]float64{noisy(1000, 5, 0), noisy(1100, 5, 1), noisy(1101, 5, 2)}, 2, 1, 0, []int{1, 2}, "“C” leads with 1,100 ± 20 good envelopes an hour, and “B” may deliver as much.\n\nThe base is "},
		"all may be best":      {[][]float64{noisy(1000, 90, 0), noisy(1000, 90, 1), noisy(1002, 90, 2)}, 2, 0, 0, []int{0, 1, 2}, "and the base and “B” may deliver as much."},
		"equal, the first one": {[][]float64{noisy(1000, 0, 0), noisy(1000, 0, 0)}, 0, 1, 1, []int{0, 1}, "No line is shown to deliver most (95 %): the base leads"},
		"two lines":            {[][]float64{noisy(1000, 5, 0), noisy(1100, 5, 1)}, 1, 0, 0, []int{1}, "more than the base (95 %), better in all shifts."},
	} {
		t.Run(name, func(t *testing.T) {
			got := sampled(c.systems...)
			assert.Equal(t, [3]int{c.best, c.next, c.rival}, [3]int{got.Leader, got.Next, got.Rival})
			assert.Equal(t, c.candidates, got.Candidates)
			assert.Equal(t, len(c.candidates) == 1, got.Best.Shown)
			assert.Contains(t, ComparisonFinding(got.ComparisonAnswer), c.says)
		})
	}
}

// Each with each, all right at once: 6 pairs of 4 lines share the 5 %.
func TestPairsShareTheLevel(t *testing.T) {
	c := sampled(noisy(1000, 5, 0), noisy(1100, 5, 1), noisy(1050, 5, 2), noisy(900, 5, 3))
	systems := []sim.Sample{noisy(1000, 5, 0), noisy(1100, 5, 1), noisy(1050, 5, 2), noisy(900, 5, 3)}
	for i := range 4 {
		for k := range 4 {
			if i == k {
				continue
			}
			want := output.Paired(systems[i], systems[k], 1-0.05/6)
			assert.InDelta(t, want.Difference.Mean, c.Compared[i][k].Difference.Mean, 1e-9)
			assert.InDelta(t, want.Difference.Half, c.Compared[i][k].Difference.Half, 1e-9)
			assert.InDelta(t, want.Wins, c.Compared[i][k].Wins, 1e-12)
		}
	}
}

func TestOneShiftShowsNothing(t *testing.T) {
	c := variants(t, reps(1))
	assert.Len(t, c.Candidates, 4)
	assert.Nil(t, c.Leads)
	assert.Contains(t, c.Text(), "\nOne shift alone shows no difference.\n")
	assert.NotContains(t, c.Text(), "Inf")
	var doc bytes.Buffer
	require.NoError(t, page.WriteDocument(&doc, c.Document("v0")))
	r, err := c.Report("v0")
	require.NoError(t, err)
	require.NoError(t, r.Page.HTML(&doc))
}

// The changes of the steps add up to the difference.
func TestStepsAddUp(t *testing.T) {
	c := variants(t, reps(20))
	sum := 0.0
	for _, s := range c.Steps {
		sum += s.Change
	}
	assert.InEpsilon(t, c.Compared[c.Rival][c.Leader].Difference.Mean, sum, 1e-9)
}

func TestSelectionNotDecided(t *testing.T) {
	c := variants(t, best(0, say.Level), reps(10))
	assert.False(t, c.Best.Shown)
	assert.Contains(t, c.Text(), "NOT DECIDED after 10 shifts: “two operators” leads")
	assert.Contains(t, strings.Join(strings.Fields(c.Text()), " "), "Nothing is promised. The first 64 shifts of each show how much they vary; before that none is dropped.")
	assert.Contains(t, c.Text(), " --best --indifference 62/h --confidence 95%\n")
	assert.Equal(t, 62.0, float64(c.Selection.Indifference), "1 % of 6,168 on paper, in two digits")
}

func TestPartialComparison(t *testing.T) {
	c := variants(t, reps(5))
	for _, x := range c.Lines {
		x.Study.Ending = sim.Cancelled
	}
	assert.True(t, strings.HasPrefix(c.Text(), "PARTIAL ANSWER, interrupted: Two"), c.Text())
	r, err := c.Report("v0")
	require.NoError(t, err)
	assert.Contains(t, r.Page.Lead, "PARTIAL ANSWER")
}

func TestComparisonFitsTheScreen(t *testing.T) {
	if golden.Raced {
		t.Skip("the width of the answers is not what the race detector looks at")
	}
	for _, x := range scenarios.Examples() {
		sc, err := scenarios.Load(x.Name, x.Data)
		require.NoError(t, err)
		if len(sc.Variants) == 0 || sc.NoWork {
			continue
		}
		for _, args := range [][]ask{{reps(3)}, {reps(40)}, {best(0, say.Level)}} {
			f := variantsOf(page.Origin{Scenario: sc, Text: x.Data}, "netrate compare --example "+x.Name)
			c := compared(t, f, args...)
			text, most := c.Text(), 30
			if c.Money != nil {
				most = 40
			}
			if c.Money != nil && sc.LineGroup != nil { // whose hours, and rates of what
				most = 46
			}
			lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
			assert.LessOrEqual(t, len(lines), most, text)
			for _, line := range lines {
				if !strings.HasPrefix(line, "  netrate ") {
					assert.LessOrEqual(t, utf8.RuneCountInString(line), say.Screen(), line)
				}
				assert.Equal(t, strings.TrimRight(line, " "), line)
			}
		}
	}
}

// Of many lines the base and the best are shown.
func TestManyLines(t *testing.T) {
	var systems [][]float64
	for i := range 20 {
		systems = append(systems, noisy(1000+10*float64(i), 5, i))
	}
	c := sampled(systems...)
	assert.Equal(t, []int{0, 12, 13, 14, 15, 16, 17, 18, 19}, c.rows())
}

func TestChangesAreShownWhereThereIsRoom(t *testing.T) {
	c := variants(t, reps(3))
	assert.Contains(t, c.changes(), "\ntwo operators: crew.operators: 1 → 2\n")
	assert.NotContains(t, c.Text(), c.changes())
	c.Lines, c.Compared = c.Lines[:2], [][]output.Comparison{c.Compared[0][:2], c.Compared[1][:2]}
	assert.Contains(t, c.Text(), c.changes())
}

func TestWords(t *testing.T) {
	assert.Empty(t, say.List(nil))
	assert.Equal(t, "a", say.List([]string{"a"}))
	assert.Equal(t, "a, b and c", say.List([]string{"a", "b", "c"}))
	assert.Equal(t, "~ +3 ± 12", say.Gap(sim.Estimate{Mean: 3, Half: 12}))
	assert.Equal(t, "−480 ± 30", say.Gap(sim.Estimate{Mean: -480, Half: 25}))
	assert.Equal(t, "~ 0", say.Gap(sim.Estimate{Half: math.Inf(1)}))
	assert.Equal(t, []string{"0", "0", "+1", "−1"}, []string{say.Signed(-0.3), say.Signed(0.3), say.Signed(0.7), say.Signed(-0.7)})
	assert.Equal(t, "it is 83.2 %\nto 100 %\n", say.Wrapped("it is 83.2 % to 100 %", 14))
	assert.Equal(t, "二号…", say.Shortened("二号線の機械", 6))
	assert.Equal(t, "one two\nthree\n", say.Wrapped("one  two three", 7))
	assert.Equal(t, "abcdefgh\ni\n", say.Wrapped("abcdefgh i", 3))
	assert.Equal(t, "two-operators-1-walk", say.Slug("Two operators, 1 walk"))
	assert.Equal(t, "größe", say.Slug("Größe?"))
	assert.Equal(t, "All deliver less than the base", tally(0, 3, 0, "the base"))
	assert.Equal(t, "Against the base: 1 more, 2 less and 1 not shown to differ", tally(1, 2, 1, "the base"))
}

// What is equal in every shift has no leader, and what is not shown is not said flatly.
func TestNoDifference(t *testing.T) {
	equal := sampled(noisy(1000, 0, 0), noisy(1000, 0, 0)).ComparisonAnswer
	assert.Equal(t, "No difference: the base delivers what “B” delivers, shift by shift", ComparisonHeadline(equal))
	near := sampled(noisy(1000, 90, 0), noisy(1002, 90, 1)).ComparisonAnswer
	assert.Equal(t, "The base leads, but is not shown to deliver most", ComparisonHeadline(near))
	near.From, near.To = 0, 1
	assert.Contains(t, comparisonUnsure(near), "not shown to be a difference")
	far := sampled(noisy(1000, 5, 0), noisy(1100, 5, 1)).ComparisonAnswer
	far.From, far.To = 0, 1
	assert.Empty(t, comparisonUnsure(far))
}

// The gains of a table add up to what stands below them, also where that is known to no more than hundreds:
// −31, +12, +4 and +2 once stood above 0. In a report no step is left out, on a screen all but the largest are.
func TestGainsAddUp(t *testing.T) {
	c := variants(t)
	c.Explain(0, 1)
	d := &c.Compared[0][1].Difference
	d.Half = 100 * math.Abs(d.Mean)
	assert.Equal(t, "0", gainOf(c.ComparisonAnswer).Shown)
	for _, most := range []int{stepsOnScreen(c.ComparisonAnswer), len(c.Steps)} {
		rows := comparisonSteps(c.ComparisonAnswer, most).Rows
		n := len(rows) - 2
		assert.Equal(t, []string{"together", "net rate"}, []string{rows[n][0].Text, rows[n+1][0].Text})
		sum := 0.0
		for _, row := range rows[:n] {
			sum += math.Round(row[3].Number)
		}
		assert.InDelta(t, math.Round(d.Mean), sum, 1e-9)
		assert.Equal(t, say.Signed(d.Mean), rows[n][3].Shown)
		assert.NotEqual(t, "0", rows[n][3].Shown, "they come to nothing: this test cannot fail")
	}
	d.Half = 0.4
	rows := comparisonSteps(c.ComparisonAnswer, len(c.Steps)).Rows
	assert.NotEqual(t, "together", rows[len(rows)-2][0].Text, "said once")
}

// A title is not cut: it goes on in a line of its own.
func TestTitleOfAComparisonIsWrapped(t *testing.T) {
	c := variants(t)
	c.Origins[0].Scenario.Name = strings.TrimSpace(strings.Repeat("long name ", 6))
	title, _, _ := strings.Cut(c.Text(), "\n\n")
	assert.Contains(t, strings.ReplaceAll(title, "\n", " "), c.Origins[0].Scenario.Name+": ")
	assert.NotContains(t, title, "…")
	for line := range strings.Lines(title) {
		assert.LessOrEqual(t, terminal.Width(strings.TrimSpace(line)), say.Screen())
	}
}
