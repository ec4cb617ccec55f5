package order

import (
	"cmp"
	"math"
	"slices"

	"netrate/sim"
)

// mostSteps is how many jobs the search looks at in all, each time that one is put behind another.
const mostSteps = 5_000_000

// hunt is a search for a plan.
type hunt struct {
	*Shop
	orders [][]int
	values []value
	steps  int
	random *sim.Stream
	buffer []int
}

// searched returns good plans, the best first: at most so many.
func (s *Shop) searched(most int) []Assignment {
	h := &hunt{Shop: s, orders: make([][]int, len(s.Time)), values: make([]value, len(s.Time)), random: sim.NewStream("plan", "search")}
	h.random.Seed(1, 0)
	jobs := make([]int, 0, len(s.Release))
	for j := range s.Release {
		jobs = append(jobs, j)
	}
	for m, j := range s.First {
		if j >= 0 {
			h.put(m, 0, j)
			jobs = slices.DeleteFunc(jobs, func(k int) bool { return k == j })
		}
	}
	// Those that would be dearest if they were begun late come first, then the longest.
	least := func(j int) sim.Seconds {
		t := sim.Seconds(math.Inf(1))
		for m := range s.Time {
			t = min(t, s.Time[m][j])
		}
		return t
	}
	all := sim.Seconds(0)
	for _, j := range jobs {
		all += least(j)
	}
	slices.SortStableFunc(jobs, func(a, b int) int {
		return cmp.Or(cmp.Compare(s.late(b, all), s.late(a, all)), cmp.Compare(least(b), least(a)))
	})
	for _, j := range jobs {
		h.insert(j)
	}
	h.descend()
	best := h.noted(nil, most)
	for rounds := 0; h.steps < mostSteps && rounds < 400 && len(jobs) > 1; rounds++ {
		h.throw(jobs)
		h.descend()
		before := best[0].value()
		if best = h.noted(best, most); !s.better(best[0].value(), before) && rounds%4 == 3 {
			h.restore(best[0].Order)
		}
	}
	return best
}

// noted returns the plans that were found with the one that there is now, unless they are enough without it.
func (h *hunt) noted(found []Assignment, most int) []Assignment {
	now := h.total()
	at := slices.IndexFunc(found, func(a Assignment) bool { return h.better(now, a.value()) })
	if at < 0 {
		at = len(found)
	}
	if at >= most {
		return found
	}
	x := h.Value(h.copied())
	if slices.ContainsFunc(found, x.Same) {
		return found
	}
	found = slices.Insert(found, at, x)
	return found[:min(len(found), most)]
}

func (h *hunt) copied() [][]int {
	var all [][]int
	for _, jobs := range h.orders {
		all = append(all, slices.Clone(jobs))
	}
	return all
}

func (h *hunt) restore(orders [][]int) {
	for m := range orders {
		h.orders[m] = append(h.orders[m][:0], orders[m]...)
		h.values[m] = h.lane(m, h.orders[m])
	}
}

func (h *hunt) total() (all value) {
	for _, v := range h.values {
		all = all.and(v)
	}
	return all
}

// without returns what all machines but one or two come to.
func (h *hunt) without(a, b int) (all value) {
	for m, v := range h.values {
		if m != a && m != b {
			all = all.and(v)
		}
	}
	return all
}

// below returns the first place on a machine that a job can be put to.
func (h *hunt) below(m int) int {
	if h.First != nil && h.First[m] >= 0 && len(h.orders[m]) > 0 && h.orders[m][0] == h.First[m] {
		return 1
	}
	return 0
}

// put puts a job somewhere.
func (h *hunt) put(m, at, job int) {
	h.orders[m] = slices.Insert(h.orders[m], at, job)
	h.values[m] = h.lane(m, h.orders[m])
}

// take takes a job out.
func (h *hunt) take(job int) (m, at int) {
	for m, jobs := range h.orders {
		if at := slices.Index(jobs, job); at >= 0 {
			h.orders[m] = slices.Delete(jobs, at, at+1)
			h.values[m] = h.lane(m, h.orders[m])
			return m, at
		}
	}
	panic("order: a job that no machine does")
}

// insert puts a job where it costs least.
func (h *hunt) insert(job int) {
	at, place, least := -1, 0, value{}
	for m := range h.orders {
		if math.IsInf(float64(h.Time[m][job]), 1) {
			continue
		}
		rest := h.without(m, -1)
		for k := h.below(m); k <= len(h.orders[m]); k++ {
			h.buffer = append(append(append(h.buffer[:0], h.orders[m][:k]...), job), h.orders[m][k:]...)
			h.steps += len(h.buffer)
			if v := rest.and(h.lane(m, h.buffer)); at < 0 || h.better(v, least) {
				at, place, least = m, k, v
			}
		}
	}
	h.put(at, place, job)
}

// descend moves single jobs, and exchanges two, until nothing improves.
func (h *hunt) descend() {
	for improved := true; improved && h.steps < mostSteps; {
		improved = false
		for job := range h.Release {
			if slices.Contains(h.First, job) {
				continue
			}
			before := h.total()
			m, at := h.take(job)
			if h.insert(job); h.better(h.total(), before) {
				improved = true
			} else { // what is only as good would wander
				h.take(job)
				h.put(m, at, job)
			}
		}
		improved = h.exchanged() || improved
	}
}

// exchanged exchanges two jobs wherever that improves.
func (h *hunt) exchanged() (improved bool) {
	for a := range h.Release {
		for b := range a {
			if slices.Contains(h.First, a) || slices.Contains(h.First, b) {
				continue
			}
			before := h.total()
			h.swap(a, b)
			if h.better(h.total(), before) {
				improved = true
			} else {
				h.swap(a, b)
			}
			if h.steps >= mostSteps {
				return improved
			}
		}
	}
	return improved
}

func (h *hunt) swap(a, b int) {
	var of [2]int
	for m, jobs := range h.orders {
		for k, j := range jobs {
			switch j {
			case a:
				jobs[k], of[0] = b, m
			case b:
				jobs[k], of[1] = a, m
			}
		}
	}
	for _, m := range of {
		h.values[m] = h.lane(m, h.orders[m])
		h.steps += len(h.orders[m])
	}
}

// throw takes some jobs out and puts them anywhere.
func (h *hunt) throw(jobs []int) {
	for range min(4, len(jobs)) {
		job := jobs[h.number(len(jobs))]
		h.take(job)
		for {
			m := h.number(len(h.orders))
			if math.IsInf(float64(h.Time[m][job]), 1) {
				continue
			}
			from := h.below(m)
			h.put(m, from+h.number(len(h.orders[m])-from+1), job)
			break
		}
	}
}

// number returns a random number below n.
func (h *hunt) number(n int) int { return min(n-1, int(h.random.Uniform()*float64(n))) }
