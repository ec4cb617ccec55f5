package order

import (
	"errors"
	"flag"
	"math"
	"os"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"netrate/internal/golden"
	"netrate/sim"
)

// The same cases each time, and more of them.
func TestMain(m *testing.M) {
	if err := errors.Join(flag.Set("rapid.seed", "1"), flag.Set("rapid.checks", "400")); err != nil {
		panic(err)
	}
	os.Exit(m.Run())
}

func TestBest(t *testing.T) {
	// From 0 the cheap way round is 0, 2, 1: 1 + 1. The order given costs 5 + 9.
	cost := [][]sim.Seconds{{0, 5, 1}, {7, 0, 9}, {7, 1, 0}}
	order, exact := Best(-1, cost)
	assert.True(t, exact)
	assert.Equal(t, []int{0, 2, 1}, order)
	assert.Equal(t, sim.Seconds(2), Time(-1, cost, order))
	assert.Equal(t, sim.Seconds(14), Time(-1, cost, []int{0, 1, 2}))

	// A line set up for 1 goes to 0 and then to 2: 7 + 1.
	order, _ = Best(1, cost)
	assert.Equal(t, []int{0, 2}, order)
	assert.Equal(t, sim.Seconds(8), Time(1, cost, order))

	order, exact = Best(-1, nil)
	assert.Empty(t, order)
	assert.True(t, exact)
	order, _ = Best(0, [][]sim.Seconds{{0}})
	assert.Empty(t, order)
}

func TestBestRefuses(t *testing.T) {
	nan := sim.Seconds(math.NaN())
	for name, cost := range map[string][][]sim.Seconds{
		"not a square": {{0, 1}},
		"below 0":      {{0, -1}, {1, 0}},
		"NaN":          {{0, nan}, {1, 0}},
		"infinite":     {{0, sim.Seconds(math.Inf(1))}, {1, 0}},
	} {
		t.Run(name, func(t *testing.T) { assert.Panics(t, func() { Best(-1, cost) }) })
	}
	assert.Panics(t, func() { Best(2, [][]sim.Seconds{{0, 1}, {1, 0}}) })
	assert.NotPanics(t, func() { Best(-1, [][]sim.Seconds{{nan, 1}, {1, nan}}) }, "the diagonal is not looked at")
}

// Up to 8 products against every order there is.
func TestBestAgainstEveryOrder(t *testing.T) {
	better := 0
	rapid.Check(t, func(t *rapid.T) {
		cost, from := anyCosts(t, 1, 8)
		order, exact := Best(from, cost)
		got, given := Time(from, cost, order), given(from, cost)
		want := shortest(from, cost, given, 0)
		if !exact || !sameProducts(order, given) || math.Abs(float64(got-want)) > 1e-9 {
			t.Fatalf("order %v takes %v, exact %v; the best takes %v", order, got, exact, want)
		}
		if want < Time(from, cost, given) {
			better++
		}
	})
	assert.Greater(t, better, 100, "the order given is the best all the time: the test sees little")
}

// Above 12 products never worse than the order given; and neither to move a product nor to
// turn a stretch round helps.
func TestBestOfMany(t *testing.T) {
	if golden.Raced {
		t.Skip("it runs on one goroutine, and takes long")
	}
	rapid.Check(t, func(t *rapid.T) {
		cost, from := anyCosts(t, 14, 20)
		order, exact := Best(from, cost)
		given := given(from, cost)
		got := Time(from, cost, order)
		if exact || !sameProducts(order, given) || got > Time(from, cost, given) {
			t.Fatalf("order %v, exact %v, takes %v; as given %v", order, exact, got, Time(from, cost, given))
		}
		for i := range order {
			for k := range order {
				moved := slices.Insert(slices.Delete(slices.Clone(order), i, i+1), k, order[i])
				if time := Time(from, cost, moved); time < got-1e-6 {
					t.Fatalf("with product %d moved to %d it takes %v, not %v", order[i], k, time, got)
				}
				turned := slices.Clone(order)
				slices.Reverse(turned[min(i, k) : max(i, k)+1])
				if time := Time(from, cost, turned); time < got-1e-6 {
					t.Fatalf("with %d to %d turned round it takes %v, not %v", i, k, time, got)
				}
			}
		}
	})
}

