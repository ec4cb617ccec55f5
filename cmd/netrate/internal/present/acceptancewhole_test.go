package present

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/cmd/netrate/internal/page"
	"netrate/model"
	"netrate/model/study"
	"netrate/plots"
	"netrate/scenarios"
)

// entryText returns what a reader sees of an entry.
func entryText(e plots.Entry) string {
	if e.Shown != "" {
		return e.Shown
	}
	return e.Text
}

// A figure that fails by its limit is not shown as the limit, and a count stands beside the whole number that the
// limit allows; the contract has that number too, and how it is rounded.
func TestAcceptanceSeenAndLimitDiffer(t *testing.T) {
	a := inventedAcceptance()
	a.Clauses[1].Limit = 1.005
	p := study.Proportion{Share: 0.31, Low: 0.29, High: 0.33, Level: 0.95}
	a.Result = &study.AcceptanceVerdict{Hours: 20, Clauses: []study.AcceptanceFound{
		{Of: study.AcceptanceRate, Counted: true, Figure: 181000, Passes: true, AsBad: p, AsGood: p},
		{Of: study.AcceptanceStops, Counted: true, Figure: 1000 * 143.0 / 142_272, AsBad: p, AsGood: p, Whole: &study.AcceptanceCount{Count: 143, Most: 142, Pieces: 142_272}},
		{Of: study.AcceptanceClearing},
		{Of: study.AcceptanceDefective},
	}}
	row := AcceptanceFound(a).Rows[1]
	assert.Equal(t, "1.0051", entryText(row[1]))
	assert.Equal(t, "1.005", entryText(row[2]))
	assert.Equal(t, "Stops for faults in 1,000 sets (143; at most 142)", entryText(row[0]))
	assert.Equal(t, "fails", entryText(row[3]))
	x := &Acceptance{AcceptanceAnswer: a, Origin: page.Origin{Scenario: &scenarios.Scenario{}}}
	assert.Contains(t, acceptanceContract(x).Text, "at most 1.005 stops for faults in 1,000 sets started. The number allowed is that rate times the sets of the test, rounded down: at most 142 in the 142,272 sets of the test.")
	a.Result, a.Good.Sets = nil, 145_913
	assert.Contains(t, acceptanceContract(x).Text, "rounded down: at most 146 in the 145,913 sets of an average test of the good line.")
	assert.Contains(t, acceptanceContract(x).Text, "the mean is not rounded before it is compared")
}

// A row and the total are about the same lines, or say of which each is: nobody sees a total below a part without
// the reason beside it.
func TestAcceptanceTotalIsOfTheRowsLines(t *testing.T) {
	a := inventedAcceptance()
	var shown []string
	for _, row := range AcceptanceClauses(a).Rows {
		cells := make([]string, 0, len(row))
		for _, i := range []int{0, 1, 4} {
			cells = append(cells, entryText(row[i]))
		}
		shown = append(shown, strings.Join(cells, " | "))
	}
	assert.Contains(t, shown, "Mean clearing time, s: lines at the levels given | 50 | 5.0 %")
	assert.Contains(t, shown, "Mean clearing time, s: the two lines tested | 55 | 60 %")
	assert.Contains(t, shown, "All clauses together: the two lines tested |  | 60 %")
	assert.Contains(t, AcceptanceFinding(a), ". The two lines are not at the levels of the clauses: clearing time 55 and 71, where the clause has 50 and 70.")
	a.Clauses = a.Clauses[:2]
	assert.NotContains(t, AcceptanceFinding(a), "lines whose")
	rows := AcceptanceClauses(a).Rows
	assert.Equal(t, "All clauses together", rows[len(rows)-1][0].Text)
}

