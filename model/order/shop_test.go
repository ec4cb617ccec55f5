package order

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim"
)

// randomShop returns a shop of whole numbers of seconds.
func randomShop(r *rand.Rand, machines, jobs int) *Shop {
	s := &Shop{Shortest: r.IntN(2) == 0}
	due, weight := make([]float64, jobs), make([]float64, jobs)
	for j := range jobs {
		s.Release = append(s.Release, sim.Seconds(r.IntN(3)*r.IntN(40)))
		due[j], weight[j] = float64(r.IntN(40*jobs)), float64(r.IntN(4))
	}
	for range machines {
		times, change := make([]sim.Seconds, jobs), make([][]sim.Seconds, jobs+1)
		for j := range times {
			if times[j] = sim.Seconds(10 + r.IntN(90)); r.IntN(5) == 0 {
				times[j] = sim.Seconds(math.Inf(1))
			}
		}
		for i := range change {
			for range jobs {
				change[i] = append(change[i], sim.Seconds(r.IntN(30)))
			}
		}
		s.Time, s.Change = append(s.Time, times), append(s.Change, change)
	}
	s.Late = func(j int, at sim.Seconds) float64 { return weight[j] * max(0, float64(at)-due[j]) }
	if r.IntN(3) > 0 {
		s.Tight = func(j int, at sim.Seconds) float64 {
			if weight[j] == 0 || float64(at) > due[j] {
				return 0
			}
			return max(0, float64(at)-0.75*due[j])
		}
	}
	if r.IntN(3) == 0 { // the first machine is down from 60 to 100
		s.Ends = func(m, _ int, from, length sim.Seconds) sim.Seconds {
			if m > 0 || from >= 100 || from+length <= 60 {
				return from + length
			}
			return max(from, 100) + length - max(0, 60-from)
		}
	}
	if r.IntN(3) == 0 { // nobody may change the last machine over to a job with an even number from 20 to 80
		s.Changed = func(m, before, job int, from, length sim.Seconds) sim.Seconds {
			if m < machines-1 || job%2 > 0 || from >= 80 || from+length <= 20 {
				return from + length
			}
			return max(from, 80) + length - max(0, 20-from)
		}
	}
	if r.IntN(3) == 0 { // a bench, that has more or less to do than the machines
		most := 1 + r.IntN(120)
		for range machines {
			beside, tail := make([]sim.Seconds, jobs), make([]sim.Seconds, jobs)
			for j := range jobs {
				beside[j] = sim.Seconds(r.IntN(most))
				tail[j] = sim.Seconds(r.IntN(1 + int(beside[j])))
			}
			s.Beside, s.Tail = append(s.Beside, beside), append(s.Tail, tail)
		}
	}
	for j := range jobs { // some machine can do each
		if !s.Possible() && math.IsInf(float64(s.Time[j%machines][j]), 1) {
			s.Time[j%machines][j] = 50
		}
	}
	return s
}

// brute returns the best of all plans: every machine does every ordered set of the jobs that those
// before it have left.
func brute(s *Shop) value {
	best, found := value{}, false
	var machine func(m int, left []int, so value)
	machine = func(m int, left []int, so value) {
		if m == len(s.Time) {
			if len(left) == 0 && !math.IsInf(float64(so.last), 1) && (!found || s.better(so, best)) {
				best, found = so, true
			}
			return
		}
		var on func(left []int, before int, own value)
		on = func(left []int, before int, own value) {
			ended := own
			ended.work = own.last
			machine(m+1, left, so.and(ended))
			for k, j := range left {
				if math.IsInf(float64(s.Time[m][j]), 1) {
					continue
				}
				at := s.step(m, before, j, own.last)
				finished, tight, bench := at, 0.0, own.bench
				if s.Tail != nil {
					finished, bench = at+s.Tail[m][j], bench+s.Beside[m][j]
				}
				if s.Tight != nil {
					tight = s.Tight(j, finished)
				}
				on(slices.Delete(slices.Clone(left), k, k+1), j, value{own.cost + s.late(j, finished), max(own.tight, tight), at, max(own.done, finished), bench, at})
			}
		}
		on(left, -1, value{})
	}
	var all []int
	for j := range s.Release {
		all = append(all, j)
	}
	machine(0, all, value{})
	return best
}

// Plans of up to 9 jobs are the best of all, against brute force, up to 8 jobs on 3 machines; and no
// bound is above the best.
func TestAssignIsTheBest(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	sizes := [][2]int{{3, 8}, {2, 7}}
	for range 150 {
		sizes = append(sizes, [2]int{1 + r.IntN(3), 1 + r.IntN(5)})
	}
	gaps := 0
	for i, size := range sizes {
		s := randomShop(r, size[0], size[1])
		want := brute(s)
		got := s.Assign()
		v := got.value()
		require.False(t, s.better(want, v) || s.better(v, want), "shop %d: %+v, want %+v", i, v, want)
		assert.True(t, got.Exact)
		whole(t, s, got)
		assert.LessOrEqual(t, float64(got.Bounds.Last), float64(want.finished()))
		assert.LessOrEqual(t, got.Bounds.Cost, want.cost)
		if got.Bounds.Cost > 0 {
			gaps++
		}
		if found := s.searched(1)[0]; s.better(v, found.value()) {
			t.Logf("shop %d: the search alone finds %v, best %v", i, found, v)
		}
	}
	assert.Greater(t, gaps, 10, "a bound that is always 0 shows nothing")
}

