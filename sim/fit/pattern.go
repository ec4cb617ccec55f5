package fit

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"sort"

	"gonum.org/v1/gonum/stat"

	"netrate/sim"
)

// Bursts is the test of whether the stops of a station came independently, each feed
// with the same probability.
type Bursts struct {
	Stops        int
	Window       float64 // feeds; long enough for two stops on average
	Dispersion   float64 // variance over mean of the stops in such windows: 1 if independent, more in bursts
	DispersionP  float64 // how often it lies so far off, either way, by chance
	Correlation  float64 // of each gap between stops with the next, by rank: 0 if independent
	CorrelationP float64 // how often it lies so far off, either way, by chance
}

// fewestStops is the number below which no pattern could be seen.
const fewestStops = 10

// Pattern tests for bursts. The gaps are the feeds up to and including each stop, since
// the stop before or the beginning, in the order in which they came; rest is the feeds
// since the last stop. Two things are looked at, both by simulation under the seed:
//
//   - the stops in windows, against as many stops dealt out at random to all feeds: are
//     there windows with many stops and windows with none?
//   - each gap and the one after it, against the same gaps in random order: does a short
//     gap follow a short one, whatever the distribution of gaps?
//
// It wants ten stops or more, gaps of 1 or more, and rest not negative.
//
// Sources: index of dispersion, Cox and Lewis, The Statistical Analysis of Series of
// Events (1966), section 6.3; rank serial correlation, Wald and Wolfowitz, Ann. Math.
// Statist. 14 (1943) 378–388 (both from memory).
func Pattern(gaps []int64, rest int64, seed uint64) (Bursts, error) {
	var wrong error
	if len(gaps) < fewestStops {
		wrong = fmt.Errorf("there are %d stops, want at least %d to see a pattern", len(gaps), fewestStops)
	}
	feeds := rest
	for i, g := range gaps {
		if g < 1 {
			wrong = errors.Join(wrong, fmt.Errorf("gap %d is %d feeds, want 1 or more", i+1, g))
		}
		feeds += g
	}
	if rest < 0 {
		wrong = errors.Join(wrong, fmt.Errorf("the feeds since the last stop are %d, want 0 or more", rest))
	}
	if wrong != nil {
		return Bursts{}, wrong
	}
	b := Bursts{Stops: len(gaps)}
	b.windows(gaps, feeds, seed)
	b.neighbours(gaps, seed)
	return b, nil
}

// Finding says in a sentence what the tests mean. Two tests are made, so each must reach
// half of the usual level.
func (b Bursts) Finding() string {
	many, serial := b.DispersionP < doubtful/2, b.CorrelationP < doubtful/2
	figures := fmt.Sprintf("stops in windows vary %.2g times as much as independent ones (%s), and a gap's rank correlation with the next is %.2f (%s)",
		b.Dispersion, chance(b.DispersionP), b.Correlation, chance(b.CorrelationP))
	switch {
	case many && b.Dispersion > 1, !many && serial && b.Correlation > 0:
		return "The stops come in bursts, or there are good and bad times: " + figures +
			". With independent faults a simulation spreads too little from shift to shift."
	case many:
		return "The stops come more regularly than independent ones: " + figures +
			". With independent faults a simulation spreads too much from shift to shift."
	case serial:
		return "Short and long gaps take turns: " + figures + "."
	}
	return "The stops look independent: " + figures + fmt.Sprintf(". That is no proof: in %d stops a weak pattern is not seen.", b.Stops)
}

// windows fills in the dispersion of the stops in windows of equal length.
func (b *Bursts) windows(gaps []int64, feeds int64, seed uint64) {
	n := int64(len(gaps) / 2)
	sizes := make([]int64, n)
	from := int64(0)
	for i := range sizes {
		end := int64(float64(feeds) * (float64(i+1) / float64(n)))
		sizes[i], from = end-from, end
	}
	b.Window = float64(feeds) / float64(n)
	d := newDealer(sizes)
	counts, at := make([]int64, n), int64(0)
	for _, g := range gaps {
		at += g
		counts[sort.Search(len(sizes), func(i int) bool { return at <= d.upTo[i] })]++
	}
	b.Dispersion = dispersion(counts)
	t := tail{observed: b.Dispersion}
	stream := sim.NewStream("fit", "windows")
	stream.Seed(seed, 0)
	for range draws {
		t.add(dispersion(d.out(int64(len(gaps)), stream)))
	}
	b.DispersionP = t.both()
}

// neighbours fills in the correlation of each gap with the next.
func (b *Bursts) neighbours(gaps []int64, seed uint64) {
	r := ranks(gaps)
	b.Correlation = serial(r)
	t := tail{observed: b.Correlation}
	stream := sim.NewStream("fit", "neighbours")
	stream.Seed(seed, 0)
	order := rand.New(stream)
	for range draws {
		order.Shuffle(len(r), func(i, j int) { r[i], r[j] = r[j], r[i] })
		t.add(serial(r))
	}
	b.CorrelationP = t.both()
}

// dispersion returns the variance of counts, with divisor n − 1, over their mean.
func dispersion(counts []int64) float64 {
	var sum, squares float64
	for _, c := range counts {
		sum, squares = sum+float64(c), squares+float64(c)*float64(c)
	}
	n := float64(len(counts))
	return (squares - sum*sum/n) / (n - 1) / (sum / n)
}

// ranks returns the rank of each value, from 1; equal ones share the mean of theirs.
func ranks(x []int64) []float64 {
	order := make([]int, len(x))
	for i := range order {
		order[i] = i
	}
	sort.Slice(order, func(i, j int) bool { return x[order[i]] < x[order[j]] })
	r := make([]float64, len(x))
	for from := 0; from < len(order); {
		end := from
		for end < len(order) && x[order[end]] == x[order[from]] {
			end++
		}
		for _, i := range order[from:end] {
			r[i] = float64(from+1+end) / 2
		}
		from = end
	}
	return r
}

// serial returns the correlation of each value with the next: the sum of products of
// their distances from the mean over the sum of squares, and 0 if all are equal.
func serial(x []float64) float64 {
	mean := stat.Mean(x, nil)
	products, squares := 0.0, 0.0
	for i, v := range x {
		squares += (v - mean) * (v - mean)
		if i > 0 {
			products += (x[i-1] - mean) * (v - mean)
		}
	}
	if squares == 0 {
		return 0
	}
	return products / squares
}
