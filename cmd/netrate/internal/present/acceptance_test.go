package present

import (
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/study"
	"netrate/scenarios"
)

// inventedAcceptance is an answer that no line gave.
func inventedAcceptance() *study.AcceptanceAnswer {
	p := func(share float64) study.Proportion {
		return study.Proportion{Share: study.Number(share), Low: study.Number(0.8 * share), High: study.Number(1.2*share + 0.002), Level: 0.95}
	}
	return &study.AcceptanceAnswer{
		Settings: study.Settings{Seed: 1, Reps: 2000}, Basis: study.Basis{On: study.OnStated},
		Seller: 0.05, Buyer: 0.1, Hours: 20, Shift: 8,
		Good: study.AcceptanceLine{Name: "base", Faults: 1}, Bad: study.AcceptanceLine{Name: "worn", Faults: 1},
		Clauses: []study.AcceptanceClause{
			{Of: study.AcceptanceRate, Good: 9300, Bad: 8700, Limit: 180123, Seller: p(0.041), Buyer: p(0.08), Holds: true},
			{
				Of: study.AcceptanceStops, Good: 1.1, Bad: 1.4, FromLines: true, Limit: 1.25, Seller: p(0.14), Buyer: p(0.16),
				Alone: &study.AcceptanceAlone{Unit: "sets", Length: 164125, Allowed: 200, Hours: 18, Slope: 0.00124, Accept: 15, Reject: 14, End: 240000, AllowedAtEnd: 300},
			},
			{Of: study.AcceptanceClearing, Good: 50, Bad: 70, Limit: 56, Seller: p(0.6), Buyer: p(0.2), Holds: true, Planned: &study.AcceptanceRisks{Seller: 0.05, Buyer: 1e-9}, Own: &study.AcceptanceOwn{Good: 55, Bad: 71}},
			{Of: study.AcceptanceDefective, NoTest: "the bad line is no worse in it"},
		},
		FailsAny: p(0.63), PassesAll: p(0),
		Struck: study.AcceptanceStruck{Hours: 2, Buyer: p(0.3)},
		Curve:  []study.AcceptancePoint{{Faults: 1, NetRate: 9300, Passes: p(0.95)}, {Faults: 1.2, NetRate: 8700, Passes: p(0.08)}},
	}
}

func TestAcceptanceText(t *testing.T) {
	a := inventedAcceptance()
	x := Acceptance{AcceptanceAnswer: a, Origin: page.Origin{Scenario: &scenarios.Scenario{Name: "An invented line"}}, Command: "netrate accept it.yaml --bad worn"}
	text := x.Text()
	for line := range strings.Lines(text) {
		if !strings.Contains(line, "netrate accept") {
			assert.LessOrEqual(t, utf8.RuneCountInString(strings.TrimSuffix(line, "\n")), say.Prose(), line)
		}
	}
	flat := strings.Join(strings.Fields(text), " ")
	for _, want := range []string{
		"Run 2 shifts of 8 h and 4 h of another (20 h) and demand 180,123 good envelopes: a line that delivers 9,300 an hour fails in 4.1 % of all tests, and one that delivers 8,700 passes in 8 %.",
		"With all clauses the good line fails one or more in 60 % (above the 5 %), and the bad one passes all in less than 0.20 %. The two lines are not at the levels of the clauses: clearing time 55 and 71, where the clause has 50 and 70.",
		"the bad line would pass in 30 % and not in 8 %",
		"The clause on stops does not hold the risks in 20 h. The",
		"The two lines that are tested have 55 and 71: the good one fails it in 60 %, and the bad one passes it in 20 %.",
		"No clause on defective mail can be planned: the bad line is no worse in it.",
		"Mean clearing time, s: 50 70 ≤ 56 5.0 % < 0.1 %",
		"no legal advice",
		"netrate accept it.yaml --bad worn --seed 1 --reps 2000",
	} {
		assert.Contains(t, flat, want)
	}

	a.Clauses[0].Holds = false
	assert.Contains(t, AcceptanceFinding(a), "20 h do not tell the two lines apart at 5 % and 10 %. With 180,123 good envelopes demanded a line")
	a.Bad.Faults = 1.3
	assert.Contains(t, AcceptanceNotes(a)[0], "Both lines are that of the file, with all its faults 1 times as often (good) and 1.3 times (bad)")
}

