package order

import (
	"math"
	"slices"

	"netrate/sim"
)

// bounds returns what no plan can be below.
func (s *Shop) bounds() Bounds {
	least := s.least()
	b := Bounds{Last: s.shared(least)}
	alone := make([]sim.Seconds, len(s.Release)) // when a machine would be free of each if there were no other
	short, tail := make([]sim.Seconds, len(s.Release)), make([]sim.Seconds, len(s.Release))
	bench := sim.Seconds(0)
	for j, release := range s.Release {
		short[j] = sim.Seconds(math.Inf(1))
		for m := range least {
			short[j] = min(short[j], least[m][j])
		}
		tail[j] = s.leastOf(s.Tail, j)
		bench += s.leastOf(s.Beside, j)
		alone[j] = release + short[j]
		b.Last = max(b.Last, alone[j]+tail[j])
	}
	b.Last = max(b.Last, bench*(1-1e-12))
	if s.Late != nil && len(s.Release) > 0 {
		b.Cost = s.lateness(alone, short, tail)
	}
	return b
}

// leastOf returns the least of some times of a job over the machines that can do it; 0 if there are none.
func (s *Shop) leastOf(times [][]sim.Seconds, job int) sim.Seconds {
	least := sim.Seconds(math.Inf(1))
	for m := range times {
		if !math.IsInf(float64(s.Time[m][job]), 1) {
			least = min(least, times[m][job])
		}
	}
	if math.IsInf(float64(least), 1) {
		return 0
	}
	return least
}

// least returns the times of the jobs on each machine with their shortest changeovers.
func (s *Shop) least() [][]sim.Seconds {
	all := make([][]sim.Seconds, len(s.Time))
	for m := range s.Time {
		for j, t := range s.Time[m] {
			change := sim.Seconds(math.Inf(1))
			for before := range s.Change[m] {
				if before != j {
					change = min(change, s.Change[m][before][j])
				}
			}
			all[m] = append(all[m], t+change)
		}
	}
	return all
}

// shared returns a time before which not all work can be done. With weights of the machines that come
// to 1, the last to be done is so no sooner than in the weighted mean of their loads, and that is no
// less than each job where it weighs least. The weights are improved step by step; any are right.
func (s *Shop) shared(least [][]sim.Seconds) (best sim.Seconds) {
	machines := len(least)
	weights, loads := make([]float64, machines), make([]float64, machines)
	for m := range weights {
		weights[m] = 1 / float64(machines)
	}
	for round := range 400 {
		sum := 0.0
		clear(loads)
		for j := range s.Release {
			where, weighs := 0, math.Inf(1)
			for m := range least {
				if w := float64(weights[m] * float64(least[m][j])); w < weighs {
					where, weighs = m, w
				}
			}
			if math.IsInf(weighs, 1) {
				return 0
			}
			sum += weighs
			loads[where] += float64(least[where][j])
		}
		best = max(best, sim.Seconds(sum*(1-1e-12))) // less the rounding of the sum
		most, all := slices.Max(loads), 0.0
		for m := range weights {
			if most > 0 {
				weights[m] *= 1 + float64(loads[m]/most)/float64(2+round/10)
			}
			weights[m] = max(weights[m], 1e-9) // a machine without weight would take all
			all += weights[m]
		}
		for m := range weights {
			weights[m] /= all
		}
	}
	return best
}

// lateness returns what lateness costs at least. The k-th job that a machine is free of is so no sooner than
// the machines together can have done the k shortest, nor than it would be alone, and is finished a while
// after; of all ways to be the first, second and so on the cheapest costs no more than any plan.
func (s *Shop) lateness(alone, short, tail []sim.Seconds) float64 {
	sorted := slices.Sorted(slices.Values(short))
	costs := make([][]float64, len(alone))
	sum, soonest := sim.Seconds(0), make([]sim.Seconds, len(alone))
	for k, t := range sorted {
		sum += t
		soonest[k] = sim.Seconds(float64(sum) / float64(len(s.Time)) * (1 - 1e-12))
	}
	for j := range alone {
		for k := range soonest {
			costs[j] = append(costs[j], s.Late(j, max(alone[j], soonest[k])+tail[j]))
		}
	}
	return cheapest(costs) * (1 - 1e-12)
}

// cheapest returns the least sum of costs if each row has a column of its own: the method of Kuhn
// and Munkres with potentials.
func cheapest(costs [][]float64) float64 {
	n := len(costs)
	rows, columns := make([]float64, n+1), make([]float64, n+1)
	of, way := make([]int, n+1), make([]int, n+1) // the row of each column, from 1; 0 for none
	for i := 1; i <= n; i++ {
		of[0] = i
		least, used := slices.Repeat([]float64{math.Inf(1)}, n+1), make([]bool, n+1)
		at := 0
		for of[at] != 0 {
			used[at] = true
			row, delta, next := of[at], math.Inf(1), 0
			for k := 1; k <= n; k++ {
				if used[k] {
					continue
				}
				if c := costs[row-1][k-1] - rows[row] - columns[k]; c < least[k] {
					least[k], way[k] = c, at
				}
				if least[k] < delta {
					delta, next = least[k], k
				}
			}
			for k := 0; k <= n; k++ {
				if used[k] {
					rows[of[k]] += delta
					columns[k] -= delta
				} else {
					least[k] -= delta
				}
			}
			at = next
		}
		for at != 0 {
			of[at] = of[way[at]]
			at = way[at]
		}
	}
	sum := 0.0
	for k := 1; k <= n; k++ {
		sum += costs[of[k]-1][k-1]
	}
	return sum
}
