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

// seasonsCost says what the season costs that is named first, and where it costs least; nothing where the
// file has no costs.
func seasonsCost(a *study.SeasonsAnswer) string {
	x := seasonsNamed(a)
	c := x.Costs
	if c == nil {
		return ""
	}
	text := fmt.Sprintf(" With the overtime that it needs, a season of %s costs %s %s in the mean%s, which is %s %s for a thousand good envelopes.",
		seasonsCall(x), upToSpread(float64(c.All.Mean), c.Sums), c.Currency, costsRange(c, "seasons"), upToSpread(float64(c.Thousand.Mean), c.Thousands), c.Currency)
	if a.Cheapest == nil || len(a.Lines) == 1 {
		return text
	}
	least := &a.Lines[*a.Cheapest]
	if least == x {
		return text + " None costs less."
	}
	return text + fmt.Sprintf(" %s costs least, %s %s.", say.Capital(seasonsCall(least)), upToSpread(float64(least.Costs.All.Mean), least.Costs.Sums), c.Currency)
}

// costsRange says between which sums nine in ten lie of seasons, or of what else is simulated; nothing where all cost
// the same.
func costsRange(c *study.SeasonsCosts, of string) string {
	if c.All.P5 == c.All.P95 {
		return ""
	}
	mean, low, high, off := upToSpread(float64(c.All.Mean), c.Sums), upToSpread(float64(c.All.P5), c.Sums), upToSpread(float64(c.All.P95), c.Sums), ""
	switch {
	case c.All.Mean > c.All.P95 && mean != high:
		off = "; a few far dearer ones lift the mean above that"
	case c.All.Mean < c.All.P5 && mean != low:
		off = "; a few far cheaper ones draw the mean below that"
	}
	return fmt.Sprintf(" (from %s to %s in nine of ten %s%s)", low, high, of, off)
}

// seasonsCostsNote says what is in the costs of a season, and what is not; nothing where there are none.
func seasonsCostsNote(a *study.SeasonsAnswer) string {
	for i := range a.Lines {
		if a.Lines[i].Costs == nil {
			continue
		}
		text := " The costs of a season are those of its hours and of what it uses: operators for the working time of all weeks, whether there is work or not, and for the overtime in which each week ends with its own work done; " +
			"the line for its work, changeovers included; pieces, also of sets that are lost; technicians, remakes, spoiled sets and defective envelopes. " +
			"Each season draws prices from their ranges. The price of the line and its upkeep are not in them, nor is what a late week costs; the volume of a year does not count."
		if a.Lines[i].ByHand > 0 {
			text += " The people who make remakes by hand are paid by the price of a remake, or not at all."
		}
		return text + " An estimate, not financial advice."
	}
	return ""
}

// costed is a configuration with what its season costs.
type costed struct {
	name  string
	costs *study.SeasonsCosts
	sums  map[string]string // of parts that are not rounded as the others are, how they are shown
}

// SeasonsMoney returns what each configuration costs, and of what that is the sum; none where the file has
// no costs.
func SeasonsMoney(a *study.SeasonsAnswer) []plots.Table {
	var all []costed
	for i := range a.Lines {
		all = append(all, costed{name: a.Lines[i].Name, costs: a.Lines[i].Costs})
	}
	return moneyTables("Line", "the season", ", if each week ends with its own work done, in overtime if need be", "seasons", all)
}

// moneyTables returns what configurations cost, of which it is said in words what costs how much, and nine in ten of
// what lie between two sums, and of what that is the sum.
func moneyTables(title, what, of, in string, all []costed) []plots.Table {
	priced := slices.DeleteFunc(slices.Clone(all), func(x costed) bool { return x.costs == nil })
	if len(priced) == 0 {
		return nil
	}
	return []plots.Table{costsTable(title, "What "+what+" costs in all"+of+": in the mean, and from where to where nine in ten "+in+" lie", priced), costPartsTable(priced)}
}

func costsTable(title, caption string, priced []costed) plots.Table {
	t := plots.Table{
		Name: "Costs", Caption: caption,
		Columns: []plots.Column{
			{Title: title},
			{Title: "Currency", Data: true},
			MoneyColumn("Cost", oneCurrency(priced), 0),
			MoneyColumn("from", "", 0),
			MoneyColumn("to", "", 0),
			MoneyColumn("per 1,000", "good", 2),
			MoneyColumn("More than base", "", 0),
			MoneyColumn("from", "", 0),
			MoneyColumn("to", "", 0),
		},
	}
	if len(priced) == 1 {
		t.Columns = t.Columns[:6]
	}
	for _, x := range priced {
		c := x.costs
		row := []plots.Entry{
			page.Words(x.name), page.Words(c.Currency), spread(c.All.Mean, c.Sums), spread(c.All.P5, c.Sums), spread(c.All.P95, c.Sums), spread(c.Thousand.Mean, c.Thousands),
		}
		if m := c.Against; m != nil {
			row = append(row, spread(m.Mean, c.More), spread(m.P5, c.More), spread(m.P95, c.More))
		} else {
			none := plots.Entry{Number: math.NaN()}
			row = append(row, none, none, none)
		}
		t.Rows = append(t.Rows, row[:len(t.Columns)])
	}
	return t
}

// oneCurrency returns the currency of all costs; "" if they have several.
func oneCurrency(priced []costed) string {
	for _, x := range priced {
		if x.costs.Currency != priced[0].costs.Currency {
			return ""
		}
	}
	return priced[0].costs.Currency
}

// costPartsTable returns a row for each part that costs something somewhere.
func costPartsTable(priced []costed) plots.Table {
	t := plots.Table{Name: "Cost parts", Caption: "Of what that is the sum, in the mean; the parts that nothing is paid for are left out", Columns: []plots.Column{{Title: "Part"}}}
	for _, x := range priced {
		t.Columns = append(t.Columns, MoneyColumn(x.name, x.costs.Currency, 0))
	}
	for p, part := range mostParts(priced) {
		row, some := []plots.Entry{page.Words(part.Name)}, false
		for _, x := range priced {
			cost := study.Number(0)
			if p < len(x.costs.Parts) {
				cost = x.costs.Parts[p].Mean
			}
			entry := spread(cost, x.costs.Sums)
			if text, is := x.sums[part.Name]; is {
				entry.Shown = text
			}
			row, some = append(row, entry), some || cost > 0
		}
		if some {
			t.Rows = append(t.Rows, row)
		}
	}
	return t
}

// mostParts returns the parts of the configuration that has most of them: what is chosen and lateness are parts of a
// plan alone.
func mostParts(priced []costed) (parts []study.SeasonsCostsPart) {
	for _, x := range priced {
		if len(x.costs.Parts) > len(parts) {
			parts = x.costs.Parts
		}
	}
	return parts
}
