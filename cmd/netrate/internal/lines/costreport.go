package lines

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/money"
	"netrate/plots"
	"netrate/sim"
)

// moneySection says what the lines cost, and what they are worth against the base.
func (c *contest) moneySection(r *page.Report) plots.Section {
	s := plots.Section{
		Heading: "What it is worth",
		Text: c.moneySentence() + " " + c.moneyCaution() + "\n\n" +
			c.yearWords() + " Shifts are drawn anew from those simulated, the same for all lines, " +
			"and so are the places of all figures within their ranges: what differs between lines is what was changed. " +
			"Tax, inflation and financing are left out.",
		Tables: []plots.Table{c.yearsTable(), c.partsTable(), c.gainsTable(), c.pricesTable()},
	}
	s.Figures = append(s.Figures, r.Figure("npv")(c.npvFigure()), r.Figure("break-even")(c.breakEvenFigure()))
	for i := 1; i < len(c.entrants); i++ {
		if len(c.entrants) <= mostWaterfalls || i == c.favourite() {
			s.Figures = append(s.Figures, r.Figure(fileName("cost", i, c.entrants[i]))(c.costFigure(i)))
		}
	}
	return s
}

// yearWords says what a year is.
func (c *contest) yearWords() string {
	if c.mixes() == nil {
		return "A year is as many hours as its volume takes at the net rate."
	}
	return "A year is as many hours as the volumes of its jobs take, each at the net rate that the line has for it, and overtime is that of all together."
}

// jobsSection says what each line delivers of each job, and how many hours a year it takes.
func (c *contest) jobsSection() plots.Section {
	t := plots.Table{
		Name:    "Jobs",
		Caption: "Each line at each job: net rates with 95 % intervals, and the part that the job has of the envelopes and of the time",
		Columns: append([]plots.Column{{Title: "Line"}, {Title: "Job"}}, perHourColumns("Net rate")...),
	}
	t.Columns = append(t.Columns,
		plots.Column{Title: "Share", Unit: "of the envelopes", Kind: plots.Share, Decimals: 1},
		plots.Column{Title: "Share", Unit: "of the time", Kind: plots.Share, Decimals: 1})
	if c.money != nil {
		t.Columns = append(t.Columns, moneyColumn("Hours", "a year", 0))
	}
	for i, x := range c.entrants {
		for j, job := range x.study.Jobs() {
			row := append([]plots.Entry{page.Words(x.name), page.Words(job.Study.Line.Name)}, page.MeanAndHalf(job.Study.NetRates().Interval(say.Level))...)
			row = append(row, page.Value(job.Share), page.Value(job.Time.Mean()))
			if c.money != nil {
				row = append(row, page.Value(c.money.Lines[i].JobHours[j].Mean()))
			}
			t.Rows = append(t.Rows, row)
		}
	}
	return plots.Section{
		Heading: "Job by job",
		Text: "Every line is set up for every job, and runs the same shifts of it on the same luck. All other figures of a line are of its jobs together: " +
			"of a shift in which each job has so much of the time that it makes its share of the yearly volume. " +
			"Changeovers between jobs are not in it: netrate season has them.",
		Tables: []plots.Table{t},
	}
}

// moneyColumn is a column of sums, or of what has so many decimals.
func moneyColumn(title, unit string, decimals int) plots.Column {
	return plots.Column{Title: title, Unit: unit, Kind: plots.Number, Decimals: decimals}
}

