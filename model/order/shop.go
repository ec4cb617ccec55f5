package order

import (
	"fmt"
	"math"
	"slices"

	"netrate/sim"
)

// Shop is jobs for some machines that differ: unrelated parallel machines with set-up times that
// depend on what came before (R | s_ijk, r_j | C_max or Σ w_j T_j in the words of scheduling).
type Shop struct {
	Time    [][]sim.Seconds   // of each machine, for each job; +Inf where it cannot do it
	Change  [][][]sim.Seconds // of each machine, to each job (the column) from each (its row); one row more, the last, for the start
	Release []sim.Seconds     // of each job: its changeover does not begin before
	// Beside is the work at the one bench beside all machines that a job brings, by machine; Tail is how long
	// after its machine is free a job is finished at least, had it the bench for itself. Nil for none. What a
	// job waits for the work of others at the bench is left out; that all of it has to be done is not.
	Beside, Tail [][]sim.Seconds
	// Late is what it costs that a job is finished at a time; it never falls. Nil for nothing.
	Late func(job int, finished sim.Seconds) float64
	// Tight is how near a job comes to be late, 0 for not near: of plans that cost as much that is better
	// whose tightest job is less so. It never falls until the job costs something, and is 0 from then on. Nil
	// for nothing.
	Tight func(job int, finished sim.Seconds) float64
	// Ends is when a job of a machine ends, its changeover included unless Changed is told of that, which begins at a
	// time, if the machine stands in between; the later it begins, the later it ends. Nil for machines that never do.
	Ends func(machine, job int, from, length sim.Seconds) sim.Seconds
	// Changed is when a changeover to a job from another, or -1 for the start, is done that is called for at a
	// time, if something delays it; the later it is called for, the later it is done. Nil for changeovers that
	// nothing delays but what Ends says.
	Changed func(machine, before, job int, from, length sim.Seconds) sim.Seconds
	// Shortest looks for the plan whose last job is finished soonest, of those for the one that costs
	// least, and then for the least tight; else for the one that costs least, then for the least tight, and
	// then for the soonest.
	Shortest bool
	First    []int // of each machine, the job that it has in hand and goes on with, -1 for none; nil for none
}

// Assignment is which machine does which job, and in which order.
type Assignment struct {
	Order  [][]int     // of each machine, its jobs
	Cost   float64     // of lateness
	Tight  float64     // of the tightest job
	Last   sim.Seconds // when the last machine is free
	Done   sim.Seconds // and the last job is finished, at the bench too
	Work   sim.Seconds // sum of when each machine is done
	Exact  bool        // no plan is better
	Bounds Bounds

	bench sim.Seconds // work
}

// Bounds are what no plan can be below. They leave out when machines are down, and when nobody may change over.
type Bounds struct {
	Last sim.Seconds // when the last job is finished
	Cost float64
}

// check panics unless the shop makes sense.
func (s *Shop) check() {
	n := len(s.Release)
	if len(s.Time) == 0 || len(s.Change) != len(s.Time) || s.First != nil && len(s.First) != len(s.Time) {
		panic(fmt.Sprintf("order: %d machines with changeovers of %d", len(s.Time), len(s.Change)))
	}
	for m := range s.Time {
		if len(s.Time[m]) != n || len(s.Change[m]) != n+1 {
			panic(fmt.Sprintf("order: machine %d has times of %d jobs, want %d", m, len(s.Time[m]), n))
		}
		for _, row := range s.Change[m] {
			for _, c := range row {
				if !(c >= 0) || math.IsInf(float64(c), 1) {
					panic(fmt.Sprintf("order: a changeover of %v s", float64(c)))
				}
			}
		}
		for _, t := range s.Time[m] {
			if !(t >= 0) {
				panic(fmt.Sprintf("order: a job of %v s", float64(t)))
			}
		}
	}
}