// Where inputs are uncertain, the finding says what the good line risks with them drawn anew for each
// test, and the notes that the table is of chance alone; where they are not, nothing is said of draws.
func TestAcceptanceOfDrawnInputs(t *testing.T) {
	a := inventedAcceptance()
	const drawn, chance = "with the uncertain inputs drawn anew", "The risks of the table are those of chance"
	assert.NotContains(t, AcceptanceFinding(a), drawn)
	assert.NotContains(t, strings.Join(AcceptanceNotes(a), " "), chance)
	a.Drawn = &study.AcceptanceDrawn{Draws: 500, Fails: study.Proportion{Share: 0.28, Low: 0.24, High: 0.32, Level: 0.95}}
	assert.Contains(t, AcceptanceFinding(a), "That is by chance alone: with the uncertain inputs drawn anew for each test, the good line fails in 28 %.")
	assert.Contains(t, strings.Join(AcceptanceNotes(a), " "), chance)
	x := Acceptance{AcceptanceAnswer: a, Origin: page.Origin{Scenario: &scenarios.Scenario{Name: "An invented line"}}, Command: "netrate accept it.yaml --bad worn"}
	assert.Contains(t, strings.Join(strings.Fields(x.Text()), " "), "drawn anew for each test, the good line fails in 28 %.", "on the screen")
}

func TestAcceptanceShown(t *testing.T) {
	a := inventedAcceptance()
	p := study.Proportion{Share: 0.31, Low: 0.29, High: 0.33, Level: 0.95}
	a.Result = &study.AcceptanceVerdict{
		Hours:  20,
		Passes: false, Rate: study.Interval{Level: 0.95, Low: 8900, High: 9250}, Aside: 1,
		Clauses: []study.AcceptanceFound{
			{Of: study.AcceptanceRate, Counted: true, Figure: 181000, Passes: true, AsBad: p, AsGood: p},
			{Of: study.AcceptanceStops, Counted: true, Figure: 1.31, AsBad: p, AsGood: p},
			{Of: study.AcceptanceClearing},
			{Of: study.AcceptanceDefective},
		},
	}
	text := AcceptanceFinding(a)
	assert.Contains(t, text, "The line fails in its stops (clearing time not counted): 181,000 good envelopes in 20 h, where the plan demands 180,123. A good line delivers no more in 31 % of all such tests")
	assert.Contains(t, text, "a net rate between 8,900 and 9,250 an hour")
	found := AcceptanceFound(a)
	assert.Equal(t, "fails", found.Rows[1][3].Text)
	assert.Equal(t, "not counted", found.Rows[2][1].Text)
	assert.Contains(t, AcceptanceNotes(a)[0], "The limits that were not given are those of the plan: the same file")
	assert.Contains(t, AcceptanceNotes(a)[2], "1 stop is not counted")

	a.Result.Passes, a.Result.Clauses[1].Passes = true, true
	assert.Contains(t, AcceptanceFinding(a), "Not counted, so not decided: clearing time. In what was counted the line passes: 181,000")
	a.Asked, a.Clauses[0].Seller = true, study.Proportion{Share: 0.9, Low: 0.88, High: 0.92, Level: 0.95}
	assert.Contains(t, strings.Join(AcceptanceNotes(a), " "), "In 20 h a line as promised fails to deliver 180,123 in 90 % of all tests: the demand is of a longer test")
}

