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
	return text + fmt.Sprintf("; by its net rate alone the good line then fails in %s, and the bad one passes in %s.", acceptanceRisk(x.Seller), acceptanceRisk(x.Buyer))
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
	if !x.Holds {
		notes = append(notes, "The test that may end after each shift does not hold the risks: take the one of fixed length.")
	}
	text := "The risks of the test that may end after each shift are those of new simulated tests, and its limits hold at the end of a whole shift only: who looks in between, and stops when it suits, has other risks. The other clauses are judged when it ends, on what was counted until then."
	if x.MeanBetween > 0 {
		text += fmt.Sprintf(" A line half-way between the two takes %s h on average.", say.FewDigits(float64(x.MeanBetween)))
	}
	return append(notes, text)
}

// AcceptanceStages returns the limits of a test that may end after each shift.
func AcceptanceStages(a *study.AcceptanceAnswer) plots.Table {
	t := plots.Table{
		Name:    "After each shift",
		Caption: "The test that may end after each shift: good envelopes from its beginning, at which the line passes and below which it fails; between them it goes on. And of how many tests that decides.",
		Columns: []plots.Column{
			{Title: "After, h", Kind: plots.Number, Decimals: 2},
			{Title: "Passes at", Kind: plots.Number},
			{Title: "Fails below", Kind: plots.Number},
			{Title: "Good line decided", Kind: plots.Share},
			{Title: "Bad line decided", Kind: plots.Share},
		},
	}
	limit := func(x *study.Number) plots.Entry {
		if x == nil {
			return plots.Entry{Number: math.NaN(), Shown: "–"}
		}
		return page.Value(float64(*x))
	}
	for _, x := range a.Stages.Shifts {
		t.Rows = append(t.Rows, []plots.Entry{
			page.Value(float64(x.Hours)), limit(x.Passes), limit(x.Fails), page.Value(float64(x.GoodOver)), page.Value(float64(x.BadOver)),
		})
	}
	return t
}

// acceptanceSequential returns the part of the page on the test that may end after each shift.
func acceptanceSequential(a *study.AcceptanceAnswer) plots.Section {
	x := a.Stages
	text := []string{fmt.Sprintf("Instead of the test of fixed length. The good envelopes are added up from the beginning, and looked at after each shift of %s h: the line passes, fails, or the test goes on, as the table says. "+
		"After %s h it is decided in any case. A line as promised fails in %s of all such tests, one that is just unacceptable passes in %s.",
		acceptanceHours(a.Shift), acceptanceHours(x.Shifts[len(x.Shifts)-1].Hours), acceptanceRisk(x.Seller), acceptanceRisk(x.Buyer))}
	return plots.Section{Heading: "A test that may end after each shift", Text: acceptanceList(append(text, acceptanceStagesNotes(a)...)...), Tables: []plots.Table{AcceptanceStages(a)}}
}
