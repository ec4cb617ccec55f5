package study

import (
	"math"

	"netrate/model/money"
	"netrate/model/seasons"
	"netrate/model/worth"
	"netrate/sim"
)

// work returns the work of a plan, of which it is kept what it uses if that has prices.
func (x *PlansPlan) work() *seasons.Together {
	work := x.Made.Together()
	if x.priced != nil {
		work.Priced = x.priced.Piece
	}
	return work
}

// The parts of what a plan costs that are no [worth.CostPart].
const (
	ChoicesPart  = "what is chosen"
	LatenessPart = "lateness"
)

// spend says what a plan costs, if the file has prices: people for the shifts that begin before the last date, or the
// end of the last week of a season, and where the work takes longer before the last job is finished; what is chosen
// at its own cost, or without one by the hour; and lateness, of each replication in hours times priorities. What was
// chosen in a plan that was promised is paid for with that one. A plan of which not all is ever finished has no costs.
func (x *PlansPlan) spend(late sim.Sample) {
	if x.priced == nil || x.Unfinished() {
		return
	}
	c, p, s, price := &SeasonsCosts{Currency: x.priced.Currency}, x.Made.Plan, x.Study, float64(x.Made.Plan.Late)
	lines := make(sim.Sample, s.Done)
	for i, line := range x.Lines {
		for r, hours := range busyHours(s, x.Made.Order[i], line.down) {
			lines[r] += hours
		}
	}
	wages, own := 0.0, float64(x.Cost)
	for r, hours := range lines {
		used := &s.Used[r]
		work := usedWork(used)
		crew, chosen := p.PaidHours(max(p.LastDate(), x.Made.Horizon.At(sim.Seconds(s.Finished[r]))), x.Chosen)
		work.LineHours, work.OperatorHours = hours, crew
		spent := x.priced.Spent(&work, x.seed, r)
		of := x.priced.Spent(&worth.Work{OperatorHours: chosen.Usual, Overtime: chosen.Extra}, x.seed, r)
		wages += of.Sum()
		c.add(&spent, used.Good, own+of.Sum()+float64(price*late[r]))
	}
	c.done()
	x.Wages = Number(wages / float64(s.Done))
	x.Cost += x.Wages
	if p.Weeks == nil {
		c.Parts = append(c.Parts, SeasonsCostsPart{ChoicesPart, x.Cost})
		if price > 0 {
			c.Parts = append(c.Parts, SeasonsCostsPart{LatenessPart, x.LateCost})
		}
	}
	c.Unpriced = x.unpriced()
	x.Costs = c
}

// Unfinished reports whether in some replication not all jobs are ever finished.
func (x *PlansPlan) Unfinished() bool {
	for _, at := range x.finished() {
		if math.IsInf(at, 1) {
			return true
		}
	}
	return false
}

// unpriced returns the parts of a plan that come to something and have no price in the file.
func (x *PlansPlan) unpriced() (names []string) {
	none, used := money.Value{}, &seasons.Used{}
	for r := range x.Study.Used {
		used.Add(&x.Study.Used[r])
	}
	p := x.priced
	for _, part := range []struct {
		name    string
		missing bool
	}{
		{worth.OperatorHours.String(), p.OperatorHour == none},
		{worth.LineHours.String(), p.LineHour == none},
		{worth.InsertCost.String(), p.Insert == none && len(p.Pieces) == 0},
		{worth.EnvelopeCost.String(), p.Envelope == none && len(p.Pieces) == 0},
		{worth.TechnicianCost.String(), used.Calls > 0 && p.TechnicianCall == none && p.TechnicianHour == none},
		{worth.RemakeCost.String(), used.Remakes > 0 && x.Made.Plan.Closing.Closing != 0 && p.Remake == none},
		{worth.SpoiledCost.String(), used.Spoiled > 0 && p.Spoiled == none},
		{worth.DefectiveCost.String(), used.Defective > 0 && p.Defective == none},
		{LatenessPart, x.Late.Mean > 0 && x.Made.Plan.Late == 0},
	} {
		if part.missing {
			names = append(names, part.name)
		}
	}
	return names
}
