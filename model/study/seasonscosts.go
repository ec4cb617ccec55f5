package study

import (
	"netrate/model/seasons"
	"netrate/model/worth"
	"netrate/sim"
)

// SeasonsCosts is what a season costs in one configuration, if each week ends with its own work done, in
// overtime if need be. What is paid once or by the year is not in it.
type SeasonsCosts struct {
	Currency string             `json:"currency"`
	All      SeasonsMoney       `json:"all"`
	Thousand SeasonsMoney       `json:"per_1000_good"`          // envelopes
	Against  *SeasonsMoney      `json:"against_base,omitempty"` // what it costs more than the base in the same season; nil for the base, and where prices are in another currency
	Less     Number             `json:"less_than_base"`         // share of the seasons in which it costs less; 0 without Against
	Parts    []SeasonsCostsPart `json:"parts"`
	Weeks    []Number           `json:"weeks"` // what each costs, in the mean

	Sums      sim.Sample `json:"-"` // All, season by season; so are the next two
	Thousands sim.Sample `json:"-"`
	More      sim.Sample `json:"-"` // than the base; nil without Against

	weeks []sim.Sample // of each week, season by season
}

// SeasonsMoney is a sum of money over seasons: its mean with the half-width of the interval of the mean, and
// the range of nine seasons in ten. Each season draws prices from their ranges.
type SeasonsMoney struct {
	Mean Number `json:"mean"`
	Half Number `json:"half"`
	P5   Number `json:"p5"`
	P50  Number `json:"p50"`
	P95  Number `json:"p95"`
}

// SeasonsCostsPart is what one part costs, in the mean.
type SeasonsCostsPart struct {
	Name string `json:"name"`
	Mean Number `json:"mean"`
}

func seasonsMoney(s sim.Sample) SeasonsMoney {
	e := s.Interval(Level)
	return SeasonsMoney{Number(e.Mean), Number(e.Half), Number(s.Quantile(0.05)), Number(s.Quantile(0.5)), Number(s.Quantile(0.95))}
}

// seasonsCosts returns what the season of a configuration costs; nil if it has no prices.
func (q *Seasons) seasonsCosts(c *SeasonsConfiguration, s *seasons.SeasonStudy) *SeasonsCosts {
	if c.Costs == nil {
		return nil
	}
	x := &SeasonsCosts{Currency: c.Costs.Currency, weeks: make([]sim.Sample, len(s.Weeks)), Sums: make(sim.Sample, s.Done), Thousands: make(sim.Sample, s.Done)}
	paid := c.Season.OperatorHoursOf()
	parts := worth.Spent{}
	for r := range s.Done {
		good := int64(0)
		for w := range s.Weeks {
			spent := q.spent(c, s, paid, w, r)
			for p, cost := range spent {
				parts[p] += cost / float64(s.Done)
			}
			sum := spent.Sum()
			x.weeks[w] = append(x.weeks[w], sum)
			x.Sums[r] += sum
			good += s.Weeks[w].Used[r].Good
		}
		x.Thousands[r] = 1000 * x.Sums[r] / float64(good)
	}
	x.All, x.Thousand = seasonsMoney(x.Sums), seasonsMoney(x.Thousands)
	for _, p := range worth.CostParts() {
		if p != worth.UpkeepCost {
			x.Parts = append(x.Parts, SeasonsCostsPart{p.String(), Number(parts[p])})
		}
	}
	for _, week := range x.weeks {
		x.Weeks = append(x.Weeks, Number(week.Mean()))
	}
	return x
}

// spent returns what a week of one season costs, with its overtime.
func (q *Seasons) spent(c *SeasonsConfiguration, s *seasons.SeasonStudy, paid []float64, week, replication int) worth.Spent {
	ended := &s.Weeks[week]
	used := &ended.Used[replication]
	work := worth.Work{
		LineHours: ended.Work[replication], OperatorHours: paid[week], Overtime: ended.Overtime[replication] * paid[week] / s.Hours,
		Defective: float64(used.Defective), Spoiled: float64(used.Spoiled), Remakes: float64(used.Remakes),
		Calls: float64(used.Calls), Repairs: float64(used.Repairs) / 3600, Pieces: used.Pieces,
	}
	return c.Costs.Spent(&work, q.Plan.Seed, replication)
}

// against sets what a configuration costs against what the base does, season by season.
func (x *SeasonsCosts) against(base *SeasonsCosts) {
	if x == nil || base == nil || x.Currency != base.Currency {
		return
	}
	less := 0
	for r, sum := range x.Sums {
		x.More = append(x.More, sum-base.Sums[r])
		if sum < base.Sums[r] {
			less++
		}
	}
	m := seasonsMoney(x.More)
	x.Against, x.Less = &m, Number(float64(less)/float64(len(x.Sums)))
}

// cheapest returns the line that costs least in the mean, the first of equals; -1 unless all have costs in
// one currency.
func (a *SeasonsAnswer) cheapest() Index {
	best := 0
	for i := range a.Lines {
		x := a.Lines[i].Costs
		if x == nil || x.Currency != a.Lines[0].Costs.Currency {
			return -1
		}
		if x.All.Mean < a.Lines[best].Costs.All.Mean {
			best = i
		}
	}
	return Index(best)
}
