package present

import (
	"math"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// StrategiesTable returns a row for each strategy, the line's own first, then by what is risked.
func StrategiesTable(a *study.StrategiesAnswer) plots.Table {
	number := func(title, unit string, decimals int) plots.Column {
		return plots.Column{Title: title, Unit: unit, Kind: plots.Number, Decimals: decimals}
	}
	const unit, ppm, ppt = "good envelopes/h", "per million", "per 1,000"
	t := plots.Table{
		Name: "Strategies", Caption: "Strategies with their net rates and risks: " + page.SampleEach(a.Own().Study) +
			". ± is the half-width of 95 % intervals; those of the differences are right all at once.",
		Columns: []plots.Column{
			{Title: "Strategy"},
			number("Net rate", unit, 0), number("Net rate ±", unit, 1), number("To own", unit, 0), number("To own ±", unit, 1),
			number("Defective", ppm, 4),
			{Title: "Defective: from"},
			number("Counted defective", "", 0), number("Counted delivered", "", 0),
			number("Counted from", ppm, 3), number("Counted to", ppm, 3), number("Remakes", ppt, 3),
			{Title: "Within the limit"},
			{Title: "Best or as good"},
			{Title: "On the frontier"},
			number("On paper: net rate", unit, 0), number("On paper: defective", ppm, 4), number("On paper: remakes", ppt, 3),
			{Title: "Answers otherwise than the file"},
		},
	}
	for i := range a.Strategies {
		t.Rows = append(t.Rows, strategiesRow(a, i))
	}
	return t
}

func strategiesRow(a *study.StrategiesAnswer, i int) []plots.Entry {
	x := &a.Strategies[i]
	e := x.Study.NetRates().Interval(say.Level)
	none := plots.Entry{Number: math.NaN()}
	gain, doubt := none, none
	if i > 0 {
		d := a.Pairs[0][i].Difference
		gain, doubt = page.Value(d.Mean), page.Doubt(d.Half)
	}
	from := "the rates"
	if x.Defective.FromCount {
		from = "the count"
	}
	return []plots.Entry{
		page.Words(x.Name), page.Value(e.Mean), page.Doubt(e.Half), gain, doubt,
		page.Value(float64(x.Defective.PerMillion)), page.Words(from), page.Value(float64(x.Defective.Counted)), page.Value(float64(x.Defective.Delivered)), page.Value(float64(x.Defective.CountedLow)), page.Value(float64(x.Defective.CountedHigh)),
		page.Value(x.Remade()), page.Words(yes(x.Within)), page.Words(yes(strategiesLeading(a, i))), page.Words(yes(x.Frontier)),
		page.Value(float64(x.OnPaper.NetRate)), page.Value(float64(x.OnPaper.Defective)), page.Value(float64(x.OnPaper.Remakes)), page.Words(x.Otherwise),
	}
}

// strategiesLeading reports whether a strategy is the best within the limit, or may be as good.
func strategiesLeading(a *study.StrategiesAnswer, i int) bool {
	return strategiesMark(a, i) == "> " || strategiesMark(a, i) == "= "
}

func yes(is bool) string {
	if is {
		return "yes"
	}
	return "no"
}

// decisionsTable returns what the best answers to what, and what the file says.
func decisionsTable(a *study.StrategiesAnswer) plots.Table {
	t := plots.Table{
		Name: "Answers", Caption: "What " + strategyCalled(a, a.Leader) + " answers to each fault that leaves a choice",
		Columns: []plots.Column{{Title: "Station"}, {Title: "Fault"}, {Title: "The file"}, {Title: say.Capital(strategyCalled(a, a.Leader))}},
	}
	for k, d := range a.Decisions {
		own, best := a.Own().Responses[k], a.Leading().Responses[k]
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(d.Station), page.Words(d.Fault), page.Words(own), page.Words(best),
		})
	}
	return t
}

// escapesTable returns where the defective envelopes of a strategy come from.
func escapesTable(a *study.StrategiesAnswer, i int) plots.Table {
	x := &a.Strategies[i]
	t := plots.Table{
		Name: "Defective " + x.Name, Caption: "Defective in a million delivered, from the rates: " + strategyCalled(a, i),
		Columns: []plots.Column{{Title: "From"}, {Title: "Defective", Unit: "per million", Kind: plots.Number, Decimals: 4}},
	}
	for _, e := range x.Defective.From {
		t.Rows = append(t.Rows, []plots.Entry{page.Words(escapeName(e)), page.Value(float64(e.PerMillion))})
	}
	return t
}

// strategiesShort returns what of the table has room on a page.
func strategiesShort(a *study.StrategiesAnswer) plots.Table {
	t := plots.Table{
		Name:    "Strategies in short",
		Caption: "Net rate with its 95 % interval; what it gains on the file’s own, all intervals right at once; defective in a million; remakes in a thousand",
		Columns: []plots.Column{{Title: "Strategy"}},
	}
	for _, title := range []string{"Net rate", "To own", "Defective", "Remakes"} {
		t.Columns = append(t.Columns, plots.Column{Title: title, Kind: plots.Number})
	}
	t.Columns = append(t.Columns, plots.Column{Title: "Answers otherwise"})
	for i := range a.Strategies {
		x := &a.Strategies[i]
		e, gain, remade := x.Study.NetRates().Interval(say.Level), "", "–"
		if i != 0 {
			gain = say.Gap(a.Pairs[0][i].Difference)
		}
		if a.Line.Personalised() {
			remade = say.FewDigits(x.Remade())
		}
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(x.Name), page.Words(say.PlusMinus(say.Measured(e.Mean, e.Half))), page.Words(gain), page.Words(riskText(&x.Defective)), page.Words(remade), page.Words(x.Otherwise),
		})
	}
	return t
}
