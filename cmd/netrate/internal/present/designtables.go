package present

import (
	"math"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

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
			{Title: "To base", Kind: plots.Number},
			{Title: "To base ±", Kind: plots.Number, Decimals: 1, Data: true},
			{Title: "Defective, ppm", Kind: plots.Number, Decimals: 1},
		},
	}
	money, reaches := d.Comparison.Money, d.Goal == study.DesignOperators
	if money != nil {
		t.Columns = append(t.Columns, plots.Column{Title: "All-in cost of 1,000", Kind: plots.Number, Decimals: 2})
	}
	if money != nil && d.Goal == study.DesignValue {
		t.Columns = append(t.Columns, plots.Column{Title: "Net present value", Kind: plots.Number}, plots.Column{Title: "nine draws in ten"})
	}
	if reaches {
		t.Columns = append(t.Columns, plots.Column{Title: "Shifts at target", Kind: plots.Share, Decimals: 1})
	}
	for i := range d.Finalists {
		row := d.row(i)
		if money != nil {
			row = append(row, plots.Entry{Number: float64(money.Lines[i].AllIn.Mean), Shown: designCost(money, i)})
		}
		if money != nil && d.Goal == study.DesignValue {
			row = append(row, d.valueEntries(i)...)
		}
		if reaches {
			row = append(row, plots.Entry{Number: float64(d.Finalists[i].Reaches.Share), Shown: designReached(d.Finalists[i].Reaches.Share)})
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// designReached returns the share of the shifts that reached a target.
func designReached(x study.Number) string {
	switch x {
	case 0:
		return "none"
	case 1:
		return "all"
	}
	return designShare(x)
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
		name += " (best)"
	}
	bought := strings.Join(x.Choices, ", ")
	if i == 0 {
		bought = "nothing: the line as it is"
		if !x.Within {
			bought += ", outside the limits"
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
	return append(row, page.Value(study.DefectivePerMillion(line.Study)))
}

// designLeftOut returns where combinations were left out.
func designLeftOut(c *study.DesignCounts) plots.Table {
	row := func(what string, n float64) []plots.Entry { return []plots.Entry{page.Words(what), page.Value(n)} }
	return plots.Table{
		Name: "Left out", Caption: "Where combinations were left out, and how many.",
		Columns: []plots.Column{{Title: "Combinations"}, {Title: "Number", Kind: plots.Number}},
		Rows: [][]plots.Entry{
			row("all", float64(c.Combinations)),
			row("against needs and excludes, or too dear", float64(c.Ruled)),
			row("whose line cannot be", float64(c.Impossible)),
			row("outside the limits of defective mail, space or operators", float64(c.Limits)),
			row("whose ceiling on paper is below what others deliver", float64(c.Ceiling)),
			row("simulated", float64(c.Simulated)),
			row("of those below it simulated besides, to find what is best for less money or as good", float64(c.Near)),
		},
	}
}

// sections returns the parts of the page.
func (d Design) sections(r *page.Report) []plots.Section {
	how := plots.Section{Heading: "How it was chosen", Text: strings.Join(d.searched(), "\n\n") + "\n\n" +
		"The ceiling is the sum on paper with nothing in it but stops for faults and lost sets, each counted for less than it is: no line delivers more. " +
		"What was simulated was dropped as soon as it was shown to be behind (" + d.Method + ").", Tables: []plots.Table{designLeftOut(&d.Counts)}}
	which := plots.Section{Heading: "The designs", Tables: []plots.Table{Designs(d)}}
	which.Figures = []*plots.Figure{r.Figure("what-money-buys")(DesignFrontier(d))}
	which.Text = strings.Join(d.cautious(), "\n\n")
	return slices.Concat([]plots.Section{which, d.sureSection()}, d.whySection(r), []plots.Section{how})
}
