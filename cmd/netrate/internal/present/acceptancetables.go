package present

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// AcceptanceClauses returns a row for each clause, and one for all together.
func AcceptanceClauses(a *study.AcceptanceAnswer) plots.Table {
	t := plots.Table{
		Name:    "Clauses",
		Caption: acceptanceFixed(a) + " in " + acceptanceHours(a.Hours) + " h, and how often the decision is wrong, by " + say.Thousands(a.Settings.Reps) + " simulated tests of each line.",
		Columns: []plots.Column{
			{Title: "Clause"},
			{Title: "Good", Kind: plots.Number, Decimals: 3},
			{Title: "Bad", Kind: plots.Number, Decimals: 3},
			{Title: "Passes at", Kind: plots.Number, Decimals: 3},
			{Title: "Good fails", Kind: plots.Share, Decimals: 1},
			{Title: "Good fails, from", Kind: plots.Share, Decimals: 2, Data: true},
			{Title: "Good fails, to", Kind: plots.Share, Decimals: 2, Data: true},
			{Title: "Bad passes", Kind: plots.Share, Decimals: 1},
			{Title: "Bad passes, from", Kind: plots.Share, Decimals: 2, Data: true},
			{Title: "Bad passes, to", Kind: plots.Share, Decimals: 2, Data: true},
		},
	}
	for i := range a.Clauses {
		c := &a.Clauses[i]
		row := []plots.Entry{page.Words(say.Capital(acceptanceUnit(c))), acceptanceEntry(float64(c.Good)), acceptanceEntry(float64(c.Bad))}
		if c.NoTest != "" { // the notes say why
			continue
		}
		limit := plots.Entry{Number: float64(c.Limit), Shown: "≤ " + acceptanceLimit(c)}
		if c.Of == study.AcceptanceRate {
			limit.Shown = acceptanceLimit(c) + " in all"
		}
		row = append(row, limit)
		if p := c.Planned; p != nil {
			row[0].Text += ": lines at the levels given"
			t.Rows = append(t.Rows, append(append(row, acceptancePlanned(p.Seller)...), acceptancePlanned(p.Buyer)...))
			row = []plots.Entry{page.Words(say.Capital(acceptanceUnit(c)) + ": the two lines tested"), acceptanceEntry(float64(c.Own.Good)), acceptanceEntry(float64(c.Own.Bad)), limit}
		}
		t.Rows = append(t.Rows, append(append(row, acceptanceShare(c.Seller, a.Seller)...), acceptanceShare(c.Buyer, a.Buyer)...))
	}
	if len(a.Clauses) > 1 {
		nothing := page.Value(math.NaN())
		row := []plots.Entry{page.Words("All clauses together" + acceptanceOfTested(a)), nothing, nothing, nothing}
		t.Rows = append(t.Rows, append(append(row, acceptanceShare(a.FailsAny, a.Seller)...), acceptanceShare(a.PassesAll, a.Buyer)...))
	}
	return t
}

// acceptanceOfTested says of which lines the risks of all clauses are, where a clause has levels that are not
// those of the lines; "" where there is one pair only.
func acceptanceOfTested(a *study.AcceptanceAnswer) string {
	if len(acceptanceGiven(a)) == 0 {
		return ""
	}
	return ": the two lines tested"
}

// acceptanceGiven returns the clauses whose levels are not those of the lines.
func acceptanceGiven(a *study.AcceptanceAnswer) (all []*study.AcceptanceClause) {
	for i := range a.Clauses {
		if c := &a.Clauses[i]; c.Planned != nil && c.NoTest == "" {
			all = append(all, c)
		}
	}
	return all
}

// acceptanceFixed says that a table is of the test of fixed length, where there is another beside it.
func acceptanceFixed(a *study.AcceptanceAnswer) string {
	if a.Stages != nil {
		return "The test of fixed length: what the line must show"
	}
	if a.Result != nil && a.Result.Cut != nil {
		return "For information, since it is not what was signed: what a line would have to show"
	}
	return "What the line must show"
}

