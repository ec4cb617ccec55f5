package present

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/model/study"
)

// A test that was run in other shifts than those of its plan says so before its verdict, and what that does to the
// risks; where the verdict would have a larger risk than was agreed there is none.
func TestAcceptanceInOtherShifts(t *testing.T) {
	a := inventedAcceptance()
	p := func(share study.Number) study.Proportion {
		return study.Proportion{Share: share, Low: 0.8 * share, High: 1.2 * share, Level: 0.95}
	}
	a.Clauses = a.Clauses[:1]
	a.Begins = "with full hoppers"
	a.Result = &study.AcceptanceVerdict{Passes: true, Hours: 20, Rate: study.Interval{Level: 0.95, Low: 8900, High: 9250}, Clauses: []study.AcceptanceFound{
		{Of: study.AcceptanceRate, Counted: true, Passes: true, Figure: 181_000, AsBad: p(0.31), AsGood: p(0.31)},
	}}
	assert.Empty(t, acceptanceOtherShifts(a))
	assert.Empty(t, acceptanceShiftNotes(a))

	a.Result.Shifts = &study.AcceptanceShifts{Planned: 3, Rows: 10, Shortest: 1.5, Longest: 2.5, Risks: &study.AcceptanceShiftRisks{Seller: p(0.01), Buyer: p(0.3)}}
	assert.Regexp(t, "^NOT THE SHIFTS OF THE PLAN: it has 2 shifts of 8 h and 4 h of another .20 h., and the counts are of 10 rows of 1.5 to 2.5 h. The line passes: 181,000", AcceptanceFinding(a))
	assert.Contains(t, strings.Join(AcceptanceNotes(a), "\n"), "In the shifts that the rows have, the good line fails by the same number of good envelopes in 1.0 %, and the bad one passes in 30 %; in those of the plan it is 4.1 % and 8 %.")
	a.Asked = true
	assert.Contains(t, AcceptanceFinding(a), "NOT THE SHIFTS OF THE CONTRACT")

	f := &a.Result.Clauses[0]
	f.Passes, f.NotJudged, a.Result.Passes, a.Result.NotJudged = false, true, false, true
	assert.Contains(t, AcceptanceFinding(a), "NOT JUDGED: 181,000 good envelopes in 20 h are to be compared with 180,123; that would pass, but in such shifts a bad line passes in 30 % of all tests, where the plan has 8 %. "+
		"Run the test in the shifts of the plan, or agree on what it counts for.")
	assert.Equal(t, "not judged", AcceptanceFound(a).Rows[0][3].Text)
	f.Figure = 180_000
	assert.Contains(t, AcceptanceFinding(a), "that would fail, but in such shifts a good line fails in 1.0 % of all tests, where the plan has 4.1 %.")

	a.Result.Shifts = &study.AcceptanceShifts{Planned: 3, Rows: 1, Shortest: 20, Longest: 20, Unknown: true}
	assert.Empty(t, acceptanceOtherShifts(a), "they are sums")
	assert.Contains(t, acceptanceShiftNotes(a)[0], "The counts are in 1 row of 20 h: whether the shifts were those of the plan")
}
