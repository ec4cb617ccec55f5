package model

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"netrate/model/money"
	"netrate/sim"
)

// Worth is what lines cost a year and what each is worth against the first, as
// distributions: figure k of every sample belongs to draw k, in which all lines had the same
// shifts and the same luck within the ranges of the costs.
type Worth struct {
	Currency string
	Life     int     // years
	Rate     float64 // a year, as a share
	Draws    int
	Volume   sim.Sample // good envelopes a year
	Lines    []YearOf
	Gains    []Gain // of each line against the first; that of the first is empty

	draws   []worthDraw
	factors money.Factors
}

// YearOf is a year of one line.
type YearOf struct {
	Price       sim.Sample
	Hours       sim.Sample // of the line
	Cost        sim.Sample // all parts together; the price is not among them
	Parts       [costParts]sim.Sample
	PerThousand sim.Sample // Cost for each thousand good envelopes
	Annual      sim.Sample // equivalent annual cost: Cost, and price less residual spread over the life with interest
}

// Gain is what a line is worth against the first.
type Gain struct {
	Saving     sim.Sample // a year
	Payback    sim.Sample // years; +Inf where the extra price is not paid back within the life
	Discounted sim.Sample // the same with interest
	NPV        sim.Sample // net present value of the extra price and the savings
	BreakEven  sim.Sample // least yearly volume at which NPV is not below 0; +Inf if there is none
	Chance     money.Probability
}

// worthDraw is one draw: the shifts on average and the costs, of every line.
type worthDraw struct {
	lines []*spender
	means []tally
	costs []map[string]float64
	extra []float64 // price against the first
	rest  []float64 // residual against the first
}

// chanceLevel is the level of the interval of [Gain.Chance].
const chanceLevel = 0.95

// Weigh returns what the lines of some studies are worth, in so many draws. The doubt in
// the simulation comes from resampling the shifts, the same for all lines: how uncertain
// their mean is, which is what counts over years. What is uncertain in the costs is drawn
// from its ranges.
//
// There must be a study at least, all with the same two shifts or more and with good
// envelopes, and costs for each; [Comparable] says which costs go together.
//
// Source: the bootstrap of a mean, Efron and Tibshirani, An Introduction to the Bootstrap
// (1993), chapter 6 (from memory).
func Weigh(studies []*Study, costs []*Costs, draws int, seed uint64) (*Worth, error) {
	if err := weighable(studies, costs, draws); err != nil {
		return nil, err
	}
	first := costs[0]
	w := &Worth{Currency: first.Currency, Life: first.Life, Rate: first.Rate, Draws: draws}
	var err error
	if w.factors, err = money.NewFactors(w.Rate, w.Life); err != nil {
		return nil, err
	}
	lines := make([]*spender, len(studies))
	for i, s := range studies {
		lines[i] = spenderOf(s, costs[i])
	}
	luck, numbers := sim.NewStream("costs", "shifts"), make([]int32, len(studies[0].Shifts))
	for k := range draws {
		luck.Seed(seed, k)
		for i := range numbers {
			numbers[i] = int32(luck.Uniform() * float64(len(numbers)))
		}
		d := worthDraw{lines: lines}
		for i, l := range lines {
			d.add(meanOf(l.shifts, numbers), costs[i].draw(seed, k))
		}
		w.draws, w.Volume = append(w.draws, d), append(w.Volume, d.costs[0]["volume"])
	}
	w.Lines, w.Gains = make([]YearOf, len(lines)), make([]Gain, len(lines))
	for i := range lines {
		if err := w.line(i); err != nil {
			return nil, fmt.Errorf("%s: %w", studies[i].Line.Name, err)
		}
	}
	return w, nil
}

func weighable(studies []*Study, costs []*Costs, draws int) error {
	if len(studies) < 1 || len(costs) != len(studies) {
		return fmt.Errorf("there are %d studies and the costs of %d, want as many, 1 at least", len(studies), len(costs))
	}
	if draws < 1 {
		return fmt.Errorf("the number of draws is %d, want 1 or more", draws)
	}
	if err := Comparable(costs); err != nil {
		return err
	}
	var errs []error
	for i, s := range studies {
		switch n := len(s.Shifts); {
		case n < 2 || n != len(studies[0].Shifts):
			errs = append(errs, fmt.Errorf("%s has %d shifts and the first line %d, want as many, 2 at least", s.Line.Name, n, len(studies[0].Shifts)))
		case slices.ContainsFunc(s.Shifts, func(x Shift) bool { return !(x.NetRate > 0) }):
			errs = append(errs, fmt.Errorf("%s has a shift without good envelopes", s.Line.Name))
		}
		if err := costs[i].Check(); err != nil {
			errs = append(errs, fmt.Errorf("%s: %w", s.Line.Name, err))
		}
	}
	return errors.Join(errs...)
}

