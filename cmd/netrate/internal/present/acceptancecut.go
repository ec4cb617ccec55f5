package present

import (
	"fmt"
	"math"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
)

// A test that took other hours than those that were signed, since it was broken off, is not over or ran beyond them.

// acceptanceCut says of such a test what is decided whatever came in the hours between, by which figures, and what is
// to be done about the rest.
func acceptanceCut(a *study.AcceptanceAnswer, failed, uncounted []string) string {
	v, p := a.Result, a.Planned
	var settled, open []string
	for i := range v.Clauses {
		switch f, c := &v.Clauses[i], &a.Clauses[i]; {
		case !f.Counted:
		case f.NotJudged:
			open = append(open, acceptanceName(c))
		default:
			settled = append(settled, acceptanceSettled(a, i))
		}
	}
	hours := fmt.Sprintf("the test took %s h, and the contract is of %s h", acceptanceHours(v.Hours), acceptanceHours(p.Hours))
	text := ""
	switch {
	case v.NotJudged:
		text = fmt.Sprintf("NOT DECIDED BY THE CONTRACT: %s. It demands %s good envelopes in these, and %s were delivered. ", hours, say.Rounded(float64(p.Limit), 0), say.Rounded(float64(v.Clauses[0].Figure), 0))
	case !v.Passes:
		text = fmt.Sprintf("The line fails in its %s, whatever %s: %s. ", say.List(failed), acceptanceBetweenHours(v.Cut), hours)
	case len(uncounted) > 0:
		text = fmt.Sprintf("In what was counted the line passes, whatever %s: %s. ", acceptanceBetweenHours(v.Cut), hours)
	default:
		text = fmt.Sprintf("The line passes, whatever %s: %s. ", acceptanceBetweenHours(v.Cut), hours)
	}
	text += acceptanceOtherShifts(a) + acceptanceCycles(v.Cut)
	for _, s := range settled {
		text += s + " "
	}
	if len(uncounted) > 0 {
		text += "Not counted, so not decided: " + say.List(uncounted) + ". "
	}
	return text + acceptanceLeftOpen(v, p, open) + acceptanceForInformation(a)
}

// acceptanceBetweenHours names what is not known of a test of other hours.
func acceptanceBetweenHours(x *study.AcceptanceCut) string {
	if x.Left < 0 {
		return "came in the hours beyond those that were signed"
	}
	return "could still come"
}

// acceptanceLeftOpen says which clauses are open, and what is to be done; "" if none are.
func acceptanceLeftOpen(v *study.AcceptanceVerdict, p *study.AcceptancePlanned, open []string) string {
	switch {
	case open == nil:
		return ""
	case !v.NotJudged:
		return "Open, and of no consequence: " + say.List(open) + ". "
	case v.Cut.Left < 0:
		return fmt.Sprintf("Open: %s. Cut the counts to the first %s h. ", say.List(open), acceptanceHours(p.Hours))
	}
	return fmt.Sprintf("Open: %s. Run on to the %s h that are signed; if the test was broken off for good, what the contract says of that applies. ", say.List(open), acceptanceHours(p.Hours))
}

// acceptanceCycles says how much more can have come in the hours between.
func acceptanceCycles(x *study.AcceptanceCut) string {
	return fmt.Sprintf("In the hours between (%s h, and %s h by which clocks may be off) the line runs at most %s cycles, at %s an hour. ",
		acceptanceHours(study.Number(math.Abs(float64(x.Left)))), acceptanceHours(x.Clocks), say.Rounded(float64(x.Most), 0), say.Rounded(float64(x.Speed), 0))
}

// acceptanceSettled says by which figures a clause is decided.
func acceptanceSettled(a *study.AcceptanceAnswer, i int) string {
	f, x := &a.Result.Clauses[i], a.Result.Cut
	if f.Of != study.AcceptanceRate {
		return acceptanceCountSettled(a, i)
	}
	demand := say.Rounded(float64(a.Planned.Limit), 0) + " good envelopes that are demanded"
	seen := fmt.Sprintf("%s in %s h", say.Rounded(float64(f.Figure), 0), acceptanceHours(a.Result.Hours))
	switch {
	case f.Passes && x.Left < 0:
		return fmt.Sprintf("The %s were reached in the hours that are signed: there are %s.", demand, seen)
	case f.Passes:
		return fmt.Sprintf("The %s are reached already: there are %s.", demand, seen)
	case x.Left < 0:
		return fmt.Sprintf("The %s were not reached even so: there are %s.", demand, seen)
	}
	return fmt.Sprintf("The %s can no longer be reached: there are %s.", demand, seen)
}

// acceptanceCountSettled is acceptanceSettled of a clause on a count.
func acceptanceCountSettled(a *study.AcceptanceAnswer, i int) string {
	f, x, c := &a.Result.Clauses[i], a.Result.Cut, &a.Clauses[i]
	than, even := "within", "if one more came in every cycle"
	switch {
	case !f.Passes && x.Left < 0:
		than, even = "above", "if one came in every cycle beyond the hours that are signed"
	case !f.Passes:
		than, even = "above", "if no more came"
	case x.Left < 0:
		even = "if all of them came in the hours that are signed"
	}
	return fmt.Sprintf("For the %s the line is %s the limit of %s, even %s: there are %s in %s.", acceptanceName(c), than, acceptanceLimit(c), even,
		say.Rounded(float64(f.Whole.Count), 0), say.Rounded(float64(f.Whole.Pieces), 0))
}

// acceptanceForInformation says what a test of the hours that were taken would demand, where the net rate is open; ""
// where it is decided.
func acceptanceForInformation(a *study.AcceptanceAnswer) string {
	v := a.Result
	if !v.Clauses[0].NotJudged {
		return acceptanceSeen(v)
	}
	return fmt.Sprintf("For information, and no verdict: a test of %s h would demand %s by the risks that were asked for, worked out anew. ",
		acceptanceHours(v.Hours), acceptanceLimit(&a.Clauses[0])) + acceptanceAnewToo(a) + acceptanceSeen(v)
}

// acceptanceAnewToo names the limits beside that of the net rate that are of no page that was signed; "" if
// there are none.
func acceptanceAnewToo(a *study.AcceptanceAnswer) string {
	var names []string
	for i := range a.Clauses[1:] {
		if c := &a.Clauses[1+i]; c.Anew {
			names = append(names, acceptanceName(c))
		}
	}
	if names == nil {
		return ""
	}
	return fmt.Sprintf("So are the limits for the %s. ", say.List(names))
}
