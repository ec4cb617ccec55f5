package present

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/model/study"
)

// A clearing time sixty times too short is asked about, in the answer itself; a short one is not.
func TestAcceptanceSlip(t *testing.T) {
	a := inventedAcceptance()
	a.Clauses = a.Clauses[:3]
	a.Result = &study.AcceptanceVerdict{Passes: true, Clauses: []study.AcceptanceFound{{Counted: true}, {Counted: true}, {Of: study.AcceptanceClearing, Counted: true, Figure: 50. / 60}}}
	assert.Contains(t, AcceptanceFinding(a), "LOOK AGAIN: a mean clearing time of 0.8333 s is hardly any, where a good line has 50 s. Were minutes written for seconds?")
	a.Result.Clauses[2].Figure = 3
	assert.NotContains(t, AcceptanceFinding(a), "LOOK AGAIN")
	a.Result.Clauses[2].Counted, a.Result.Clauses[2].Figure = false, 0
	assert.NotContains(t, AcceptanceFinding(a), "LOOK AGAIN")
}
