package present

import (
	"fmt"
	"slices"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
	"netrate/sim"
)

// designMeasure is what is looked for, as it is drawn over the price.
type designMeasure struct {
	name, axis string
	of         func(i int) plots.SweepPoint // without its price and name
	said       func(i int) string
	shown      []int // designs, by rising price
}

const costOf1000 = "the cost of 1,000"

// measure returns what is looked for.
func (d Design) measure() designMeasure {
	m := d.Comparison.Money
	switch {
	case m == nil || !d.Goal.InMoney():
		return designMeasure{
			"net rate", page.PerHour,
			func(i int) plots.SweepPoint { return plots.SweepPoint{Y: d.Comparison.Lines[i].NetRate.Estimate()} },
			func(i int) string { return rateOf(d.Comparison.Lines[i].NetRate).Shown + " good envelopes an hour" }, d.leading(),
		}
	case d.Goal == study.DesignValue:
		return designMeasure{
			"net present value", "net present value against the line as it is, " + m.Currency,
			func(i int) plots.SweepPoint {
				if i == 0 {
					return plots.SweepPoint{}
				}
				return drawnPoint(m.Worth.Gains[i].NPV)
			},
			func(i int) string {
				if i == 0 {
					return "0 " + m.Currency
				}
				return Averaged(m.Worth.Gains[i].NPV) + " " + m.Currency
			}, d.leading(),
		}
	}
	return designMeasure{
		costOf1000, m.Currency + " for 1,000, with the price in it",
		func(i int) plots.SweepPoint { return drawnPoint(m.Worth.AllInPerThousand(i)) },
		func(i int) string { return designCost(m, i) + " " + m.Currency }, d.leading(),
	}
}

// drawnPoint returns a figure that was drawn, and between what 95 in a hundred draws lie.
func drawnPoint(s sim.Sample) plots.SweepPoint {
	x := s.Sorted()
	return plots.SweepPoint{Y: sim.Estimate{Mean: s.Mean()}, Within: &plots.Within{Low: x.Quantile((1 - say.Level) / 2), High: x.Quantile((1 + say.Level) / 2)}}
}

// leading returns the designs of the frontier, by rising price.
func (d Design) leading() (all []int) {
	for i := range d.Finalists {
		if d.Finalists[i].Frontier {
			all = append(all, i)
		}
	}
	return all
}

// noRoom says how many designs of the frontier of the search the table has no room for; "" if none.
func (d Design) noRoom() string {
	n := 0
	for i := range d.Frontier {
		if d.Frontier[i].Finalist == nil {
			n++
		}
	}
	if n == 0 {
		return ""
	}
	return fmt.Sprintf("The table has no room for %s that the search found best for their money: those without which what is to be had for a price changes least. --json lists all.", say.Plural(n, "more design"))
}

// DesignFrontier draws the best that is to be had for a price, in what is looked for.
func DesignFrontier(d Design) (*plots.Figure, error) {
	m := d.measure()
	curve := plots.SweepCurve{Name: "best for its money", Steps: true}
	var said []string
	for _, i := range m.shown {
		x := &d.Finalists[i]
		p := m.of(i)
		p.X, p.Name = float64(x.Price), x.Name
		curve.Points = append(curve.Points, p)
		if x.Price == 0 {
			said = append(said, m.said(i)+" for nothing")
		} else {
			said = append(said, m.said(i)+" for "+d.sum(x.Price))
		}
	}
	title, price := "What money buys in "+m.name+": "+said[0], "price of what is bought"
	if n := len(said); n > 1 {
		to := ", up to "
		if m.name == costOf1000 {
			to = ", down to "
		}
		title += to + said[n-1]
	}
	if costs := d.Origin.Scenario.Costs; costs != nil {
		price += ", " + costs.Currency
	}
	curves := []plots.SweepCurve{curve}
	if !slices.Contains(m.shown, 0) {
		own := m.of(0)
		own.Name = d.Finalists[0].Name
		curves = append(curves, plots.SweepCurve{Name: "the line as it is", Role: plots.Base, Points: []plots.SweepPoint{own}, Steps: true})
	}
	return plots.Sweep(plots.SweepData{
		Head:      plots.Head{Title: title, Subtitle: d.frontierWords(m)},
		Parameter: price, Axis: m.axis, Curves: curves,
	})
}

// frontierWords says what is drawn, and what the design that is advised delivers where that is not.
func (d Design) frontierWords(m designMeasure) string {
	text := say.Capital(m.name) + " of the designs, of those that were compared, that are best in it for their money: a dearer one gains more than counts as equal, but for what is advised and the last. Called as in the table"
	if d.Goal == study.DesignOperators {
		text += "; none with more operators than are advised"
	}
	advice := d.Finalists[d.Advice].Name
	if d.Comparison.Money != nil && d.Goal.InMoney() {
		text += fmt.Sprintf(". %s, which is advised, delivers %s good envelopes an hour", advice, rateOf(d.Comparison.Lines[d.Advice].NetRate).Shown)
	}
	if !slices.Contains(m.shown, d.Advice) {
		text += ". Not among them: " + advice + ", which is advised"
	}
	return text
}