// The heuristic on lists of 10 for which the best is known, with times even from 0 to
// 900 s: it comes within 3 % of the best on the whole, and misses it now and then, which is
// why it does not say that it is exact.
func TestBestNearTheBest(t *testing.T) {
	random := sim.NewStream("order", "test")
	random.Seed(1, 0)
	near, best, missed := sim.Seconds(0), sim.Seconds(0), 0
	for range 200 {
		cost := evenCosts(random, 10)
		tour, products := tour{-1, cost}, given(-1, cost)
		a, b := tour.time(tour.near(products)), tour.time(tour.best(products))
		require.GreaterOrEqual(t, a, b-1e-9)
		if near, best = near+a, best+b; a > b+1e-9 {
			missed++
		}
	}
	t.Logf("%.1f %% over the best, which it misses %d times", 100*(float64(near/best)-1), missed)
	assert.Less(t, float64(near/best), 1.03)
	assert.Positive(t, missed)
}

// Where products above 12 are given in their best order it is kept, although it would seldom
// be found from elsewhere.
func TestBestKeepsTheOrderGiven(t *testing.T) {
	random := sim.NewStream("order kept", "test")
	random.Seed(1, 0)
	for range 40 {
		cost := evenCosts(random, 13)
		tour := tour{-1, cost}
		best := tour.best(given(-1, cost))
		given := evenCosts(random, 13)
		for i := range given {
			for k := range given {
				given[i][k] = cost[best[i]][best[k]]
			}
		}
		order, _ := Best(-1, given)
		assert.InDelta(t, float64(tour.time(best)), float64(Time(-1, given, order)), 1e-9)
	}
}

// Products a row apart cost 1, all else 2: the order is that of the row, however shuffled
// the products are given.
func TestBestFindsTheRow(t *testing.T) {
	const n = 25
	place := func(i int) int { return i * 7 % n }
	cost := make([][]sim.Seconds, n)
	for i := range cost {
		cost[i] = make([]sim.Seconds, n)
		for k := range cost[i] {
			if cost[i][k] = 2; place(k)-place(i) == 1 {
				cost[i][k] = 1
			}
		}
	}
	order, exact := Best(-1, cost)
	assert.False(t, exact)
	assert.Equal(t, sim.Seconds(n-1), Time(-1, cost, order))
}

func anyCosts(t *rapid.T, least, most int) (cost [][]sim.Seconds, from int) {
	n := rapid.IntRange(least, most).Draw(t, "products")
	cost = make([][]sim.Seconds, n)
	for i := range cost {
		for range n {
			cost[i] = append(cost[i], sim.Seconds(rapid.IntRange(0, 900).Draw(t, "cost")))
		}
	}
	return cost, rapid.IntRange(-1, n-1).Draw(t, "from")
}

// evenCosts returns times even from 0 to 900 s.
func evenCosts(random *sim.Stream, n int) [][]sim.Seconds {
	cost := make([][]sim.Seconds, n)
	for i := range cost {
		for range n {
			cost[i] = append(cost[i], sim.Seconds(900*random.Uniform()))
		}
	}
	return cost
}

// given returns the products in the order in which they are given.
func given(from int, cost [][]sim.Seconds) (order []int) {
	for i := range cost {
		if i != from {
			order = append(order, i)
		}
	}
	return order
}

// shortest returns the least time of any order that begins with the first few.
func shortest(from int, cost [][]sim.Seconds, order []int, fixed int) sim.Seconds {
	if fixed == len(order) {
		return Time(from, cost, order)
	}
	best := sim.Seconds(math.Inf(1))
	for i := fixed; i < len(order); i++ {
		order[fixed], order[i] = order[i], order[fixed]
		best = min(best, shortest(from, cost, order, fixed+1))
		order[fixed], order[i] = order[i], order[fixed]
	}
	return best
}

func sameProducts(a, b []int) bool {
	return slices.Equal(slices.Sorted(slices.Values(a)), slices.Sorted(slices.Values(b)))
}