// Possible reports whether each job can be done by a machine.
func (s *Shop) Possible() bool {
	for j := range s.Release {
		if !slices.ContainsFunc(s.Time, func(times []sim.Seconds) bool { return !math.IsInf(float64(times[j]), 1) }) {
			return false
		}
	}
	return true
}

// step returns when a machine that is free at a time, after a job, or -1 for the start, has done another.
func (s *Shop) step(machine, before, job int, free sim.Seconds) sim.Seconds {
	from, length := max(free, s.Release[job]), s.Time[machine][job]
	if change := s.change(machine, before, job); s.Changed != nil && change > 0 {
		from = s.Changed(machine, before, job, from, change)
	} else {
		length += change
	}
	if s.Ends == nil || math.IsInf(float64(length), 1) {
		return from + length
	}
	return s.Ends(machine, job, from, length)
}

// change returns how long the changeover to a job takes.
func (s *Shop) change(machine, before, job int) sim.Seconds {
	if before < 0 {
		before = len(s.Release)
	}
	return s.Change[machine][before][job]
}

// begins returns when the changeover to a job begins, or the job if it has none.
func (s *Shop) begins(machine, before, job int, free sim.Seconds) sim.Seconds {
	from := max(free, s.Release[job])
	if s.Changed == nil || s.change(machine, before, job) == 0 {
		return from
	}
	const little = 1e-3 // what is done of it first
	return s.Changed(machine, before, job, from, little) - little
}

// put returns what a machine comes to that goes on with a job of which it is free at a time.
func (s *Shop) put(v value, machine, job int, free sim.Seconds) value {
	finished := free
	if s.Tail != nil {
		finished += s.Tail[machine][job]
	}
	if s.Beside != nil {
		v.bench += s.Beside[machine][job]
	}
	v.cost += s.late(job, finished)
	if s.Tight != nil {
		v.tight = max(v.tight, s.Tight(job, finished))
	}
	v.last, v.work, v.done = free, free, max(v.done, finished)
	return v
}

func (s *Shop) late(job int, finished sim.Seconds) float64 {
	switch {
	case math.IsInf(float64(finished), 1): // the machine cannot do it: no weight makes it good
		return math.Inf(1)
	case s.Late == nil:
		return 0
	}
	return s.Late(job, finished)
}

// lane returns what the jobs of a machine in an order come to.
func (s *Shop) lane(machine int, jobs []int) value {
	v, before := value{}, -1
	for _, j := range jobs {
		v, before = s.put(v, machine, j, s.step(machine, before, j, v.last)), j
	}
	return v
}

// Dates returns when the changeovers of the jobs of a machine begin, in an order, and when they are done.
func (s *Shop) Dates(machine int, jobs []int) (from, to []sim.Seconds) {
	free, before := sim.Seconds(0), -1
	for _, j := range jobs {
		from = append(from, s.begins(machine, before, j, free))
		free = s.step(machine, before, j, free)
		to, before = append(to, free), j
	}
	return from, to
}

// Work returns how long a machine is at its jobs, in an order, with its changeovers and without any wait.
func (s *Shop) Work(machine int, jobs []int) (sum sim.Seconds) {
	before := -1
	for _, j := range jobs {
		sum += s.change(machine, before, j) + s.Time[machine][j]
		before = j
	}
	return sum
}

// Lengthened returns the shop in which all jobs, changeovers and work at the bench take longer by a factor.
func (s *Shop) Lengthened(factor float64) *Shop {
	own := *s
	own.Time, own.Tail, own.Beside = longer(s.Time, factor), longer(s.Tail, factor), longer(s.Beside, factor)
	own.Change = nil
	for _, rows := range s.Change {
		own.Change = append(own.Change, longer(rows, factor))
	}
	return &own
}

// longer returns times multiplied by a factor; nil for none.
func longer(times [][]sim.Seconds, factor float64) (all [][]sim.Seconds) {
	for _, row := range times {
		own := make([]sim.Seconds, len(row))
		for j, t := range row {
			own[j] = t * sim.Seconds(factor)
		}
		all = append(all, own)
	}
	return all
}

