package lines

import (
	"math"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/plots"
)

// Table returns a row for each strategy, the line's own first, then by what is risked.
func (c *choice) Table() plots.Table {
	number := func(title, unit string, decimals int) plots.Column {
		return plots.Column{Title: title, Unit: unit, Kind: plots.Number, Decimals: decimals}
	}
	const unit, ppm, ppt = "good envelopes/h", "per million", "per 1,000"
	t := plots.Table{
		Name: "Strategies", Caption: "Strategies with their net rates and risks: " + page.SampleEach(c.own().Study) +
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
	for i := range c.Strategies {
		t.Rows = append(t.Rows, c.row(i))
	}
	return t
}

func (c *choice) row(i int) []plots.Entry {
	x := &c.Strategies[i]
	e := x.Study.NetRates().Interval(say.Level)
	none := plots.Entry{Number: math.NaN()}
	gain, doubt := none, none
	if i > 0 {
		d := c.Pairs[0][i].Difference
		gain, doubt = page.Value(d.Mean), page.Doubt(d.Half)
	}
	from := "the rates"
	if x.Defective.FromCount {
		from = "the count"
	}
	return []plots.Entry{
		page.Words(x.Name), page.Value(e.Mean), page.Doubt(e.Half), gain, doubt,
		page.Value(float64(x.Defective.PerMillion)), page.Words(from), page.Value(float64(x.Defective.Counted)), page.Value(float64(x.Defective.Delivered)), page.Value(float64(x.Defective.CountedLow)), page.Value(float64(x.Defective.CountedHigh)),
		page.Value(x.Remade()), page.Words(yes(x.Within)), page.Words(yes(c.leading(i))), page.Words(yes(x.Frontier)),
		page.Value(float64(x.OnPaper.NetRate)), page.Value(float64(x.OnPaper.Defective)), page.Value(float64(x.OnPaper.Remakes)), page.Words(x.Otherwise),
	}
}

// leading reports whether a strategy is the best within the limit, or may be as good.
func (c *choice) leading(i int) bool { return c.mark(i) == "> " || c.mark(i) == "= " }

func yes(is bool) string {
	if is {
		return "yes"
	}
	return "no"
}
