package present

import (
	"fmt"
	"math"
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
)

// AcceptanceFinding returns how a test is to be run or, of one that was, what it has shown.
func AcceptanceFinding(a *study.AcceptanceAnswer) string {
	return acceptanceHeadline(a) + acceptanceMore(a)
}

// acceptanceMore returns what a plan does besides: with all its clauses, and if it may end earlier; and how sure
// its length is. "" of a test that was run.
func acceptanceMore(a *study.AcceptanceAnswer) string {
	if a.Result != nil {
		return ""
	}
	return acceptanceTogether(a) + acceptanceSooner(a) + acceptanceBetween(a)
}

// acceptanceHeadline returns how a test is to be run and with what risks, or what it has shown.
func acceptanceHeadline(a *study.AcceptanceAnswer) string {
	if a.Result != nil {
		return acceptanceShown(a) + acceptanceSlip(a)
	}
	c := &a.Clauses[0]
	risks := fmt.Sprintf("a line that delivers %s an hour fails in %s of all tests, and one that delivers %s passes in %s",
		say.Rounded(float64(c.Good), 0), acceptanceBeside(c.Seller, a.Seller), say.Rounded(float64(c.Bad), 0), acceptanceBeside(c.Buyer, a.Buyer))
	text := fmt.Sprintf("Run %s and demand %s good envelopes: %s.", acceptanceRun(a), acceptanceLimit(c), risks)
	if !c.Holds && a.Asked {
		text = fmt.Sprintf("With %s good envelopes demanded in %s h %s, where %s and %s were asked for.",
			acceptanceLimit(c), acceptanceHours(a.Hours), risks, acceptanceAsked(a.Seller), acceptanceAsked(a.Buyer))
	} else if !c.Holds {
		text = fmt.Sprintf("%s h do not tell the two lines apart at %s and %s. With %s good envelopes demanded %s.",
			acceptanceHours(a.Hours), acceptanceAsked(a.Seller), acceptanceAsked(a.Buyer), acceptanceLimit(c), risks)
	}
	return text + acceptanceDrawn(a) + acceptanceWritten(a)
}

// acceptanceParts returns how many whole shifts a test has, and the hours of a last one that is shorter; 0 if
// there is none.
func acceptanceParts(a *study.AcceptanceAnswer) (whole int, rest study.Number) {
	whole = int(float64(a.Hours/a.Shift) + 1e-6)
	if rest = a.Hours - study.Number(float64(whole)*float64(a.Shift)); rest < 0.005 {
		rest = 0
	}
	return whole, rest
}

// acceptanceRun returns how long a test is, in shifts and in hours.
func acceptanceRun(a *study.AcceptanceAnswer) string {
	whole, rest := acceptanceParts(a)
	shifts := say.Plural(whole, "shift") + " of " + acceptanceHours(a.Shift) + " h"
	switch {
	case whole == 0:
		return acceptanceHours(a.Hours) + " h of a shift of " + acceptanceHours(a.Shift) + " h"
	case rest > 0:
		return fmt.Sprintf("%s and %s h of another (%s h)", shifts, acceptanceHours(rest), acceptanceHours(a.Hours))
	case whole == 1:
		return shifts
	}
	return shifts + " (" + acceptanceHours(a.Hours) + " h)"
}

// acceptanceBetween says how sure the length of a test is; "" if none was looked for.
func acceptanceBetween(a *study.AcceptanceAnswer) string {
	b := a.Between
	if b == nil {
		return ""
	}
	tests := say.Thousands(a.Settings.Reps) + " simulated tests of each line"
	low := acceptanceWhole(a, b.Low)
	if b.High == nil {
		return fmt.Sprintf(" %s do not say how long the shortest test by the net rate alone is: %s or more, counted in hours %s or more (95 %%).", tests, say.Plural(low, "shift"), acceptanceHours(b.Low))
	}
	shifts := say.Plural(low, "shift")
	if high := acceptanceWhole(a, *b.High); high == low+1 {
		shifts = fmt.Sprintf("%d or %d shifts", low, high)
	} else if high > low {
		shifts = fmt.Sprintf("between %s and %s shifts", say.Thousands(low), say.Thousands(high))
	}
	return fmt.Sprintf(" By %s the shortest test by the net rate alone takes %s; counted in hours, between %s and %s h (95 %%).", tests, shifts, acceptanceHours(b.Low), acceptanceHours(*b.High))
}

