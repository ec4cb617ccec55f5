package present

import (
	"fmt"
	"math"
	"strconv"
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
		return acceptanceShown(a)
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
	if a.Drawn != nil { // the ± is of the simulated shifts alone, and says nothing of the inputs
		text = fmt.Sprintf(" With its uncertain inputs at their means (± does not cover them) the line as the file has it delivers %s an hour", say.Size(own))
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
		have = append(have, fmt.Sprintf("%s is %s and %s, and not the %s and %s of the clause", acceptanceName(c),
			acceptanceDigits(float64(c.Own.Good)), acceptanceDigits(float64(c.Own.Bad)), acceptanceDigits(float64(c.Good)), acceptanceDigits(float64(c.Bad))))
	}
	if have == nil {
		return ""
	}
	return ": lines whose " + say.List(have)
}

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
	if v.NotJudged {
		return acceptanceNotJudged(a, failed, open)
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
	return acceptanceAnew(a) + fmt.Sprintf("%s: %s good envelopes in %s h, where %s. %s",
		first, say.Rounded(float64(rate.Figure), 0), acceptanceHours(v.Hours), acceptanceDemanded(a), acceptanceSeen(v))
}

// acceptanceSeen says what the good envelopes of a test show of the line.
func acceptanceSeen(v *study.AcceptanceVerdict) string {
	rate := &v.Clauses[0]
	return fmt.Sprintf("A good line delivers no more in %s of all such tests, a bad one no less in %s. The test shows a net rate between %s and %s an hour (%s).",
		acceptanceRisk(rate.AsBad), acceptanceRisk(rate.AsGood),
		say.Rounded(float64(v.Rate.Low), 0), say.Rounded(float64(v.Rate.High), 0), acceptanceAsked(v.Rate.Level))
}