// add adds the next line to a draw.
func (d *worthDraw) add(mean tally, costs map[string]float64) {
	d.means, d.costs = append(d.means, mean), append(d.costs, costs)
	d.extra = append(d.extra, costs["price"]-d.costs[0]["price"])
	d.rest = append(d.rest, costs["residual"]-d.costs[0]["residual"])
}

// saving returns what a line saves against the first in a year with so many good envelopes.
func (d *worthDraw) saving(line int, volume float64) float64 {
	cost := func(i int) float64 { return d.lines[i].cost(&d.means[i], d.costs[i], volume) }
	return cost(0) - cost(line)
}

// line works out all figures of a line.
func (w *Worth) line(i int) error {
	year, gain := &w.Lines[i], &w.Gains[i]
	for k := range w.draws {
		d := &w.draws[k]
		costs := d.costs[i]
		hours, parts := d.lines[i].year(&d.means[i], costs, costs["volume"])
		cost := d.lines[i].cost(&d.means[i], costs, costs["volume"])
		year.Price = append(year.Price, costs["price"])
		year.Hours = append(year.Hours, hours)
		year.Cost = append(year.Cost, cost)
		for p, x := range parts {
			year.Parts[p] = append(year.Parts[p], x)
		}
		year.PerThousand = append(year.PerThousand, 1000*cost/costs["volume"])
		year.Annual = append(year.Annual, cost+costs["price"]*w.factors.AP-costs["residual"]*w.factors.AF)
		if i == 0 {
			continue
		}
		if err := w.gain(gain, d, i); err != nil {
			return err
		}
	}
	if i > 0 {
		gain.Chance = money.ChanceOfGain(gain.NPV, chanceLevel)
	}
	return nil
}

// gain adds the figures of one draw.
func (w *Worth) gain(g *Gain, d *worthDraw, line int) error {
	saving := d.saving(line, d.costs[line]["volume"])
	flows := make(money.Flows, w.Life+1)
	for year := range flows {
		flows[year] = saving
	}
	flows[0] = -d.extra[line]
	flows[w.Life] += d.rest[line]
	npv, err := flows.NPV(w.Rate)
	if err != nil {
		return err
	}
	payback, ok, err := flows.Payback()
	if err != nil {
		return err
	}
	discounted, withInterest, err := flows.DiscountedPayback(w.Rate)
	if err != nil {
		return err
	}
	g.Saving, g.NPV = append(g.Saving, saving), append(g.NPV, npv)
	g.Payback = append(g.Payback, orNever(payback, ok))
	g.Discounted = append(g.Discounted, orNever(discounted, withInterest))
	g.BreakEven = append(g.BreakEven, w.breakEven(d, line))
	return nil
}

func orNever(x float64, ok bool) float64 {
	if !ok {
		return math.Inf(1)
	}
	return x
}

// npv returns the net present value of a line in one draw, if so many good envelopes are
// made a year. It is the value of the flows in closed form.
func (w *Worth) npv(d *worthDraw, line int, volume float64) float64 {
	return d.saving(line, volume)*w.factors.PA - d.extra[line] + d.rest[line]*w.factors.PF
}

// PartPerThousand returns a part of the cost of a line for each thousand good envelopes.
func (w *Worth) PartPerThousand(line int, part CostPart) sim.Sample {
	sample := make(sim.Sample, w.Draws)
	for k, x := range w.Lines[line].Parts[part] {
		sample[k] = 1000 * x / w.Volume[k]
	}
	return sample
}

// NPVs returns the net present values of a line against the first if so many good envelopes
// are made a year, whatever the costs say of that.
func (w *Worth) NPVs(line int, volume float64) sim.Sample {
	var sample sim.Sample
	for k := range w.draws {
		sample = append(sample, w.npv(&w.draws[k], line, volume))
	}
	return sample
}

// breakEven returns the least yearly volume at which the net present value is not below 0.
// Between the volumes at which one of the two lines begins to need overtime it is a straight
// line.
func (w *Worth) breakEven(d *worthDraw, line int) float64 {
	bends := []float64{0}
	for _, i := range []int{0, line} {
		if o := d.lines[i].costs.Overtime; o.Factor > 1 && o.Beyond > 0 {
			bends = append(bends, o.Beyond*d.means[i].sets[fateGood]/d.means[i].hours)
		}
	}
	slices.Sort(bends)
	for n, from := range bends {
		at := w.npv(d, line, from)
		if at >= 0 {
			return from
		}
		to := 2*from + 1e6
		if n+1 < len(bends) {
			to = bends[n+1]
		}
		if end := w.npv(d, line, to); end > at && (end >= 0 || n+1 == len(bends)) {
			return from - at*(to-from)/(end-at)
		}
	}
	return math.Inf(1)
}
