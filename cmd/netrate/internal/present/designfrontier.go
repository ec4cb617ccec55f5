package present

import (
	"fmt"
	"slices"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

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
	return d.frontier(m, d.frontierWords(m))
}

// frontier draws the designs that are best in a measure for their money.
func (d Design) frontier(m designMeasure, subtitle string) (*plots.Figure, error) {
	curve := plots.SweepCurve{Name: "best for its money", Steps: true}
	var said []string
	for _, i := range m.shown {
		x := &d.Finalists[i]
		p := m.of(i)
		p.X, p.Name = float64(x.Price), x.Name
		curve.Points = append(curve.Points, p)
		if x.Price == 0 {
			said = append(said, m.said(i)+m.unit+" for nothing")
		} else {
			said = append(said, m.said(i)+m.unit+" for "+d.sum(x.Price))
		}
	}
	title, price := "What money buys in "+m.name+": "+said[0], "price of what is bought"
	if n := len(said); n > 1 {
		to := ", up to "
		if m.less {
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
		Head:      plots.Head{Title: title, Subtitle: subtitle},
		Parameter: price, Axis: m.axis, Curves: curves, Interval: m.interval,
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
