package affixer

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/lines"
	"netrate/cmd/netrate/internal/present"
	"netrate/cmd/netrate/internal/sweeps"
	"netrate/cmd/netrate/internal/willrun"
	"netrate/model"
	"netrate/model/study"
	"netrate/scenarios"
	"netrate/sim"
)

const file = "testdata/stamps.yaml"

// said returns what a verb answers.
func said(t *testing.T, v desk.Verb, args ...string) string {
	t.Helper()
	var out bytes.Buffer
	e := desk.Env{In: strings.NewReader(""), Out: &out, Err: t.Output(), Getenv: func(string) string { return "" }}
	require.NoError(t, v.Run(args, e))
	return out.String()
}

// The only station of the file that can let anything through is the affixer.
func TestRunSaysWhatLeaks(t *testing.T) {
	text := said(t, lines.RunVerb(), file)
	assert.NotContains(t, text, "none possible")
	assert.Regexp(t, `defective +1\.4 ± `, text)
}

// mute ships what nobody noticed, and says that it lets nothing go.
type mute struct{ *affixer }

func (m mute) Clone() model.Station         { return mute{m.affixer.Clone().(*affixer)} }
func (mute) Leaks(*model.Line) []model.Leak { return nil }

// Where a kind from outside says nothing of what it lets through the simulation contradicts it.
func TestWhatAKindConcealsIsSaid(t *testing.T) {
	l := load(t).Line.Clone()
	e := answered(t, l).Exposure
	assert.False(t, e.Unforeseen)
	l.Stations[2] = mute{l.Stations[2].(*affixer)}
	a := answered(t, l)
	assert.Positive(t, a.Exposure.Defective)
	assert.True(t, a.Exposure.Possible)
	assert.True(t, a.Exposure.Unforeseen)
	assert.True(t, a.Sets.CanBeDefective)
	text := strings.Join(strings.Fields(present.Run{RunAnswer: a}.Text()), " ")
	assert.Contains(t, text, "NO STATION SAYS THAT IT LETS ANY GO")
	assert.NotContains(t, text, "None possible")
}

func answered(t *testing.T, l *model.Line) *study.RunAnswer {
	t.Helper()
	a, err := study.Run{Alternative: study.Alternative{Name: "stamps", Line: l}, Plan: sim.Plan{Seed: 1, Min: 20, Max: 20}}.Ask(t.Context(), nil)
	require.NoError(t, err)
	return a
}

func TestStrategyCountsLeaks(t *testing.T) {
	text := strings.Join(strings.Fields(said(t, lines.StrategyVerb(), file)), " ")
	assert.Contains(t, text, "its defective envelopes come from stamps, misfeed unnoticed 25.")
}

// A roll is a stock like others, whatever the file calls it: halving its refills is named in words, and
// counted among all refills.
func TestSensitivityKnowsTheRoll(t *testing.T) {
	text := said(t, sweeps.SensitivityVerb(), file, "--reps", "20", "--all")
	assert.Regexp(t, `stamps, refilling time +\d+ s`, text)
	assert.NotContains(t, text, "roll.refill")
	stocks := len(regexp.MustCompile(`(?m), (refilling|emptying|sweeping) time `).FindAllString(text, -1))
	assert.Contains(t, text, fmt.Sprintf("all %d refilling and emptying times", stocks))
}

func TestRulesOfTheAffixer(t *testing.T) {
	text := said(t, willrun.CheckVerb(), "--rules", file)
	assert.Regexp(t, `stamp affixer stamps +misfeed +possible +no \d +CHOSEN +possible\n +jam +always +no \d +no \d +no \d`, text)
	assert.Contains(t, text, "Track gates stand before the inserter, and this station behind it.")
}

// Reasons speak of where the affixer stands: an exit gate before it is of no use to it.
func TestReasonsBehindTheInserter(t *testing.T) {
	l := *load(t).Line
	assert.Equal(t, "track gates stand before the inserter, and this station behind it", l.Refusal(2, model.Misfeed, model.Divert))
	assert.Empty(t, l.Refusal(2, model.Misfeed, model.Outsort))
	l.Stations = slices.Clone(l.Stations)
	l.Stations[2], l.Stations[3] = l.Stations[3], l.Stations[2]
	assert.Equal(t, "no exit gate stands after this station", l.Refusal(3, model.Misfeed, model.Outsort))
}

// A job has no wish for the affixer, which stays where it is.
func TestJobsPassTheAffixer(t *testing.T) {
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	own := filepath.Join(t.TempDir(), "jobs.yaml")
	text = append(text, "jobs: [{name: letters, envelope: C5, inserts: [{name: letter, size: A4, fold: half, paper: 80 g/m2}]}]\n"...)
	require.NoError(t, os.WriteFile(own, text, 0o600))
	assert.Regexp(t, `letters +11,000/h`, said(t, willrun.CheckVerb(), own))
}

