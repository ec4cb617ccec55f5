package worth

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"netrate/model"
	"netrate/model/money"
	"netrate/model/runs"
	"netrate/sim"
)

// Worth is what lines cost a year and what each is worth against the first, as
// distributions: figure k of every sample belongs to draw k, in which all lines had the same
// shifts and common random numbers within the ranges of the costs.
type Worth struct {
	Currency string
	Life     int     // years
	Rate     float64 // a year, as a share
	Draws    int
	Volume   sim.Sample // good envelopes a year, all jobs together
	Lines    []YearOf
	Gains    []Gain // of each line against the first; that of the first is empty

	draws   []worthDraw
	factors money.Factors
}

// YearOf is a year of one line.
type YearOf struct {
	Price       sim.Sample
	Hours       sim.Sample   // of the line; of lines with volumes of their own that share a crew, in which any of them runs
	JobHours    []sim.Sample // of that, of each job, in the order of their names; one if there are none. Of such lines, of each
	Cost        sim.Sample   // all parts together; the price is not among them
	Parts       [costParts]sim.Sample
	PerThousand sim.Sample // Cost for each thousand good envelopes
	Annual      sim.Sample // equivalent annual cost: Cost, and price less residual spread over the life with interest
}

// Gain is what a line is worth against the first.
type Gain struct {
	Saving     sim.Sample // a year
	Payback    sim.Sample // years; +Inf where the extra price is not paid back within the life, or the line only loses
	Discounted sim.Sample // the same with interest
	NPV        sim.Sample // net present value of the extra price and the savings
	BreakEven  sim.Sample // least yearly volume at which NPV is not below 0, all jobs together in the shares they have; +Inf if there is none
	Chance     money.Probability
}

// worthDraw is one draw of every line.
type worthDraw []drawnLine

// chanceLevel is the level of the interval of [Gain.Chance].
const chanceLevel = 0.95

// Weigh returns what the lines of some studies are worth, in a number of draws. The uncertainty in
// the simulation comes from resampling the shifts, the same for all lines: how uncertain
// their mean is, which is what counts over years. What is uncertain in the costs is drawn
// from its ranges.
//
// Costs with volumes of jobs go with a study of these jobs ([TogetherMixed]). A year is then
// the sum of what the jobs take: their hours, at the rates that the line has for each, their
// pieces, remakes and faults. Overtime is that of all hours together, and there is no
// changeover between jobs. Costs with one volume are those of one job.
//
// Of a study of several lines that share a crew ([runs.Gathered]) one volume is that of all lines
// together, which run side by side until it is made, and of volumes there is one of each line. Such a
// line takes its volume over the rate that it has beside the others, also while some of these have
// done theirs and leave it the crew: it would need no more. The crew, and its overtime, is paid for
// as many hours as the line has that takes most.
//
// With studies of what is uncertain, one for each line in the same order ([RunUncertain]), the
// lines are in each draw what they are in one of theirs: the uncertainty is then in all figures too.
//
// There must be a study at least, all with the same two shifts or more and with good
// envelopes, and costs for each that go together: else the error is an [Aside].
//
// Source: the bootstrap of a mean, Efron and Tibshirani, An Introduction to the Bootstrap
// (1993), chapter 6 (from memory).
func Weigh(studies []*runs.Study, costs []*Costs, draws int, seed uint64, drawn ...*runs.UncertaintyStudy) (*Worth, error) {
	if err := weighable(studies, costs, draws); err != nil {
		return nil, err
	}
	if len(drawn) > 0 && len(drawn) != len(studies) {
		return nil, fmt.Errorf("there are %d studies and %d of their uncertain inputs, want as many", len(studies), len(drawn))
	}
	for _, s := range drawn {
		if n := s.Draws(); n < 2 || n != drawn[0].Draws() {
			return nil, fmt.Errorf("%s was drawn %d times and the first line %d, want as many, 2 at least", s.Line.Name, n, drawn[0].Draws())
		}
	}
	first := costs[0]
	w := &Worth{Currency: first.Currency, Life: first.Life, Rate: first.Rate, Draws: draws}
	var err error
	if w.factors, err = money.NewFactors(w.Rate, w.Life); err != nil {
		return nil, err
	}
	lots := newLots(studies, costs, seed)
	lots.take(drawn)
	for k := range draws {
		d := make(worthDraw, len(studies))
		for i, l := range lots.lines {
			means := make([]tally, len(l.jobs))
			for j := range means {
				means[j] = lots.mean(k, i, j)
			}
			d[i] = l.in(means, l.costs.draw(seed, k))
		}
		w.draws, w.Volume = append(w.draws, d), append(w.Volume, d[0].volume)
	}
	w.Lines, w.Gains = make([]YearOf, len(studies)), make([]Gain, len(studies))
	for i, s := range studies {
		if err := w.line(i); err != nil {
			return nil, fmt.Errorf("%s: %w", s.Line.Name, err)
		}
	}
	return w, nil
}

func weighable(studies []*runs.Study, costs []*Costs, draws int) error {
	if len(studies) < 1 || len(costs) != len(studies) {
		return fmt.Errorf("there are %d studies and the costs of %d, want as many, 1 at least", len(studies), len(costs))
	}
	if draws < 1 {
		return fmt.Errorf("the number of draws is %d, want 1 or more", draws)
	}
	if aside := Comparable(costs); aside != nil {
		return aside
	}
	if aside := sampled(studies, costs); aside != nil {
		return aside
	}
	var errs []error
	for i, s := range studies {
		if err := costs[i].Check(); err != nil {
			errs = append(errs, fmt.Errorf("%s: %w", s.Line.Name, err))
		} else if err := jobsFit(s, costs[i]); err != nil {
			errs = append(errs, err)
		}
	}
	return errors.Join(errs...)
}

