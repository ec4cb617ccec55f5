package setup

import (
	"cmp"
	"fmt"
	"slices"

	"netrate/sim"
)

// Total returns how long a changeover takes when a number of operators share it: until all is
// done. What is automatic begins at once, all side by side. The rest the operators take
// one after the other, whoever is free the longest by its mean that is left; at equal
// means, the first listed. Walking is not counted: they are at the line.
//
// Where times do not vary that is at most 4/3 - 1/(3·operators) of the best that can be
// (Graham 1969, from memory); it seldom is that much.
//
// Times that vary are drawn, with random numbers that is the same for items of the same name in
// every changeover of one seed and replication. There must be an operator.
func Total(items []Item, operators int, seed uint64, replication int) sim.Seconds {
	return finish(items, operators, func(i Item) sim.Seconds { return i.Drawn(seed, replication) })
}

// Drawn returns how long the item takes in one changeover, whose number is the replication.
func (i Item) Drawn(seed uint64, replication int) sim.Seconds {
	random := sim.NewStream(i.Name, "changeover")
	random.Seed(seed, replication)
	return i.Time.Draw(random)
}

// LongestFirst puts items in the order in which a crew takes them: by their means, and at equal means
// as they are listed.
func LongestFirst(items []Item) {
	slices.SortStableFunc(items, func(a, b Item) int { return cmp.Compare(b.Time.Mean(), a.Time.Mean()) })
}

// Totals returns the totals of a number of replications, from 0 on, in seconds.
func Totals(items []Item, operators int, seed uint64, replications int) sim.Sample {
	totals := make(sim.Sample, replications)
	for r := range totals {
		totals[r] = float64(Total(items, operators, seed, r))
	}
	return totals
}

// finish returns when the last item is done.
func finish(items []Item, operators int, time func(Item) sim.Seconds) (last sim.Seconds) {
	if operators < 1 {
		panic(fmt.Sprintf("model: a changeover by %d operators", operators))
	}
	var work []Item
	for _, i := range items {
		if i.Automatic {
			last = max(last, time(i))
		} else {
			work = append(work, i)
		}
	}
	LongestFirst(work)
	free := make([]sim.Seconds, operators)
	for _, i := range work {
		next := slices.Index(free, slices.Min(free))
		free[next] += time(i)
	}
	return max(last, slices.Max(free))
}
