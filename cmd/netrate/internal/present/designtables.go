package present

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
	"netrate/sim"
)

// ppm is the unit of defective mail where there is no room for more: on a page it is that of a comparison.
const ppm = "ppm"

// Designs returns a row for each design of the comparison.
func Designs(d Design) plots.Table {
	t := plots.Table{
		Name:    "Designs",
		Caption: "The line as it is, the best, and what came near it or is best for its money; " + page.Sample(d.Comparison.Lines[0].Study) + " of each.",
		Columns: []plots.Column{
			{Title: "Design"},
			{Title: "Bought"},
			{Title: "Price", Kind: plots.Number},
			{Title: "Operators", Kind: plots.Number},
			{Title: "Net rate", Kind: plots.Number},
			{Title: "Net rate ±", Kind: plots.Number, Decimals: 1, Data: true},
			{Title: "To the base", Kind: plots.Number},
			{Title: "To the base ±", Kind: plots.Number, Decimals: 1, Data: true},
			{Title: "Defective", Unit: ppm, Kind: plots.Number, Decimals: 2},
		},
	}
	t.Caption += d.roundedEach(".")
	money, reaches := d.Comparison.Money, d.Goal == study.DesignOperators
	if d.Comparison.Personalised() {
		t.Columns = append(t.Columns, plots.Column{Title: "Remakes", Unit: "per 1,000", Kind: plots.Number, Decimals: 2})
	}
	if money != nil {
		t.Columns = append(t.Columns, plots.Column{Title: "All-in cost", Unit: money.Currency + " per 1,000", Kind: plots.Number, Decimals: 2})
	}
	if money != nil && d.Goal == study.DesignValue {
		t.Caption += " NPV: net present value against the line as it is, its mean and what nine draws in ten lie between."
		t.Columns = append(t.Columns, MoneyColumn("NPV", money.Currency, 0), plots.Column{Title: "5 % to 95 %", Joined: true})
	}
	if reaches {
		t.Columns = append(t.Columns, reachingColumns()...)
	}
	for i := range d.Finalists {
		row := d.row(i)
		if d.Comparison.Personalised() {
			remakes := study.RemakesIn(d.Comparison.Lines[i].Study)
			row = append(row, page.Bearing(remakes.Mean, remakes.Half))
		}
		if money != nil {
			row = append(row, plots.Entry{Number: float64(money.Lines[i].AllIn.Mean), Shown: designCost(money, i)})
		}
		if money != nil && d.Goal == study.DesignValue {
			row = append(row, d.valueEntries(i)...)
		}
		if reaches {
			row = append(row, d.reaching(i)...)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// roundedEach says, before a sentence that follows, that sums of what is printed need not agree, if one does not: the
// net rate of the line as it is with what a design is ahead of it. Else "".
func (d Design) roundedEach(end string) string {
	for i := range d.Finalists {
		if i > 0 && !addsUp(d.Comparison.Lines[0].NetRate.Estimate(), d.Comparison.Compared[0][i].Difference, d.Comparison.Lines[i].NetRate.Estimate()) {
			return " Each figure is rounded as far as its own ± bears, so that sums of what is printed may differ in their last digits" + end
		}
	}
	return ""
}

// addsUp reports whether two figures, as they are printed, add up to a third.
func addsUp(x, more, sum sim.Estimate) bool {
	printed := func(e sim.Estimate) float64 {
		text, _ := say.Measured(e.Mean, e.Half)
		number, err := strconv.ParseFloat(strings.ReplaceAll(text, ",", ""), 64)
		if err != nil {
			return math.NaN()
		}
		return number
	}
	return math.Abs(printed(x)+printed(more)-printed(sum)) < 1e-6
}

// reachingColumns are those of the share of the shifts that reached the target, and between what it lies.
func reachingColumns() []plots.Column {
	return []plots.Column{
		{Title: "Shifts at target", Kind: plots.Share, Decimals: 1},
		{Title: "from", Kind: plots.Share, Decimals: 1},
		{Title: "to", Kind: plots.Share, Decimals: 1},
	}
}

// reaching returns these of a design. That all or none did shows no certainty: then there is one bound.
func (d Design) reaching(i int) []plots.Entry {
	r := d.Finalists[i].Reaches
	share, low, high := float64(r.Share), float64(r.Low), float64(r.High)
	all := []plots.Entry{{Number: share, Shown: say.Share(share)}, {Number: low, Shown: say.AtLeast(low)}, {Number: high, Shown: say.AtMost(high)}}
	switch share {
	case 0:
		all[1].Shown = "–"
	case 1:
		all[2].Shown = "–"
	}
	return all
}

// valueEntries returns the net present value of a design against the line as it is.
func (d Design) valueEntries(i int) []plots.Entry {
	if i == 0 {
		return []plots.Entry{page.Value(math.NaN()), page.Words("–")}
	}
	npv := d.Comparison.Money.Worth.Gains[i].NPV
	return []plots.Entry{{Number: npv.Mean(), Shown: Averaged(npv)}, page.Words(nineInTen(npv))}
}

// row returns what is said of one design in any case.
func (d Design) row(i int) []plots.Entry {
	x, line := &d.Finalists[i], &d.Comparison.Lines[i]
	rate := line.NetRate.Estimate()
	name := x.Name
	switch {
	case i == d.Advice && i != d.Best:
		name += " (buy)"
	case i == d.Best:
		name += " (" + d.bestWord() + ")"
	}
	bought := strings.Join(x.Choices, ", ")
	if i == 0 {
		bought = "nothing: the line as it is"
		if !x.Within {
			bought += ", with " + d.outsideAll(x.Outside)
		}
	}
	row := []plots.Entry{
		page.Words(name), page.Words(bought), page.Value(float64(x.Price)), page.Value(float64(x.Operators)),
		{Number: rate.Mean, Shown: say.Size(rate)},
		page.Value(rate.Half),
	}
	if i == 0 {
		row = append(row, page.Value(math.NaN()), page.Value(math.NaN()))
	} else {
		ahead := d.Comparison.Compared[0][i].Difference
		row = append(row, plots.Entry{Number: ahead.Mean, Shown: say.Gap(ahead)}, page.Value(ahead.Half))
	}
	return append(row, defective(line.Study))
}

// outsideAll returns what is outside some limits.
func (d Design) outsideAll(broken []study.DesignLimit) string {
	var all []string
	for _, l := range broken {
		all = append(all, d.outsideWords(l))
	}
	return say.List(all)
}

// leftOut returns where combinations were left out.
func (d Design) leftOut() plots.Table {
	c := &d.Counts
	row := func(what string, n float64) []plots.Entry { return []plots.Entry{page.Words(what), page.Value(n)} }
	t := plots.Table{
		Name: "Left out", Caption: "Where combinations were left out, and how many.",
		Columns: []plots.Column{{Title: "Combinations"}, {Title: "Number", Kind: plots.Number}},
		Rows: [][]plots.Entry{
			row("all", float64(c.Combinations)),
			row("against needs and excludes, or too dear", float64(c.Ruled)),
			row("whose line cannot be", float64(c.Impossible)),
		},
	}
	for _, r := range d.Reasons {
		if r.Choices != nil {
			t.Rows = append(t.Rows, row("of these, since "+neverWords(r.Choices), float64(r.Combinations)))
		}
	}
	t.Rows = append(t.Rows, row("outside the limits of defective mail, space or operators", float64(c.Limits)))
	for _, x := range c.Outside {
		t.Rows = append(t.Rows, row("of these with "+d.outsideWords(x.Limit), float64(x.Combinations)),
			row("of these outside no other limit", float64(x.Alone)))
	}
	t.Rows = append(t.Rows,
		row("whose ceiling on paper is below what others deliver", float64(c.Ceiling)),
		row("simulated", float64(c.Simulated)),
		row("of those below it simulated besides, to find what is best for less money or as good", float64(c.Near)),
	)
	return t
}

// sections returns the parts of the page.
func (d Design) sections(r *page.Report) []plots.Section {
	how := plots.Section{Heading: "How it was chosen", Text: strings.Join(d.searched(), "\n\n") + "\n\n" +
		"The ceiling is the sum on paper with nothing in it but stops for faults and lost sets, each counted for less than it is: no line delivers more. " +
		"What was simulated was dropped as soon as it was shown to be behind (" + d.Method + ").", Tables: []plots.Table{d.leftOut()}}
	designs := Designs(d)
	for i := range designs.Columns {
		if designs.Columns[i].Unit == ppm {
			designs.Columns[i].Unit = "per million"
		}
	}
	which := plots.Section{Heading: "The designs", Tables: []plots.Table{designs}}
	which.Figures = append([]*plots.Figure{r.Figure("what-money-buys")(DesignFrontier(d))}, d.otherFrontiers(r)...)
	which.Text = strings.Join(d.cautious(), "\n\n")
	return slices.Concat([]plots.Section{which, d.sureSection()}, d.whySection(r), []plots.Section{how})
}
