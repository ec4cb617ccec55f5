package present

import (
	"fmt"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
)

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
	notes = append(notes, acceptanceShiftNotes(a)...)
	notes = append(notes, acceptanceLimits(a)...)
	if a.Result != nil && a.Result.Aside > 0 {
		notes = append(notes, fmt.Sprintf("Of the stop log %s not counted: used-up stocks, planned stops and what the log does not call a fault.", acceptanceAside(a.Result.Aside)))
	}
	if c := &a.Clauses[0]; a.Result != nil && a.Asked && a.Result.Cut == nil && c.Seller.Low > a.Seller {
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
		notes = append(notes, acceptanceClauseNotes(a, i)...)
	}
	return append(notes, acceptanceDays(a.Spread), AcceptanceCaution(a))
}

// acceptanceClauseNotes returns what is to be known of a clause: of which lines its risks are, and whether it holds
// those that were asked for.
func acceptanceClauseNotes(a *study.AcceptanceAnswer, i int) (notes []string) {
	c := &a.Clauses[i]
	if c.Planned != nil {
		notes = append(notes, fmt.Sprintf("The risks of the clause on %s are those of lines at the levels that were given, %s and %s. The two lines that are tested have %s and %s: the good one fails it in %s, and the bad one passes it in %s.%s",
			acceptanceName(c), acceptanceDigits(float64(c.Good)), acceptanceDigits(float64(c.Bad)), acceptanceDigits(float64(c.Own.Good)), acceptanceDigits(float64(c.Own.Bad)),
			acceptanceRisk(c.Seller), acceptanceRisk(c.Buyer), acceptanceStricter(c)+acceptanceAtATime(c)+acceptanceSpread(a)))
	}
	switch {
	case c.NoTest != "":
		notes = append(notes, acceptanceNoClause(a, i))
	case !c.Holds && c.Asked:
		notes = append(notes, fmt.Sprintf("The limit of %s that the contract has for the %s does not hold the risks of %s and %s in %s h.",
			acceptanceLimit(c), acceptanceName(c), acceptanceAsked(a.Seller), acceptanceAsked(a.Buyer), acceptanceHours(a.Hours)))
	case !c.Holds && c.Alone == nil && (c.Of == study.AcceptanceStops || c.Of == study.AcceptanceDefective) && !a.Spread:
		notes = append(notes, fmt.Sprintf("The clause on %s does not hold the risks in %s h, nor in any test of usual length: its two levels are too near each other.", acceptanceName(c), acceptanceHours(a.Hours)))
	case !c.Holds && (c.Alone == nil || a.Spread || c.Alone.Hours <= a.Hours): // no length is known that would do
		notes = append(notes, fmt.Sprintf("The clause on %s does not hold the risks in %s h.", acceptanceName(c), acceptanceHours(a.Hours)))
	case !c.Holds:
		notes = append(notes, fmt.Sprintf("The clause on %s does not hold the risks in %s h. By itself it takes about %s h (%s %s).",
			acceptanceName(c), acceptanceHours(a.Hours), say.FewDigits(float64(c.Alone.Hours)), say.Rounded(float64(c.Alone.Length), 0), c.Alone.Unit))
	}
	if p := c.Planned; p != nil && c.NoTest == "" && !c.Asked && p.Buyer > a.Buyer && p.Seller <= a.Seller {
		notes = append(notes, fmt.Sprintf("The limit on %s keeps the seller’s risk first, and a line at the bad level passes it in %s, where %s was asked for: whoever buys is to know that, or take a longer test or levels further apart.",
			acceptanceName(c), acceptanceComputed(p.Buyer), acceptanceAsked(a.Buyer)))
	}
	return notes
}

// acceptanceNoClause says why a clause could not be planned and, of a test that was run, what was counted of it.
func acceptanceNoClause(a *study.AcceptanceAnswer, i int) string {
	c := &a.Clauses[i]
	if v := a.Result; v != nil && v.Clauses[i].Figure > 0 { // not of one that was not counted
		unit := [...]string{"", " in 1,000 sets", " s", " in a million", " in 1,000 sets"}[c.Of]
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

// acceptanceAtATime says how a plan of events allows for those that come several at a time; "" where they come one by
// one.
func acceptanceAtATime(c *study.AcceptanceClause) string {
	if !(c.Dispersion >= 1.05) {
		return ""
	}
	return fmt.Sprintf(" One fault may take out several sets: their number varies %.2g times as much (its variance) as if they came one by one, in the tests of the good line, and so it was planned.", float64(c.Dispersion))
}

// acceptanceStricter says that a clause demands more than the good line has: by the limit that is signed or, of one that
// is chosen for a level, by that level; "" if it does not.
func acceptanceStricter(c *study.AcceptanceClause) string {
	demands := c.Good
	if c.Asked {
		demands = c.Limit
	}
	if c.Own.Good <= demands {
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

// acceptanceDays says what a test of one day leaves unseen.
func acceptanceDays(given bool) string {
	if given {
		return "Each shift of a test was simulated with a day and lots of its own, as the scenario gives them, and the risks allow for that. A test of one day still does not see days: whether that day was a good or a bad one for the line it does not show. Spread the hours over several days."
	}
	return "No bad lots of material and no bad days are given: they were taken as none. A test of a day or two does not see them: lines differ more from week to week than these tests do. Spread the hours over several days."
}
