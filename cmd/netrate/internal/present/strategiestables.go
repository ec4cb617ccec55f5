package present

import (
	"fmt"
	"math"
	"slices"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// StrategiesTables returns the tables of a choice: all strategies; what the best answers to which
// fault; and where its defective envelopes come from, and those of the line's own strategy.
func StrategiesTables(a *study.StrategiesAnswer) []plots.Table {
	return append([]plots.Table{strategiesTable(a, page.All(len(a.Strategies)), true), decisionsTable(a)}, strategiesEscapes(a)...)
}

// strategiesTable returns a row for each of some strategies: the line's own first, then by what is
// risked. People read of the responses only if they are asked for.
func strategiesTable(a *study.StrategiesAnswer, some []int, responses bool) plots.Table {
	number := func(title, unit string, decimals int) plots.Column {
		return plots.Column{Title: title, Unit: unit, Kind: plots.Number, Decimals: decimals}
	}
	data := func(title, unit string, decimals int) plots.Column {
		c := number(title, unit, decimals)
		c.Data = true
		return c
	}
	const unit, ppm, ppt = "good/h", "per million", "per 1,000"
	t := plots.Table{
		Name: "Strategies", Names: 1,
		Caption: "Net rate and its gain on the file’s own strategy, good envelopes an hour with 95 % intervals, those of the gains right all " +
			"at once; and defective envelopes among those delivered.",
		Columns: []plots.Column{
			{Title: "Strategy"},
			{Title: "Is"},
			number("Net rate", unit, 0), data("Net rate ±", unit, 1), number("To own", unit, 0), data("To own ±", unit, 1),
			number("Defective", ppm, 2),
			{Title: "Defective: from", Data: true},
			data("Counted defective", "", 0), data("Counted delivered", "", 0),
			data("Counted from", ppm, 3), data("Counted to", ppm, 3),
			{Title: "Remakes", Unit: ppt, Kind: plots.Number, Decimals: 3, Data: !a.Personalised()},
			{Title: "Within the limit", Data: true},
			{Title: "Best or as good", Data: true},
			{Title: "On the frontier", Data: true},
			data("On paper: net rate", unit, 0), data("On paper: defective", ppm, 2), data("On paper: remakes", ppt, 3),
			{Title: "Responses that differ", Data: !responses},
		},
	}
	if a.Personalised() {
		t.Caption += " Remakes are per 1,000 sets."
	}
	if more := len(a.Strategies) - len(some); more > 0 {
		t.Caption += fmt.Sprintf(" %s more, and their responses: --csv, --report.", say.Thousands(more))
	}
	for _, i := range some {
		t.Rows = append(t.Rows, strategiesRow(a, i))
	}
	return t
}

func strategiesRow(a *study.StrategiesAnswer, i int) []plots.Entry {
	x := &a.Strategies[i]
	none := plots.Entry{Number: math.NaN()}
	gain, half := none, none
	if i > 0 {
		d := a.Pairs[0][i].Difference
		gain, half = plots.Entry{Number: d.Mean, Shown: say.Gap(d)}, page.HalfWidth(d.Half)
	}
	from := "the rates"
	if x.Defective.FromCount {
		from = "the count"
	}
	is, words := strategiesIs(a, i), x.Otherwise
	if i == 0 {
		words = "as the file has it"
	}
	return []plots.Entry{
		page.Words(x.Name), page.Words(is),
		{Number: float64(x.NetRate.Mean), Shown: netRate(x.NetRate)},
		page.HalfWidth(float64(x.NetRate.Half)), gain, half,
		{Number: float64(x.Defective.PerMillion), Shown: riskText(&x.Defective)},
		page.Words(from),
		page.Value(float64(x.Defective.Counted)), page.Value(float64(x.Defective.Delivered)), value(x.Defective.CountedLow), value(x.Defective.CountedHigh),
		{Number: x.Remade(), Shown: say.FewDigits(x.Remade())},
		page.Words(yes(x.Within)), page.Words(yes(is != "" && is != strategyOver)), page.Words(yes(x.Frontier)),
		value(x.OnPaper.NetRate), value(x.OnPaper.Defective), value(x.OnPaper.Remakes), page.Words(words),
	}
}

// What a strategy is.
const (
	strategyBest  = "best"
	strategyLeads = "leads" // it is not shown to be best
	strategyRival = "as good?"
	strategyOver  = "over limit"
)

// strategiesIs returns what a strategy is, if it is anything: the best or what leads, one that may
// be as good, or one that is not within the limit.
func strategiesIs(a *study.StrategiesAnswer, i int) string {
	switch x := &a.Strategies[i]; {
	case !x.Within:
		return strategyOver
	case i == a.Leader && a.Shown:
		return strategyBest
	case i == a.Leader:
		return strategyLeads
	case a.MayBeAsGood(i):
		return strategyRival
	}
	return ""
}

func yes(is bool) string {
	if is {
		return "yes"
	}
	return "no"
}

// decisionsTable returns what the best answers to what, and what the file says.
func decisionsTable(a *study.StrategiesAnswer) plots.Table {
	called := strategyCalled(a, a.Leader)
	t := plots.Table{
		Name: "Responses", Caption: "The response of " + called + " to each fault that leaves a choice",
		Columns: []plots.Column{{Title: "Station"}, {Title: "Fault"}, {Title: "The file"}, {Title: say.Capital(called)}},
	}
	for k, d := range a.Decisions {
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(d.Station), page.Words(d.Fault), page.Words(a.Own().Responses[k]), page.Words(a.Leading().Responses[k]),
		})
	}
	return t
}

