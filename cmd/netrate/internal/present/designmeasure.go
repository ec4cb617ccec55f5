package present

import (
	"fmt"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
	"netrate/sim"
)

// designMeasure is a figure of the designs, as it is drawn over the price.
type designMeasure struct {
	name, axis string
	file       string                       // of the picture, behind that of what is looked for
	of         func(i int) plots.SweepPoint // without its price and name
	said       func(i int) string
	unit       string // of that, behind it
	interval   string // what its interval is called; "" for one of confidence
	less       bool   // is better
	shown      []int  // designs, by rising price
}

// ofDraws is what the interval of what was drawn is called.
const ofDraws = "what 95 draws in a hundred lie between"

// measure returns what is looked for.
func (d Design) measure() (m designMeasure) {
	switch {
	case d.Comparison.Money == nil || !d.Goal.InMoney():
		m = d.byRate()
	case d.Goal == study.DesignValue:
		m = d.byValue()
	default:
		m = d.byCost()
	}
	m.shown = d.leading()
	return m
}

// otherMeasures returns what else money buys: what is looked for in money is not told twice, and nothing is of a
// measure in which no design is shown to be better than a cheaper one.
func (d Design) otherMeasures() (all []designMeasure) {
	for _, x := range d.ForPrices {
		money := d.Comparison.Money != nil && d.Goal.InMoney()
		var m designMeasure
		switch {
		case len(x.Finalists) < 2, x.Measure == study.DesignByRate && !money, x.Measure == study.DesignByCost && money:
			continue
		case x.Measure == study.DesignByRate:
			m = d.byRate()
		case x.Measure == study.DesignByCost:
			m = d.byCost()
		default:
			m = d.byDefects()
		}
		m.shown = x.Finalists
		all = append(all, m)
	}
	return all
}

func (d Design) byRate() designMeasure {
	return designMeasure{
		name: "net rate", axis: page.PerHour, file: "net-rate", unit: " good envelopes an hour",
		of:   func(i int) plots.SweepPoint { return plots.SweepPoint{Y: d.Comparison.Lines[i].NetRate.Estimate()} },
		said: func(i int) string { return rateOf(d.Comparison.Lines[i].NetRate).Shown },
	}
}

func (d Design) byValue() designMeasure {
	m := d.Comparison.Money
	return designMeasure{
		name: "net present value", axis: "net present value against the line as it is, " + m.Currency, unit: " " + m.Currency, interval: ofDraws,
		of: func(i int) plots.SweepPoint {
			if i == 0 {
				return plots.SweepPoint{}
			}
			return drawnPoint(m.Worth.Gains[i].NPV)
		},
		said: func(i int) string {
			if i == 0 {
				return "0"
			}
			return Averaged(m.Worth.Gains[i].NPV)
		},
	}
}

func (d Design) byCost() designMeasure {
	m := d.Comparison.Money
	return designMeasure{
		name: "the cost of 1,000", axis: m.Currency + " for 1,000, with the price in it", file: "cost", unit: " " + m.Currency, interval: ofDraws, less: true,
		of:   func(i int) plots.SweepPoint { return drawnPoint(m.Worth.AllInPerThousand(i)) },
		said: func(i int) string { return designCost(m, i) },
	}
}

func (d Design) byDefects() designMeasure {
	return designMeasure{
		name: "defective mail", axis: "defective envelopes in a million delivered", file: "defective", unit: " in a million", less: true,
		of: func(i int) plots.SweepPoint {
			x := study.DefectsOf(d.Comparison.Lines[i].Study)
			return plots.SweepPoint{Y: sim.Estimate{Mean: x.PerMillion}, Within: &plots.Within{Low: x.Low(), High: x.High()}}
		},
		said: func(i int) string { return DefectsPerMillion(d.Comparison.Lines[i].Study) },
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

// otherwiseBought says what money buys in other measures than what is looked for; nothing if that is nothing.
func (d Design) otherwiseBought() []string {
	var notes []string
	for _, m := range d.otherMeasures() {
		var all []string
		for _, i := range m.shown {
			all = append(all, fmt.Sprintf("%s (%s)", m.said(i), d.Finalists[i].Name))
		}
		all[0] = strings.Replace(all[0], " (", m.unit+" (", 1)
		notes = append(notes, "in "+m.name+" "+say.List(all))
	}
	if notes == nil {
		return nil
	}
	return []string{"What money buys besides, of the designs compared, each shown to be better than all that are no dearer: " + strings.Join(notes, "; ") + "."}
}

// otherFrontiers draws them.
func (d Design) otherFrontiers(r *page.Report) (all []*plots.Figure) {
	for _, m := range d.otherMeasures() {
		all = append(all, r.Figure("what-money-buys-"+m.file)(d.frontier(m, d.bestIn(m))))
	}
	return slices.DeleteFunc(all, func(f *plots.Figure) bool { return f == nil })
}

// bestIn says what is drawn of another measure than what is looked for.
func (d Design) bestIn(m designMeasure) string {
	return say.Capital(m.name) + " of the designs, of those that were compared, that are best in it for their money: each is shown to be better than all that are no dearer. Called as in the table"
}
