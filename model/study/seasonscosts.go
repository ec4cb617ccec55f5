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
	Unpriced []string           `json:"without_price,omitempty"` // parts that come to something and have no price; of several lines alone
	Weeks    []Number           `json:"weeks,omitempty"`         // what each costs, in the mean; of several lines none

	Sums      sim.Sample `json:"-"` // All, season by season; so are the next two
	Thousands sim.Sample `json:"-"`
	More      sim.Sample `json:"-"` // than the base; nil without Against

	weeks []sim.Sample // of each week, season by season; of several lines none
	parts worth.Spent  // of all seasons
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
	x := &SeasonsCosts{Currency: c.Costs.Currency, weeks: make([]sim.Sample, len(s.Weeks))}
	paid := c.Season.OperatorHoursOf()
	for r := range s.Done {
		all, good := worth.Spent{}, int64(0)
		for w := range s.Weeks {
			spent := q.spent(c, s, paid, w, r)
			for p, cost := range spent {
				all[p] += cost
			}
			x.weeks[w] = append(x.weeks[w], spent.Sum())
			good += s.Weeks[w].Used[r].Good
		}
		x.add(&all, good, 0)
	}
	x.done()
	for _, week := range x.weeks {
		x.Weeks = append(x.Weeks, Number(week.Mean()))
	}
	return x
}

// add adds what a season costs, with what is paid beside, and how many good envelopes it makes.
func (x *SeasonsCosts) add(spent *worth.Spent, good int64, beside float64) {
	sum := spent.Sum() + beside
	x.Sums, x.Thousands = append(x.Sums, sum), append(x.Thousands, 1000*sum/float64(good))
	for p, cost := range spent {
		x.parts[p] += cost
	}
}

// done says what the seasons that were added come to.
func (x *SeasonsCosts) done() {
	x.All, x.Thousand = seasonsMoney(x.Sums), seasonsMoney(x.Thousands)
	for _, p := range worth.CostParts() {
		if p != worth.UpkeepCost {
			x.Parts = append(x.Parts, SeasonsCostsPart{p.String(), Number(x.parts[p] / float64(len(x.Sums)))})
		}
	}
}

// usedWork returns what was used as work that is paid for, without its hours.
func usedWork(u *seasons.Used) worth.Work {
	return worth.Work{
		Defective: float64(u.Defective), Spoiled: float64(u.Spoiled), Remakes: float64(u.Remakes),
		Calls: float64(u.Calls), Repairs: float64(u.Repairs) / 3600, Pieces: u.Pieces,
	}
}

// spent returns what a week of one season costs, with its overtime.
func (q *Seasons) spent(c *SeasonsConfiguration, s *seasons.SeasonStudy, paid []float64, week, replication int) worth.Spent {
	ended := &s.Weeks[week]
	work := usedWork(&ended.Used[replication])
	work.LineHours, work.OperatorHours = ended.Work[replication], paid[week]
	work.Overtime = ended.Overtime[replication] * paid[week] / s.Hours
	return c.Costs.Spent(&work, q.Plan.Seed, replication)
}

// against sets what a configuration costs against what the base does, season by season.
func (x *SeasonsCosts) against(base *SeasonsCosts) {
	if x == nil || base == nil || x == base || x.Currency != base.Currency {
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
