package accept

import (
	"math"
	"slices"

	"netrate/sim"
	"netrate/sim/output"
)

// Wrong is how often a decision was wrong in simulated runs.
type Wrong struct {
	Times, Of int64
}

// Share returns the share of the runs.
func (w Wrong) Share() float64 { return float64(w.Times) / float64(w.Of) }

// Interval returns the exact confidence interval of the risk.
func (w Wrong) Interval(level float64) (low, high float64) {
	return output.ExactInterval(w.Times, w.Of, level)
}

// Limit is what a figure must reach for a line to pass, and how often that was wrong.
type Limit struct {
	Least  float64 // a line passes if its figure is at least this
	Seller Wrong   // good lines that failed
	Buyer  Wrong   // bad lines that passed
}

// Holds reports whether neither risk was more than it may be.
func (l Limit) Holds(r Risks) bool { return l.Seller.Share() <= r.Seller && l.Buyer.Share() <= r.Buyer }

// Separate returns the limit between the figures of good and of bad lines, of which larger ones are
// better, at which the larger of the two risks is least, each as a share of what it may be. Where
// several limits are alike, it is in the middle of them. It panics on empty samples.
func Separate(good, bad sim.Sample, r Risks) Limit {
	if len(good) == 0 || len(bad) == 0 {
		panic("accept: there is nothing to separate")
	}
	good, bad = slices.Sorted(slices.Values(good)), slices.Sorted(slices.Values(bad))
	figures := slices.Compact(slices.Sorted(slices.Values(slices.Concat(good, bad))))
	worst := func(at float64) float64 {
		l := limitAt(good, bad, at)
		return max(l.Seller.Share()/r.Seller, l.Buyer.Share()/r.Buyer)
	}
	first := 0
	best := worst(figures[0])
	for i, x := range figures {
		if w := worst(x); w < best {
			best, first = w, i
		}
	}
	// The limits from above the figure before to the first one decide alike; so do those up to the
	// last figure with the same risks.
	last := first
	for last+1 < len(figures) && worst(figures[last+1]) == best {
		last++
	}
	low := figures[first]
	if first > 0 {
		low = figures[first-1]
	}
	return limitAt(good, bad, low+float64((figures[last]-low)/2))
}

// SeparateFew is [Separate] for figures that lie in heaps, as shares of few events do, one heap for each number. There the
// least of the larger risk is a matter of chance while the other risk may differ by much: so of all limits at which the
// larger one is within its standard error of the least, it takes the one at which both together are least, again as
// shares of what they may be, and where several are alike the middle one of them.
func SeparateFew(good, bad sim.Sample, r Risks) Limit {
	least := Separate(good, bad, r)
	good, bad = slices.Sorted(slices.Values(good)), slices.Sorted(slices.Values(bad))
	spread := func(w Wrong, of float64) float64 { return math.Sqrt(w.Share()*(1-w.Share())/float64(w.Of)) / of }
	seller, buyer := least.Seller.Share()/r.Seller, least.Buyer.Share()/r.Buyer
	most := max(seller, buyer)
	if seller >= buyer {
		most += spread(least.Seller, r.Seller)
	} else {
		most += spread(least.Buyer, r.Buyer)
	}
	var alike []float64
	fewest := math.Inf(1)
	for _, x := range append(slices.Compact(slices.Sorted(slices.Values(slices.Concat(good, bad)))), least.Least) {
		l := limitAt(good, bad, x)
		seller, buyer := l.Seller.Share()/r.Seller, l.Buyer.Share()/r.Buyer
		switch both := seller + buyer; {
		case max(seller, buyer) > most || both > fewest:
		case both < fewest:
			alike, fewest = []float64{x}, both
		default:
			alike = append(alike, x)
		}
	}
	slices.Sort(alike)
	return limitAt(good, bad, alike[len(alike)/2])
}

// parts is how many parts samples are cut into, to see how far apart their limits are.
const parts = 10

// SeparateWithin returns by how much the limit of [Separate] or [SeparateFew], whichever is given, may be off, since the figures are by chance:
// half the width of its confidence interval of this level, by what it moves if one of ten parts of the figures,
// each one the tenth figures, is left out. It is infinite if there are fewer than ten of either. (The limits of
// the parts by themselves are too near each other: of few figures the tails are coarse.)
//
// Source: the jackknife of groups, Miller, The jackknife, a review, 1974 (from memory).
func SeparateWithin(separate func(good, bad sim.Sample, r Risks) Limit, good, bad sim.Sample, r Risks, level float64) float64 {
	if len(good) < parts || len(bad) < parts {
		return math.Inf(1)
	}
	var limits sim.Sample
	for k := range parts {
		limits = append(limits, separate(others(good, k), others(bad, k), r).Least)
	}
	return (parts - 1) * limits.Interval(level).Half
}

// Centred returns figures for [SeparateWithin] of lines that are made so that the mean of their control in all
// tests is a given one: those of each part are moved by what the mean of its control is off that of all. The
// control of a test is in the unit of its figure, which may be its own control.
//
// Source: control variates with a coefficient of one, Law, Simulation Modeling and Analysis (from memory).
func Centred(figures, control sim.Sample) sim.Sample {
	if len(figures) < parts {
		return figures
	}
	all, mean := slices.Clone(figures), control.Mean()
	for k := range parts {
		off := tenth(control, k).Mean() - mean
		for i := k; i < len(all); i += parts {
			all[i] -= off
		}
	}
	return all
}

// others returns the figures that are not of a part.
func others(figures sim.Sample, part int) (all sim.Sample) {
	for i, x := range figures {
		if i%parts != part {
			all = append(all, x)
		}
	}
	return all
}

// tenth returns every tenth figure from one on.
func tenth(figures sim.Sample, from int) (all sim.Sample) {
	for i := from; i < len(figures); i += parts {
		all = append(all, figures[i])
	}
	return all
}

// At returns what a limit does to the figures of good and of bad lines.
func At(good, bad sim.Sample, least float64) Limit {
	return limitAt(slices.Sorted(slices.Values(good)), slices.Sorted(slices.Values(bad)), least)
}

// limitAt is At of sorted figures.
func limitAt(good, bad []float64, least float64) Limit {
	failing, _ := slices.BinarySearch(good, least)
	below, _ := slices.BinarySearch(bad, least)
	return Limit{
		Least:  least,
		Seller: Wrong{int64(failing), int64(len(good))},
		Buyer:  Wrong{int64(len(bad) - below), int64(len(bad))},
	}
}
