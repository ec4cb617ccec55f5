package present

import (
	"fmt"
	"math"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/runs"
	"netrate/model/study"
	"netrate/plots"
)

// ComparisonTables returns all tables of what a comparison came to: which alternative delivers
// how much, each against each, each against the best of the others, and why the leader delivers
// more or less than its rival; of a selection how far each came, and why.
func ComparisonTables(a *study.ComparisonAnswer) []plots.Table {
	return append(ComparisonRates(a), ComparisonSteps(a))
}

// ComparisonRates returns the tables that say which alternative delivers most.
func ComparisonRates(a *study.ComparisonAnswer) []plots.Table {
	if a.Selection != nil {
		return []plots.Table{comparisonDropped(a)}
	}
	tables := []plots.Table{comparisonRates(a), comparisonPairs(a)}
	if a.Leads != nil {
		tables = append(tables, comparisonLeads(a))
	}
	return tables
}

// PerHourColumns are the columns of an estimate in good envelopes an hour.
func PerHourColumns(title string) []plots.Column {
	return []plots.Column{
		{Title: title, Unit: "an hour", Kind: plots.Number},
		{Title: "±", Unit: "an hour", Kind: plots.Number},
	}
}

// RemadeColumn is the remakes of a line in a thousand sets.
var RemadeColumn = plots.Column{Title: "Remakes", Unit: "per 1,000", Kind: plots.Number, Decimals: 2}