// acceptanceEntry returns a level of a clause.
func acceptanceEntry(x float64) plots.Entry {
	return plots.Entry{Number: x, Shown: acceptanceDigits(x)}
}

// acceptanceShare returns a risk with its interval, beside the one that was asked for.
func acceptanceShare(p study.Proportion, asked study.Number) []plots.Entry {
	return []plots.Entry{
		{Number: float64(p.Share), Shown: acceptanceShort(p, asked)},
		page.Value(float64(p.Low)), page.Value(float64(p.High)),
	}
}

// acceptancePlanned returns a risk that was computed, and has no interval.
func acceptancePlanned(risk study.Number) []plots.Entry {
	nothing := page.Value(math.NaN())
	return []plots.Entry{{Number: float64(risk), Shown: acceptanceComputed(risk)}, nothing, nothing}
}

// acceptanceSeenBeside returns what a test has shown, with digits enough that it is seen on which side of the
// limit it lies.
func acceptanceSeenBeside(c *study.AcceptanceClause, f *study.AcceptanceFound) plots.Entry {
	x, limit := float64(f.Figure), float64(c.Limit)
	e := acceptanceEntry(x)
	if c.Of == study.AcceptanceRate || x == limit || math.IsInf(x, 0) {
		return e
	}
	for digits := 5; digits <= 12 && strings.ReplaceAll(e.Shown, ",", "") == strings.ReplaceAll(acceptanceLimit(c), ",", ""); digits++ {
		e.Shown = strconv.FormatFloat(x, 'f', max(0, digits-1-say.Magnitude(x)), 64)
	}
	return e
}

// AcceptanceFound returns what a test has shown, clause by clause.
func AcceptanceFound(a *study.AcceptanceAnswer) plots.Table {
	caption := "What the test has shown; and how often a good line does no better in such a test, and a bad one no worse."
	if len(acceptanceGiven(a)) > 0 {
		caption += " Of a clause with levels of its own that is of lines at these."
	}
	if slices.ContainsFunc(a.Result.Clauses, func(f study.AcceptanceFound) bool { return f.Whole != nil }) {
		caption += " What is counted is compared as the clause decides, by whole numbers."
	}
	if a.Result.Decided != nil {
		caption += " Of the good envelopes: how often a good line has failed by then, and a bad one passed."
	}
	t := plots.Table{
		Name:    "Result",
		Caption: caption,
		Columns: []plots.Column{
			{Title: "Clause"},
			{Title: "Seen", Kind: plots.Number, Decimals: 3},
			{Title: "Passes at", Kind: plots.Number, Decimals: 3},
			{Title: "Verdict"},
			{Title: "Good no better", Kind: plots.Share, Decimals: 1},
			{Title: "Bad no worse", Kind: plots.Share, Decimals: 1},
		},
	}
	for i := range a.Clauses {
		t.Rows = append(t.Rows, acceptanceFoundRow(a, i))
	}
	return t
}

// acceptanceFoundRow returns what a test has shown of a clause.
func acceptanceFoundRow(a *study.AcceptanceAnswer, i int) []plots.Entry {
	c, f := &a.Clauses[i], &a.Result.Clauses[i]
	row := []plots.Entry{page.Words(say.Capital(acceptanceUnit(c)))}
	if !f.Counted {
		seen := page.Words("not counted")
		if x := float64(f.Figure); c.NoTest != "" && !math.IsNaN(x) {
			seen = acceptanceEntry(x)
		}
		return append(row, seen, page.Words("–"), page.Words("none"), page.Words("–"), page.Words("–"))
	}
	if c.Of == study.AcceptanceRate {
		row[0].Text = "Good envelopes in all"
	}
	if x := f.Whole; x != nil && a.Result.Cut != nil {
		row[0].Text += fmt.Sprintf(" (%s)", say.Rounded(float64(x.Count), 0))
	} else if x != nil {
		row[0].Text += fmt.Sprintf(" (%s; at most %s)", say.Rounded(float64(x.Count), 0), say.Rounded(float64(x.Most), 0))
	}
	return append(row, acceptanceSeenBeside(c, f), acceptanceFoundLimit(a, i), page.Words(acceptanceFoundVerdict(a, f)),
		acceptanceShare(f.AsBad, 1)[0], acceptanceShare(f.AsGood, 1)[0])
}