// whole fails unless each job is done once, where it can be.
func whole(t *testing.T, s *Shop, a Assignment) {
	t.Helper()
	all := slices.Sorted(slices.Values(slices.Concat(a.Order...)))
	for j := range s.Release {
		require.Less(t, j, len(all))
		require.Equal(t, j, all[j])
	}
	require.False(t, math.IsInf(float64(a.Last), 1))
}

// Of larger shops the bounds hold of what the search finds, and show that it is not far off.
func TestAssignIsNearItsBound(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for i := range 4 {
		s := randomShop(r, 3, 20+10*i)
		s.Shortest, s.Ends = true, nil
		a := s.Assign()
		whole(t, s, a)
		assert.LessOrEqual(t, a.Bounds.Last, a.Last)
		assert.Less(t, float64(a.Last), 1.2*float64(a.Bounds.Last), "%d jobs: changeovers are bounded from below by the shortest", len(s.Release))
		assert.Equal(t, a, s.Assign(), "the same every time")
		s.Shortest = false
		late := s.Assign()
		assert.LessOrEqual(t, late.Cost, a.Cost+1e-9)
		assert.LessOrEqual(t, late.Bounds.Cost, late.Cost)
	}
}

// By hand. Two machines, one twice as fast; the job in hand stays first where it is.
func TestAssignByHand(t *testing.T) {
	nothing := make([][]sim.Seconds, 4)
	for i := range nothing {
		nothing[i] = make([]sim.Seconds, 3)
	}
	s := &Shop{
		Time: [][]sim.Seconds{{10, 10, 10}, {20, 20, 20}}, Change: [][][]sim.Seconds{nothing, nothing},
		Release: make([]sim.Seconds, 3), Shortest: true,
	}
	assert.Equal(t, sim.Seconds(20), s.Assign().Last, "two on the fast machine, one on the other")
	assert.InDelta(t, 20, float64(s.Assign().Bounds.Last), 1e-6, "three jobs of a machine and a half")
	s.First = []int{-1, 2}
	a := s.Assign()
	assert.Equal(t, 2, a.Order[1][0])
	s.Release = []sim.Seconds{100, 0, 0}
	assert.Equal(t, sim.Seconds(110), s.Assign().Last)
}

// By hand. One machine, two jobs of 10: whichever is first, both are in time at 10 and 20. The one due at
// 21 goes first, so that the nearest date is 11 off rather than 1.
func TestAssignLeavesSlack(t *testing.T) {
	due := []sim.Seconds{30, 21}
	s := &Shop{
		Time: [][]sim.Seconds{{10, 10}}, Change: [][][]sim.Seconds{{{0, 0}, {0, 0}, {0, 0}}}, Release: make([]sim.Seconds, 2),
		Late:  func(j int, at sim.Seconds) float64 { return float64(max(0, at-due[j])) },
		Tight: func(j int, at sim.Seconds) float64 { return max(0, 100-float64(due[j]-at)) },
	}
	a := s.Assign()
	assert.Equal(t, [][]int{{1, 0}}, a.Order)
	assert.InDelta(t, 90, a.Tight, 1e-9, "10 are left to each date")
	s.Shortest = true
	assert.Equal(t, [][]int{{1, 0}}, s.Assign().Order)
}

// By hand. One machine, jobs of 10 and 5 with changeovers of 1, and nobody to change over from 5 to 50: it is the long
// job that goes second, or the machine would stand after the short one. The changeover begins when somebody comes.
func TestAssignKnowsWhenNobodyChangesOver(t *testing.T) {
	s := &Shop{
		Time: [][]sim.Seconds{{60, 3}}, Change: [][][]sim.Seconds{{{0, 1}, {1, 0}, {1, 1}}}, Release: make([]sim.Seconds, 2), Shortest: true,
		Changed: func(_, _, _ int, from, length sim.Seconds) sim.Seconds {
			if from >= 50 || from+length <= 3 {
				return from + length
			}
			return max(from, 50) + length - max(0, 3-from)
		},
	}
	a := s.Assign()
	assert.Equal(t, [][]int{{0, 1}}, a.Order)
	assert.Equal(t, sim.Seconds(65), a.Last, "changed over at 61")
	assert.Equal(t, sim.Seconds(111), s.Value([][]int{{1, 0}}).Last, "not before 50")
	from, to := s.Dates(0, []int{1, 0})
	assert.InDeltaSlice(t, []float64{0, 50}, []float64{float64(from[0]), float64(from[1])}, 1e-9)
	assert.Equal(t, []sim.Seconds{4, 111}, to)
}

// Plans near the best are all different and whole, the first that of Assign, the better before the worse.
func TestNear(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	several := 0
	for range 20 {
		s := randomShop(r, 1+r.IntN(3), 3+r.IntN(5))
		near := s.Near(5)
		assert.Equal(t, s.Assign(), near[0])
		for k, a := range near {
			whole(t, s, a)
			assert.False(t, slices.ContainsFunc(near[:k], a.Same))
			assert.False(t, k > 0 && s.better(a.value(), near[k-1].value()))
		}
		several += min(1, len(near)-1)
	}
	assert.Greater(t, several, 5)
}

func BenchmarkAssign(b *testing.B) {
	s := randomShop(rand.New(rand.NewPCG(3, 4)), 3, 20)
	for b.Loop() {
		s.Assign()
	}
}