// comparisonRates returns what each line delivers, and against the base and the best.
func comparisonRates(a *study.ComparisonAnswer) plots.Table {
	t := plots.Table{
		Name:    "Net rates",
		Caption: "Net rates with 95 % intervals of each; differences with 95 % intervals" + ComparisonAtOnce(a),
		Columns: append([]plots.Column{{Title: "Line"}}, PerHourColumns("Net rate")...),
	}
	t.Columns = append(t.Columns, PerHourColumns("To the base")...)
	t.Columns = append(t.Columns, plots.Column{Title: "Better", Unit: "of " + ComparisonPeriod(a) + "s", Kind: plots.Share, Decimals: 1})
	t.Columns = append(t.Columns, PerHourColumns("To the "+ComparisonLeader(a))...)
	t.Columns = append(t.Columns, plots.Column{Title: "Defective", Unit: "per million", Kind: plots.Number, Decimals: 2})
	if a.Personalised() {
		t.Columns = append(t.Columns, RemadeColumn)
	}
	none := plots.Entry{Number: math.NaN()}
	for i := range a.Lines {
		x := &a.Lines[i]
		row := append([]plots.Entry{page.Words(x.Name)}, page.MeanAndHalf(x.NetRate.Estimate())...)
		if p := a.Compared[0][i]; i != 0 {
			row = append(append(row, page.MeanAndHalf(p.Difference)...), page.Value(p.Wins))
		} else {
			row = append(row, none, none, none)
		}
		if p := a.Compared[a.Leader][i]; i != a.Leader {
			row = append(row, page.MeanAndHalf(p.Difference)...)
		} else {
			row = append(row, none, none)
		}
		row = append(row, defective(x.Study))
		if a.Personalised() {
			row = append(row, page.Value(study.RemakesIn(x.Study).Mean))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// defective returns the defective envelopes in a million, or what is known if none was seen.
func defective(s *runs.Study) plots.Entry {
	if d := study.DefectsOf(s); d.PerMillion > 0 {
		return plots.Entry{Number: d.PerMillion, Shown: DefectsPerMillion(s)}
	}
	return page.Words(DefectsPerMillion(s))
}

// DefectsPerMillion returns how many of a million envelopes delivered are defective, with
// no digit more than their number bears.
func DefectsPerMillion(s *runs.Study) string {
	switch d := study.DefectsOf(s); {
	case d.Seen:
		return say.Rough(d.PerMillion, d.Half)
	case !d.Possible:
		return "0"
	case d.Below > 5e5:
		return "none"
	default:
		return "<" + say.Rounded(d.Below, say.Magnitude(d.Below)-1)
	}
}

// comparisonPairs returns each line against each other.
func comparisonPairs(a *study.ComparisonAnswer) plots.Table {
	t := plots.Table{
		Name: "Pairs",
		Caption: "Each line against each other in the same " + ComparisonPeriod(a) + "s: " + a.Pairs.Method + ", 95 %" + ComparisonAtOnce(a) +
			". Narrower: what the same random events did to ±",
		Columns: append([]plots.Column{{Title: "Line"}, {Title: "against"}}, PerHourColumns("Difference")...),
	}
	t.Columns = append(t.Columns, plots.Column{Title: "Shown"},
		plots.Column{Title: "Better", Unit: "of " + ComparisonPeriod(a) + "s", Kind: plots.Share, Decimals: 1},
		plots.Column{Title: "Narrower", Unit: "times", Kind: plots.Number, Decimals: 1})
	for _, p := range a.Pairs.Pairs {
		shown := "~"
		if p.Shown {
			shown = "yes"
		}
		narrowing := page.Value(float64(p.Narrowing))
		if math.IsInf(float64(p.Narrowing), 1) {
			narrowing = page.Words("–")
		}
		row := append([]plots.Entry{page.Words(p.Of), page.Words(p.Against)}, page.MeanAndHalf(p.Difference.Estimate())...)
		t.Rows = append(t.Rows, append(row, page.Words(shown), page.Value(float64(p.Wins)), narrowing))
	}
	return t
}

// comparisonLeads returns each line against the best of the others.
func comparisonLeads(a *study.ComparisonAnswer) plots.Table {
	bound := func(title string) plots.Column {
		return plots.Column{Title: title, Unit: "an hour", Kind: plots.Number}
	}
	t := plots.Table{
		Name:    "Leads",
		Caption: "Hsu’s comparisons with the best: each line against the best of the others, 95 % intervals, all of this table at once",
		Columns: []plots.Column{{Title: "Line"}, bound("Lead"), bound("from"), bound("to")},
	}
	for _, l := range a.Leads.Leads {
		half := float64(l.High-l.Low) / 2
		t.Rows = append(t.Rows, []plots.Entry{page.Words(l.Name), page.Bearing(float64(l.Mean), half), page.Bearing(float64(l.Low), half), page.Bearing(float64(l.High), half)})
	}
	return t
}

// ComparisonSteps returns why the leader differs from its rival, the largest step first.
func ComparisonSteps(a *study.ComparisonAnswer) plots.Table {
	rival, best := &a.Lines[a.Rival], &a.Lines[a.Leader]
	number := func(title string) plots.Column {
		return plots.Column{Title: title, Unit: "an hour", Kind: plots.Number}
	}
	t := plots.Table{
		Name:    "Why",
		Caption: "What is lost on the way, envelopes an hour, the largest change first; the changes add up to the difference",
		Columns: []plots.Column{{Title: "Step"}, number(rival.Name), number(best.Name), number("Gain")},
	}
	sum := 0.0
	for _, s := range a.Ranked() {
		sum += s.Change
		t.Rows = append(t.Rows, []plots.Entry{page.Words(s.Name), page.Value(s.Rival), page.Value(s.Best), page.Value(s.Change)})
	}
	t.Rows = append(t.Rows, []plots.Entry{page.Words("net rate"), page.Value(float64(rival.NetRate.Mean)), page.Value(float64(best.NetRate.Mean)), page.Value(sum)})
	return t
}

// comparisonDropped returns how far each line came in a selection.
func comparisonDropped(a *study.ComparisonAnswer) plots.Table {
	t := plots.Table{
		Name:    "Selection",
		Caption: "How long each line was in the selection: " + a.Selection.Method + ". " + ComparisonDroppedWords(a),
		Columns: append(append([]plots.Column{{Title: "Line"}}, PerHourColumns("Net rate")...),
			plots.Column{Title: say.Capital(ComparisonPeriod(a)) + "s", Kind: plots.Number}, plots.Column{Title: "Dropped"}),
	}
	for i := range a.Lines {
		x := &a.Lines[i]
		row := append([]plots.Entry{page.Words(x.Name)}, page.MeanAndHalf(x.NetRate.Estimate())...)
		t.Rows = append(t.Rows, append(row, page.Value(float64(len(x.Study.Shifts))), page.Words(ComparisonFate(a, i))))
	}
	return t
}

// ComparisonDroppedWords says what is known of an alternative that a selection dropped: it is not
// ahead of the other by the indifference. That it is behind is not promised.
func ComparisonDroppedWords(a *study.ComparisonAnswer) string {
	return fmt.Sprintf("Dropped, by a line: not %s an hour or more ahead of it.", say.Exact(float64(a.Selection.Indifference)))
}

// ComparisonFate returns when a selection dropped an alternative, and by which other.
func ComparisonFate(a *study.ComparisonAnswer, i int) string {
	for _, d := range a.Selection.Dropped {
		if d.Line == i {
			return fmt.Sprintf("after %s, by %s", say.Plural(d.At, ComparisonPeriod(a)), ComparisonCalled(a, d.Other))
		}
	}
	return "not dropped"
}
