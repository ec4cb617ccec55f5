package present

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/money"
	"netrate/model/study"
	"netrate/plots"
)

// WorthTables returns what lines cost and what they are worth.
func WorthTables(a *study.WorthAnswer) []plots.Table {
	return []plots.Table{worthYearsTable(a), worthPartsTable(a), worthGainsTable(a), worthPricesTable(a)}
}

// MoneyColumn is a column of sums, or of what has so many decimals.
func MoneyColumn(title, unit string, decimals int) plots.Column {
	return plots.Column{Title: title, Unit: unit, Kind: plots.Number, Decimals: decimals}
}

func worthValue(x study.Number) plots.Entry { return page.Value(float64(x)) }

// worthYearsTable returns a year of each line.
func worthYearsTable(a *study.WorthAnswer) plots.Table {
	unit := a.Currency
	t := plots.Table{
		Name: "Costs", Caption: "A year of each line: means of the draws. The equivalent annual cost has the price, spread over the life with interest",
		Columns: []plots.Column{
			{Title: "Line"},
			MoneyColumn("Price", unit, 0),
			MoneyColumn("Hours", "a year", 0),
			MoneyColumn("Cost", unit+" a year", 0),
			MoneyColumn("5th percentile", unit+" a year", 0),
			MoneyColumn("95th percentile", unit+" a year", 0),
			MoneyColumn("Cost", unit+" per 1,000", 2),
			MoneyColumn("Equivalent annual cost", unit, 0),
		},
	}
	for i := range a.Lines {
		y := &a.Lines[i]
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(y.Name), worthValue(y.Price.Mean), worthValue(y.Hours.Mean), worthValue(y.Cost.Mean), worthValue(y.Cost.P5),
			worthValue(y.Cost.P95), worthValue(y.PerThousand.Mean), worthValue(y.Annual.Mean),
		})
	}
	return t
}

// worthPartsTable returns what the yearly cost of each line consists of.
func worthPartsTable(a *study.WorthAnswer) plots.Table {
	t := plots.Table{
		Name: "Parts of the cost", Caption: "What the cost of a year consists of, " + a.Currency + ", means of the draws",
		Columns: []plots.Column{{Title: "Part"}},
	}
	for i := range a.Lines {
		t.Columns = append(t.Columns, MoneyColumn(a.Lines[i].Name, a.Currency+" a year", 0))
	}
	for p, part := range a.Lines[0].Parts {
		row := []plots.Entry{page.Words(part.Name)}
		for i := range a.Lines {
			row = append(row, worthValue(a.Lines[i].Parts[p].Mean))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// worthGainsTable returns what each line is worth against the base.
func worthGainsTable(a *study.WorthAnswer) plots.Table {
	unit := a.Currency
	t := plots.Table{
		Name: "Worth", Caption: "Each line against the base. Saving and net present value are means, the others medians of the draws",
		Columns: []plots.Column{
			{Title: "Line"},
			MoneyColumn("Saving", unit+" a year", 0),
			MoneyColumn("Payback", "years", 1),
			MoneyColumn("Discounted", "years", 1),
			MoneyColumn("NPV", unit, 0),
			MoneyColumn("5th percentile", unit, 0),
			MoneyColumn("95th percentile", unit, 0),
			{Title: "NPV above 0", Unit: "of draws", Kind: plots.Share, Decimals: 1},
			MoneyColumn("Break-even", "envelopes a year", 0),
		},
	}
	for i := range a.Lines {
		g := a.Lines[i].Against
		if g == nil {
			continue
		}
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(a.Lines[i].Name), worthValue(g.Saving.Mean), reached(g.Payback.P50), reached(g.Discounted.P50), worthValue(g.NPV.Mean),
			worthValue(g.NPV.P5), worthValue(g.NPV.P95), worthValue(g.Chance.Share), reached(g.BreakEven.P50),
		})
	}
	return t
}

// worthPricesTable returns what was put in, as the file has it.
func worthPricesTable(a *study.WorthAnswer) plots.Table {
	t := plots.Table{
		Name: "Costs put in", Caption: "What the file says, " + a.Currency + ": the likeliest figure, and from what to what it may be",
		Columns: []plots.Column{{Title: "costs"}},
	}
	var names []string
	said := make([]map[string]string, len(a.Lines))
	for i := range a.Lines {
		x := &a.Lines[i]
		t.Columns = append(t.Columns, plots.Column{Title: x.Name})
		said[i] = map[string]string{}
		for _, v := range x.Of.Costs.Values() {
			if !slices.Contains(names, v.Name) {
				names = append(names, v.Name)
			}
			said[i][v.Name] = rangeWords(v.Of)
		}
		if o := x.Of.Costs.Overtime; o.Factor > 1 {
			said[i]["overtime"] = say.Exact(o.Factor) + " times beyond " + say.Exact(o.Beyond) + " h"
		}
	}
	for _, name := range append(names, "overtime") {
		row := []plots.Entry{page.Words(name)}
		for _, of := range said {
			row = append(row, page.Words(cmp.Or(of[name], "–")))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// rangeWords returns a value, to its last digit, and its range if it has one.
func rangeWords(v money.Value) string {
	plain := func(x float64) string { return say.Grouped(strconv.FormatFloat(x, 'f', -1, 64)) }
	text := plain(v.Likely)
	if v.Low < v.High {
		text += " (" + plain(v.Low) + " to " + plain(v.High) + ")"
	}
	return text
}

// reached returns a median, or that it is never reached.
func reached(middle study.Number) plots.Entry {
	if math.IsInf(float64(middle), 1) {
		return page.Words("never")
	}
	return worthValue(middle)
}