// What was counted in simulated tests is never 0 % or 100 %.
func TestAcceptanceIsNeverCertain(t *testing.T) {
	a := inventedAcceptance()
	a.Curve[0].Passes = study.Proportion{Share: 1, Low: 0.9817, High: 1, Level: 0.95}
	a.Curve[1].Passes = study.Proportion{Share: 0, Low: 0, High: 0.0183, Level: 0.95}
	rows := acceptancePoints(a).Rows
	assert.Equal(t, "> 98.1 %", entryText(rows[0][2]))
	assert.Equal(t, "–", entryText(rows[0][4]))
	assert.Equal(t, "< 1.9 %", entryText(rows[1][2]), "1.83 % is not below 1.8 %")
	assert.Equal(t, "less than 1.9 %", acceptanceRisk(a.Curve[1].Passes))
	assert.Equal(t, "–", entryText(rows[1][3]))
	assert.Equal(t, [2]string{"all", "none"}, [2]string{entryText(stageOver(1)), entryText(stageOver(0))})
	assert.Equal(t, "< 1.9 %", entryText(stageWrong(a.Curve[1].Passes, 0.05, true)))
	assert.Equal(t, "–", entryText(stageWrong(a.Curve[1].Passes, 0.05, false)))
	for _, one := range []struct {
		share, low, high study.Number
		risk, from, to   string
	}{
		{0.0005, 0.00001, 0.0028, "0.05 %", "< 0.1 %", "0.3 %"},
		{0.001, 0.0001, 0.0037, "0.1 %", "< 0.1 %", "0.4 %"},
		{0.9995, 0.9972, 0.99999, "99.95 %", "99.7 %", "> 99.9 %"},
		{0.995, 0.9725, 0.9999, "99.5 %", "97.2 %", "> 99.9 %"}, // 199 of 200
		{0.015, 0.0031, 0.0432, "1.5 %", "0.3 %", "4.4 %"},
	} {
		p := study.Proportion{Share: one.share, Low: one.low, High: one.high, Level: 0.95}
		assert.Equal(t, one.risk, acceptanceRisk(p))
		assert.Equal(t, one.from, acceptanceEnd(p.Low, math.Floor).Shown)
		assert.Equal(t, one.to, acceptanceEnd(p.High, math.Ceil).Shown)
	}
}

// A risk that was computed has no interval: of a count of none it is all, and what is neither all nor none is not
// said as if it were.
func TestAcceptanceComputedRisks(t *testing.T) {
	of := func(x study.Number) study.Proportion { return study.Proportion{Share: x, Low: x, High: x, Level: 0.95} }
	for x, want := range map[study.Number]string{0: "none", 1: "all", 1e-48: "< 0.1 %", 1 - 1e-15: "> 99.9 %", 0.048: "4.8 %"} {
		assert.Equal(t, want, acceptanceRisk(of(x)))
		assert.Equal(t, want, acceptanceShort(of(x), 1))
	}
	assert.Equal(t, [3]string{"< 0.1 %", "> 99.9 %", "0.2 %"}, [3]string{acceptanceComputed(0), acceptanceComputed(1), acceptanceComputed(0.002)}, "what was planned")
}

// What a line with uncertain inputs delivers is said as a run of it says it, and not by the ± of the simulated
// shifts alone.
func TestAcceptanceWrittenOfUncertainInputs(t *testing.T) {
	a := inventedAcceptance()
	a.Good.Asked, a.Bad.Asked, a.Written = 9300, 8700, &study.Mean{Mean: 9700, Half: 9}
	assert.NotContains(t, AcceptanceFinding(a), "in the long run")
	for _, one := range []struct {
		low, high study.Number
		said      string
	}{
		{9120, 10_230, "delivers 9,120 to 10,230 an hour in the long run (95 %; with the inputs at their means 9,700 ± 9): whether it delivers the 9,300 that are promised is not known."},
		{9410, 10_230, ", more than the 9,300 that are promised."},
		{8100, 9210, ", less than the 9,300 that are promised."},
		{8100, 8650, ": less than the 9,300 that are promised, and no more than what is unacceptable."},
	} {
		a.LongRun = &study.Interval{Level: 0.95, Low: one.low, High: one.high}
		assert.Contains(t, AcceptanceFinding(a), one.said)
	}
}

// A page says what it did: of a test that was run it plans nothing.
func TestAcceptanceCautionSaysWhatWasDone(t *testing.T) {
	a := inventedAcceptance()
	assert.Contains(t, AcceptanceCaution(a), "This plans a test")
	a.Result = &study.AcceptanceVerdict{}
	assert.NotContains(t, AcceptanceCaution(a), "plans")
	assert.Contains(t, AcceptanceCaution(a), "no legal advice")
}

// Judging reads the limits after each shift from a file: the command that writes it stands before it.
func TestAcceptanceWritesStagesFirst(t *testing.T) {
	x := Acceptance{AcceptanceAnswer: inventedAcceptance(), Judging: "judge --stages s.csv", Writing: "plan --stages-out s.csv"}
	text := x.judging()
	assert.Less(t, strings.Index(text, "plan --stages-out"), strings.Index(text, "judge --stages"))
	assert.Contains(t, text, "plan --stages-out")
	x.Writing = ""
	assert.NotContains(t, x.judging(), "--stages-out")
	assert.Empty(t, x.stagesFirst())
}

// The contract names each cause of a stop that its limit counts, and none that it does not.
func TestContractNamesWhatIsCounted(t *testing.T) {
	text := acceptanceCounting().Text
	counted, _, _ := strings.Cut(text[strings.Index(text, "A stop for a fault is"):], "whoever cleared it")
	for c := range model.Cause(model.Causes) {
		if c == model.CauseStock {
			continue // which is called otherwise at each station
		}
		assert.Equal(t, c.ForFault(), strings.Contains(counted, c.Name(nil)), c.Name(nil))
	}
}
