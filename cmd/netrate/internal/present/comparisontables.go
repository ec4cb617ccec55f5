package present

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/runs"
	"netrate/model/study"
	"netrate/plots"
)

// comparisonWhich returns the tables that say which alternative delivers most.
func comparisonWhich(a *study.ComparisonAnswer) []plots.Table {
	if a.Selection != nil {
		return []plots.Table{comparisonDropped(a)}
	}
	tables := []plots.Table{comparisonRates(a, page.All(len(a.Lines))), comparisonPairs(a)}
	if a.Leads != nil {
		tables = append(tables, comparisonLeads(a))
	}
	return tables
}

// comparisonRates returns what some of the lines deliver, and against the base and the best.
func comparisonRates(a *study.ComparisonAnswer, some []int) plots.Table {
	first, leader := "Good envelopes/hour", ComparisonLeader(a)
	if a.Personalised() { // which leaves less room for names
		first = "Good an hour"
	}
	t := plots.Table{
		Name:    "Net rates",
		Caption: "Net rates with 95 % intervals" + longRunWords(a.Lines[0].Study) + " of each; differences with 95 % intervals" + ComparisonAtOnce(a) + "; ~ where none is shown",
		Columns: slices.Concat(
			[]plots.Column{{Title: "Line", Brief: first}}, RateColumns("Net rate", "net rate"), RateColumns("To the base", "to base"),
			[]plots.Column{{Title: "Better", Unit: "of " + ComparisonPeriod(a) + "s", Kind: plots.Share, Decimals: 1, Brief: "wins"}},
			RateColumns("To the "+leader, "to "+leader),
			[]plots.Column{{Title: "Defective", Unit: "per million", Kind: plots.Number, Decimals: 2, Brief: "ppm bad"}}),
	}
	if a.Personalised() {
		t.Columns = append(t.Columns, plots.Column{Title: "Remakes", Unit: "per 1,000", Kind: plots.Number, Decimals: 2, Brief: "‰ remade"})
	}
	t.Columns = append(t.Columns, plots.Column{Title: "Crew busy", Kind: plots.Share, Decimals: 1, Brief: "crew"})
	for _, i := range some {
		t.Rows = append(t.Rows, comparisonRate(a, i))
	}
	return t
}

