package worth

import (
	"math"
	"slices"

	"netrate/model"
	"netrate/model/money"
	"netrate/model/runs"
	"netrate/sim"
)

// AllInByShift returns what a thousand good envelopes cost, with the price in it, if every shift
// were like each of those of the study in turn; every price is at its mean. It is for telling many
// lines apart: the mean of the shifts is above the cost at the mean shift by about the square of
// their coefficient of variation, which is what [Worth.AllInPerThousand] states. A shift without
// good envelopes has an infinite cost; of several jobs, where one of them has none. The costs must be right and go
// with the study, as those of [Weigh] do.
func AllInByShift(s *runs.Study, c *Costs) (sim.Sample, error) {
	factors, err := money.NewFactors(c.Rate, c.Life)
	if err != nil {
		return nil, err
	}
	p, means := spenderOf(s, c), c.means()
	sample := make(sim.Sample, len(s.Shifts))
	shift := make([]tally, len(p.jobs))
	for k := range sample {
		sample[k] = math.Inf(1)
		for j := range shift {
			shift[j] = p.jobs[j].shifts[k]
		}
		if !slices.ContainsFunc(shift, func(t tally) bool { return !(t.sets[fateGood] > 0) }) {
			d := p.in(shift, means)
			sample[k] = 1000 * annual(&d, factors) / d.volume
		}
	}
	return sample, nil
}

// AllInFloor returns a cost of a thousand good envelopes that a line does not get below which
// delivers no more than rate of them in an hour, of several jobs in their shares of the year: its hours, upkeep
// and price, without any piece.
func AllInFloor(l *model.Line, c *Costs, rate float64) (float64, error) {
	factors, err := money.NewFactors(c.Rate, c.Life)
	if err != nil {
		return 0, err
	}
	means := c.means()
	hour := means["line_hour"] + float64(float64(l.Crew.Operators)*means["operator_hour"])
	d := drawnLine{price: means["price"], residual: means["residual"], upkeep: means["upkeep"], volume: c.Envelopes()}
	d.hours, d.parts[LineHours] = 1/rate, hour/rate
	return 1000 * annual(&d, factors) / d.volume, nil
}

// annual returns the equivalent annual cost of a line.
func annual(d *drawnLine, f money.Factors) float64 {
	return d.cost(d.volume) + float64(d.price*f.AP) - float64(d.residual*f.AF)
}

// means returns each value of the costs at its mean.
func (c *Costs) means() map[string]float64 {
	means := map[string]float64{}
	for _, x := range c.Values() {
		means[x.Name] = x.Of.Mean()
	}
	return means
}
