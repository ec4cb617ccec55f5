package setup

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"netrate/model/modeltest"
	"netrate/sim"
)

// manual returns items of these lengths that need an operator.
func manual(times ...sim.Seconds) (items []Item) {
	for i, time := range times {
		items = append(items, Item{Name: fmt.Sprint(i), Change: Change{Time: sim.Constant(time)}})
	}
	return items
}

func TestTotal(t *testing.T) {
	automatic := Item{Name: "length", Change: Change{sim.Constant(25), true}}
	for _, c := range []struct {
		name      string
		items     []Item
		operators int
		want      sim.Seconds
	}{
		{"one operator does all", manual(10, 20, 30), 1, 60},
		{"two share: 30 and 20 + 10", manual(10, 20, 30), 2, 30},
		{"more hands than work", manual(10, 20, 30), 9, 30},
		{"beside what is automatic", append(manual(10), automatic), 1, 25},
		{"longer than what is automatic", append(manual(10, 20), automatic), 1, 30},
		{"automatic ones are side by side", []Item{automatic, automatic}, 1, 25},
		// The case in which the rule does worst: 5 + 3 + 3, 5 + 3, 4 + 4, where 5 + 4, 5 + 4,
		// 3 + 3 + 3 takes 9 (Graham, Bounds on multiprocessing timing anomalies, SIAM J. Appl.
		// Math. 17, 1969; from memory).
		{"the worst case of three operators", manual(5, 5, 4, 4, 3, 3, 3), 3, 11},
		// 3 + 2 + 2, 3 + 2, where 3 + 3, 2 + 2 + 2 takes 6 (same source).
		{"the worst case of two operators", manual(3, 3, 2, 2, 2), 2, 7},
	} {
		t.Run(c.name, func(t *testing.T) { assert.Equal(t, c.want, Total(c.items, c.operators, 0, 0)) })
	}
	assert.Panics(t, func() { Total(nil, 0, 0, 0) })
}

// Graham 1969 (from memory): never over 4/3 - 1/(3n) of the best.
func TestTotalIsNearTheBest(t *testing.T) {
	worst := 1.0
	rapid.Check(t, func(t *rapid.T) {
		operators := rapid.IntRange(1, 3).Draw(t, "operators")
		var times []sim.Seconds
		for _, x := range rapid.SliceOfN(rapid.IntRange(1, 9), 1, 7).Draw(t, "times") {
			times = append(times, sim.Seconds(x))
		}
		got, best := Total(manual(times...), operators, 0, 0), bestShare(times, make([]sim.Seconds, operators))
		n := float64(operators)
		ratio := float64(got / best)
		if ratio < 1 || ratio > 4./3-1/(3*n)+1e-12 {
			t.Fatalf("%v by %d operators takes %v, at best %v", times, operators, got, best)
		}
		worst = max(worst, ratio)
	})
	assert.Greater(t, worst, 1.0, "the rule is always the best: the test sees little")
}

// bestShare tries every operator for each item.
func bestShare(times, busy []sim.Seconds) sim.Seconds {
	if len(times) == 0 {
		longest := sim.Seconds(0)
		for _, b := range busy {
			longest = max(longest, b)
		}
		return longest
	}
	best := sim.Seconds(math.Inf(1))
	for i := range busy {
		busy[i] += times[0]
		best = min(best, bestShare(times[1:], busy))
		busy[i] -= times[0]
	}
	return best
}

// The mean of the longer of two independent exponential times of mean 60 s is 90 s: 60/2
// until one ends, and 60 more. With 20 000 changeovers its standard error is some 0.5 s.
func TestTotalsVary(t *testing.T) {
	d, err := sim.NewExponential(60)
	if err != nil {
		t.Fatal(err)
	}
	items := []Item{{Name: "a", Change: Change{Time: d}}, {Name: "b", Change: Change{Time: d}}}
	off := func(x sim.Sample, want float64) float64 {
		return math.Abs(x.Mean()-want) / (x.SD() / math.Sqrt(float64(len(x))))
	}
	two := Totals(items, 2, 7, 20_000)
	assert.Less(t, off(two, 90), modeltest.Z999, "two operators: %.2f s", two.Mean())
	assert.Greater(t, off(two, 87), modeltest.Z999, "a bias of 3 s goes unseen: this test cannot fail")
	one := Totals(items, 1, 7, 20_000)
	assert.Less(t, off(one, 120), modeltest.Z999, "one operator: %.2f s", one.Mean())

	// The same random numbers for an item wherever it is listed, and for each seed and replication.
	assert.Equal(t, one, Totals([]Item{items[1], items[0]}, 1, 7, 20_000))
	assert.NotEqual(t, one[:9], Totals(items, 1, 8, 9))
}
