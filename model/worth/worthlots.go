package worth

import (
	"netrate/model/runs"
	"netrate/sim"
	"netrate/sim/output"
)

// lots say which shifts count in which draw: the same for all lines and jobs.
type lots struct {
	lines     []*spender
	random    *sim.Stream
	seed      uint64
	draw      int
	numbers   []int32              // of the shifts of the draw or, where something is uncertain, of the draws of that
	uncertain [][]*uncertaintyLots // of each line at each job; nil if nothing is uncertain
}

func newLots(studies []*runs.Study, costs []*Costs, seed uint64) *lots {
	l := &lots{random: sim.NewStream("costs", "shifts"), seed: seed, draw: -1, numbers: make([]int32, len(studies[0].Shifts))}
	for i, s := range studies {
		l.lines = append(l.lines, spenderOf(s, costs[i]))
	}
	return l
}

// take takes the shifts from studies of what is uncertain, if there are such.
func (l *lots) take(drawn []*runs.UncertaintyStudy) {
	for i, s := range drawn {
		var own []*uncertaintyLots
		for _, part := range made(s.Study, l.lines[i].costs) {
			own = append(own, newUncertaintyLots(&runs.UncertaintyStudy{Study: part, Values: s.Values}))
		}
		l.uncertain = append(l.uncertain, own)
		l.numbers = make([]int32, s.Draws())
	}
}

// mean returns what a shift of a line at a job is on average in a draw.
func (l *lots) mean(draw, line, job int) tally {
	if draw != l.draw {
		l.draw = draw
		l.random.Seed(l.seed, draw)
		for i := range l.numbers {
			l.numbers[i] = int32(l.random.Uniform() * float64(len(l.numbers)))
		}
	}
	if l.uncertain != nil {
		return l.uncertain[line][job].mean(draw, l.numbers)
	}
	return meanOf(l.lines[line].jobs[job].shifts, l.numbers)
}

// uncertaintyLots say what a shift of a line at a job is on average, in each draw of what is uncertain.
type uncertaintyLots struct {
	means   []tally // of the replications of each draw
	settled []tally // the same, as they would be without chance
	all     tally   // the mean of all
}

// newUncertaintyLots settles every figure by itself: see [sim.VarianceComponents.Settled].
func newUncertaintyLots(s *runs.UncertaintyStudy) *uncertaintyLots {
	d := &uncertaintyLots{settled: make([]tally, s.Draws())}
	shifts := make([]tally, len(s.Shifts))
	for i := range s.Shifts {
		shifts[i] = tallyOf(&s.Shifts[i], s.Line.Shift)
	}
	own := make([]int32, s.Each)
	for draw := range s.Draws() {
		for k := range own {
			own[k] = int32(draw*s.Each + k)
		}
		d.means = append(d.means, meanOf(shifts, own))
	}
	for f := range d.all.figures() {
		groups := make([]sim.Sample, s.Draws())
		for i := range shifts {
			groups[i/s.Each] = append(groups[i/s.Each], *shifts[i].figures()[f])
		}
		parts := output.ANOVA(groups)
		*d.all.figures()[f] = parts.Mean
		for draw, x := range parts.Settled(groups) {
			*d.settled[draw].figures()[f] = x
		}
	}
	return d
}

// mean returns the mean shift of a draw, moved by as much as the mean of the draws with the
// given numbers differs from that of all: that is how uncertain the simulation leaves it.
func (d *uncertaintyLots) mean(draw int, numbers []int32) tally {
	t, again := d.settled[draw%len(d.settled)], meanOf(d.means, numbers)
	for f, x := range t.figures() {
		if whole := *d.all.figures()[f]; whole > 0 {
			*x *= *again.figures()[f] / whole
		}
	}
	return t
}

// figures returns all figures of a tally.
func (t *tally) figures() []*float64 {
	all := []*float64{&t.hours, &t.remakes}
	for f := range t.sets {
		all = append(all, &t.sets[f])
	}
	return all
}