// acceptanceFoundVerdict returns what became of a clause.
func acceptanceFoundVerdict(a *study.AcceptanceAnswer, f *study.AcceptanceFound) string {
	switch d := a.Result.Decided; {
	case d != nil && !d.Over:
		return "not over"
	case f.NotJudged:
		return "not judged"
	case f.Passes:
		return "passes"
	}
	return "fails"
}

// acceptanceFoundLimit returns the limit by which a clause was judged.
func acceptanceFoundLimit(a *study.AcceptanceAnswer, i int) plots.Entry {
	c := &a.Clauses[i]
	if d := a.Result.Decided; d != nil && c.Of == study.AcceptanceRate {
		if n := len(d.Looks); n > 0 && !math.IsInf(float64(d.Looks[n-1].Passes), 0) {
			return acceptanceEntry(float64(d.Looks[n-1].Passes))
		}
		return page.Words("–")
	}
	if a.Result.Cut != nil {
		return acceptanceSigned(a, i)
	}
	return plots.Entry{Number: float64(c.Limit), Shown: acceptanceLimit(c)}
}

// acceptanceSigned returns the limit of a clause by which a test of other hours than those that were signed is decided,
// where it is; "–" of one that the contract does not have.
func acceptanceSigned(a *study.AcceptanceAnswer, i int) plots.Entry {
	c := &a.Clauses[i]
	switch {
	case c.Of == study.AcceptanceRate && !a.Result.Clauses[i].NotJudged:
		return acceptanceEntry(float64(a.Planned.Limit))
	case c.Of == study.AcceptanceRate || !c.Asked:
		return page.Words("–")
	}
	return plots.Entry{Number: float64(c.Limit), Shown: acceptanceLimit(c)}
}

// AcceptanceAlone returns what a test of each clause by itself would take.
func AcceptanceAlone(a *study.AcceptanceAnswer) plots.Table {
	t := plots.Table{
		Name: "By themselves",
		Caption: "What a test of each clause by itself takes: of fixed length, and sequential, which ends as soon as the sum crosses a line. " +
			"The mean lengths of the sequential test are exact for stops, and Wald’s approximations for the others.",
		Columns: []plots.Column{
			{Title: "Clause"},
			{Title: "Length", Kind: plots.Number},
			{Title: "of"},
			{Title: "Allowed", Kind: plots.Number, Decimals: 1},
			{Title: "Hours", Kind: plots.Number, Decimals: 1},
			{Title: "Good fails", Kind: plots.Share, Decimals: 1},
			{Title: "Bad passes", Kind: plots.Share, Decimals: 1},
			{Title: "Sequential, good", Kind: plots.Number},
			{Title: "Sequential, bad", Kind: plots.Number},
		},
	}
	for i := range a.Clauses {
		c := &a.Clauses[i]
		x := c.Alone
		if x == nil {
			continue
		}
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(say.Capital(acceptanceName(c))), page.Value(float64(x.Length)), page.Words(x.Unit),
			{Number: float64(x.Allowed), Shown: say.Decimals(float64(x.Allowed), 1)},
			page.Value(float64(x.Hours)), acceptancePlanned(x.Risks.Seller)[0], acceptancePlanned(x.Risks.Buyer)[0],
			page.Value(float64(x.MeanGood)), page.Value(float64(x.MeanBad)),
		})
	}
	return t
}
