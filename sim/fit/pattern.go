package fit

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"

	"netrate/sim"
)

// Bursts is the test of whether the stops of a station came independently, each feed
// with the same probability. Each P says how often the figure above it lies so far off by
// chance, to either side.
type Bursts struct {
	Stops        int
	Periods      int     // in which they were counted, of [PeriodPattern]: Window, Spread and Correlation are not known then
	Window       float64 // feeds; long enough for two stops on average
	Dispersion   float64 // variance over mean of the stops in such windows: some 1 if independent, more in bursts
	DispersionP  float64
	Spread       float64 // standard deviation over mean of the gaps: some 1 if independent, more in bursts
	SpreadP      float64
	Correlation  float64 // of each gap with the next, by rank: some 0 if independent, more in good and bad times
	CorrelationP float64
}

// fewestStops is the number below which no pattern could be seen.
const fewestStops = 10

// Stretch is the stops among feeds that are all alike, such as those of one job at one speed.
type Stretch struct {
	Gaps []int64 // feeds up to and including each stop, since the stop before or the beginning, in order
	Rest int64   // feeds since the last stop
}

// Pattern tests for bursts within stretches: that one job has more stops than another, or
// one speed than another, is none. Three things are looked at, all by simulation under the seed:
//
//   - the stops in windows, against as many stops of each stretch dealt out at random to its
//     feeds: are there windows with many stops and windows with none?
//   - the gaps, against those of the same random stops: are there more short and long
//     ones than in the geometric distribution?
//   - each gap and the one after it, against the same gaps of each stretch in random order: does
//     a short gap follow a short one, whatever their distribution?
//
// Each P is exact but for the number of draws: 9999 and, of more than 100 stops, enough that
// the smaller tail has 50 of them, or a number that is no wait, but is enough to see a P well below
// the given one. It wants ten stops or more, gaps
// of 1 or more, and rest not negative. A stretch counts where it has stops enough: four for
// windows, two for gaps, three for their order.
//
// Sources: index of dispersion, Cox and Lewis, The Statistical Analysis of Series of
// Events (1966), chapter 6; gaps, Greenwood, J. Roy. Statist. Soc. 109 (1946) 85–110;
// serial correlation, Wald and Wolfowitz, Ann. Math. Statist. 14 (1943) 378–388; where the draws
// end, Besag and Clifford, Biometrika 78 (1991) 301–304 (all from memory).
func Pattern(stretches []Stretch, below float64, seed uint64) (Bursts, error) {
	var all series
	stops := 0
	var wrong error
	for _, s := range stretches {
		stops += len(s.Gaps)
	}
	if stops < fewestStops {
		wrong = fmt.Errorf("there are %d stops, want at least %d to see a pattern", stops, fewestStops)
	}
	for _, s := range stretches {
		for i, g := range s.Gaps {
			if g < 1 {
				wrong = errors.Join(wrong, fmt.Errorf("gap %d is %d feeds, want 1 or more", i+1, g))
			}
		}
		if s.Rest < 0 {
			wrong = errors.Join(wrong, fmt.Errorf("the feeds since the last stop are %d, want 0 or more", s.Rest))
		}
		if len(s.Gaps) > 0 {
			all = append(all, newRow(s))
		}
	}
	if wrong != nil {
		return Bursts{}, wrong
	}
	b := Bursts{Stops: stops}
	most := drawsFor(stops, below)
	b.placed(all, most, seed)
	b.ordered(all, most, seed)
	return b, nil
}

// Finding says in two sentences what the tests mean. Three tests are made, so each must
// reach a third of the usual level.
func (b Bursts) Finding() string {
	if b.Periods > 0 {
		return b.findingOfPeriods()
	}
	many, wide, serial := b.DispersionP < unlikely/3, b.SpreadP < unlikely/3, b.CorrelationP < unlikely/3
	figures := fmt.Sprintf("stops in windows vary %.2g times as much as independent ones (%s), gaps %.2g times (%s), "+
		"and a gap's rank correlation with the next is %.2f (%s)", b.Dispersion, chance(b.DispersionP),
		b.Spread, chance(b.SpreadP), b.Correlation, chance(b.CorrelationP))
	switch {
	case many && b.Dispersion > 1, wide && b.Spread > 1, serial && b.Correlation > 0:
		return "The stops come in bursts, or there are good and bad times: " + figures +
			". With independent faults a simulation spreads too little from shift to shift."
	case many, wide:
		return "The stops come more regularly than independent ones: " + figures +
			". With independent faults a simulation spreads too much from shift to shift."
	case serial:
		return "Short and long gaps take turns: " + figures + "."
	}
	return "The stops look independent: " + figures +
		fmt.Sprintf(". That is no proof: in %d stops a weak pattern is not seen.", b.Stops)
}