func TestReportListsResponses(t *testing.T) {
	to := filepath.Join(t.TempDir(), "report.html")
	said(t, lines.RunVerb(), file, "--report", to)
	page, err := os.ReadFile(to)
	require.NoError(t, err)
	assert.Contains(t, string(page), "stamps: response to a misfeed")
	assert.Contains(t, string(page), "stamps: noticed")
}

// A stamp of 0.70 more is 0.70 more for each good envelope, and a little for those that jam.
func TestCostsKnowTheStamp(t *testing.T) {
	cost := func(price string) float64 {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		own := filepath.Join(t.TempDir(), "stamps.yaml")
		require.NoError(t, os.WriteFile(own, bytes.ReplaceAll(text, []byte("{stamps: 0.7}"), []byte("{stamps: "+price+"}")), 0o600))
		var doc struct {
			Money struct {
				Lines []struct {
					Cost struct{ Mean float64 } `json:"cost_per_1000"`
				}
			}
		}
		require.NoError(t, json.Unmarshal([]byte(said(t, lines.CompareVerb(), "--json", own)), &doc))
		return doc.Money.Lines[0].Cost.Mean
	}
	assert.InDelta(t, 1000*0.70, cost("1.4")-cost("0.7"), 0.5)
}

func TestDocumentHasTheAffixer(t *testing.T) {
	var doc struct {
		Stations []struct {
			Kind      string
			Faults    map[string]float64
			Unnoticed float64 `json:"misfeeds_unnoticed"`
			Pieces    map[string]float64
			Stops     map[string]any
		}
	}
	require.NoError(t, json.Unmarshal([]byte(said(t, lines.RunVerb(), "--json", file)), &doc))
	s := doc.Stations[2]
	assert.Equal(t, "stamp affixer", s.Kind)
	assert.Len(t, s.Faults, 2)
	assert.Positive(t, s.Faults["misfeed"])
	assert.Positive(t, s.Unnoticed)
	assert.Contains(t, s.Stops, "roll_empty")
	assert.InDelta(t, s.Pieces["loaded"], s.Pieces["good"]+s.Pieces["spoiled"]+s.Pieces["on_line"]+s.Pieces["left"], 1e-4)
}

func TestSchemaHasTheAffixer(t *testing.T) {
	assert.Contains(t, string(scenarios.Schema()), `"stamp_affixer"`)
}

// A file that is wrong is refused at its place, and with the word that was meant.
func TestRefused(t *testing.T) {
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	for change, want := range map[[2]string]string{
		{"jam: 1/6000", "jamm: 1/6000"}:               `unknown key jamm in stamp affixer: did you mean jam`,
		{"noticed: 98%", "noticed: 980"}:              "noticed is 980",
		{"kind: stamp affixer", "kind: stampaffixer"}: "stamp affixer",
		{"at: 7", "at: 3"}:                            "stands at pitch 3",
		{"{misfeed: outsort}", "{misfeed: divert}"}:   "stamps cannot answer a misfeed with divert",
	} {
		_, err := scenarios.Load("stamps.yaml", bytes.Replace(text, []byte(change[0]), []byte(change[1]), 1))
		require.Error(t, err, change[1])
		assert.Contains(t, err.Error(), want)
	}
}

// Misfeeds, jams and unstamped envelopes come as often as their probabilities say. The counts of
// 400 shifts are Poisson's, to a share of 1 in 800: their standard error is the root of what is
// expected. A bias of 3 % lies some 5 standard errors off with the misfeeds, and must be seen.
func TestAsOftenAsItSays(t *testing.T) {
	sc := load(t)
	s, err := model.New(sc.Line)
	require.NoError(t, err)
	a := sc.Line.Stations[2].(*affixer)
	var out model.Outcome
	var attempts, misfeeds, jams, unnoticed float64
	for shift := range 400 {
		require.NoError(t, s.Run(7, shift, &out))
		o := &out.Stations[2]
		attempts += float64(o.Attempts)
		misfeeds += float64(o.Faults[model.Misfeed])
		jams += float64(o.Faults[model.Jam])
		unnoticed += float64(o.Unnoticed)
		assert.Equal(t, o.Unnoticed, out.Sets.Defective)
	}
	off := func(got, p float64) float64 { return math.Abs(got-attempts*p) / math.Sqrt(attempts*p) }
	assert.Less(t, off(misfeeds, a.Misfeed), 3.59, "99.9 % of three")
	assert.Less(t, off(jams, a.Jam), 3.59)
	assert.Less(t, off(unnoticed, a.Misfeed*(1-a.Noticed)), 3.59)
	assert.Greater(t, off(misfeeds, 1.03*a.Misfeed), 3.59, "this test can fail")
}

func TestAShiftAllocatesNothing(t *testing.T) {
	s, err := model.New(load(t).Line)
	require.NoError(t, err)
	var out model.Outcome
	for shift := range 20 {
		require.NoError(t, s.Run(1, shift, &out))
	}
	assert.Zero(t, testing.AllocsPerRun(20, func() { _ = s.Run(1, 3, &out) }))
}

func load(t *testing.T) *scenarios.Scenario {
	t.Helper()
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	sc, err := scenarios.Load(file, text)
	require.NoError(t, err)
	return sc
}
