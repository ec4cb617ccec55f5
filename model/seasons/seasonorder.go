package seasons

import (
	"netrate/model/order"
	"netrate/model/setup"
	"netrate/sim"
)

// changeovers lists what there is to do between any two products, and before the first.
func (p *seasonPlan) changeovers() {
	p.items, p.stays = make([][][]setup.Item, len(p.setups)+1), make([][][]int, len(p.setups)+1)
	for from := range p.items {
		p.items[from], p.stays[from] = make([][]setup.Item, len(p.setups)), make([][]int, len(p.setups))
		for to, made := range p.setups {
			var before *setup.Setup
			if from > 0 {
				before = p.setups[from-1]
			}
			if p.Change != nil && made != nil && (from == 0 || before != nil) {
				p.items[from][to] = p.Change.Items(before, made)
			}
			if before != nil && made != nil && made.Line.Begins.Kept {
				p.stays[from][to] = setup.Stays(before, made)
			}
		}
	}
}

// meanReplications is how many changeovers are drawn for a mean.
const meanReplications = 100

// meanTotal returns the mean time of a changeover with so many operators.
func meanTotal(items []setup.Item, operators int) sim.Seconds {
	return sim.Seconds(setup.Totals(items, operators, 1, meanReplications).Mean())
}

// meanChange returns the mean time of the changeover from one product to another.
func (p *seasonPlan) meanChange(from, to int) sim.Seconds {
	return meanTotal(p.items[from+1][to], p.Line.Crew.Changers(p.Line.Name))
}

// Check returns everything that is wrong with the season.
func (s *Season) Check() error {
	ordered := *s
	ordered.Best, ordered.Draws = false, false // which takes no search, nor a draw
	p, err := ordered.plan()
	if err != nil {
		return err
	}
	if s.byShift() {
		return p.staffedRunner(0).make(0)
	}
	return nil
}

// ChangeTime returns the mean time of all changeovers of the season, in the order in which
// its jobs are done, or everything that is wrong with the season.
func (s *Season) ChangeTime() (sum sim.Seconds, err error) {
	p, err := s.plan()
	if err != nil {
		return 0, err
	}
	last := -1
	for _, j := range p.jobs {
		sum += p.meanChange(last, j.Product)
		last = j.Product
	}
	return sum, nil
}

// order puts the jobs of the season in the order in which they are done.
func (p *seasonPlan) order() {
	last := -1
	for w, week := range p.Weeks {
		var products []int
		for i, sets := range week.Sets {
			if sets > 0 {
				products = append(products, i)
			}
		}
		if p.Best {
			products = p.best(last, products)
		}
		for _, i := range products {
			p.jobs = append(p.jobs, SeasonJob{Week: w, Product: i, Sets: week.Sets[i]})
			last = i
		}
	}
}

// best returns the products of a week in the order of least changeover after product last,
// or after nothing, -1.
func (p *seasonPlan) best(last int, products []int) []int {
	all, from := products, -1
	if last >= 0 {
		all, from = append([]int{last}, products...), 0
	}
	cost := make([][]sim.Seconds, len(all))
	for i, a := range all {
		cost[i] = make([]sim.Seconds, len(all))
		for k, b := range all {
			if a != b {
				cost[i][k] = p.meanChange(a, b)
			}
		}
	}
	least, _ := order.Best(from, cost)
	var best []int
	for _, i := range least {
		best = append(best, all[i])
	}
	return best
}
