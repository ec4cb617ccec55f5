package present

import (
	"fmt"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/sim"
)

// A design is searched by its net rate or by the cost of a thousand. Where the goal is the net present value, what
// lies between two designs is said in that: at one volume and rate of return it is a multiple of what lies between
// their costs of a thousand.

// inValue reports whether figures of the goal are net present values.
func (d Design) inValue() bool { return d.Goal == study.DesignValue && d.Equal != nil }

// scale returns by what a figure of the search is multiplied to be one of the goal.
func (d Design) scale() float64 {
	if d.inValue() {
		return float64(d.Equal.Value / d.Indifference)
	}
	return 1
}

// zone returns what counts as equal, without its unit.
func (d Design) zone() string {
	if d.inValue() {
		return say.TwoDigits(float64(d.Equal.Value))
	}
	return say.Exact(float64(d.Indifference))
}

// unit returns in what the goal is, as it stands behind a number.
func (d Design) unit() string {
	switch {
	case d.inValue():
		return " " + d.Origin.Scenario.Costs.Currency + " of net present value"
	case d.Goal.InMoney():
		return " " + d.Origin.Scenario.Costs.Currency + " a thousand"
	}
	return " good envelopes an hour"
}

// saved returns what one design saves against another, from how much more it costs: in the unit of the goal.
func (d Design) saved(e sim.Estimate) sim.Estimate {
	e.Mean, e.Half = -e.Mean*d.scale(), e.Half*d.scale()
	return e
}

// changed returns what a turn changes, in the unit of the goal: of a net present value more is better.
func (d Design) changed(t *study.DesignTurn) sim.Estimate {
	if d.inValue() {
		return d.saved(t.Change.Estimate())
	}
	return t.Change.Estimate()
}

// equalInMoney says what counts as equal, of a thousand, a year and the life; nothing where the goal is no money.
func (d Design) equalInMoney() []string {
	if d.Equal == nil {
		return nil
	}
	currency, what := d.Origin.Scenario.Costs.Currency, "What counts as equal is what was asked for"
	if d.Usual {
		what = "What counts as equal is 1 % of what a thousand cost on the line as it is, on paper and without their pieces"
	}
	return []string{fmt.Sprintf("%s: %s %s a thousand. That is %s %s a year, and %s %s of net present value over %s.", what, say.Exact(float64(d.Indifference)), currency,
		say.TwoDigits(float64(d.Equal.Year)), currency, say.TwoDigits(float64(d.Equal.Value)), currency, say.Plural(d.Comparison.Money.Life, "year"))}
}
