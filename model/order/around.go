package order

import (
	"math"
	"slices"
)

// Around returns the plans next to one, all different: with one job at another place, on its machine or on
// another that can do it, or with two jobs exchanged. A machine goes on with the job that it has in hand.
func (s *Shop) Around(orders [][]int) [][][]int {
	a := around{Shop: s, from: orders}
	for m, jobs := range orders {
		for k := range jobs {
			if !s.inHand(jobs[k]) {
				a.move(m, k)
				a.exchange(m, k)
			}
		}
	}
	return a.found
}

// around finds the plans next to one.
type around struct {
	*Shop
	from  [][]int
	found [][][]int
}

// move puts a job wherever it can be.
func (a *around) move(m, k int) {
	job := a.from[m][k]
	for to := range a.from {
		if math.IsInf(float64(a.Time[to][job]), 1) {
			continue
		}
		for at := range len(a.from[to]) + 1 {
			switch {
			case at == 0 && len(a.from[to]) > 0 && a.inHand(a.from[to][0]):
			case to == m && (at == k || at > len(a.from[m])-1): // where it is, or one place beyond the last
			case to == m && at == k-1: // the same as the job before it moved by one
			default:
				next := slices.Clone(a.from)
				next[m] = slices.Delete(slices.Clone(next[m]), k, k+1)
				next[to] = slices.Insert(slices.Clone(next[to]), at, job)
				a.found = append(a.found, next)
			}
		}
	}
}

// exchange puts a job in the place of one that comes later in the list of all, and that in its own. Two in a row
// are left to move.
func (a *around) exchange(m, k int) {
	job := a.from[m][k]
	for to := m; to < len(a.from); to++ {
		for at, other := range a.from[to] {
			switch {
			case to == m && at <= k+1, a.inHand(other):
			case math.IsInf(float64(a.Time[to][job]), 1), math.IsInf(float64(a.Time[m][other]), 1):
			default:
				next := slices.Clone(a.from)
				next[m] = slices.Clone(next[m])
				next[to] = slices.Clone(next[to])
				if to == m {
					next[to] = next[m]
				}
				next[m][k], next[to][at] = other, job
				a.found = append(a.found, next)
			}
		}
	}
}

// inHand reports whether a machine has the job in hand.
func (s *Shop) inHand(job int) bool { return slices.Contains(s.First, job) }
