package study

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"slices"

	"netrate/model/runs"
	"netrate/model/worth"
	"netrate/sim"
)

// CostSweep asks what the values of one cost, or of two, do to what a line costs. The line is the
// same at all of them, and is simulated once: of several jobs each is, and at other yearly volumes
// they count otherwise.
type CostSweep struct {
	Alternative Alternative      // with yearly volumes of jobs a line is taken at all of them
	Vary        []SweepParameter // one or two
	Costs       []*worth.Costs   // at each value of the first and, if there are two, in each of these at each of the second
	Plan        sim.Plan
	Draws       int // of shifts and of the ranges of the costs; 0 for [WorthDraws]
}

// CostSweepAnswer is what a line costs at each point.
type CostSweepAnswer struct {
	Settings Settings         `json:"settings"`
	Basis    Basis            `json:"rests_on"`
	Vary     []SweepParameter `json:"vary"`
	Currency string           `json:"currency"`
	Life     int              `json:"life_years"`
	Draws    int              `json:"draws"`
	NetRate  NetRate          `json:"net_rate"` // at all points or, where jobs have other volumes there, at the first
	Points   []CostSweepPoint `json:"points"`
	Least    int              `json:"least"` // the point with the lowest cost all in, in the mean
	Study    *runs.Study      `json:"-"`
}

// CostSweepPoint is what one value, or one of each of two, comes to.
type CostSweepPoint struct {
	Values      []string `json:"values"`
	NetRate     *NetRate `json:"net_rate,omitempty"` // where yearly volumes of jobs are varied
	Cost        Spread   `json:"cost_per_year"`
	PerThousand Spread   `json:"cost_per_1000"`   // running: the price is not in it
	AllIn       Spread   `json:"all_in_per_1000"` // with the price, spread over the life with interest
	Annual      Spread   `json:"equivalent_annual_cost"`
	Drawn       struct {
		Cost, PerThousand, AllIn sim.Sample
	} `json:"-"`
}

// Ask runs the line and works out its costs at all points. After each replication it calls told,
// if there is one, whose answers are nil: money is worked out in the end. When ctx is cancelled the
// answer is of what was done by then; it is nil if that is less than two replications.
func (q CostSweep) Ask(ctx context.Context, told func(Sofar[CostSweepAnswer])) (*CostSweepAnswer, error) {
	if err := errors.Join(ofLines(q.Alternative), q.check()); err != nil {
		return nil, err
	}
	all := []*tried{{Alternative: &q.Alternative, means: true}}
	if err := errors.Join(setUpJobs(all), meansFit(q.Alternative.Lines()...)); err != nil {
		return nil, err
	}
	var watch func(int, standing)
	if told != nil {
		watch = func(replication int, _ standing) {
			told(Sofar[CostSweepAnswer]{Done: replication + 1, Most: q.Plan.Max, Answer: func() *CostSweepAnswer { return nil }})
		}
	}
	if err := runTogether(ctx, all, q.Plan, nil, watch); err != nil || len(all[0].study.Shifts) < 2 {
		return nil, err
	}
	return q.answer(all[0].study)
}

func (q *CostSweep) check() error {
	points := 1
	for _, p := range q.Vary {
		points *= len(p.Values)
	}
	switch {
	case len(q.Vary) < 1 || len(q.Vary) > 2 || points != len(q.Costs):
		return fmt.Errorf("a sweep of costs varies %d costs in %d points and has the costs of %d", len(q.Vary), points, len(q.Costs))
	case q.Plan.Max < 2:
		return errors.New("money needs two replications or more: one alone does not show how far it may be off")
	}
	return nil
}

// answer works out the costs of what was simulated.
func (q *CostSweep) answer(s *runs.Study) (*CostSweepAnswer, error) {
	draws := q.Draws
	if draws == 0 {
		draws = WorthDraws
	}
	a := &CostSweepAnswer{
		Settings: SettingsOf(s.Plan, len(s.Shifts), s.Ending), Vary: q.Vary, NetRate: NetRateOf(s), Basis: basisOfAll([]*tried{{Alternative: &q.Alternative, means: true}}),
		Currency: q.Costs[0].Currency, Life: q.Costs[0].Life, Draws: draws, Study: s,
	}
	of := Sweep{Vary: q.Vary}
	for i, costs := range q.Costs {
		at, err := atVolumes(s, costs)
		if err != nil {
			return nil, err
		}
		w, err := worth.Weigh([]*runs.Study{at}, []*worth.Costs{costs}, draws, s.Plan.Seed)
		if err != nil {
			return nil, err
		}
		y, allIn := &w.Lines[0], w.AllInPerThousand(0)
		p := CostSweepPoint{Cost: SpreadOf(y.Cost), PerThousand: SpreadOf(y.PerThousand), AllIn: SpreadOf(allIn), Annual: SpreadOf(y.Annual)}
		p.Drawn.Cost, p.Drawn.PerThousand, p.Drawn.AllIn = y.Cost, y.PerThousand, allIn
		if q.variesVolumes() {
			p.NetRate = new(NetRateOf(at))
		}
		for _, v := range of.values(i) {
			p.Values = append(p.Values, v.Text)
		}
		if a.Points = append(a.Points, p); p.AllIn.Mean < a.Points[a.Least].AllIn.Mean {
			a.Least = i
		}
	}
	return a, nil
}

// variesVolumes reports whether the jobs count otherwise at some points.
func (q *CostSweep) variesVolumes() bool {
	return q.Alternative.Group == nil && slices.ContainsFunc(q.Costs, func(c *worth.Costs) bool { return !maps.Equal(c.Volumes, q.Costs[0].Volumes) })
}

// atVolumes returns what the jobs of a study come to together at the yearly volumes of the costs. No
// shift is simulated again: in each the jobs have other parts of the time.
func atVolumes(s *runs.Study, costs *worth.Costs) (*runs.Study, error) {
	if s.Jobs() == nil {
		return s, nil
	}
	jobs, shares := costs.Shares()
	var each []*runs.Study
	for _, j := range s.Jobs() {
		each = append(each, j.Study)
	}
	if !slices.EqualFunc(jobs, each, func(job string, of *runs.Study) bool { return job == of.Line.Name }) {
		return nil, errors.New("a sweep of yearly volumes is of the same jobs at all its values")
	}
	return runs.Mixed(s.Line, each, shares), nil
}