// Limits that are not those of the plan are named before the verdict that they make; a contract that
// gives them all is said to.
func TestAcceptanceLimitsWorkedOutAnew(t *testing.T) {
	a := inventedAcceptance()
	p := study.Proportion{Share: 0.31, Low: 0.29, High: 0.33, Level: 0.95}
	a.Result = &study.AcceptanceVerdict{Passes: true, Hours: 20, Rate: study.Interval{Level: 0.95, Low: 8900, High: 9250}, Clauses: []study.AcceptanceFound{
		{Of: study.AcceptanceRate, Counted: true, Figure: 181000, Passes: true, AsBad: p, AsGood: p}, {Of: study.AcceptanceStops}, {Of: study.AcceptanceClearing}, {Of: study.AcceptanceDefective},
	}}
	assert.NotContains(t, AcceptanceFinding(a), "NOT THE")
	a.Planned = &study.AcceptancePlanned{Hours: 21, Limit: 189000}
	a.Clauses[0].Anew, a.Clauses[1].Anew = true, true
	assert.Regexp(t, "^NOT THE LIMITS OF THE PLAN, which is of 21 h with 189,000 good envelopes: the test took 20 h, and the limits for the net rate and stops are worked out anew for that. Not counted", AcceptanceFinding(a))
	assert.Contains(t, AcceptanceFinding(a), "where so long a test demands 180,123")
	a.Planned, a.Clauses[0].Anew, a.Asked = nil, false, true
	assert.Contains(t, AcceptanceFinding(a), "where the contract demands 180,123.")
	a.Result.Hours = 20.1
	assert.Contains(t, AcceptanceFinding(a), "181,000 good envelopes in 20.1 h, where the contract demands 180,123 in 20 h.")
	a.Result.Hours = 20
	assert.Regexp(t, "^NOT THE LIMITS OF A CONTRACT for the stops: they are worked out anew for 20 h. ", AcceptanceFinding(a))
}

// The text for a contract leaves no choice that changes what a line delivers, and refers to no file.
func TestAcceptanceContractNamesItsConditions(t *testing.T) {
	x := &Acceptance{AcceptanceAnswer: inventedAcceptance(), Origin: page.Origin{Scenario: &scenarios.Scenario{Job: "letters"}}}
	x.Begins, x.Speed, x.Crew = "with an empty track, full hoppers and empty bins", 14000, model.Crew{Operators: 2}
	x.FailsAny = study.Proportion{Share: 0.0504, Low: 0.04, High: 0.065, Level: 0.95}
	s := acceptanceContract(x)
	text := strings.ReplaceAll(s.Text, "\u00a0", " ")
	assert.Contains(t, text, "The line is run for 2 shifts of exactly 8 h and a last one of 4 h, together 20 h of planned busy time. Each shift begins with an empty track, full hoppers and empty bins. "+
		"The line runs at 14,000 cycles an hour, with 2 operators, on the job “letters”, with the material that the form names. It passes")
	assert.NotContains(t, text, "of the file")
	assert.NotContains(t, text, "at most 8 h")
	assert.Contains(t, text, "Broken off. A test is broken off if it stops before it is decided")
	assert.Contains(t, text, "unless another rule is filled in here, it counts against the side that broke it off")
	assert.Contains(t, text, "5 % were asked for. By the net rate it comes to 4.1 %, by all clauses together to 5.04 % (above the 5 %).", "what is above is seen to be")
	for _, row := range s.Tables[0].Rows {
		assert.NotContains(t, row[0].Text, "Defective", "no row of a clause that could not be planned")
	}
	x.Hours = 16
	assert.Contains(t, acceptanceContract(x).Text, "for 2 shifts of exactly 8 h, together 16 h of planned busy time. Each")
}

