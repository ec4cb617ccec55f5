package fit

import (
	"errors"
	"fmt"
	"math"
	"sort"

	"netrate/sim"
	"netrate/sim/portable"
)

// Group is the faults of one group of feeds, such as a job.
type Group struct {
	Name          string
	Faults, Feeds int64
}

// Difference is the test of whether groups differ in their probability of a fault.
type Difference struct {
	ChiSquare float64 // Pearson's: how far the counts lie from those of one common probability
	DF        int     // groups less one
	P         float64 // how often they lie so far off by chance alone
	Simulated bool    // P from 9999 simulated divisions of the faults, as some groups expect few
}

// draws is how often the tests by simulation draw: 0.05 is then a multiple of 1/(draws+1).
const draws = 9999

// few is the number of faults, or of good feeds, a group must expect for the chi-square
// distribution to be trusted: Cochran, Biometrics 10 (1954) 417–451 (from memory).
const few = 5

// Differ tests whether the groups have one common probability of a fault. Where a group
// expects fewer than five faults P is found by dealing out the faults at random to the
// feeds of all groups, under the seed; it is then exact but for the number of draws.
//
// It wants two groups or more and at least one fault and one good feed in all. Faults
// that come in bursts look like a difference.
func Differ(groups []Group, seed uint64) (Difference, error) {
	var wrong error
	if len(groups) < 2 {
		wrong = fmt.Errorf("there are %d groups, want at least 2", len(groups))
	}
	feeds, faults := make([]int64, len(groups)), make([]int64, len(groups))
	all := Group{}
	for i, g := range groups {
		if err := checkCounts(g.Faults, g.Feeds); err != nil {
			wrong = errors.Join(wrong, fmt.Errorf("group %q: %w", g.Name, err))
		}
		feeds[i], faults[i] = g.Feeds, g.Faults
		all.Faults, all.Feeds = all.Faults+g.Faults, all.Feeds+g.Feeds
	}
	if wrong == nil && (all.Faults == 0 || all.Faults == all.Feeds) {
		wrong = fmt.Errorf("there are %d faults in %d feeds in all, want some of both, faults and good feeds", all.Faults, all.Feeds)
	}
	if wrong != nil {
		return Difference{}, wrong
	}
	d := Difference{ChiSquare: chiSquare(faults, feeds), DF: len(groups) - 1}
	rarer := min(all.Faults, all.Feeds-all.Faults)
	for _, n := range feeds {
		d.Simulated = d.Simulated || float64(n)*float64(rarer) < few*float64(all.Feeds)
	}
	if !d.Simulated {
		d.P = portable.GammaAbove(float64(d.DF)/2, d.ChiSquare/2)
		return d, nil
	}
	deal, tail := newDealer(feeds), tail{observed: d.ChiSquare}
	stream := sim.NewStream("fit", "differ")
	stream.Seed(seed, 0)
	for range draws {
		tail.add(chiSquare(deal.out(rarer, stream), feeds)) // the same for good feeds as for faults
	}
	d.P = tail.upper()
	return d, nil
}

// Finding says in a sentence what the test means.
func (d Difference) Finding() string {
	if d.P < unlikely {
		return fmt.Sprintf("The groups differ: chance alone seldom gives counts so far apart (%s).", chance(d.P))
	}
	return fmt.Sprintf("No difference between the groups is shown: chance alone often gives counts so far apart (%s).", chance(d.P))
}

// chance returns a P as it is said in a sentence.
func chance(p float64) string {
	if p < 0.0001 {
		return "P below 0.0001"
	}
	return fmt.Sprintf("P = %.4f", p)
}

// chiSquare returns Pearson's statistic of faults and good feeds in groups. Good feeds
// in place of faults give the same.
func chiSquare(faults, feeds []int64) float64 {
	var k, n float64
	for i := range feeds {
		k, n = k+float64(faults[i]), n+float64(feeds[i])
	}
	sum, p := 0.0, k/n
	for i := range feeds {
		off := float64(faults[i]) - float64(float64(feeds[i])*p)
		sum += off * off / (float64(feeds[i]) * p * (1 - p))
	}
	return sum
}

// dealer deals out faults at random to the feeds of groups, each feed at most one.
type dealer struct {
	upTo   []int64 // feeds in the groups up to each
	sizes  []int64
	counts []int64
}

func newDealer(sizes []int64) *dealer {
	d := &dealer{sizes: sizes, upTo: make([]int64, len(sizes)), counts: make([]int64, len(sizes))}
	total := int64(0)
	for i, n := range sizes {
		total += n
		d.upTo[i] = total
	}
	return d
}

// out returns how many of the faults each group got; the next deal overwrites it. A
// feed of a group is taken already with the probability of the group's share taken.
func (d *dealer) out(faults int64, s *sim.Stream) []int64 {
	clear(d.counts)
	total := d.upTo[len(d.upTo)-1]
	for faults > 0 {
		feed := int64(s.Uniform() * float64(total))
		i := sort.Search(len(d.upTo), func(i int) bool { return feed < d.upTo[i] })
		if s.Uniform()*float64(d.sizes[i]) < float64(d.counts[i]) {
			continue
		}
		d.counts[i]++
		faults--
	}
	return d.counts
}

// tail counts how many simulated figures lie as far out as the observed one, which
// counts as one of them. What differs by rounding alone counts as equal.
type tail struct {
	observed            float64
	drawn, above, below int
}

func (t *tail) add(x float64) {
	rounding := float64(1e-9 * (1 + math.Abs(t.observed)))
	t.drawn++
	if x >= t.observed-rounding {
		t.above++
	}
	if x <= t.observed+rounding {
		t.below++
	}
}

// upper returns the share of figures as large as the observed one or larger.
func (t *tail) upper() float64 { return float64(t.above+1) / float64(t.drawn+1) }

// both returns twice the smaller of the two tails' shares, at most 1.
func (t *tail) both() float64 {
	return min(1, 2*float64(min(t.above, t.below)+1)/float64(t.drawn+1))
}
