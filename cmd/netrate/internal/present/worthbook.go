package present

import (
	"netrate/model/study"
	"netrate/model/worth"
	"netrate/plots"
)

// WorthCalculation returns the sheet of a workbook on which a buyer changes prices and volumes and
// sees what each line is then worth: the sums of a year and of the life, at the mean of every range.
func WorthCalculation(a *study.WorthAnswer) plots.Calculation {
	c := plots.Calculation{
		Name: "Money to change",
		Caption: "What a year of each " + worthWord(a) + " costs and what it is worth against the first, at the mean of every range, in " + a.Currency + ". " +
			"Change a cell on yellow ground and all below follows; rates and losses are those simulated. The figures of the report are means of " +
			"draws: overtime, which only some draws reach, makes them differ a little. An estimate, not financial advice.",
		Chart: "npv",
	}
	b := worthSheet{a: a}
	for i := range a.Lines {
		c.Columns = append(c.Columns, a.Lines[i].Name)
	}
	b.inputs()
	b.year()
	b.life()
	c.Rows = b.rows
	return c
}

// worthSheet collects the rows of the sheet.
type worthSheet struct {
	a    *study.WorthAnswer
	rows []plots.CalculationRow
}

const (
	wholeFormat = "#,##0"
	centFormat  = "#,##0.00"
)

func (b *worthSheet) head(name string) {
	b.rows = append(b.rows, plots.CalculationRow{Name: name, Head: true})
}

// input adds a figure of each line that may be changed.
func (b *worthSheet) input(key, name, format string, of func(i int, c *worth.Costs) float64) {
	r := plots.CalculationRow{Key: key, Name: name, Format: format}
	for i := range b.a.Lines {
		r.Values = append(r.Values, of(i, b.a.Lines[i].Of.Costs))
	}
	b.rows = append(b.rows, r)
}

// sum adds a figure that is worked out.
func (b *worthSheet) sum(key, name, format, formula string) {
	b.rows = append(b.rows, plots.CalculationRow{Key: key, Name: name, Format: format, Formula: formula})
}

// perThousand returns what a part of the costs comes to for each thousand good envelopes.
func (b *worthSheet) perThousand(i int, p worth.CostPart) float64 {
	return 1000 * b.a.Worth.Lines[i].Parts[p].Mean() / b.a.Worth.Volume.Mean()
}

// technicians reports whether they cost anything on any of the lines.
func (b *worthSheet) technicians() bool {
	for i := range b.a.Lines {
		if b.perThousand(i, worth.TechnicianCost) > 0 {
			return true
		}
	}
	return false
}