// What was counted though no clause could be planned is said with its figure.
func TestAcceptanceCountedWithoutAClause(t *testing.T) {
	a := inventedAcceptance()
	a.Result = &study.AcceptanceVerdict{Hours: 20, Clauses: make([]study.AcceptanceFound, 4)}
	a.Clauses[2].NoTest, a.Result.Clauses[2] = "the bad line is no worse in it", study.AcceptanceFound{Of: study.AcceptanceClearing, Figure: 51.53}
	assert.Equal(t, "Clearing time: counted (51.5 s), but no clause could be planned for it: the bad line is no worse in it.", acceptanceNoClause(a, 2))
	assert.Equal(t, "51.53", AcceptanceFound(a).Rows[2][1].Shown)
}

// A net rate is shown as it was promised; what the made lines deliver is said with its ±, once, and so is
// what the file delivers.
func TestAcceptanceSaysWhatWasPromised(t *testing.T) {
	a := inventedAcceptance()
	a.Good.Asked, a.Bad.Asked, a.Good.Faults = 9300, 8700, 1.2
	a.Good.NetRate, a.Bad.NetRate = study.Mean{Mean: 9288, Half: 6}, study.Mean{Mean: 8693, Half: 6}
	for written, want := range map[study.Number]string{
		8650: "delivers 8,650 ± 9 an hour: less than the 9,300 that are promised, and no more than what is unacceptable.",
		9000: "delivers 9,000 ± 9 an hour, less than the 9,300 that are promised.",
		9305: "delivers 9,305 ± 9 an hour, as is promised.",
		9700: "delivers 9,700 ± 9 an hour, more than the 9,300 that are promised.",
	} {
		a.Written = &study.Mean{Mean: written, Half: 9}
		assert.Contains(t, AcceptanceFinding(a), want)
	}
	assert.NotContains(t, AcceptanceFinding(a), "9,288")
	assert.Contains(t, AcceptanceNotes(a)[0], "They are made for 9,300 and 8,700 an hour in a shift; in tests of 20 h they deliver 9,288 ± 6 and 8,693 ± 6.")
}

// Of a file with a design it is said which line is tested, and how one with choices of it is.
func TestAcceptanceSaysWhichLineIsTested(t *testing.T) {
	sc := &scenarios.Scenario{Name: "An invented line"}
	x := Acceptance{AcceptanceAnswer: inventedAcceptance(), Origin: page.Origin{Scenario: sc}, Command: "netrate accept it.yaml"}
	x.Written = &study.Mean{Mean: 9300, Half: 9}
	assert.NotContains(t, x.finding(), "design")
	sc.Design = &scenarios.Design{}
	assert.Contains(t, x.finding(), " Tested is the file as it stands, with nothing of what its design offers: --choice NAME, once for each choice, tests the line with them.")
	sc.Variant = "worn"
	assert.Contains(t, x.finding(), " Tested is its variant “worn”, with nothing of what its design offers")
	sc.Variant, sc.Chosen, sc.Design = "", []string{"gate", "long belt"}, nil
	assert.Contains(t, x.finding(), " Tested is the file with “gate” and “long belt” of its design.")
}

// How long a test must be is known as well as the simulated tests tell, and that is said with it.
func TestAcceptanceSaysHowSureItsLengthIs(t *testing.T) {
	a := inventedAcceptance()
	assert.NotContains(t, AcceptanceFinding(a), "shortest")
	a.Between = &study.AcceptanceBetween{Low: 17}
	assert.Contains(t, AcceptanceFinding(a), "2,000 simulated tests of each line do not say how long the shortest test by the net rate alone is: 3 shifts or more, counted in hours 17 or more (95 %).")
	a.Between.High = new(study.Number(24.5))
	assert.Contains(t, AcceptanceFinding(a), "By 2,000 simulated tests of each line the shortest test by the net rate alone takes 3 or 4 shifts; counted in hours, between 17 and 24.5 h (95 %).")
}

