package order

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
)

// What is around a plan is looked up among all plans: those that become it when one job is taken out of both, and those
// in which two jobs have each other's places.
func TestAroundIsAllThatIsNext(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 30 {
		s := randomShop(r, 2+r.IntN(2), 1+r.IntN(4))
		if !s.Possible() {
			continue
		}
		if m, j := r.IntN(len(s.Time)), r.IntN(len(s.Release)); r.IntN(3) == 0 && s.Time[m][j] < 1e9 {
			s.First = slices.Repeat([]int{-1}, len(s.Time))
			s.First[m] = j
		}
		from := s.Near(1)[0].Order
		want := map[string]bool{}
		for _, next := range allPlans(s) {
			if isNext(s, from, next) {
				want[fmt.Sprint(next)] = true
			}
		}
		got := map[string]bool{}
		for _, next := range s.Around(from) {
			assert.False(t, got[fmt.Sprint(next)], "%v is found twice", next)
			got[fmt.Sprint(next)] = true
		}
		assert.Equal(t, want, got, "around %v", from)
	}
}

// allPlans returns every plan of a shop.
func allPlans(s *Shop) (all [][][]int) {
	all = [][][]int{make([][]int, len(s.Time))}
	for j := range s.Release {
		var next [][][]int
		for _, orders := range all {
			for m := range orders {
				for at := range len(orders[m]) + 1 {
					own := slices.Clone(orders)
					own[m] = slices.Insert(slices.Clone(own[m]), at, j)
					next = append(next, own)
				}
			}
		}
		all = next
	}
	return slices.DeleteFunc(all, func(orders [][]int) bool { return !s.can(orders) })
}

// can reports whether each machine can do its jobs, and begins with the one that it has in hand.
func (s *Shop) can(orders [][]int) bool {
	for m, jobs := range orders {
		for _, j := range jobs {
			if s.Time[m][j] > 1e9 {
				return false
			}
		}
		if s.First != nil && s.First[m] >= 0 && (len(jobs) == 0 || jobs[0] != s.First[m]) {
			return false
		}
	}
	return true
}

// isNext reports whether two plans differ in the place of one job, or in two that are exchanged.
func isNext(s *Shop, a, b [][]int) bool {
	if fmt.Sprint(a) == fmt.Sprint(b) {
		return false
	}
	swapped := func(x, y int) [][]int {
		var all [][]int
		for _, jobs := range a {
			own := slices.Clone(jobs)
			for k, j := range own {
				switch j {
				case x:
					own[k] = y
				case y:
					own[k] = x
				}
			}
			all = append(all, own)
		}
		return all
	}
	without := func(orders [][]int, x int) string {
		var all [][]int
		for _, jobs := range orders {
			all = append(all, slices.DeleteFunc(slices.Clone(jobs), func(j int) bool { return j == x }))
		}
		return fmt.Sprint(all)
	}
	for x := range s.Release {
		if without(a, x) == without(b, x) {
			return true
		}
		for y := range x {
			if fmt.Sprint(swapped(x, y)) == fmt.Sprint(b) {
				return true
			}
		}
	}
	return false
}
