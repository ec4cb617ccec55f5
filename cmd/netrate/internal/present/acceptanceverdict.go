package present

import (
	"fmt"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
)

// What a test has shown that was run.

// acceptanceShown returns what a test has shown.
func acceptanceShown(a *study.AcceptanceAnswer) string {
	v := a.Result
	var failed, open []string
	for i, f := range v.Clauses {
		switch {
		case !f.Counted && a.Clauses[i].NoTest == "":
			open = append(open, acceptanceName(&a.Clauses[i]))
		case f.Counted && !f.Passes && !f.NotJudged:
			failed = append(failed, acceptanceName(&a.Clauses[i]))
		}
	}
	if d := v.Decided; d != nil && !d.Over {
		return acceptanceGoesOn(a)
	}
	if v.Cut != nil {
		return acceptanceCut(a, failed, open)
	}
	if v.NotJudged {
		return acceptanceAnew(a) + acceptanceOtherShifts(a) + acceptanceNotBorne(a)
	}
	first := "The line passes"
	if len(open) > 0 {
		first = "Not counted, so not decided: " + say.List(open) + ". In what was counted the line passes"
	}
	if !v.Passes {
		first = "The line fails in its " + say.List(failed)
		if len(open) > 0 {
			first += " (" + say.List(open) + " not counted)"
		}
	}
	if v.Decided != nil {
		return first + ": " + acceptanceEnded(a)
	}
	rate := &v.Clauses[0]
	return acceptanceAnew(a) + acceptanceOtherShifts(a) + fmt.Sprintf("%s: %s good envelopes in %s h, where %s. %s",
		first, say.Rounded(float64(rate.Figure), 0), acceptanceHours(v.Hours), acceptanceDemanded(a), acceptanceSeen(v))
}

// acceptanceSeen says what the good envelopes of a test show of the line.
func acceptanceSeen(v *study.AcceptanceVerdict) string {
	rate := &v.Clauses[0]
	return fmt.Sprintf("A good line delivers no more in %s of all such tests, a bad one no less in %s. The test shows a net rate between %s and %s an hour (%s).",
		acceptanceRisk(rate.AsBad), acceptanceRisk(rate.AsGood),
		say.Rounded(float64(v.Rate.Low), 0), say.Rounded(float64(v.Rate.High), 0), acceptanceAsked(v.Rate.Level))
}

// acceptanceAnew says which limits are not those of the plan, and so of no page that was signed, before
// anything that they decide; "" if all are.
func acceptanceAnew(a *study.AcceptanceAnswer) string {
	var names []string
	for i := range a.Clauses {
		if a.Clauses[i].Anew {
			names = append(names, acceptanceName(&a.Clauses[i]))
		}
	}
	p := a.Planned
	switch {
	case p == nil && names == nil:
		return ""
	case p == nil:
		return fmt.Sprintf("NOT THE LIMITS OF A CONTRACT for the %s: they are worked out anew for %s h. ", say.List(names), acceptanceHours(a.Hours))
	}
	return fmt.Sprintf("NOT THE LIMITS OF THE PLAN, which is of %s h with %s good envelopes: the test took %s h, and the limits for the %s are worked out anew for that. ",
		acceptanceHours(p.Hours), say.Rounded(float64(p.Limit), 0), acceptanceHours(a.Hours), say.List(names))
}

// acceptanceDemanded says how many good envelopes are demanded, and by what.
func acceptanceDemanded(a *study.AcceptanceAnswer) string {
	limit := acceptanceLimit(&a.Clauses[0])
	switch {
	case a.Asked && acceptanceHours(a.Hours) != acceptanceHours(a.Result.Hours):
		return "the contract demands " + limit + " in " + acceptanceHours(a.Hours) + " h"
	case a.Asked:
		return "the contract demands " + limit
	case a.Planned != nil:
		return "so long a test demands " + limit
	}
	return "the plan demands " + limit
}

// acceptanceWhose says whose limits a test was judged by, if they are those of the plan.
func acceptanceWhose(a *study.AcceptanceAnswer) []string {
	staged := a.Stages != nil && !a.Stages.Asked
	if a.Result == nil || a.Stages == nil && (a.Asked || a.Planned != nil) || a.Stages != nil && !staged {
		return nil
	}
	with := "--hours, --demand and --limit"
	if staged {
		with = "--stages and --limit"
	}
	return []string{fmt.Sprintf("The limits that were not given are those of the plan: the same file, options, seed and number of tests have the same. If what was signed has others, it decides: give it with %s.", with)}
}
