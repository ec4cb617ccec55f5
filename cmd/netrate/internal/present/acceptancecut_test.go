package present

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/cmd/netrate/internal/page"
	"netrate/model/study"
)

// cutAcceptance is a contract of 16 h with 144,000 good envelopes, and a test that took other hours.
func cutAcceptance(hours study.Number, clauses ...study.AcceptanceFound) *study.AcceptanceAnswer {
	a := inventedAcceptance()
	p := study.Proportion{Share: 0.31, Low: 0.29, High: 0.33, Level: 0.95}
	a.Clauses = a.Clauses[:len(clauses)]
	a.Asked, a.Clauses[0].Anew, a.Planned = true, true, &study.AcceptancePlanned{Hours: 16, Limit: 144_000}
	a.Result = &study.AcceptanceVerdict{Passes: true, Hours: hours, Rate: study.Interval{Level: 0.95, Low: 8900, High: 9250}, Clauses: clauses}
	a.Result.Cut = &study.AcceptanceCut{Left: 16 - hours, Clocks: 0.08, Speed: 12_000, Most: 48_960}
	for i := range clauses {
		f := &clauses[i]
		f.Of, f.Counted, f.AsBad, f.AsGood = a.Clauses[i].Of, true, p, p
		a.Result.NotJudged = a.Result.NotJudged || f.NotJudged
		a.Result.Passes = a.Result.Passes && f.Passes
		if i > 0 {
			f.Whole = &study.AcceptanceCount{Count: 500, Pieces: 120_000, Most: 150}
		}
	}
	return a
}

// A demand that was signed is of its hours: a test of others neither passes nor fails by it where it could have gone
// either way, whatever so long a test would demand.
func TestAcceptanceOfOtherHoursIsNotJudged(t *testing.T) {
	a := cutAcceptance(20, study.AcceptanceFound{NotJudged: true, Figure: 178_000})
	text := AcceptanceFinding(a)
	assert.Contains(t, text, "NOT DECIDED BY THE CONTRACT: the test took 20 h, and the contract is of 16 h. It demands 144,000 good envelopes in these, and 178,000 were delivered. "+
		"In the hours between (4 h, and 0.08 h by which clocks may be off) the line runs at most 48,960 cycles, at 12,000 an hour. "+
		"Open: net rate. Cut the counts to the first 16 h. For information, and no verdict: a test of 20 h would demand 180,123")
	assert.Contains(t, text, "between 8,900 and 9,250 an hour (95 %).")
	assert.NotContains(t, text, "passes")
	assert.NotContains(t, text, "fails")
	assert.Equal(t, "not judged", AcceptanceFound(a).Rows[0][3].Text)
	for _, s := range AcceptanceSections(&Acceptance{AcceptanceAnswer: a}, &page.Report{}) {
		assert.NotEqual(t, "For the contract", s.Heading)
	}
	a = cutAcceptance(12, study.AcceptanceFound{NotJudged: true, Figure: 110_000})
	assert.Contains(t, AcceptanceFinding(a), "Open: net rate. Run on to the 16 h that are signed; if the test was broken off for good, what the contract says of that applies. For")
}

// Where nothing that could come makes a difference, the verdict says so, with the figures that decide; what is left
// open then does not matter.
func TestAcceptanceOfOtherHoursIsJudgedWhereItIsSettled(t *testing.T) {
	a := cutAcceptance(12, study.AcceptanceFound{Passes: true, Figure: 145_000}, study.AcceptanceFound{NotJudged: true})
	text := AcceptanceFinding(a)
	assert.Contains(t, text, "NOT DECIDED BY THE CONTRACT")
	assert.Contains(t, text, "The 144,000 good envelopes that are demanded are reached already: there are 145,000 in 12 h. Open: stops. Run on")
	assert.NotContains(t, text, "For information")
	found := AcceptanceFound(a)
	assert.Equal(t, "passes", found.Rows[0][3].Text)
	assert.Equal(t, "144,000", found.Rows[0][2].Shown, "and not the limit of so short a test")
	assert.Equal(t, "Stops for faults in 1,000 sets (500)", found.Rows[1][0].Text)

	a = cutAcceptance(12, study.AcceptanceFound{Passes: true, Figure: 145_000})
	assert.Regexp(t, "^The line passes, whatever could still come: the test took 12 h, and the contract is of 16 h. ", AcceptanceFinding(a))

	a = cutAcceptance(12, study.AcceptanceFound{Figure: 90_000}, study.AcceptanceFound{NotJudged: true})
	a.Result.NotJudged = false
	text = AcceptanceFinding(a)
	assert.Regexp(t, "^The line fails in its net rate, whatever could still come: ", text)
	assert.Contains(t, text, "can no longer be reached: there are 90,000 in 12 h. Open, and of no consequence: stops.")

	a = cutAcceptance(12, study.AcceptanceFound{NotJudged: true, Figure: 110_000}, study.AcceptanceFound{})
	a.Result.NotJudged, a.Clauses[1].Asked = false, true
	text = AcceptanceFinding(a)
	assert.Regexp(t, "^The line fails in its stops, whatever", text)
	assert.Contains(t, text, "For the stops the line is above the limit of 1.25, even if no more came: there are 500 in 120,000.")

	a = cutAcceptance(18, study.AcceptanceFound{Passes: true, Figure: 200_000}, study.AcceptanceFound{Passes: true})
	text = AcceptanceFinding(a)
	assert.Regexp(t, "^The line passes, whatever came in the hours beyond those that were signed: ", text)
	assert.Contains(t, text, "were reached in the hours that are signed: there are 200,000 in 18 h.")
	assert.Contains(t, text, "within the limit of 1.25, even if all of them came in the hours that are signed")
	a.Result.Clauses[0].Passes, a.Result.Passes = false, false
	assert.Contains(t, AcceptanceFinding(a), "were not reached even so: there are 200,000 in 18 h.")
}