// acceptanceNotJudged says of a test that took other hours than those for which the demand was signed that
// it cannot be judged by it, what came of the other clauses, and what so long a test would demand.
func acceptanceNotJudged(a *study.AcceptanceAnswer, failed, open []string) string {
	v, p := a.Result, a.Planned
	text := fmt.Sprintf("THE NET RATE CANNOT BE JUDGED BY THE CONTRACT: it demands %s good envelopes in %s h, and the test took %s h. ",
		say.Rounded(float64(p.Limit), 0), acceptanceHours(p.Hours), acceptanceHours(v.Hours))
	if v.Hours > p.Hours {
		text += fmt.Sprintf("Cut the counts to the first %s h. ", acceptanceHours(p.Hours))
	} else {
		text += "Run on to the hours that are signed. "
	}
	if len(failed) > 0 {
		text += "The line fails in its " + say.List(failed) + ". "
	}
	if len(open) > 0 {
		text += "Not counted, so not decided: " + say.List(open) + ". "
	}
	text += fmt.Sprintf("For information, and no verdict: a test of %s h would demand %s by the risks that were asked for, worked out anew, and %s were delivered. ",
		acceptanceHours(v.Hours), acceptanceLimit(&a.Clauses[0]), say.Rounded(float64(v.Clauses[0].Figure), 0))
	return text + acceptanceAnewToo(a) + acceptanceSeen(v)
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

// acceptanceName returns what a clause is about, in a sentence.
func acceptanceName(c *study.AcceptanceClause) string {
	return [...]string{"net rate", "stops", "clearing time", "defective mail"}[c.Of]
}

// acceptanceUnit returns what a clause counts, with its unit.
func acceptanceUnit(c *study.AcceptanceClause) string {
	return [...]string{"good envelopes an hour", "stops for faults in 1,000 sets", "mean clearing time, s", "defective envelopes in a million"}[c.Of]
}

// acceptanceLimit returns the limit of a clause.
func acceptanceLimit(c *study.AcceptanceClause) string {
	return acceptanceLimitOf(c, c.Limit)
}

// acceptanceLimitOf returns what could be the limit of a clause: with all the digits that it has, since it is
// signed, and was rounded before its risks were known.
func acceptanceLimitOf(c *study.AcceptanceClause, limit study.Number) string {
	if x := float64(limit); c.Of != study.AcceptanceRate && x < 1000 {
		return strconv.FormatFloat(say.ToDecimals(x, 9), 'f', -1, 64)
	}
	return say.Rounded(float64(limit), 0)
}

// acceptanceDigits returns a figure with up to four digits.
func acceptanceDigits(x float64) string {
	if x >= 1000 {
		return say.Rounded(x, 0)
	}
	return fmt.Sprintf("%.4g", x)
}

// acceptanceHours returns hours as people say them.
func acceptanceHours(h study.Number) string { return say.Decimals(float64(h), 2) }

// acceptanceAsked returns a risk that is asked for.
func acceptanceAsked(risk study.Number) string { return say.Decimals(100*float64(risk), 2) + " %" }

// acceptanceRisk returns a risk that was counted: of none, that it is less than its interval says.
func acceptanceRisk(p study.Proportion) string {
	switch p.Share {
	case 0:
		return "less than " + say.TwoDigits(100*float64(p.High)) + " %"
	case 1:
		return "more than " + say.Decimals(100*float64(p.Low), 2) + " %"
	}
	if p.Share < 0.02 {
		return say.Rounded(100*float64(p.Share), -1) + " %"
	}
	return say.Percent(float64(p.Share), float64(p.High-p.Low)/2)
}

// acceptanceBeside returns a risk beside the one that was asked for: of one that is above it with as many digits
// as show it.
func acceptanceBeside(p study.Proportion, asked study.Number) string {
	text := acceptanceRisk(p)
	if p.Share <= asked || say.Rounded(100*float64(p.Share), 0) != say.Rounded(100*float64(asked), 0) {
		return text
	}
	digits := 1
	for digits < 4 && say.ToDecimals(100*float64(p.Share), digits) <= 100*float64(asked) {
		digits++
	}
	return say.Decimals(100*float64(p.Share), digits) + " %"
}

// acceptanceAgainst is acceptanceBeside in a sentence: of a risk that is above the one asked for it says that.
func acceptanceAgainst(p study.Proportion, asked study.Number) string {
	if p.Share <= asked {
		return acceptanceBeside(p, asked)
	}
	return acceptanceBeside(p, asked) + " (above the " + acceptanceAsked(asked) + ")"
}

// AcceptanceCaution is said with every test, planned or judged.
func AcceptanceCaution(a *study.AcceptanceAnswer) string {
	does := "This plans a test and prints a form for it."
	if a.Result != nil {
		does = "This reads the counts of a test against its limits; it did not see the test."
	}
	return does + " It is no legal advice: what binds is the contract, and a lawyer should read it."
}

// AcceptanceNotes returns what is to be known of a test, beside its table.
func AcceptanceNotes(a *study.AcceptanceAnswer) []string {
	notes := append(acceptanceWhose(a), acceptanceMade(a))
	notes = append(notes, acceptanceLimits(a)...)
	if a.Result != nil && a.Result.Aside > 0 {
		notes = append(notes, fmt.Sprintf("Of the stop log %s not counted: used-up stocks, planned stops and what the log does not call a fault.", acceptanceAside(a.Result.Aside)))
	}
	if c := &a.Clauses[0]; a.Result != nil && a.Asked && !a.Result.NotJudged && c.Seller.Low > a.Seller {
		notes = append(notes, fmt.Sprintf("In %s h a line as promised fails to deliver %s in %s of all tests: the demand is of a longer test, and one so short decides nothing.",
			acceptanceHours(a.Hours), acceptanceLimit(c), acceptanceRisk(c.Seller)))
	}
	notes = append(notes, acceptanceAloneNotes(a)...)
	if c := &a.Clauses[0]; a.Hours == a.Shift && !a.Given && 2*c.Seller.Share < a.Seller {
		notes = append(notes, "Fewer hours would do for the count, but no less than a shift is planned: an hour shows little of refilling, sweeping and clearing.")
	}
	if s := a.Struck; s.Hours > 0 && s.Buyer.Low > a.Clauses[0].Buyer.High {
		notes = append(notes, fmt.Sprintf("If the worst of each eight hours could be struck out afterwards, the bad line would pass in %s and not in %s: agree before the test what is excluded.",
			acceptanceRisk(s.Buyer), acceptanceRisk(a.Clauses[0].Buyer)))
	}
	if m := a.Material; m != nil {
		notes = append(notes, fmt.Sprintf("If every bad lot is kept out of the test as out of specification, the lines deliver %s and %s an hour: by the same demand the good one fails in %s and the bad one passes in %s. Either bad lots belong to the test, or its demand is planned with a file that has none.",
			say.Rounded(float64(m.Good), 0), say.Rounded(float64(m.Bad), 0), acceptanceRisk(m.Seller), acceptanceRisk(m.Buyer)))
	}
	notes = append(notes, acceptanceStagesNotes(a)...)
	if a.Drawn != nil {
		notes = append(notes, "The risks of the table are those of chance, of lines whose uncertain inputs are at their means.")
	}
	for i := range a.Clauses {
		c := &a.Clauses[i]
		if c.Planned != nil {
			notes = append(notes, fmt.Sprintf("The risks of the clause on %s are those of lines at the levels that were given, %s and %s. The two lines that are tested have %s and %s: the good one fails it in %s, and the bad one passes it in %s.%s",
				acceptanceName(c), acceptanceDigits(float64(c.Good)), acceptanceDigits(float64(c.Bad)), acceptanceDigits(float64(c.Own.Good)), acceptanceDigits(float64(c.Own.Bad)),
				acceptanceRisk(c.Seller), acceptanceRisk(c.Buyer), acceptanceStricter(c)+acceptanceSpread(a)))
		}
		switch {
		case c.NoTest != "":
			notes = append(notes, acceptanceNoClause(a, i))
		case !c.Holds && c.Asked:
			notes = append(notes, fmt.Sprintf("The limit of %s that the contract has for the %s does not hold the risks of %s and %s in %s h.",
				acceptanceLimit(c), acceptanceName(c), acceptanceAsked(a.Seller), acceptanceAsked(a.Buyer), acceptanceHours(a.Hours)))
		case !c.Holds && (c.Alone == nil || a.Spread || c.Alone.Hours <= a.Hours): // no length is known that would do
			notes = append(notes, fmt.Sprintf("The clause on %s does not hold the risks in %s h.", acceptanceName(c), acceptanceHours(a.Hours)))
		case !c.Holds:
			notes = append(notes, fmt.Sprintf("The clause on %s does not hold the risks in %s h. By itself it takes about %s h (%s %s).",
				acceptanceName(c), acceptanceHours(a.Hours), say.FewDigits(float64(c.Alone.Hours)), say.Rounded(float64(c.Alone.Length), 0), c.Alone.Unit))
		}
	}
	return append(notes, acceptanceDays(a.Spread), AcceptanceCaution(a))
}

// acceptanceNoClause says why a clause could not be planned and, of a test that was run, what was counted of it.
func acceptanceNoClause(a *study.AcceptanceAnswer, i int) string {
	c := &a.Clauses[i]
	if v := a.Result; v != nil && v.Clauses[i].Figure > 0 { // not of one that was not counted
		unit := [...]string{"", " in 1,000 sets", " s", " in a million"}[c.Of]
		return fmt.Sprintf("%s: counted (%.3g%s), but no clause could be planned for it: %s.", say.Capital(acceptanceName(c)), float64(v.Clauses[i].Figure), unit, c.NoTest)
	}
	return "No clause on " + acceptanceName(c) + " can be planned: " + c.NoTest + "."
}

// acceptanceSpread says that a plan of events is too hopeful where lots or days differ; "" if none do.
func acceptanceSpread(a *study.AcceptanceAnswer) string {
	if !a.Spread {
		return ""
	}
	return " The levels were planned as if faults came independently; with bad lots or bad days the risks are larger than those of the table."
}

// acceptanceStricter says that a clause demands more than the good line has; "" if it does not.
func acceptanceStricter(c *study.AcceptanceClause) string {
	if c.Own.Good <= c.Good {
		return ""
	}
	return " The clause demands more than the line that is called good: one of the two is to be changed."
}

// acceptanceAside returns how many stops were left aside, with their verb.
func acceptanceAside(n int64) string {
	if n == 1 {
		return "1 stop is"
	}
	return say.Thousands(n) + " stops are"
}

// acceptanceMade returns what the two lines are.
func acceptanceMade(a *study.AcceptanceAnswer) string {
	shifts := "in shifts of " + acceptanceHours(a.Shift) + " h, each begun " + a.Begins
	if a.Good.Faults == 1 && a.Bad.Faults == 1 {
		return fmt.Sprintf("Good is “%s”, bad is “%s”; %s tests of each, %s.", a.Good.Name, a.Bad.Name, say.Thousands(a.Settings.Reps), shifts)
	}
	text := fmt.Sprintf("Both lines are that of the file, with all its faults %s times as often (good) and %s times (bad); %s tests of each, %s.",
		acceptanceDigits(float64(a.Good.Faults)), acceptanceDigits(float64(a.Bad.Faults)), say.Thousands(a.Settings.Reps), shifts)
	if a.Good.Asked == 0 {
		return text
	}
	return text + fmt.Sprintf(" They are made for %s and %s an hour in a shift; in tests of %s h they deliver %s and %s.",
		say.Rounded(float64(a.Good.Asked), 0), say.Rounded(float64(a.Bad.Asked), 0), acceptanceHours(a.Hours), say.Size(a.Good.NetRate.Estimate()), say.Size(a.Bad.NetRate.Estimate()))
}

// acceptanceDemand returns what a line must show to pass a clause.
func acceptanceDemand(c *study.AcceptanceClause, a *study.AcceptanceAnswer) string {
	switch c.Of {
	case study.AcceptanceRate:
		return fmt.Sprintf("at least %s good envelopes in %s h", acceptanceLimit(c), acceptanceHours(a.Hours))
	case study.AcceptanceStops:
		return fmt.Sprintf("at most %s stops for faults in 1,000 sets started%s", acceptanceLimit(c), acceptanceAllowed(c, a))
	case study.AcceptanceClearing:
		return fmt.Sprintf("on average at most %s s from the operator’s arrival to the end of clearing; the mean is not rounded before it is compared", acceptanceLimit(c))
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
	return fmt.Sprintf(". The number allowed is that rate times the %s of the test, rounded down: at most %s in the %s %s of %s",
		pieceName, say.Rounded(float64(most), 0), say.Rounded(pieces, 0), pieceName, of)
}

// acceptanceUsual returns the pieces of a test of the good line, and how many a limit allows in them.
func acceptanceUsual(c *study.AcceptanceClause, a *study.AcceptanceAnswer) (pieces float64, most study.Number, of string) {
	if pieces = math.Round(float64(a.Good.Sets)); c.Of == study.AcceptanceDefective {
		pieces = math.Round(float64(a.Good.NetRate.Mean * a.Hours))
	}
	return pieces, c.Most(pieces), "an average test of the good line"
}

// acceptanceList joins paragraphs, in which numbers and their percent signs stay on one line.
func acceptanceList(paragraphs ...string) string {
	return strings.ReplaceAll(strings.Join(paragraphs, "\n\n"), " %", "\u00a0%")
}

// acceptanceDays says what a test of one day leaves unseen.
func acceptanceDays(given bool) string {
	if given {
		return "Each shift of a test was simulated with a day and lots of its own, as the scenario gives them, and the risks allow for that. A test of one day still does not see days: whether that day was a good or a bad one for the line it does not show. Spread the hours over several days."
	}
	return "No bad lots of material and no bad days are given: they were taken as none. A test of a day or two does not see them: lines differ more from week to week than these tests do. Spread the hours over several days."
}