// strategiesJobs returns what the line delivers of each of several jobs, with its own strategy and with
// the best.
func strategiesJobs(a *study.StrategiesAnswer) plots.Table {
	t := plots.Table{
		Name: "Jobs", Caption: "Each job: its part of the good envelopes and its net rate with the 95 % interval",
		Columns: []plots.Column{{Title: "Job"}, {Title: "Share", Unit: "of the envelopes", Kind: plots.Share, Decimals: 1}},
	}
	some := []int{0}
	if a.Leader != 0 {
		some = append(some, a.Leader)
	}
	for _, i := range some {
		t.Columns = append(t.Columns, RateColumns("Net rate "+a.Strategies[i].Name, "")...)
	}
	for k, j := range a.Own().Jobs {
		row := []plots.Entry{page.Words(j.Name), value(j.Share)}
		for _, i := range some {
			row = append(row, estimated(a.Strategies[i].Jobs[k].NetRate.Estimate())...)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// strategiesEscapes returns where the defective envelopes of the best come from, and of the line's
// own strategy if that is another; nothing of those that no single fault makes.
func strategiesEscapes(a *study.StrategiesAnswer) []plots.Table {
	var tables []plots.Table
	for _, i := range slices.Compact([]int{a.Leader, 0}) {
		if len(a.Strategies[i].Defective.From) > 0 {
			tables = append(tables, escapesTable(a, i))
		}
	}
	return tables
}

// escapesTable returns where the defective envelopes of a strategy come from.
func escapesTable(a *study.StrategiesAnswer, i int) plots.Table {
	x := &a.Strategies[i]
	t := plots.Table{
		Name: "Defective " + x.Name, Caption: "Defective in a million delivered, from the rates: " + strategyCalled(a, i),
		Columns: []plots.Column{{Title: "From"}, {Title: "Defective", Unit: "per million", Kind: plots.Number, Decimals: 2}},
	}
	for _, e := range x.Defective.From {
		t.Rows = append(t.Rows, []plots.Entry{page.Words(escapeName(e)), {Number: float64(e.PerMillion), Shown: ppmText(float64(e.PerMillion))}})
	}
	return t
}
