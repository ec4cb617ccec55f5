package present

import (
	"fmt"
	"math"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// acceptanceSooner returns what a test that may end after each shift takes; "" if none is planned.
func acceptanceSooner(a *study.AcceptanceAnswer) string {
	x := a.Stages
	if x == nil {
		return ""
	}
	last := x.Shifts[len(x.Shifts)-1]
	text := fmt.Sprintf(" If it may end after each shift, the test takes %s h on average for the good line and %s h for the bad one, and %s h at most",
		say.FewDigits(float64(x.MeanGood)), say.FewDigits(float64(x.MeanBad)), acceptanceHours(last.Hours))
	text += fmt.Sprintf("; by its net rate alone the good line then fails in %s, and the bad one passes in %s.", acceptanceAgainst(x.Seller, a.Seller), acceptanceAgainst(x.Buyer, a.Buyer))
	if x.FailsAny != nil {
		text += fmt.Sprintf(" With all clauses the good line fails one or more of them in %s, and the bad one passes all in %s.", acceptanceAgainst(*x.FailsAny, a.Seller), acceptanceAgainst(*x.PassesAll, a.Buyer))
	}
	return text
}

// acceptanceGoesOn says that a test that may end after each shift is not over.
func acceptanceGoesOn(a *study.AcceptanceAnswer) string {
	d := a.Result.Decided
	text := fmt.Sprintf("The test is not over: %s good envelopes in %s h decide nothing.", say.Rounded(float64(d.Good), 0), acceptanceHours(d.Hours))
	if n := len(d.Looks); n > 0 {
		x := &d.Looks[n-1]
		would := "neither pass nor fail by then"
		switch passes, fails := !math.IsInf(float64(x.Passes), 0), !math.IsInf(float64(x.Fails), 0); {
		case passes && fails:
			would = fmt.Sprintf("pass at %s and fail below %s", say.Rounded(float64(x.Passes), 0), say.Rounded(float64(x.Fails), 0))
		case passes:
			would = "pass at " + say.Rounded(float64(x.Passes), 0)
		case fails:
			would = "fail below " + say.Rounded(float64(x.Fails), 0)
		}
		text = fmt.Sprintf("The test is not over: after %s h there are %s good envelopes, and the line would %s.",
			acceptanceHours(x.Hours), say.Rounded(float64(x.Good), 0), would)
	}
	return text + " It goes on with the next shift."
}

// acceptanceEnded says after how long a test that may end after each shift was over, and with what risks.
func acceptanceEnded(a *study.AcceptanceAnswer) string {
	d := a.Result.Decided
	x := &d.Looks[len(d.Looks)-1]
	text := fmt.Sprintf("the test was over after shift %d, at %s h, with %s good envelopes, where ", d.Parts, acceptanceHours(d.Hours), say.Rounded(float64(d.Good), 0))
	if d.Passes {
		text += fmt.Sprintf("%s pass. A bad line passes by then in %s of all such tests, and in the end in %s.", say.Rounded(float64(x.Passes), 0), acceptanceRisk(d.AsGood), acceptanceAgainst(a.Stages.Buyer, a.Buyer))
	} else {
		text += fmt.Sprintf("fewer than %s fail. A good line fails by then in %s of all such tests, and in the end in %s.", say.Rounded(float64(x.Fails), 0), acceptanceRisk(d.AsBad), acceptanceAgainst(a.Stages.Seller, a.Seller))
	}
	if d.Later > 0 {
		text += fmt.Sprintf(" What was counted in %s after it decides nothing.", say.Plural(d.Later, "row"))
	}
	return text
}

// acceptanceAloneNotes says what the sequential tests of single clauses have shown.
func acceptanceAloneNotes(a *study.AcceptanceAnswer) (notes []string) {
	if a.Result == nil {
		return nil
	}
	for i := range a.Result.Clauses {
		x, c := a.Result.Clauses[i].Alone, &a.Clauses[i]
		if x == nil {
			continue
		}
		seen := fmt.Sprintf("%s in %s %s", say.Rounded(float64(x.Seen), 0), say.Rounded(float64(x.Length), 0), c.Alone.Unit)
		limits := fmt.Sprintf("accepted at no more than %s and rejected from %s on", acceptanceLine(x.Accept, math.Floor), acceptanceLine(x.Reject, math.Ceil))
		if x.Accept < 0 {
			limits = fmt.Sprintf("rejected from %s on, and none is accepted so soon", acceptanceLine(x.Reject, math.Ceil))
		}
		text := fmt.Sprintf("The sequential test of the %s by itself is not over: %s, where a line is %s.", acceptanceName(c), seen, limits)
		if x.Over {
			is, wrong := "rejects", "good line is rejected"
			if x.Accepted {
				is, wrong = "accepts", "bad line is accepted"
			}
			text = fmt.Sprintf("The sequential test of the %s by itself %s the line after row %d: %s, where one is %s.", acceptanceName(c), is, x.Parts, seen, limits)
			if x.Risk != nil {
				text += fmt.Sprintf(" Looked at after each row, a %s by then in %s.", wrong, acceptanceComputed(*x.Risk))
			}
		}
		notes = append(notes, text)
	}
	return notes
}

// acceptanceLine returns a whole number on the side of a line on which it decides.
func acceptanceLine(x study.Number, whole func(float64) float64) string {
	return say.Rounded(whole(float64(x)), 0)
}

// AcceptanceLooks returns a test that may end after each shift, as it went.
func AcceptanceLooks(a *study.AcceptanceAnswer) plots.Table {
	t := plots.Table{
		Name:    "As it went",
		Caption: "Good envelopes from the beginning, and at how many a line would have passed and failed by then. Between the shifts of the plan the limits are on the straight line.",
		Columns: []plots.Column{
			{Title: "After, h", Kind: plots.Number, Decimals: 2},
			{Title: "Good", Kind: plots.Number},
			{Title: "Passes at", Kind: plots.Number},
			{Title: "Fails below", Kind: plots.Number},
		},
	}
	for i := range a.Result.Decided.Looks {
		x := &a.Result.Decided.Looks[i]
		t.Rows = append(t.Rows, []plots.Entry{page.Value(float64(x.Hours)), page.Value(float64(x.Good)), stageLimit(&x.Passes), stageLimit(&x.Fails)})
	}
	return t
}

// acceptanceStagesNotes returns what is to be known of a test that may end after each shift.
func acceptanceStagesNotes(a *study.AcceptanceAnswer) (notes []string) {
	if a.NoStages != "" {
		return []string{"No test that may end earlier is planned: " + a.NoStages + "."}
	}
	x := a.Stages
	if x == nil {
		return nil
	}
	if !x.Holds && x.Asked {
		notes = append(notes, fmt.Sprintf("The limits after each shift that the contract has do not hold the risks of %s and %s.", acceptanceAsked(a.Seller), acceptanceAsked(a.Buyer)))
	} else if !x.Holds {
		notes = append(notes, "The test that may end after each shift does not hold the risks: take the one of fixed length.")
	}
	text := "The risks of the test that may end after each shift are those of new simulated tests, and its limits hold at the end of a whole shift only: who looks in between, and stops when it suits, has other risks. The other clauses are judged when it ends, on what was counted until then. How far chance moves its limits is not worked out."
	if x.MeanBetween > 0 {
		text += fmt.Sprintf(" A line half-way between the two takes %s h on average.", say.FewDigits(float64(x.MeanBetween)))
	}
	return append(notes, text)
}

// AcceptanceStages returns the limits of a test that may end after each shift.
func AcceptanceStages(a *study.AcceptanceAnswer) plots.Table {
	t := plots.Table{
		Name: "After each shift",
		Caption: "The test that may end after each shift: good envelopes from its beginning, at which the line passes and below which it fails; between them it goes on. And of all tests of the good and of the bad line, " +
			"how many are over by then, and how many of all have by then been decided wrongly: in the last row that is the risk.",
		Columns: []plots.Column{
			{Title: "After, h", Kind: plots.Number, Decimals: 2},
			{Title: "Passes at", Kind: plots.Number},
			{Title: "Fails below", Kind: plots.Number},
			{Title: "Good over", Kind: plots.Share, Decimals: 1},
			{Title: "Good fails", Kind: plots.Share, Decimals: 1},
			{Title: "Bad over", Kind: plots.Share, Decimals: 1},
			{Title: "Bad passes", Kind: plots.Share, Decimals: 1},
		},
	}
	var fails, passes bool // it can have been decided so by then
	for _, x := range a.Stages.Shifts {
		fails, passes = fails || x.Fails != nil, passes || x.Passes != nil
		t.Rows = append(t.Rows, []plots.Entry{
			page.Value(float64(x.Hours)), stageLimit(x.Passes), stageLimit(x.Fails),
			stageOver(x.GoodOver), stageWrong(x.GoodFailed, a.Seller, fails), stageOver(x.BadOver), stageWrong(x.BadPassed, a.Buyer, passes),
		})
	}
	return t
}

// acceptanceEnds returns what the clauses with levels of their own risk wherever a test that may end after each shift
// does: the fewer are counted, the larger are the risks of a limit. None without such clauses.
func acceptanceEnds(a *study.AcceptanceAnswer) []plots.Table {
	given := acceptanceGiven(a)
	if len(given) == 0 {
		return nil
	}
	t := plots.Table{
		Name:    "Clauses where the test ends",
		Caption: "The clauses with levels of their own, judged where the test that may end after each shift does: how often lines at these levels are decided wrongly.",
		Columns: []plots.Column{
			{Title: "Clause"},
			{Title: "Ends after, h", Kind: plots.Number, Decimals: 2},
			{Title: "Good fails", Kind: plots.Share, Decimals: 1},
			{Title: "Bad passes", Kind: plots.Share, Decimals: 1},
		},
		Names: 2,
	}
	for _, c := range given {
		for i, x := range a.Stages.Shifts {
			t.Rows = append(t.Rows, []plots.Entry{
				page.Words(say.Capital(acceptanceName(c))), page.Value(float64(x.Hours)),
				acceptancePlanned(c.AtEnds[i].Seller)[0], acceptancePlanned(c.AtEnds[i].Buyer)[0],
			})
		}
	}
	return []plots.Table{t}
}

// stageOver returns a share of the simulated tests that are over.
func stageOver(share study.Number) plots.Entry {
	return plots.Entry{Number: float64(share), Shown: say.Share(float64(share))}
}

// stageWrong returns a share of tests that were decided wrongly, beside the risk that was asked for; "–" where
// nothing can have been decided so, since no limit could have done it.
func stageWrong(p study.Proportion, asked study.Number, can bool) plots.Entry {
	if !can {
		return page.Words("–")
	}
	return plots.Entry{Number: float64(p.Share), Shown: acceptanceShort(p, asked)}
}

// stageLimit returns a limit of a shift; "–" where nothing is decided.
func stageLimit(x *study.Number) plots.Entry {
	if x == nil || math.IsInf(float64(*x), 0) {
		return page.Words("–")
	}
	return page.Value(float64(*x))
}

// acceptanceSequential returns what a contract may say of the test that may end after each shift.
func acceptanceSequential(of *Acceptance) string {
	a, x := of.AcceptanceAnswer, of.Stages
	last := x.Shifts[len(x.Shifts)-1]
	text := fmt.Sprintf("The line is run in shifts of exactly %s h of planned busy time. %s After each shift the good envelopes since the beginning are added up, and looked at once, by its table below: "+
		"at as many as it passes the line has shown its net rate, below the number at which it fails it has not, and in between the test goes on with the next shift. After %s h it ends in any case: %s pass, and fewer fail. "+
		"In the middle of a shift nothing is decided.", acceptanceHours(a.Shift), of.conditions(), acceptanceHours(last.Hours), say.Rounded(float64(*last.Passes), 0))
	if x.FailsAny != nil {
		text += " The other clauses are those of test A, judged when the test ends, on what was counted until then."
	}
	return text + fmt.Sprintf(" A line as promised fails by its net rate in %s of all such tests, one that is just unacceptable passes in %s%s. On average it takes %s h for the one, and %s h for the other.",
		acceptanceAgainst(x.Seller, a.Seller), acceptanceAgainst(x.Buyer, a.Buyer), acceptanceStagesTogether(a), say.FewDigits(float64(x.MeanGood)), say.FewDigits(float64(x.MeanBad)))
}

// acceptanceStagesTogether says what all clauses do; "" if there is one only.
func acceptanceStagesTogether(a *study.AcceptanceAnswer) string {
	x := a.Stages
	if x.FailsAny == nil {
		return ""
	}
	return fmt.Sprintf("; with all clauses the one fails in %s and the other passes in %s", acceptanceAgainst(*x.FailsAny, a.Seller), acceptanceAgainst(*x.PassesAll, a.Buyer))
}