// Value returns what an order of the jobs on each machine comes to.
func (s *Shop) Value(orders [][]int) Assignment {
	all := value{}
	for m, jobs := range orders {
		all = all.and(s.lane(m, jobs))
	}
	return Assignment{Order: orders, Cost: all.cost, Tight: all.tight, Last: all.last, Done: all.finished(), Work: all.work, bench: all.bench}
}

func (a Assignment) value() value { return value{a.Cost, a.Tight, a.Last, a.Done, a.bench, a.Work} }

// value is what a plan, or the part of one machine, comes to.
type value struct {
	cost  float64
	tight float64
	last  sim.Seconds // the machine is free
	done  sim.Seconds // its jobs are finished, had they the bench for themselves
	bench sim.Seconds // work there
	work  sim.Seconds
}

func (v value) and(w value) value {
	return value{v.cost + w.cost, max(v.tight, w.tight), max(v.last, w.last), max(v.done, w.done), v.bench + w.bench, v.work + w.work}
}

// finished returns when all is: no sooner than the bench can have done its work.
func (v value) finished() sim.Seconds { return max(v.done, v.bench) }

// better reports whether v is better than w, by more than rounding.
func (s *Shop) better(v, w value) bool {
	a, b := s.inOrder(v), s.inOrder(w)
	for k := range a {
		if gap := saving * (math.Abs(a[k]) + math.Abs(b[k])); math.Abs(a[k]-b[k]) > gap || math.IsInf(a[k], 1) != math.IsInf(b[k], 1) {
			return a[k] < b[k]
		}
	}
	return false
}

// inOrder returns what a plan comes to, what counts first before the rest.
func (s *Shop) inOrder(v value) [4]float64 {
	if s.Shortest {
		return [4]float64{float64(v.finished()), v.cost, v.tight, float64(v.work)}
	}
	return [4]float64{v.cost, v.tight, float64(v.finished()), float64(v.work)}
}

// mostJobsExact is how many jobs can be given to machines in the best way for certain: the work
// grows threefold with each.
const mostJobsExact = 9

// Assign returns the best plan for up to 9 jobs, by dynamic programming over sets of jobs; for more
// one that is found by local search: jobs are put in one by one where they cost least, those with
// most to lose first; then jobs are moved and exchanged until nothing improves, and again after
// some were thrown about, by random numbers that are always the same, as long as a fixed number of
// tries lasts.
//
// Its bounds are valid for any plan: when the last job is finished, from the shares of the machines
// (Lagrangian relaxation of the assignment, each job with its shortest changeover); what lateness
// costs, from the least sum over all ways to be the first, second, … to be finished (an assignment
// problem, solved by the method of Kuhn and Munkres, from memory).
//
// Machines that have a job in hand go on with it. The shop must be [Shop.Possible]; times that are
// negative or NaN panic.
func (s *Shop) Assign() Assignment { return s.Near(1)[0] }

// Near returns up to so many plans, all different: the one of [Shop.Assign], and the best others at which the
// search stood still, the better before the worse.
func (s *Shop) Near(most int) []Assignment {
	s.check()
	found := s.searched(most)
	if len(s.Release) <= mostJobsExact {
		best := s.exact(found[0].value(), found[0].Order)
		best.Exact = true
		found = slices.Insert(found[:min(len(found), most)], 0, best)
		found = slices.Concat(found[:1], slices.DeleteFunc(found[1:], best.Same))
	}
	found = found[:min(len(found), most)]
	found[0].Bounds = s.bounds()
	return found
}

// Same reports whether another plan has each job on the same machine, in the same order.
func (a Assignment) Same(as Assignment) bool {
	return slices.EqualFunc(a.Order, as.Order, func(x, y []int) bool { return slices.Equal(x, y) })
}