// How long a test is is said in shifts, and in hours where these are not the same.
func TestAcceptanceSaysItsShifts(t *testing.T) {
	a := inventedAcceptance()
	for hours, want := range map[study.Number][2]string{
		8:     {"1 shift of 8 h", "1 shift of exactly 8 h"},
		24:    {"3 shifts of 8 h (24 h)", "3 shifts of exactly 8 h, together 24 h"},
		24.25: {"3 shifts of 8 h and 0.25 h of another (24.25 h)", "3 shifts of exactly 8 h and a last one of 0.25 h, together 24.25 h"},
		3:     {"3 h of a shift of 8 h", "3 h, within one shift of 8 h,"},
	} {
		a.Hours = hours
		assert.Equal(t, want, [2]string{acceptanceRun(a), acceptanceShifts(a)})
	}
	a.Shift, a.Hours = 22.0/3, 22
	assert.Equal(t, "3 shifts of 7.33 h (22 h)", acceptanceRun(a))
}

// A risk that is above the one asked for is never rounded to it, of one clause or of all, in a sentence or in a
// table; one that is not above it never seems to be.
func TestAcceptanceRisksBesideThoseAskedFor(t *testing.T) {
	p := func(share study.Number) study.Proportion {
		return study.Proportion{Share: share, Low: share * 0.8, High: share * 1.2, Level: 0.95}
	}
	for share, want := range map[study.Number]string{0.0504: "5.04 %", 0.053: "5.3 %", 0.046: "4.6 %", 0.05: "5.0 %", 0.09: "9 %", 0.012: "1.2 %"} {
		assert.Equal(t, want, acceptanceBeside(p(share), 0.05))
		assert.Equal(t, want, acceptanceShort(p(share), 0.05))
	}
	a := inventedAcceptance()
	a.Clauses[0].Seller, a.Clauses[0].Holds, a.Asked = p(0.0504), false, true
	assert.Contains(t, AcceptanceFinding(a), "demanded in 20 h a line that delivers 9,300 an hour fails in 5.04 % of all tests, and one that delivers 8,700 passes in 8 %, where 5 % and 10 % were asked for.")
}

// Limits that were chosen are said with what chance makes of them; of those that are signed it is said whether
// this file comes to the same.
func TestAcceptanceSaysWhetherItsLimitsAreThoseSigned(t *testing.T) {
	a := inventedAcceptance()
	rate, stops := &a.Clauses[0], &a.Clauses[1]
	rate.Chosen, stops.Chosen = &study.AcceptanceLimit{Limit: 180123, Within: 342}, &study.AcceptanceLimit{Limit: 1.25, Within: 0.0077}
	notes := func() string { return strings.Join(acceptanceLimits(a), " ") }
	assert.Contains(t, notes(), "by other random events they may differ by 340 good envelopes and 0.0077 for the stops (95 %).")
	a.Asked, stops.Asked = true, true
	assert.Equal(t, "The limits of the contract are the very ones that this file, these options and this seed come to.", notes())
	rate.Limit = 180500
	assert.Contains(t, notes(), "would have 180,123 good envelopes and not 180,500: as near to what is signed as other random events bring it.")
	stops.Limit = 1.3125
	assert.Contains(t, notes(), "would have 1.25 for the stops and not 1.3125. That is further from what is signed than the chance in 2,000 tests brings it: either the contract was agreed otherwise or planned with fewer tests, or the file or the options are not those of the plan.")
}

