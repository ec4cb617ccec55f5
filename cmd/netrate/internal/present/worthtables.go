package present

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/money"
	"netrate/model/study"
	"netrate/plots"
	"netrate/sim"
)

// WorthTables returns what lines cost and what they are worth: all of it for all lines.
func WorthTables(a *study.WorthAnswer) []plots.Table {
	all := page.All(len(a.Lines))
	tables := []plots.Table{worthYears(a, all), worthPartsTable(a), worthGains(a, all)}
	if a.ByLine {
		tables = slices.Insert(tables, 1, worthLineHours(a))
	}
	if len(a.Lines) > 1 {
		tables = append(tables, worthPairs(a))
	}
	return append(tables, worthPricesTable(a))
}

// WorthText returns what some of the lines cost and what they are worth, as a screen has it.
func WorthText(a *study.WorthAnswer, shown []int) string {
	return brief(worthYears(a, shown), worthGains(a, shown)) + "\n" + say.Wrapped(WorthFinding(a)+" "+WorthCaution(a), say.Prose())
}

// MoneyColumn is a column of sums, or of what has a fixed number of decimals.
func MoneyColumn(title, unit string, decimals int) plots.Column {
	return plots.Column{Title: title, Unit: unit, Kind: plots.Number, Decimals: decimals}
}

func worthValue(x study.Number) plots.Entry { return page.Value(float64(x)) }

// averaged returns the mean of what was drawn, with no digit more than its spread supports.
func averaged(s sim.Sample) plots.Entry { return spread(study.Number(s.Mean()), s) }

// spread returns a figure of what was drawn, with no digit more than its spread supports.
func spread(x study.Number, s sim.Sample) plots.Entry {
	return plots.Entry{Number: float64(x), Shown: upToSpread(float64(x), s)}
}

// briefly gives a column the heading that it has in brief.
func briefly(c plots.Column, heading string) plots.Column {
	c.Brief = heading
	return c
}

// worthYears returns a year of some of the lines.
func worthYears(a *study.WorthAnswer, some []int) plots.Table {
	unit := a.Currency
	t := plots.Table{
		Name: "Costs", Caption: "A year of each " + worthWord(a) + ": means of the draws, so that its hours are its volume over the rate beside them. The all-in cost has the price in it, spread over the life with interest, and so has the equivalent annual cost; the running cost has not. Cheapest: the share of the draws in which the " + worthWord(a) + " costs least, all in, of all that are compared. Sums of a year are rounded as their differences are, which are known better than each sum",
		Columns: []plots.Column{
			{Title: say.Capital(worthWord(a)), Brief: "Money, " + unit},
			briefly(MoneyColumn("Price", unit, 0), "price"),
			briefly(MoneyColumn("Hours", "a year", 0), "hours a year"),
			{Title: "Volume over hours", Unit: "an hour", Kind: plots.Number},
			briefly(MoneyColumn("Cost", unit+" a year", 0), "cost a year"),
			MoneyColumn("5th percentile", unit+" a year", 0),
			MoneyColumn("95th percentile", unit+" a year", 0),
			briefly(MoneyColumn("Running cost", unit+" per 1,000", 2), "per 1,000"),
			briefly(MoneyColumn("All-in cost", unit+" per 1,000", 2), "all-in"),
			MoneyColumn("Equivalent annual cost", unit, 0),
			{Title: "Cheapest", Unit: "of draws", Kind: plots.Share, Decimals: 1, Brief: "cheapest"},
		},
	}
	sums := yearSums(a)
	for _, i := range some {
		y, x := &a.Lines[i], &a.Worth.Lines[i]
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(y.Name), averaged(x.Price), hoursOf(a, i), hourRate(y), sums.entry(x.Cost.Mean()), sums.entry(float64(y.Cost.P5)),
			sums.entry(float64(y.Cost.P95)), running(a).entry(x.PerThousand.Mean()),
			allIn(a).entry(a.Worth.AllInPerThousand(i).Mean()), sums.entry(float64(y.Annual.Mean)),
			{Number: float64(y.Cheapest.Share), Shown: worthChance(a.Worth.Cheapest(i))},
		})
	}
	return t
}

// hoursOf returns the hours of a line in a year, with as many digits as the line has that supports
// most: those of a column are rounded alike.
func hoursOf(a *study.WorthAnswer, line int) plots.Entry {
	hours := a.Worth.Lines[line].Hours
	finest := hours
	for i := range a.Worth.Lines {
		if other := a.Worth.Lines[i].Hours; other.SD() < finest.SD() {
			finest = other
		}
	}
	return spread(study.Number(hours.Mean()), finest)
}

