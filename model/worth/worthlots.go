package worth

import (
	"netrate/model/runs"
	"netrate/sim"
	"netrate/sim/output"
)

// lots say which shifts count in which draw: the same for all lines and jobs.
type lots struct {
	lines   []*spender
	luck    *sim.Stream
	seed    uint64
	draw    int
	numbers []int32        // of the shifts of the draw or, where something is in doubt, of the draws of that
	doubts  [][]*doubtLots // of each line at each job; nil if nothing is in doubt
}

func newLots(studies []*runs.Study, costs []*Costs, seed uint64) *lots {
	l := &lots{luck: sim.NewStream("costs", "shifts"), seed: seed, draw: -1, numbers: make([]int32, len(studies[0].Shifts))}
	for i, s := range studies {
		l.lines = append(l.lines, spenderOf(s, costs[i]))
	}
	return l
}

// doubt takes the shifts from studies of what is in doubt, if there are such.
func (l *lots) doubt(doubted []*runs.DoubtStudy) {
	for _, s := range doubted {
		jobs := s.Jobs
		if jobs == nil {
			jobs = []*runs.DoubtStudy{s}
		}
		var own []*doubtLots
		for _, j := range jobs {
			own = append(own, newDoubtLots(j))
		}
		l.doubts = append(l.doubts, own)
		l.numbers = make([]int32, s.Draws())
	}
}

// mean returns what a shift of a line at a job is on average in a draw.
func (l *lots) mean(draw, line, job int) tally {
	if draw != l.draw {
		l.draw = draw
		l.luck.Seed(l.seed, draw)
		for i := range l.numbers {
			l.numbers[i] = int32(l.luck.Uniform() * float64(len(l.numbers)))
		}
	}
	if l.doubts != nil {
		return l.doubts[line][job].mean(draw, l.numbers)
	}
	return meanOf(l.lines[line].jobs[job].shifts, l.numbers)
}

// doubtLots say what a shift of a line at a job is on average, in each draw of what is in doubt.
type doubtLots struct {
	means   []tally // of the replications of each draw
	settled []tally // the same, as they would be without chance
	all     tally   // the mean of all
}

// newDoubtLots settles every figure by itself: see [sim.Components.Settled].
func newDoubtLots(s *runs.DoubtStudy) *doubtLots {
	d := &doubtLots{settled: make([]tally, s.Draws())}
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
		parts := output.Split(groups)
		*d.all.figures()[f] = parts.Mean
		for draw, x := range parts.Settled(groups) {
			*d.settled[draw].figures()[f] = x
		}
	}
	return d
}

// mean returns the mean shift of a draw, moved by as much as the mean of the draws with the
// given numbers differs from that of all: that is how uncertain the simulation leaves it.
func (d *doubtLots) mean(draw int, numbers []int32) tally {
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