// jobsFit returns why the costs of a line do not go with its study.
func jobsFit(s *runs.Study, c *Costs) error {
	var simulated []string
	if s.Jobs() != nil || sideBySide(s, c) {
		for _, m := range made(s, c) {
			simulated = append(simulated, m.Line.Name)
		}
	}
	costed, _ := c.Shares()
	switch {
	case slices.Equal(costed, simulated):
	case s.Lines() != nil:
		return fmt.Errorf("there are volumes of %s, and the lines that share the crew are %s", model.Listed(costed), model.Listed(simulated))
	default:
		return fmt.Errorf("%s: there are costs of %s, and the study is of %s", s.Line.Name, jobsInWords(costed), jobsInWords(simulated))
	}
	return nil
}

func jobsInWords(names []string) string {
	if len(names) == 0 {
		return "no jobs"
	}
	return "the jobs " + model.Listed(names)
}

// saving returns what a line saves against the first in a year with a number of good envelopes.
func (d worthDraw) saving(line int, volume float64) float64 {
	return d[0].cost(volume) - d[line].cost(volume)
}

// extra and rest return the price and the residual of a line against those of the first.
func (d worthDraw) extra(line int) float64 { return d[line].price - d[0].price }
func (d worthDraw) rest(line int) float64  { return d[line].residual - d[0].residual }

// line works out all figures of a line.
func (w *Worth) line(i int) error {
	year, gain := &w.Lines[i], &w.Gains[i]
	year.JobHours = make([]sim.Sample, len(w.draws[0][i].jobHours))
	for _, d := range w.draws {
		x := &d[i]
		hours, parts := x.year(x.volume)
		cost := x.cost(x.volume)
		year.Price = append(year.Price, x.price)
		year.Hours = append(year.Hours, hours)
		for j, h := range x.jobHours {
			year.JobHours[j] = append(year.JobHours[j], h)
		}
		year.Cost = append(year.Cost, cost)
		for p, x := range parts {
			year.Parts[p] = append(year.Parts[p], x)
		}
		year.PerThousand = append(year.PerThousand, 1000*cost/x.volume)
		year.Annual = append(year.Annual, annual(x, w.factors))
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
func (w *Worth) gain(g *Gain, d worthDraw, line int) error {
	saving := d.saving(line, d[line].volume)
	flows := make(money.Flows, w.Life+1)
	for year := range flows {
		flows[year] = saving
	}
	flows[0] = -d.extra(line)
	flows[w.Life] += d.rest(line)
	if flows.Check() != nil {
		return &Aside{Why: SumsTooLarge, Lines: []int{line}}
	}
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
	loses := d.extra(line) == 0 && saving < 0 // nothing is paid, so nothing could be paid back
	g.Saving, g.NPV = append(g.Saving, saving), append(g.NPV, npv)
	g.Payback = append(g.Payback, orNever(payback, ok && !loses))
	g.Discounted = append(g.Discounted, orNever(discounted, withInterest && !loses))
	g.BreakEven = append(g.BreakEven, w.breakEven(d, line))
	return nil
}

func orNever(x float64, ok bool) float64 {
	if !ok {
		return math.Inf(1)
	}
	return x
}

// npv returns the net present value of a line in one draw, if that many good envelopes are
// made a year. It is the value of the flows in closed form.
func (w *Worth) npv(d worthDraw, line int, volume float64) float64 {
	return float64(d.saving(line, volume)*w.factors.PA) - d.extra(line) + float64(d.rest(line)*w.factors.PF)
}

// PartPerThousand returns a part of the cost of a line for each thousand good envelopes.
func (w *Worth) PartPerThousand(line int, part CostPart) sim.Sample {
	sample := make(sim.Sample, w.Draws)
	for k, x := range w.Lines[line].Parts[part] {
		sample[k] = 1000 * x / w.Volume[k]
	}
	return sample
}

// NPVs returns the net present values of a line against the first if that many good envelopes
// are made a year, whatever the costs say of that; of several jobs, in the shares they have.
func (w *Worth) NPVs(line int, volume float64) sim.Sample {
	var sample sim.Sample
	for _, d := range w.draws {
		sample = append(sample, w.npv(d, line, volume))
	}
	return sample
}

// breakEven returns the least yearly volume at which the net present value is not below 0,
// all jobs together in the shares they have in the draw.
// Between the volumes at which one of the two lines begins to need overtime it is a straight
// line.
func (w *Worth) breakEven(d worthDraw, line int) float64 {
	bends := []float64{0}
	for _, i := range []int{0, line} {
		if x := &d[i]; x.extra > 0 && x.usual > 0 {
			bends = append(bends, x.usual/x.hours)
		}
	}
	slices.Sort(bends)
	for n, from := range bends {
		at := w.npv(d, line, from)
		if at >= 0 {
			return from
		}
		to := float64(2*from) + 1e6
		if n+1 < len(bends) {
			to = bends[n+1]
		}
		if end := w.npv(d, line, to); end > at && (end >= 0 || n+1 == len(bends)) {
			return from - at*(to-from)/(end-at)
		}
	}
	return math.Inf(1)
}
