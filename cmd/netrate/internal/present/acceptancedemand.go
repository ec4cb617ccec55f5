package present

import (
	"fmt"
	"math"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
)

// acceptanceDemand returns what a line must show to pass a clause.
func acceptanceDemand(c *study.AcceptanceClause, a *study.AcceptanceAnswer) string {
	switch c.Of {
	case study.AcceptanceRate:
		return fmt.Sprintf("at least %s good envelopes in %s h", acceptanceLimit(c), acceptanceHours(a.Hours))
	case study.AcceptanceStops:
		return fmt.Sprintf("at most %s stops for faults in 1,000 sets started%s", acceptanceLimit(c), acceptanceAllowed(c, a))
	case study.AcceptanceClearing:
		return fmt.Sprintf("on average at most %s s from the operator’s arrival to the end of clearing; the mean is not rounded before it is compared", acceptanceLimit(c))
	case study.AcceptanceTakenOut:
		return fmt.Sprintf("at most %s sets diverted or outsorted in 1,000 started%s", acceptanceLimit(c), acceptanceAllowed(c, a))
	case study.AcceptanceDefective:
	}
	return fmt.Sprintf("at most %s defective envelopes in a million delivered%s", acceptanceLimit(c), acceptanceAllowed(c, a))
}

// acceptanceAllowed says how many a limit allows in a test: in that which was run or, of a plan, in one of the
// usual size.
func acceptanceAllowed(c *study.AcceptanceClause, a *study.AcceptanceAnswer) string {
	pieces, most, of := acceptanceUsual(c, a)
	if a.Result != nil {
		for i := range a.Result.Clauses {
			if x := a.Result.Clauses[i].Whole; x != nil && a.Result.Clauses[i].Of == c.Of {
				pieces, most, of = float64(x.Pieces), x.Most, "the test"
			}
		}
	}
	pieceName := "sets"
	if c.Of == study.AcceptanceDefective {
		pieceName = "envelopes"
	}
	return fmt.Sprintf(". The number allowed is that rate times the %s of the test, rounded down: at most %s in the %s %s of %s%s",
		pieceName, say.Rounded(float64(most), 0), say.Rounded(pieces, 0), pieceName, of, acceptanceSteps(c, most))
}

// fewAllowed is the number allowed below which it is said in how many pieces it is another: one more or less is then
// much of it.
const fewAllowed = 10

// acceptanceSteps says of a few that are allowed in how many pieces there is one less or one more.
func acceptanceSteps(c *study.AcceptanceClause, most study.Number) string {
	if most >= fewAllowed {
		return ""
	}
	more := fmt.Sprintf("%s from %s on", say.Rounded(float64(most+1), 0), say.Rounded(c.From(most+1), 0))
	if most < 1 {
		return " (" + more + ")"
	}
	return fmt.Sprintf(" (%s in fewer than %s, %s)", say.Rounded(float64(most-1), 0), say.Rounded(c.From(most), 0), more)
}

// acceptanceUsual returns the pieces of a test of the good line, and how many a limit allows in them.
func acceptanceUsual(c *study.AcceptanceClause, a *study.AcceptanceAnswer) (pieces float64, most study.Number, of string) {
	if pieces = math.Round(float64(a.Good.Sets)); c.Of == study.AcceptanceDefective {
		pieces = math.Round(float64(a.Good.NetRate.Mean * a.Hours))
	}
	return pieces, c.Most(pieces), "an average test of the good line"
}