// acceptanceWhole returns the number of whole shifts in which there are so many hours.
func acceptanceWhole(a *study.AcceptanceAnswer, hours study.Number) int {
	return max(1, int(math.Ceil(float64(hours/a.Shift)-1e-6)))
}

// acceptanceWritten says what the line delivers as the file has it, where both lines were made of it; ""
// if they were not.
func acceptanceWritten(a *study.AcceptanceAnswer) string {
	if a.Written == nil {
		return ""
	}
	own, promised := a.Written.Estimate(), a.Good.Asked
	text := fmt.Sprintf(" The line as the file has it delivers %s an hour", say.Size(own))
	if a.LongRun != nil {
		return acceptanceUncertain(a)
	}
	switch gap := own.Mean - float64(promised); {
	case math.Abs(gap) <= own.Half:
		return text + ", as is promised."
	case gap > 0:
		return text + fmt.Sprintf(", more than the %s that are promised.", say.Rounded(float64(promised), 0))
	case own.Mean <= float64(a.Bad.Asked):
		return text + fmt.Sprintf(": less than the %s that are promised, and no more than what is unacceptable.", say.Rounded(float64(promised), 0))
	default:
		return text + fmt.Sprintf(", less than the %s that are promised.", say.Rounded(float64(promised), 0))
	}
}

// acceptanceUncertain says likewise between what a line with uncertain inputs delivers in the long run: the ± of
// the simulated shifts alone says nothing of the inputs.
func acceptanceUncertain(a *study.AcceptanceAnswer) string {
	low, high, promised := a.LongRun.Low, a.LongRun.High, a.Good.Asked
	text := fmt.Sprintf(" The line as the file has it, with what is uncertain of it, delivers %s an hour in the long run (%s; with the inputs at their means %s)",
		fromTo(UncertaintyEnds(float64(low), float64(high))), acceptanceAsked(a.LongRun.Level), say.Size(a.Written.Estimate()))
	said := say.Rounded(float64(promised), 0) + " that are promised"
	switch {
	case promised < low:
		return text + ", more than the " + said + "."
	case high <= a.Bad.Asked:
		return text + ": less than the " + said + ", and no more than what is unacceptable."
	case promised > high:
		return text + ", less than the " + said + "."
	}
	return text + ": whether it delivers the " + said + " is not known."
}

// acceptanceDrawn says what the seller risks where what is uncertain of his line is allowed for; "" if
// nothing is.
func acceptanceDrawn(a *study.AcceptanceAnswer) string {
	if a.Drawn == nil {
		return ""
	}
	return fmt.Sprintf(" That is by chance alone: with the uncertain inputs drawn anew for each test, the good line fails in %s.", acceptanceRisk(a.Drawn.Fails))
}

// acceptanceTogether returns what all clauses together do; "" if there is one only.
func acceptanceTogether(a *study.AcceptanceAnswer) string {
	if len(a.Clauses) < 2 {
		return ""
	}
	return fmt.Sprintf(" With all clauses the good line fails one or more in %s, and the bad one passes all in %s%s.",
		acceptanceAgainst(a.FailsAny, a.Seller), acceptanceAgainst(a.PassesAll, a.Buyer), acceptanceHave(a))
}

// acceptanceHave says that the two lines are not at the levels that were given for clauses, so that a clause by
// itself may have larger risks than all together; "" if none were given.
func acceptanceHave(a *study.AcceptanceAnswer) string {
	var have []string
	for _, c := range acceptanceGiven(a) {
		have = append(have, fmt.Sprintf("%s %s and %s, where the clause has %s and %s", acceptanceName(c),
			acceptanceDigits(float64(c.Own.Good)), acceptanceDigits(float64(c.Own.Bad)), acceptanceDigits(float64(c.Good)), acceptanceDigits(float64(c.Bad))))
	}
	if have == nil {
		return ""
	}
	return ". The two lines are not at the levels of the clauses: " + strings.Join(have, "; ")
}
