package order

import (
	"math"
	"slices"
)

// reach is one way to have done a set of jobs on one machine, the last of them known.
type reach struct {
	value
	last   int // job; -1 for none
	before int // index of the way that it goes on from, among those of the set without that job; -1 for none
}

// exact returns a plan than which none is better; orders is one with the value v.
//
// Of each machine it keeps, for each set of jobs and each last of them, every way that no other is
// both sooner and cheaper than; then, machine by machine, every way to share a set that no other is
// better than in all.
func (s *Shop) exact(v value, orders [][]int) Assignment {
	all := 1 << len(s.Release)
	shared := make([][]share, all) // of each set, the ways to have it done by the machines up to now
	shared[0] = []share{{}}
	var ways [][][]reach
	var shares [][][]share
	for m := range s.Time {
		own := s.ways(m, v)
		ways = append(ways, own)
		next := make([][]share, all)
		for set := range all {
			for rest := set; ; rest = (rest - 1) & set { // rest is what this machine does
				next[set] = s.combined(next[set], shared[set&^rest], own[rest], rest, v)
				if rest == 0 {
					break
				}
			}
		}
		shared = next
		shares = append(shares, next)
	}
	best := -1
	for k, x := range shared[all-1] {
		if s.better(x.value, v) && (best < 0 || s.better(x.value, shared[all-1][best].value)) {
			best = k
		}
	}
	if best < 0 {
		return s.Value(orders)
	}
	return s.Value(s.traced(ways, shares, best))
}

// share is one way to have a set of jobs done by some machines.
type share struct {
	value
	set    int // what the last of the machines does
	way    int // among its ways
	before int // among the shares of the others
}

// traced returns the orders of the machines of a share of all jobs.
func (s *Shop) traced(ways [][][]reach, shares [][][]share, k int) [][]int {
	orders := make([][]int, len(s.Time))
	set := 1<<len(s.Release) - 1
	for m := len(s.Time) - 1; m >= 0; m-- {
		x := shares[m][set][k]
		for own, way := x.set, x.way; own != 0; {
			r := ways[m][own][way]
			orders[m] = append(orders[m], r.last)
			own, way = own&^(1<<r.last), r.before
		}
		slices.Reverse(orders[m])
		set, k = set&^x.set, x.before
	}
	return orders
}

// combined adds the ways to have a set done in which this machine does own of it.
func (s *Shop) combined(to []share, others []share, own []reach, set int, limit value) []share {
	for i, a := range others {
		for k, b := range own {
			x := share{a.and(b.value), set, k, i}
			if s.hopeless(x.value, limit) || slices.ContainsFunc(to, func(y share) bool { return y.within(x.value) }) {
				continue
			}
			to = append(slices.DeleteFunc(to, func(y share) bool { return x.within(y.value) }), x)
		}
	}
	return to
}

// hopeless reports whether what has this value can only become worse than the limit: it never gets
// better in what counts first.
func (s *Shop) hopeless(v, limit value) bool {
	if s.Shortest {
		return float64(v.finished()) > float64(limit.finished())*(1+saving)
	}
	return v.cost > float64(limit.cost*(1+saving))+saving
}

// within reports whether v is no worse than w in anything.
func (v value) within(w value) bool {
	return v.cost <= w.cost && v.tight <= w.tight && v.last <= w.last && v.done <= w.done && v.bench <= w.bench*(1+saving) && v.work <= w.work
}

// ways returns, for each set of jobs, the ways for a machine to do them.
func (s *Shop) ways(machine int, limit value) [][]reach {
	ways := make([][]reach, 1<<len(s.Release))
	ways[0] = []reach{{last: -1, before: -1}}
	first := -1
	if s.First != nil {
		first = s.First[machine]
	}
	for set := 1; set < len(ways); set++ {
		for j := range s.Release {
			if set>>j&1 == 0 || math.IsInf(float64(s.Time[machine][j]), 1) || first >= 0 && first != j && set>>first&1 == 0 {
				continue
			}
			rest := set &^ (1 << j)
			if j == first && rest != 0 || s.elsewhere(machine, j) {
				continue
			}
			for k, r := range ways[rest] {
				at := s.step(machine, r.last, j, r.value.last)
				x := reach{s.put(r.value, machine, j, at), j, k}
				if !s.hopeless(x.value, limit) {
					ways[set] = kept(ways[set], x)
				}
			}
		}
	}
	return ways
}

// elsewhere reports whether another machine has the job in hand.
func (s *Shop) elsewhere(machine, job int) bool {
	for m, first := range s.First {
		if m != machine && first == job {
			return true
		}
	}
	return false
}

// kept adds a way, unless another one with the same last job is as good, and takes out those that it
// is as good as.
func kept(ways []reach, x reach) []reach {
	if slices.ContainsFunc(ways, func(y reach) bool { return y.last == x.last && y.within(x.value) }) {
		return ways
	}
	return append(slices.DeleteFunc(ways, func(y reach) bool { return y.last == x.last && x.within(y.value) }), x)
}
