package fit

import (
	"cmp"
	"fmt"
	"slices"

	"netrate/sim"
	"netrate/sim/portable"
)

// PeriodCluster is periods, one after the other, in which more stops came than of independent ones.
type PeriodCluster struct {
	Stretch     int // which of the stretches
	First, Last int // its first and last period there, from 0
	Stops       int64
	Expected    float64 // stops in as many feeds of the stretch
	P           float64 // how often the closest cluster of independent stops is as close as this
}

// longestRun is how many periods a cluster has at most: the hours of a day (common practice, no source).
const longestRun = 24

// PeriodPattern is [Pattern] where it is known only how many stops came in each period, such as an
// hour, and in how many feeds: do the counts vary more about what the feeds of their stretch expect
// than those of as many stops dealt out at random to its feeds? Gaps and their order are not known:
// the P of both are 1. A stretch counts where it has two periods with feeds and a stop.
//
// The dispersion is Σ(c − e)² over its mean when stops are dealt out so, Σe(1 − e/n), for counts c of
// which e are expected in a stretch of n stops: periods of few feeds have no more weight than they tell.
//
// It wants ten stops or more, and no more stops than feeds in any period.
func PeriodPattern(stretches [][]Count, below float64, seed uint64) (Bursts, error) {
	all, err := newPeriods(stretches)
	if err != nil {
		return Bursts{}, err
	}
	b := Bursts{SpreadP: 1, CorrelationP: 1}
	for _, r := range all {
		b.Stops, b.Periods = b.Stops+int(r.n), b.Periods+len(r.stops)
	}
	if b.Stops < fewestStops {
		return Bursts{}, fmt.Errorf("there are %d stops in periods that can be compared, want at least %d to see a pattern", b.Stops, fewestStops)
	}
	b.Dispersion = dispersionOf(all)
	many := &tail{observed: b.Dispersion}
	s := sim.NewStream("fit", "periods")
	s.Seed(seed, 0)
	for range drawsFor(b.Stops, below) {
		for _, r := range all {
			r.stops = r.deal.out(r.n, s)
		}
		many.add(dispersionOf(all))
		if enough(b.Stops, many) {
			break
		}
	}
	b.DispersionP = many.both()
	return b, nil
}

// PeriodDispersion returns the dispersion of [PeriodPattern], 1 where no periods can be compared.
func PeriodDispersion(stretches [][]Count) (float64, error) {
	all, err := newPeriods(stretches)
	if err != nil || len(all) == 0 {
		return 1, err
	}
	return dispersionOf(all), nil
}

// PeriodClusters is [Clusters] where it is known only how many stops came in each period: runs of up
// to 24 periods take the place of stops in a row, and stops are dealt out to the feeds of the periods.
// Counts must be as for [PeriodPattern]; of others, and where no run has many stops, there are none.
//
// Source: Kulldorff, Communications in Statistics: Theory and Methods 26 (1997) 1481–1496 (from memory).
func PeriodClusters(stretches [][]Count, below float64, seed uint64) []PeriodCluster {
	all, err := newPeriods(stretches)
	if err != nil {
		return nil
	}
	var found []periodCandidate
	stops := int64(0)
	for _, r := range all {
		stops += r.n
		r.runs(0, func(c periodCandidate) { found = append(found, c) })
	}
	if len(found) == 0 {
		return nil
	}
	slices.SortStableFunc(found, func(a, b periodCandidate) int { return cmp.Compare(b.closeness, a.closeness) })
	found = apart(found, periodCandidate.overlaps)
	closer, done, least := make([]int, len(found)), 0, found[len(found)-1].closeness
	s := sim.NewStream("fit", "period clusters")
	s.Seed(seed, 0)
	for range scanDraws(longestRun, int(stops)) {
		closest := 0.0
		for _, r := range all {
			r.stops = r.deal.out(r.n, s)
			r.runs(least, func(c periodCandidate) { closest = max(closest, c.closeness) })
		}
		for k, c := range found {
			if closest >= c.closeness*(1-1e-9) {
				closer[k]++
			}
		}
		if done++; scanSettled(closer[0], done, below) {
			break
		}
	}
	var clusters []PeriodCluster
	for k, c := range found {
		if c.P = scanP(closer[k], done); c.P < below || k == 0 {
			clusters = append(clusters, c.PeriodCluster)
		}
	}
	slices.SortFunc(clusters, func(a, b PeriodCluster) int {
		return cmp.Or(cmp.Compare(a.Stretch, b.Stretch), cmp.Compare(a.First, b.First))
	})
	return clusters
}

// periods is a stretch of which the stops are counted period by period.
type periods struct {
	stretch int
	stops   []int64
	feeds   []int64
	n, all  int64 // stops, and feeds
	deal    *dealer
}

// newPeriods returns the stretches in which periods can be compared.
func newPeriods(stretches [][]Count) (all []*periods, err error) {
	for k, counts := range stretches {
		r := &periods{stretch: k}
		with := 0
		for i, c := range counts {
			if c.Faults < 0 || c.Feeds < c.Faults {
				return nil, fmt.Errorf("period %d has %d stops in %d feeds, want 0 or more, and no more than feeds", i+1, c.Faults, c.Feeds)
			}
			if c.Feeds > 0 {
				with++
			}
			r.stops, r.feeds = append(r.stops, c.Faults), append(r.feeds, c.Feeds)
			r.n, r.all = r.n+c.Faults, r.all+c.Feeds
		}
		if with > 1 && r.n > 0 {
			r.deal = newDealer(r.feeds)
			all = append(all, r)
		}
	}
	return all, nil
}

// dispersionOf returns how much the counts of all stretches vary, against those dealt out at random.
func dispersionOf(all []*periods) float64 {
	squares, mean := 0.0, 0.0
	for _, r := range all {
		n := float64(r.n)
		for i, stops := range r.stops {
			e := float64(n * float64(r.feeds[i]) / float64(r.all))
			off := float64(stops) - e
			squares, mean = squares+float64(off*off), mean+float64(e*(1-e/n))
		}
	}
	return squares / mean
}

// periodCandidate is a run of periods that may be a cluster.
type periodCandidate struct {
	PeriodCluster
	closeness float64
}

// runs calls use with the closest run that begins at each period, where one is close; those that are
// surely less close than the least that is wanted are passed over, as ln x is at most (x − 1)/√x.
func (r *periods) runs(least float64, use func(periodCandidate)) {
	n := float64(r.n)
	for first := range r.stops {
		var best periodCandidate
		stops, feeds := int64(0), int64(0)
		for last := first; last < min(first+longestRun, len(r.stops)); last++ {
			stops, feeds = stops+r.stops[last], feeds+r.feeds[last]
			c, e := float64(stops), float64(n*float64(feeds)/float64(r.all))
			if stops < leastCluster || c < 2*e || r.stops[last] == 0 {
				continue
			}
			if most := float64(c * (c/e - 1)); most*most < float64(float64(0.999*least*least)*float64(c/e)) {
				continue
			}
			closeness := float64(c * portable.Log(c/e))
			if c < n {
				closeness += float64((n - c) * portable.Log((n-c)/(n-e)))
			}
			if closeness > best.closeness {
				best = periodCandidate{PeriodCluster{Stretch: r.stretch, First: first, Last: last, Stops: stops, Expected: e}, closeness}
			}
		}
		if best.closeness > 0 {
			use(best)
		}
	}
}

// overlaps reports whether two candidates have periods in common.
func (c periodCandidate) overlaps(o periodCandidate) bool {
	return o.Stretch == c.Stretch && o.First <= c.Last && c.First <= o.Last
}