// findingOfPeriods is Finding of stops that were counted by period.
func (b Bursts) findingOfPeriods() string {
	figures := fmt.Sprintf("stops in %d periods vary %.2g times as much as independent ones (%s)", b.Periods, b.Dispersion, chance(b.DispersionP))
	switch {
	case b.DispersionP < unlikely && b.Dispersion > 1:
		return "The stops come in bursts, or there are good and bad times: " + figures +
			". With independent faults a simulation spreads too little from shift to shift."
	case b.DispersionP < unlikely:
		return "The stops come more regularly than independent ones: " + figures +
			". With independent faults a simulation spreads too much from shift to shift."
	}
	return "The stops look independent: " + figures +
		fmt.Sprintf(". That is no proof: in %d stops a weak pattern is not seen, and none that is much shorter than a period.", b.Stops)
}

// Draws go on to the end where stops are few, so that they are no wait.
const (
	fewStops = 100
	inTail   = 50 // draws in the smaller tail of many stops, which are then enough: P is known to a seventh
)

// drawsFor returns how often to draw for a number of stops: all the draws, unless that takes long
// and fewer can show a P below the given one, to either side, with some in the tail.
func drawsFor(stops int, below float64) int {
	return min(draws, max(1999, 4_000_000/stops, int(10/below)))
}

// enough reports whether all the tails of a number of stops have draws enough.
func enough(stops int, tails ...*tail) bool {
	for _, t := range tails {
		if stops <= fewStops || min(t.above, t.below) < inTail {
			return false
		}
	}
	return true
}

// placed fills in what depends on where the stops lie.
func (b *Bursts) placed(all series, most int, seed uint64) {
	windows, feeds := 0, 0.0
	for _, r := range all {
		windows, feeds = windows+r.windows, feeds+float64(r.feeds)
	}
	b.Window = feeds / float64(max(1, windows))
	b.Dispersion, b.Spread = all.dispersion(), all.spread()
	many, wide := &tail{observed: b.Dispersion}, &tail{observed: b.Spread}
	s := sim.NewStream("fit", "stops")
	s.Seed(seed, 0)
	for range most {
		for _, r := range all {
			scatter(r.at, r.feeds, r.times, s)
		}
		many.add(all.dispersion())
		wide.add(all.spread())
		if enough(b.Stops, many, wide) {
			break
		}
	}
	b.DispersionP, b.SpreadP = many.both(), wide.both()
}

// ordered fills in what depends on the order of the gaps alone.
func (b *Bursts) ordered(all series, most int, seed uint64) {
	b.Correlation = all.serial()
	t := &tail{observed: b.Correlation}
	s := sim.NewStream("fit", "order")
	s.Seed(seed, 0)
	order := rand.New(s)
	for range most {
		for _, r := range all {
			order.Shuffle(len(r.ranks), func(i, j int) { r.ranks[i], r.ranks[j] = r.ranks[j], r.ranks[i] })
		}
		t.add(all.serial())
		if enough(b.Stops, t) {
			break
		}
	}
	b.CorrelationP = t.both()
}

// scatter puts stops on different feeds from 1 to the last, each set of feeds equally
// likely, in order: draws that hit a feed again are drawn anew.
//
// Uniform numbers in order are the times of a Poisson process over that of the event after
// the last, so that they need no sorting.
//
// Source: Devroye, Non-Uniform Random Variate Generation (1986), section V.3.1 (from memory).
func scatter(at []int64, feeds int64, times []float64, s *sim.Stream) {
	sum := 0.0
	for i := range at {
		sum += s.Exponential()
		times[i] = sum
	}
	scale := float64(feeds) / (sum + s.Exponential())
	for i := range at {
		at[i] = min(feeds, 1+int64(times[i]*scale)) // the product may be rounded up
	}
	different := slices.Compact(at)
	for len(different) < len(at) {
		for i := len(different); i < len(at); i++ {
			at[i] = 1 + int64(s.Uniform()*float64(feeds))
		}
		slices.Sort(at)
		different = slices.Compact(at)
	}
}
