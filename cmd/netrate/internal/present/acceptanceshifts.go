package present

import (
	"fmt"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
)

// A test that was run in other shifts than those of its plan.

// acceptanceOtherShifts says so before anything that was decided; "" if it was run in the same, the rows of its
// counts do not tell, or its limits are those between shifts too, as where it may end after each.
func acceptanceOtherShifts(a *study.AcceptanceAnswer) string {
	x := a.Result.Shifts
	if x == nil || x.Unknown || a.Result.Decided != nil {
		return ""
	}
	whose, has := "PLAN", acceptanceRun(a)
	if a.Asked {
		whose = "CONTRACT"
	}
	if a.Result.Cut != nil { // of other hours than those that were run
		has = "shifts of " + acceptanceHours(a.Shift) + " h"
	}
	return fmt.Sprintf("NOT THE SHIFTS OF THE %s: it has %s, and the counts are of %s. ", whose, has, acceptanceRows(x))
}

// acceptanceRows returns how many rows there are, and how long they are.
func acceptanceRows(x *study.AcceptanceShifts) string {
	length := acceptanceHours(x.Shortest)
	if longest := acceptanceHours(x.Longest); longest != length {
		length += " to " + longest
	}
	return fmt.Sprintf("%s of %s h", say.Plural(x.Rows, "row"), length)
}

// acceptanceNotBorne says of a test in other shifts why its net rate is not judged, and what is to be done.
func acceptanceNotBorne(a *study.AcceptanceAnswer) string {
	v, r := a.Result, a.Result.Shifts.Risks
	rate := &v.Clauses[0]
	decides := fmt.Sprintf("that would pass, but in such shifts a bad line passes in %s of all tests, where the plan has %s", acceptanceRisk(r.Buyer), acceptanceRisk(a.Clauses[0].Buyer))
	if !a.Clauses[0].Passes(float64(rate.Figure)) {
		decides = fmt.Sprintf("that would fail, but in such shifts a good line fails in %s of all tests, where the plan has %s", acceptanceRisk(r.Seller), acceptanceRisk(a.Clauses[0].Seller))
	}
	return fmt.Sprintf("NOT JUDGED: %s good envelopes in %s h are to be compared with %s; %s. Run the test in the shifts of the plan, or agree on what it counts for. %s",
		say.Rounded(float64(rate.Figure), 0), acceptanceHours(v.Hours), acceptanceLimit(&a.Clauses[0]), decides, acceptanceSeen(v))
}

// acceptanceShiftNotes says what other shifts than those of the plan do to the risks.
func acceptanceShiftNotes(a *study.AcceptanceAnswer) []string {
	if a.Result == nil || a.Result.Shifts == nil {
		return nil
	}
	x := a.Result.Shifts
	begins := fmt.Sprintf("Each shift begins %s, so that more of them, or fewer and longer ones, are another test. ", a.Begins)
	switch {
	case x.Unknown:
		return []string{fmt.Sprintf("The counts are in %s: whether the shifts were those of the plan, %s, they do not say. %sA row for each shift would tell.", acceptanceRows(x), acceptanceRun(a), begins)}
	case x.Risks == nil:
		return []string{fmt.Sprintf("The counts are in %s, and the shifts of the plan are of %s h. %sThe risks are those of shifts as they are planned. If rows are parts of shifts, add up those of each.", acceptanceRows(x), acceptanceHours(a.Shift), begins)}
	}
	c, r := &a.Clauses[0], x.Risks
	text := fmt.Sprintf("%sIn the shifts that the rows have, the good line fails by the same number of good envelopes in %s, and the bad one passes in %s; in those of the plan it is %s and %s.",
		begins, acceptanceRisk(r.Seller), acceptanceRisk(r.Buyer), acceptanceRisk(c.Seller), acceptanceRisk(c.Buyer))
	if len(a.Clauses) > 1 {
		text += fmt.Sprintf(" By all clauses it is %s and %s; in the shifts of the plan %s and %s.", acceptanceRisk(r.FailsAny), acceptanceRisk(r.PassesAll), acceptanceRisk(a.FailsAny), acceptanceRisk(a.PassesAll))
	}
	return []string{text + " If rows are parts of shifts, add up those of each."}
}
