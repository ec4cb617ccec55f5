package lines

import (
	"cmp"
	"slices"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/sim"
	"netrate/sim/output"
)

// contest is what a comparison came to.
type contest struct {
	*field
	best, next int                   // the largest and the second largest mean net rate
	pairs      [][]output.Comparison // pairs[i][k] sets k against i, all right at once; nil of a race
	leads      []output.Lead         // nil of a race, and of a single shift
	race       *race                 // nil for a fixed number of shifts
	money      *model.Worth          // nil if there are no costs, or they are left aside
	aside      string                // why costs are left aside
}

// race is a comparison that ends as soon as the best is found.
type race struct {
	*output.Selection
	worth      float64 // the smallest difference that matters, good envelopes an hour
	confidence float64
	cap        int  // shifts of each line at most
	usual      bool // worth was not asked for
}

// decide compares the entrants once they are simulated.
//
// Each is compared with each, and all intervals are right at once: so those of the best
// are too, though it is the data that say which one is the best. The intervals for the
// lead over the best of the others ([sim.Leads]) are right at once by themselves, not
// together with these, and stop at zero, so they cannot say by how much a line is ahead.
// They are told for those who want them, and no sentence rests on them.
func decide(f *field, r *race) *contest {
	c := &contest{field: f, race: r}
	systems := make([]sim.Sample, len(f.entrants))
	for i := range f.entrants {
		systems[i] = f.entrants[i].study.NetRates()
	}
	c.rank(systems)
	if r != nil {
		return c // it ended when the data said so: intervals would be too narrow
	}
	c.comparePairs(systems)
	if len(systems[0]) > 1 {
		c.leads = output.Leads(systems, say.Level)
	}
	return c
}

// rank finds the two with the largest means, the first of equals.
func (c *contest) rank(systems []sim.Sample) {
	c.best, c.next = 0, 1
	if systems[1].Mean() > systems[0].Mean() {
		c.best, c.next = 1, 0
	}
	for i := 2; i < len(systems); i++ {
		switch mean := systems[i].Mean(); {
		case mean > systems[c.best].Mean():
			c.best, c.next = i, c.best
		case mean > systems[c.next].Mean():
			c.next = i
		}
	}
}

// comparePairs compares each with each.
func (c *contest) comparePairs(systems []sim.Sample) {
	c.pairs = make([][]output.Comparison, len(systems))
	for i := range c.pairs {
		c.pairs[i] = make([]output.Comparison, len(systems))
	}
	pairs := output.AllPairs(len(systems))
	for n, there := range output.Pairwise(systems, pairs, say.Level) {
		i, k := pairs[n][0], pairs[n][1]
		back := there
		back.Difference.Mean, back.Wins = -there.Difference.Mean, 1-there.Wins
		c.pairs[i][k], c.pairs[k][i] = there, back
	}
}

// candidates returns those that nothing is shown to be better than.
func (c *contest) candidates() []int {
	var left []int
	for i := range c.entrants {
		beaten := false
		for k := range c.entrants {
			beaten = beaten || k != i && c.pairs[i][k].Difference.Low() > 0
		}
		if !beaten {
			left = append(left, i)
		}
	}
	return left
}

// certain reports whether the leader is shown to be the best, or chosen with the promise
// that was asked for.
func (c *contest) certain() bool {
	if c.race != nil {
		_, promised := c.race.Best()
		return promised
	}
	return len(c.candidates()) == 1
}

// rival returns the one that the best is set against: the base, or if the base is the best
// the next.
func (c *contest) rival() int {
	if c.best == 0 {
		return c.next
	}
	return 0
}

// step is how one loss differs between two lines, in good envelopes an hour.
type step struct {
	name        string
	rival, best float64 // lost; of the first step, the speed the line runs at
	change      float64 // what the best gains by it
}

// The first step: what is above it was never asked for. Of several jobs it is the mean over the
// time that each has, which differs from line to line.
const (
	ownSpeed  = "speed the line runs at"
	meanSpeed = "speed, in the mean of the jobs' time"
)

// steps returns why the best delivers more or less than its rival: the changes add up to
// the difference of their net rates.
func (c *contest) steps() []step {
	a, lossesA := runLosses(c.entrants[c.rival()].study)
	b, lossesB := runLosses(c.entrants[c.best].study)
	speed := ownSpeed
	if c.mixes() != nil {
		speed = meanSpeed
	}
	all := []step{{speed, a, b, b - a}}
	for _, name := range lossNames(lossesA, lossesB) {
		a, b := lossOf(lossesA, name), lossOf(lossesB, name)
		all = append(all, step{name, a, b, a - b})
	}
	if c.entrants[0].line.Job.Sets > 0 {
		// A job's losses are those of all its hours together, its net rate the mean of jobs.
		a, b := c.unequal(c.rival()), c.unequal(c.best)
		all = append(all, step{"jobs of unequal length", a, b, a - b})
	}
	return all
}

// unequal returns by how much the mean net rate of an entrant's jobs is below that of all
// their hours together.
func (c *contest) unequal(i int) float64 {
	s := c.entrants[i].study
	_, _, net := s.Losses()
	return net - s.NetRates().Mean()
}

// lossNames returns what any of several lines loses, in order. They differ only in what a
// line has not got, such as documents to wait for.
func lossNames(several ...[]model.Loss) []string {
	var names []string
	longest := slices.MaxFunc(several, func(a, b []model.Loss) int { return cmp.Compare(len(a), len(b)) })
	for _, losses := range append([][]model.Loss{longest}, several...) {
		for _, l := range losses {
			if !slices.Contains(names, l.Name) {
				names = append(names, l.Name)
			}
		}
	}
	return names
}

// lossOf returns how much a line loses in one step, 0 if it has no such step.
func lossOf(losses []model.Loss, name string) float64 {
	for _, l := range losses {
		if l.Name == name {
			return l.PerHour
		}
	}
	return 0
}

// runLosses returns the losses from the speed the line runs at.
func runLosses(s *model.Study) (speed float64, losses []model.Loss) {
	rated, losses, _ := s.Losses()
	if len(losses) == 0 {
		return rated, nil
	}
	return rated - losses[0].PerHour, losses[1:]
}

// crewBusy returns the share of its time that a crew walks or works.
func crewBusy(s *model.Study) sim.Estimate {
	e := s.Sample(func(s *model.Shift) float64 { return s.CrewBusy }).Interval(say.Level)
	time := float64(s.Line.Crew.Operators) * page.Whole(s)
	e.Mean, e.Half = e.Mean/time, e.Half/time
	return e
}