// The words for a contract have both tests where both are planned, with the limits of each.
func TestAcceptanceContractHasBothTests(t *testing.T) {
	a := inventedAcceptance()
	p := study.Proportion{Share: 0.03, Low: 0.02, High: 0.04, Level: 0.95}
	assert.NotContains(t, acceptanceContract(&Acceptance{AcceptanceAnswer: a, Origin: page.Origin{Scenario: &scenarios.Scenario{}}}).Text, "Two tests were planned")
	a.Stages = &study.AcceptanceStages{
		Seller: p, Buyer: p, FailsAny: &p, PassesAll: &p, MeanGood: 12, MeanBad: 13,
		Shifts: []study.AcceptanceStage{{Hours: 8, Fails: new(study.Number(70_000))}, {Hours: 16, Passes: new(study.Number(144_000)), Fails: new(study.Number(144_000))}},
	}
	a.Clauses[2].AtEnds = []study.AcceptanceRisks{{Seller: 0.16, Buyer: 0.14}, {Seller: 0.08, Buyer: 0.06}}
	contract := acceptanceContract(&Acceptance{AcceptanceAnswer: a, Origin: page.Origin{Scenario: &scenarios.Scenario{}}})
	for _, want := range []string{"A. The test of fixed length.", "B. The test that may end after each shift.", "After 16 h it ends in any case: 144,000 pass, and fewer fail.", "The other clauses are those of test A, judged when the test ends"} {
		assert.Contains(t, contract.Text, want)
	}
	require.Len(t, contract.Tables, 3)
	assert.Equal(t, "16.0 %", contract.Tables[2].Rows[0][2].Shown, "of a test that ends after its first shift")
	assert.Equal(t, "–", contract.Tables[1].Rows[0][1].Text, "none passes after the first shift")

	a.Result = &study.AcceptanceVerdict{
		Hours:   20,
		Decided: &study.AcceptanceEnded{Over: true, Parts: 1, Good: 69_000, Hours: 8, Looks: []study.AcceptanceLook{{Hours: 8, Good: 69_000, Passes: study.Number(math.Inf(1)), Fails: 70_000}}},
		Clauses: []study.AcceptanceFound{{Of: study.AcceptanceRate, Counted: true, Figure: 69_000, AsBad: p, AsGood: p}, {Of: study.AcceptanceStops}, {Of: study.AcceptanceClearing}, {Of: study.AcceptanceDefective}},
	}
	assert.Equal(t, "–", AcceptanceFound(a).Rows[0][2].Text)
	a.Result.Decided.Looks[0].Passes = 144_000
	assert.Equal(t, "144,000", AcceptanceFound(a).Rows[0][2].Shown, "envelopes are whole")
}

// The page has the words for a contract, a form with a row for each shift and one for their sum, the
// operating characteristic, and the plans by themselves.
func TestAcceptanceReport(t *testing.T) {
	sc, err := scenarios.ExampleNamed("tender")
	require.NoError(t, err)
	read, err := scenarios.Load("tender.yaml", sc.Data)
	require.NoError(t, err)
	r, err := Acceptance{AcceptanceAnswer: inventedAcceptance(), Origin: page.Origin{Scenario: read, Text: sc.Data}}.Report("test")
	require.NoError(t, err)
	var html strings.Builder
	require.NoError(t, r.Page.HTML(&html))
	for _, want := range []string{
		"For the contract", "3. Clearing time: on average at most 56 s from the operator’s arrival", "planned busy time (PBT in the words of ISO 22400-2)",
		"no legal advice", "accept once the number counted is at most 0.0012400 × n − 15", "Operating characteristic", "What the model leaves out",
	} {
		assert.Contains(t, html.String(), want)
	}
	for _, table := range r.Tables {
		if table.Name == "Form" {
			assert.Len(t, table.Rows, 3+1)
		}
	}
	require.Len(t, r.Figures, 1)
	assert.Equal(t, "operating-characteristic", r.Figures[0].Name)
}

// Chance may turn two points of the curve round, or make them the same: the figure has each rate once, from the slowest.
func TestCurveGoesByNetRate(t *testing.T) {
	var rates []study.Number
	for _, p := range byNetRate([]study.AcceptancePoint{{NetRate: 3040}, {NetRate: 3050}, {NetRate: 2000}, {NetRate: 2000}}) {
		rates = append(rates, p.NetRate)
	}
	assert.Equal(t, []study.Number{2000, 3040, 3050}, rates)
}