// hourRate returns the rate of the hours of a year, to three digits: the volume and the hours are
// uncertain together, so that their ratio is known better than either.
func hourRate(y *study.WorthLine) plots.Entry {
	rate := float64(y.HourRate)
	return plots.Entry{Number: rate, Shown: say.Rounded(rate, say.Magnitude(rate)-2)}
}

// worthLineHours returns the hours of a year of each of several lines.
func worthLineHours(a *study.WorthAnswer) plots.Table {
	t := plots.Table{
		Name: "Hours of the lines", Caption: "Hours in which each line runs a year: its volume over its rate beside the others, means of the draws",
		Columns: []plots.Column{{Title: say.Capital(worthWord(a))}},
	}
	for _, l := range a.Lines[0].LineHours {
		t.Columns = append(t.Columns, MoneyColumn(l.Line, "hours a year", 0))
	}
	for i := range a.Lines {
		row := []plots.Entry{page.Words(a.Lines[i].Name)}
		for k := range a.Lines[i].LineHours {
			row = append(row, averaged(a.Worth.Lines[i].JobHours[k]))
		}
		t.Rows = append(t.Rows, row)
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
	r := partsRounded(a)
	for p, part := range a.Lines[0].Parts {
		row := []plots.Entry{page.Words(part.Name)}
		for i := range a.Lines {
			row = append(row, r.entry(float64(a.Lines[i].Parts[p].Mean)))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// partsRounded returns how the parts of the cost are rounded: as the sums are, or finer where the least of
// them has no two digits then.
func partsRounded(a *study.WorthAnswer) rounding {
	r := yearSums(a)
	r.known = true
	for i := range a.Lines {
		for _, part := range a.Lines[i].Parts {
			if size := math.Abs(float64(part.Mean)); size >= 1 {
				r.place = max(0, min(r.place, say.Magnitude(size)-1))
			}
		}
	}
	return r
}

// worthGains returns what some of the lines are worth against the base.
func worthGains(a *study.WorthAnswer, some []int) plots.Table {
	unit := a.Currency
	data := MoneyColumn("NPV: 5th percentile", unit, 0)
	data.Data = true
	data95 := data
	data95.Title = "NPV: 95th percentile"
	t := plots.Table{
		Name: "Worth", Caption: "Each " + worthWord(a) + " against the base. Saving, net present value and break-even price are means, the others medians of the draws. Never: not within " + say.Plural(a.Life, "year") + ", in that share of the draws",
		Columns: []plots.Column{
			{Title: say.Capital(worthWord(a)), Brief: "Against the base"},
			briefly(MoneyColumn("Saving", unit+" a year", 0), "saved a year"),
			briefly(MoneyColumn("Payback", "", 1), "paid back"),
			MoneyColumn("Discounted payback", "", 1),
			briefly(MoneyColumn("NPV", unit, 0), "NPV"),
			briefly(MoneyColumn("5 % to 95 %", unit, 0), "5 % to 95 %"),
			data, data95,
			{Title: "NPV above 0", Unit: "of draws", Kind: plots.Share, Decimals: 1, Brief: "NPV > 0"},
			MoneyColumn("Break-even", "envelopes a year", 0),
			MoneyColumn("Break-even price", unit, 0),
		},
	}
	sums, values, prices := yearSums(a), presentValues(a), breakEvenPrices(a)
	for _, i := range some {
		g := a.Lines[i].Against
		if g == nil {
			continue
		}
		drawn := &a.Worth.Gains[i]
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(a.Lines[i].Name), sums.difference(a.Worth.Lines[0].Cost.Mean(), a.Worth.Lines[i].Cost.Mean()), paidBack(g.Payback.P50, drawn.Payback), paidBack(g.Discounted.P50, drawn.Discounted),
			values.entry(drawn.NPV.Mean()), page.Words(values.nineInTen(drawn.NPV)), worthValue(g.NPV.P5), worthValue(g.NPV.P95),
			{Number: float64(g.Chance.Share), Shown: worthChance(drawn.Chance)},
			reached(g.BreakEven.P50, drawn.BreakEven), prices.entry(a.Worth.BreakEvenPrice(i, 0).Mean()),
		})
	}
	return t
}

// worthPairs returns each line against each other over the life.
func worthPairs(a *study.WorthAnswer) plots.Table {
	t := plots.Table{
		Name: "Each against each", Caption: "By the equivalent annual cost, the price in it: means of the same draws for both. At the break-even price the first costs over its life what the second does",
		Columns: []plots.Column{
			{Title: say.Capital(worthWord(a))},
			{Title: "against"},
			MoneyColumn("Cheaper by", a.Currency+" a year", 0),
			{Title: "Cheaper", Unit: "of draws", Kind: plots.Share, Decimals: 1},
			MoneyColumn("Break-even price", a.Currency, 0),
		},
	}
	sums, prices := yearSums(a), breakEvenPrices(a)
	pairs := a.Pairs // in the order of lines, each against those before it
	for i := range a.Lines {
		for k := range i {
			p := pairs[0]
			pairs = pairs[1:]
			share := float64(p.Chance.Share)
			t.Rows = append(t.Rows, []plots.Entry{
				page.Words(p.Of), page.Words(p.Against), sums.difference(a.Worth.Lines[k].Annual.Mean(), a.Worth.Lines[i].Annual.Mean()),
				{Number: share, Shown: say.Percent(share, float64(p.Chance.High-p.Chance.Low)/2)},
				prices.entry(a.Worth.BreakEvenPrice(i, k).Mean()),
			})
		}
	}
	return t
}

// paidBack returns after how many years a price is paid back, by the median of the draws; if that is not
// within the life, in which share of them it never is.
func paidBack(years study.Number, drawn sim.Sample) plots.Entry {
	switch {
	case math.IsInf(float64(years), 1):
		return page.Words(neverIn(drawn))
	case years == 0:
		return plots.Entry{Shown: "no outlay"}
	}
	return plots.Entry{Number: float64(years), Shown: fmt.Sprintf("%.1f years", float64(years))}
}

// worthPricesTable returns what was put in, as the file has it.
func worthPricesTable(a *study.WorthAnswer) plots.Table {
	t := plots.Table{
		Name: "Costs put in", Caption: "What the file says, " + a.Currency + ": the likeliest figure, and from what to what it may be",
		Columns: []plots.Column{{Title: "costs"}},
	}
	var names []string
	said := make([]map[string][]plots.Entry, len(a.Lines)) // likeliest, from, to
	for i := range a.Lines {
		x := &a.Lines[i]
		t.Columns = append(t.Columns, plots.Column{Title: x.Name, Kind: plots.Number, Decimals: 2},
			plots.Column{Title: x.Name + ": from", Kind: plots.Number, Decimals: 2, Data: true}, plots.Column{Title: x.Name + ": to", Kind: plots.Number, Decimals: 2, Data: true})
		said[i] = map[string][]plots.Entry{}
		for _, v := range x.Of.Costs.Values() {
			if !slices.Contains(names, v.Name) {
				names = append(names, v.Name)
			}
			said[i][v.Name] = []plots.Entry{{Number: v.Of.Likely, Shown: rangeWords(v.Of)}, page.Value(v.Of.Low), page.Value(v.Of.High)}
		}
		if o := x.Of.Costs.Overtime; o.Factor > 1 {
			said[i]["overtime"] = append([]plots.Entry{page.Words(say.Exact(o.Factor) + " times beyond " + say.Exact(o.Beyond) + " h")}, nothings(2)...)
		}
	}
	for _, name := range append(names, "overtime") {
		row := []plots.Entry{page.Words(name)}
		for _, of := range said {
			if entries := of[name]; entries != nil {
				row = append(row, entries...)
			} else {
				row = append(append(row, page.Words("–")), nothings(2)...)
			}
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

// neverIn says in which share of some draws something is never so.
func neverIn(drawn sim.Sample) string {
	never := 0
	for _, x := range drawn {
		if math.IsInf(x, 1) {
			never++
		}
	}
	if never == len(drawn) {
		return "never"
	}
	return "never in " + say.Percent(min(0.99, float64(never)/float64(len(drawn))), 0.01)
}

// reached returns a median with two digits, or in which share of the draws it is never reached.
func reached(middle study.Number, drawn sim.Sample) plots.Entry {
	if math.IsInf(float64(middle), 1) {
		return page.Words(neverIn(drawn))
	}
	if middle < 100 {
		return worthValue(middle)
	}
	return plots.Entry{Number: float64(middle), Shown: say.TwoDigits(float64(middle))}
}