// comparisonRate returns what a line delivers.
func comparisonRate(a *study.ComparisonAnswer, i int) []plots.Entry {
	x := &a.Lines[i]
	base, leader := nothings(3), nothings(2)
	if p := a.Compared[0][i]; i != 0 {
		base = append(differing(p.Difference), plots.Entry{Number: p.Wins, Shown: wins(p.Wins)})
	}
	if i != a.Leader {
		leader = differing(a.Compared[a.Leader][i].Difference)
	} else {
		leader[0].Text = ComparisonLeader(a)
	}
	row := slices.Concat([]plots.Entry{page.Words(x.Name)}, estimated(x.NetRate.Estimate()), base, leader, []plots.Entry{defective(x.Study)})
	if a.Personalised() {
		e := study.RemakesIn(x.Study)
		row = append(row, page.Bearing(e.Mean, e.Half))
	}
	busy := study.CrewBusy(x.Study).Mean
	return append(row, plots.Entry{Number: busy, Shown: say.Percent(busy, 0.01)})
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

// mostPairs is how many pairs stand in a page.
const mostPairs = 10

// comparisonPairs returns each line against each other.
func comparisonPairs(a *study.ComparisonAnswer) plots.Table {
	atOnce := ComparisonAtOnce(a)
	if a.Uncertainty != nil {
		atOnce = "" // the method says it
	}
	t := plots.Table{
		Name: "Pairs", Most: mostPairs,
		Caption: "Each line against every other in the same " + ComparisonPeriod(a) + "s: " + a.Pairs.Method + ", 95 %" + atOnce +
			". Narrower: how much the same random events narrowed the ±",
		Columns: slices.Concat([]plots.Column{{Title: "Line"}, {Title: "against"}}, RateColumns("Difference", ""), []plots.Column{
			{Title: "Shown"},
			{Title: "Better", Unit: "of " + ComparisonPeriod(a) + "s", Kind: plots.Share, Decimals: 1},
			{Title: "Narrower", Unit: "times", Kind: plots.Number, Decimals: 1},
		}),
	}
	for _, p := range pairsOfLeader(a) {
		shown := "~"
		if p.Shown {
			shown = "yes"
		}
		narrowing := page.Value(float64(p.Narrowing))
		if math.IsInf(float64(p.Narrowing), 1) {
			narrowing = page.Words("–")
		}
		row := append([]plots.Entry{page.Words(p.Of), page.Words(p.Against)}, differing(p.Difference.Estimate())...)
		t.Rows = append(t.Rows, append(row, page.Words(shown), plots.Entry{Number: float64(p.Wins), Shown: wins(float64(p.Wins))}, narrowing))
	}
	return t
}

// pairsOfLeader returns all pairs, those of the leader first.
func pairsOfLeader(a *study.ComparisonAnswer) []study.ComparisonPair {
	leader := a.Lines[a.Leader].Name
	pairs := slices.Clone(a.Pairs.Pairs)
	slices.SortStableFunc(pairs, func(x, y study.ComparisonPair) int {
		rank := func(p study.ComparisonPair) int {
			if p.Of == leader || p.Against == leader {
				return 0
			}
			return 1
		}
		return rank(x) - rank(y)
	})
	return pairs
}

// comparisonLeads returns each line against the best of the others.
func comparisonLeads(a *study.ComparisonAnswer) plots.Table {
	bound := func(title string) plots.Column {
		return plots.Column{Title: title, Unit: "an hour", Kind: plots.Number}
	}
	t := plots.Table{
		Name:    "Leads",
		Caption: "Each line against the one of the others that delivers most, 95 % intervals, right all at once in this table (Hsu’s method)",
		Columns: []plots.Column{{Title: "Line"}, bound("Lead"), bound("from"), bound("to")},
	}
	for _, l := range a.Leads.Leads {
		half := float64(min(l.High-l.Mean, l.Mean-l.Low)) // the other end may be 0, which is no matter of precision
		if half <= 0 {
			half = float64(l.High-l.Low) / 2
		}
		t.Rows = append(t.Rows, []plots.Entry{page.Words(l.Name), page.Bearing(float64(l.Mean), half), page.Bearing(float64(l.Low), half), page.Bearing(float64(l.High), half)})
	}
	return t
}

// comparisonSteps returns why one line differs from another, the largest steps first, and what the
// others come to.
func comparisonSteps(a *study.ComparisonAnswer, most int) plots.Table {
	rival, best := &a.Lines[a.From], &a.Lines[a.To]
	names := [2]string{stepsCalled(a, a.From), stepsCalled(a, a.To)}
	number := func(title, brief string) plots.Column {
		return plots.Column{Title: title, Unit: "an hour", Kind: plots.Number, Brief: brief}
	}
	t := plots.Table{
		Name:    "Why",
		Caption: "What is lost on the way, envelopes an hour, the largest change first; the changes add up to what they gain together, which the net rates show with the digits that their intervals bear",
		Columns: []plots.Column{
			{Title: "Step", Brief: "Why: lost on the way, envelopes an hour"},
			number(rival.Name, names[0]), number(best.Name, names[1]), number("Gain", "gains"),
		},
	}
	left := math.Round(float64(best.NetRate.Mean - rival.NetRate.Mean)) // for the last row, which closes the sum
	for n, s := range a.Ranked() {
		if n < most {
			left -= math.Round(s.Change)
			t.Rows = append(t.Rows, []plots.Entry{page.Words(s.Name), page.Value(s.From), page.Value(s.To), signed(s.Change)})
		}
	}
	if name := restOfSteps(a, most, left); name != "" {
		t.Rows = append(t.Rows, slices.Concat([]plots.Entry{page.Words(name)}, nothings(2), []plots.Entry{signed(left)}))
	}
	if together := stepsTogether(a); together != nil {
		t.Rows = append(t.Rows, together)
	}
	t.Rows = append(t.Rows, []plots.Entry{page.Words("net rate"), rateOf(rival.NetRate), rateOf(best.NetRate), gainOf(a)})
	return t
}

// restOfSteps returns what is to be called what some steps leave of the difference, in whole envelopes; "" if
// they leave nothing.
func restOfSteps(a *study.ComparisonAnswer, shown int, left float64) string {
	unexplained := float64(a.Lines[a.To].NetRate.Mean - a.Lines[a.From].NetRate.Mean)
	for _, s := range a.Steps {
		unexplained -= s.Change
	}
	switch {
	case shown < len(a.Steps):
		return "all else"
	case left == 0:
		return ""
	case math.Abs(unexplained) < 0.5:
		return "rounding"
	}
	return "not in these steps"
}

// stepsTogether returns what all steps come to, to the envelope, where the net rates below show it with
// so few digits that the difference is no matter of the last one: gains of −31, +12, +4 and +2 stood
// above a net rate of 0. It returns nil elsewhere.
func stepsTogether(a *study.ComparisonAnswer) []plots.Entry {
	from, to := float64(a.Lines[a.From].NetRate.Mean), float64(a.Lines[a.To].NetRate.Mean)
	if a.Selection != nil {
		return nil
	}
	half := a.Compared[a.From][a.To].Difference.Half
	if mean, _ := say.Measured(to-from, half); math.Abs(parsed(mean)-(to-from)) < tooRough {
		return nil
	}
	return []plots.Entry{page.Words("together"), page.Value(from), page.Value(to), signed(to - from)}
}

// tooRough is by how much a sum is off, envelopes an hour, where its rounding is explained by a row.
const tooRough = 10

// parsed returns the number that is shown.
func parsed(shown string) float64 {
	x, err := strconv.ParseFloat(strings.ReplaceAll(shown, ",", ""), 64)
	if err != nil {
		return 0
	}
	return x
}

// stepsOnScreen returns how many steps have a row of their own on a screen: one less where another row says
// what they come to together.
func stepsOnScreen(a *study.ComparisonAnswer) int {
	if stepsTogether(a) != nil {
		return shownSteps - 1
	}
	return shownSteps
}

// widestStepsName is what a column of the steps has room for.
const widestStepsName = 16

// stepsCalled returns what a line is called above a column of steps.
func stepsCalled(a *study.ComparisonAnswer, i int) string {
	switch {
	case a.Lines[i].Name == page.BaseName:
		return page.BaseName
	case i == 0:
	case i == a.Leader:
		return ComparisonLeader(a)
	case i == a.Rival:
		return "next"
	}
	return say.Shortened(a.Lines[i].Name, widestStepsName)
}

// gainOf returns what one line delivers more than the other, without its interval and with the
// digits that it bears.
func gainOf(a *study.ComparisonAnswer) plots.Entry {
	change := signed(float64(a.Lines[a.To].NetRate.Mean - a.Lines[a.From].NetRate.Mean))
	if a.Selection == nil {
		change.Shown = say.GainOf(a.Compared[a.From][a.To].Difference)
	}
	return change
}

// signed returns a change as an entry of a table, with its sign.
func signed(change float64) plots.Entry {
	return plots.Entry{Number: change, Shown: say.Signed(change)}
}

// comparisonDropped returns how far each line came in a selection.
func comparisonDropped(a *study.ComparisonAnswer) plots.Table {
	t := plots.Table{
		Name:    "Selection",
		Caption: "How long each line was in the selection: " + a.Selection.Method + ". " + ComparisonDroppedWords(a),
		Columns: slices.Concat([]plots.Column{{Title: "Line", Brief: "Good envelopes an hour"}}, RateColumns("Net rate", "net rate"), []plots.Column{
			{Title: say.Capital(ComparisonPeriod(a)) + "s", Kind: plots.Number, Brief: ComparisonPeriod(a) + "s"},
			{Title: "Dropped", Brief: "dropped"},
		}),
	}
	for i := range a.Lines {
		x := &a.Lines[i]
		row := append([]plots.Entry{page.Words(x.Name)}, estimated(x.NetRate.Estimate())...)
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