func (b *worthSheet) inputs() {
	unit := b.a.Currency
	b.head("To change")
	b.input("volume", "Volume, good envelopes a year", wholeFormat, func(int, *worth.Costs) float64 { return b.a.Worth.Volume.Mean() })
	rate := "Net rate, good envelopes an hour (simulated)"
	if b.a.ByLine {
		rate = "Volume over hours, good envelopes an hour (simulated)"
	}
	b.input("rate", rate, wholeFormat, func(i int, _ *worth.Costs) float64 { return float64(b.a.Lines[i].HourRate) })
	b.input("price", "Price, "+unit, wholeFormat, func(_ int, c *worth.Costs) float64 { return c.Price.Mean() })
	b.input("residual", "Got for it at the end of its life, "+unit, wholeFormat, func(_ int, c *worth.Costs) float64 { return c.Residual.Mean() })
	b.input("life", "Life, years", wholeFormat, func(_ int, c *worth.Costs) float64 { return float64(c.Life) })
	b.input("interest", "Rate of return, a year", "0.0%", func(_ int, c *worth.Costs) float64 { return c.Rate })
	b.input("upkeep", "Upkeep, "+unit+" a year", wholeFormat, func(_ int, c *worth.Costs) float64 { return c.Upkeep.Mean() })
	b.input("line", "An hour of the line, "+unit, centFormat, func(_ int, c *worth.Costs) float64 { return c.LineHour.Mean() })
	if b.a.Shared {
		b.input("running", "Lines that run, on average", "0.00", func(i int, _ *worth.Costs) float64 { return b.a.AtWork(i) })
	}
	b.input("wage", "An hour of an operator, "+unit, centFormat, func(_ int, c *worth.Costs) float64 { return c.OperatorHour.Mean() })
	b.input("crew", "Operators", "0.0#", func(i int, _ *worth.Costs) float64 { return b.a.Operators(i) })
	if b.technicians() {
		b.input("technicians", "Technicians, "+unit+" per 1,000 good", centFormat, func(i int, _ *worth.Costs) float64 { return b.perThousand(i, worth.TechnicianCost) })
	}
	b.input("beyond", "Usual hours a year, beyond which there is overtime", wholeFormat, func(_ int, c *worth.Costs) float64 { return c.Overtime.Beyond })
	b.input("factor", "Overtime pay, times the usual", "0.00", func(_ int, c *worth.Costs) float64 { return max(1, c.Overtime.Factor) })
	b.input("pieces", "Inserts, documents, "+unit+" per 1,000 good", centFormat, func(i int, _ *worth.Costs) float64 { return b.perThousand(i, worth.InsertCost) })
	b.input("envelopes", "Envelopes, "+unit+" per 1,000 good", centFormat, func(i int, _ *worth.Costs) float64 { return b.perThousand(i, worth.EnvelopeCost) })
	b.input("faulty", "Remakes, spoiled and defective, "+unit+" per 1,000 good", centFormat, func(i int, _ *worth.Costs) float64 {
		return b.perThousand(i, worth.RemakeCost) + b.perThousand(i, worth.SpoiledCost) + b.perThousand(i, worth.DefectiveCost)
	})
}

func (b *worthSheet) year() {
	unit := b.a.Currency + " a year"
	b.head("A year")
	b.sum("hours", "Hours a year", wholeFormat, "{volume}/{rate}")
	lines := "{hours}*{line}"
	if b.a.Shared {
		lines += "*{running}"
	}
	b.sum("lines", "Line hours, "+unit, wholeFormat, lines)
	b.sum("pay", "Operators, "+unit, wholeFormat, "{hours}*{crew}*{wage}")
	b.sum("over", "Overtime, beyond usual pay, "+unit, wholeFormat, "MAX(0,{hours}-{beyond})*{crew}*{wage}*({factor}-1)")
	b.sum("stuff", "Pieces, envelopes, remakes, spoiled and defective, "+unit, wholeFormat, "{volume}/1000*({pieces}+{envelopes}+{faulty})")
	cost := "{lines}+{pay}+{over}+{stuff}+{upkeep}"
	if b.technicians() {
		cost += "+{volume}/1000*{technicians}"
	}
	b.sum("cost", "Cost, "+unit, wholeFormat, cost)
	b.sum("thousand", "Running cost per 1,000 good", centFormat, "1000*{cost}/{volume}")
}

func (b *worthSheet) life() {
	unit := b.a.Currency
	b.head("Over the life")
	b.sum("years", "Worth today of 1 a year over the life", "0.000", "IF({interest}=0,{life},(1-(1+{interest})^(-{life}))/{interest})")
	b.sum("end", "Worth today of 1 at the end of the life", "0.000", "(1+{interest})^(-{life})")
	b.sum("annual", "Equivalent annual cost, "+unit, wholeFormat, "{cost}+({price}-{residual}*{end})/{years}")
	b.sum("allin", "All-in cost per 1,000 good", centFormat, "1000*{annual}/{volume}")
	b.sum("saving", "Saving against the first line, "+unit+" a year", wholeFormat, "{cost@1}-{cost}")
	b.sum("npv", "Net present value against the first line, "+unit, wholeFormat,
		"{saving}*{years}-({price}-{price@1})+({residual}-{residual@1})*{end}")
	b.sum("upto", "Price up to which it pays, "+unit, wholeFormat, "{npv}+{price}")
}