// yearsTable returns a year of each line.
func (c *contest) yearsTable() plots.Table {
	unit := c.money.Currency
	t := plots.Table{
		Name: "Costs", Caption: "A year of each line: means of the draws. The equivalent annual cost has the price, spread over the life with interest",
		Columns: []plots.Column{
			{Title: "Line"},
			moneyColumn("Price", unit, 0),
			moneyColumn("Hours", "a year", 0),
			moneyColumn("Cost", unit+" a year", 0),
			moneyColumn("5th percentile", unit+" a year", 0),
			moneyColumn("95th percentile", unit+" a year", 0),
			moneyColumn("Cost", unit+" per 1,000", 2),
			moneyColumn("Equivalent annual cost", unit, 0),
		},
	}
	for i, x := range c.entrants {
		y := &c.money.Lines[i]
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(x.name), page.Value(y.Price.Mean()), page.Value(y.Hours.Mean()), page.Value(y.Cost.Mean()), page.Value(y.Cost.Quantile(0.05)),
			page.Value(y.Cost.Quantile(0.95)), page.Value(y.PerThousand.Mean()), page.Value(y.Annual.Mean()),
		})
	}
	return t
}

// partsTable returns what the yearly cost of each line consists of.
func (c *contest) partsTable() plots.Table {
	t := plots.Table{
		Name: "Parts of the cost", Caption: "What the cost of a year consists of, " + c.money.Currency + ", means of the draws",
		Columns: []plots.Column{{Title: "Part"}},
	}
	for _, x := range c.entrants {
		t.Columns = append(t.Columns, moneyColumn(x.name, c.money.Currency+" a year", 0))
	}
	for _, p := range model.CostParts() {
		row := []plots.Entry{page.Words(p.String())}
		for i := range c.entrants {
			row = append(row, page.Value(c.money.Lines[i].Parts[p].Mean()))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// gainsTable returns what each line is worth against the base.
func (c *contest) gainsTable() plots.Table {
	unit := c.money.Currency
	t := plots.Table{
		Name: "Worth", Caption: "Each line against the base. Saving and net present value are means, the others medians of the draws",
		Columns: []plots.Column{
			{Title: "Line"},
			moneyColumn("Saving", unit+" a year", 0),
			moneyColumn("Payback", "years", 1),
			moneyColumn("Discounted", "years", 1),
			moneyColumn("NPV", unit, 0),
			moneyColumn("5th percentile", unit, 0),
			moneyColumn("95th percentile", unit, 0),
			{Title: "NPV above 0", Unit: "of draws", Kind: plots.Share, Decimals: 1},
			moneyColumn("Break-even", "envelopes a year", 0),
		},
	}
	for i, x := range c.entrants {
		if i == 0 {
			continue
		}
		g := &c.money.Gains[i]
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(x.name), page.Value(g.Saving.Mean()), reached(g.Payback), reached(g.Discounted), page.Value(g.NPV.Mean()),
			page.Value(g.NPV.Quantile(0.05)), page.Value(g.NPV.Quantile(0.95)), page.Value(g.Chance.Share), reached(g.BreakEven),
		})
	}
	return t
}

// pricesTable returns what was put in, as the file has it.
func (c *contest) pricesTable() plots.Table {
	t := plots.Table{
		Name: "Costs put in", Caption: "What the file says, " + c.money.Currency + ": the likeliest figure, and from what to what it may be",
		Columns: []plots.Column{{Title: "costs"}},
	}
	var names []string
	said := make([]map[string]string, len(c.entrants))
	for i, x := range c.entrants {
		t.Columns = append(t.Columns, plots.Column{Title: x.name})
		said[i] = map[string]string{}
		for _, v := range x.costs.Values() {
			if !slices.Contains(names, v.Name) {
				names = append(names, v.Name)
			}
			said[i][v.Name] = rangeWords(v.Of)
		}
		if o := x.costs.Overtime; o.Factor > 1 {
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
func reached(s sim.Sample) plots.Entry {
	if middle := orderOf(s, 0.5); !math.IsInf(middle, 1) {
		return page.Value(middle)
	}
	return page.Words("never")
}

// npvFigure draws how the net present values spread.
func (c *contest) npvFigure() (*plots.Figure, error) {
	i := c.favourite()
	d := plots.DistributionData{
		Head: plots.Head{
			Title: fmt.Sprintf("%s is worth %s %s, from %s in nine draws of ten", say.Capital(c.call(i)), averaged(c.money.Gains[i].NPV),
				c.money.Currency, nineInTen(c.money.Gains[i].NPV)),
			Subtitle: fmt.Sprintf("Net present value against %s over %s at %s %%, %s; %s draws", c.call(0), say.Plural(c.money.Life, "year"),
				say.Exact(100*c.money.Rate), c.money.Currency, say.Thousands(c.money.Draws)),
		},
		Axis: "net present value, " + c.money.Currency,
		Of:   plots.Runs{One: "draw", Many: "draws"},
	}
	for _, i := range c.rows() {
		if i > 0 {
			npv := c.money.Gains[i].NPV
			d.Variants = append(d.Variants, plots.Variant{Name: c.entrants[i].name, Values: npv, Spread: page.SpreadOf(npv), Mean: npv.Interval(say.Level)})
		}
	}
	return plots.Distribution(d)
}

// volumeSteps is how many volumes the break-even is drawn at.
const volumeSteps = 21

// breakEvenFigure draws the net present value against the yearly volume, from none to twice
// the volume of the file.
func (c *contest) breakEvenFigure() (*plots.Figure, error) {
	i := c.favourite()
	d := plots.SweepData{
		Head: plots.Head{
			Title:    fmt.Sprintf("%s: %s", say.Capital(c.call(i)), c.breakEvenWords(i)[len("and "):]),
			Subtitle: "Net present value against " + c.call(0) + " by yearly volume, " + c.money.Currency + ", means of the same draws",
		},
		Parameter: "good envelopes a year",
		Axis:      "net present value, " + c.money.Currency,
	}
	most := 2 * c.money.Volume.Mean()
	for _, i := range c.rows() {
		if i == 0 {
			continue
		}
		curve := plots.SweepCurve{Name: c.entrants[i].name}
		for k := range volumeSteps {
			volume := most * float64(k) / (volumeSteps - 1)
			curve.Points = append(curve.Points, plots.SweepPoint{X: volume, Y: c.money.NPVs(i, volume).Interval(say.Level)})
		}
		d.Curves = append(d.Curves, curve)
	}
	return plots.Sweep(d)
}

// costFigure draws how a line comes from the cost of the base to its own, by parts.
func (c *contest) costFigure(i int) (*plots.Figure, error) {
	from, to := c.money.Lines[0].PerThousand.Mean(), c.money.Lines[i].PerThousand.Mean()
	steps := []plots.Step{{Name: c.entrants[0].name, Amount: from, Total: true}}
	level, least, small := from, from, 0.0
	for _, p := range model.CostParts() {
		change := c.money.PartPerThousand(i, p).Mean() - c.money.PartPerThousand(0, p).Mean()
		if math.Abs(change) < 0.0005*from {
			small += change
			continue
		}
		level += change
		least = min(least, level)
		steps = append(steps, plots.Step{Name: p.String(), Amount: change})
	}
	if small != 0 {
		steps = append(steps, plots.Step{Name: "all else", Amount: small})
	}
	steps = append(steps, plots.Step{Name: c.entrants[i].name, Amount: to, Total: true})
	return plots.Waterfall(plots.WaterfallData{
		Head: plots.Head{
			Title:    fmt.Sprintf("%s: a thousand good envelopes cost %.2f, with %s %.2f", say.Capital(c.call(i)), to, c.call(0), from),
			Subtitle: c.money.Currency + " per thousand good envelopes, the price apart; means of the draws",
		},
		Axis:  c.money.Currency + " per thousand",
		Steps: steps,
		From:  axisStart(min(least, to), max(from, to)),
	})
}

// axisStart returns a round number below the least so that small steps can be seen beside
// large totals, or 0 if they can be anyway.
func axisStart(least, most float64) float64 {
	if !(least > 0.8*most) {
		return 0
	}
	step := math.Pow10(say.Magnitude(most) - 1)
	return max(0, math.Floor((least-2*(most-least))/step)*step)
}
