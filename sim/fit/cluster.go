package fit

import (
	"cmp"
	"math/bits"
	"slices"
	"sort"

	"netrate/sim"
	"netrate/sim/portable"
)

// Cluster is stops that lie closer together than independent ones do.
type Cluster struct {
	Stretch     int     // which of the stretches
	First, Last int     // its first and last stop there, from 0
	Expected    float64 // stops in as many feeds of the stretch
	P           float64 // how often the closest cluster of independent stops is as close as this
}

// Stops returns the number of its stops.
func (c Cluster) Stops() int { return c.Last - c.First + 1 }

// A cluster has at least this many stops, and at least twice as many as expected.
const (
	leastCluster = 3
	mostCluster  = 60
	mostClusters = 5
	closerEnough = 20 // draws with a closer cluster, which are enough for a P that is not below what is wanted
)

// Clusters returns the closest clusters of stops within stretches, in the order of these, which
// do not overlap and of which each has a P below the given one, but for the closest, which is
// always among them. Of n stops of a stretch, c lie in a share of its
// feeds in which e are expected: the cluster is the closer, the larger the logarithm of the
// likelihood ratio c ln(c/e) + (n − c) ln((n − c)/(n − e)). P is by stops dealt out at random
// under the seed, 1999 times or a number that is no wait, against the closest of all stretches
// each time: for the second cluster and those after it, it is rather too large.
//
// Gaps must be as for [Pattern]. Source: Kulldorff, Communications in Statistics: Theory
// and Methods 26 (1997) 1481–1496 (from memory).
func Clusters(stretches []Stretch, below float64, seed uint64) []Cluster {
	var rows series
	var found []candidate
	stops := 0
	for i, s := range stretches {
		r := newRow(s)
		stops += len(r.at)
		rows = append(rows, r)
		r.close(func(c candidate) {
			c.Stretch = i
			found = append(found, c)
		})
	}
	if len(found) == 0 {
		return nil
	}
	slices.SortStableFunc(found, func(a, b candidate) int { return cmp.Compare(b.closeness, a.closeness) })
	found = apart(found, candidate.overlaps)
	stream := sim.NewStream("fit", "clusters")
	stream.Seed(seed, 0)
	closer := make([]int, len(found))
	draws := scanDraws(mostCluster, stops)
	within := make([][]spans, len(found))
	for k := range found {
		for _, r := range rows {
			within[k] = append(within[k], r.spansOf(found[k].closeness))
		}
	}
	done := 0
	for i := range draws {
		for _, r := range rows {
			scatter(r.at, r.feeds, r.times, stream)
		}
		for k := len(found) - 1; k >= 0 && rows.anyWithin(within[k]); k-- { // the closest is the first
			closer[k]++
		}
		if done = i + 1; scanSettled(closer[0], done, below) {
			break
		}
	}
	var clusters []Cluster
	for i, c := range found {
		if c.P = scanP(closer[i], done); c.P < below || i == 0 {
			clusters = append(clusters, c.Cluster)
		}
	}
	slices.SortFunc(clusters, func(a, b Cluster) int {
		return cmp.Or(cmp.Compare(a.Stretch, b.Stretch), cmp.Compare(a.First, b.First))
	})
	return clusters
}

// scanDraws returns in how many draws clusters are looked for, of so many stops, that take in so much at most.
func scanDraws(most, stops int) int { return min(1999, max(499, 80_000_000/most/stops)) }

// scanSettled reports whether draws enough had a closer cluster: more would not bring its P below what is wanted.
func scanSettled(closer, done int, below float64) bool {
	return closer >= closerEnough && float64(closer) >= below*float64(done)
}

// scanP returns the P of a cluster to which some of the draws had a closer one.
func scanP(closer, done int) float64 { return float64(closer+1) / float64(done+1) }

// candidate is stops that may be a cluster.
type candidate struct {
	Cluster
	closeness float64
}

// overlaps reports whether two candidates have stops in common.
func (c candidate) overlaps(o candidate) bool {
	return o.Stretch == c.Stretch && o.First <= c.Last && c.First <= o.Last
}

// apart returns the first of some candidates that do not overlap, up to a number.
func apart[C any](all []C, overlap func(a, b C) bool) (some []C) {
	for _, c := range all {
		if len(some) == mostClusters {
			break
		}
		if !slices.ContainsFunc(some, func(o C) bool { return overlap(o, c) }) {
			some = append(some, c)
		}
	}
	return some
}

// close calls use with the closest run of stops that begins at each stop, where one is close.
func (r *row) close(use func(candidate)) {
	for i := range r.at {
		var best candidate
		for c := leastCluster; c <= r.largest() && i+c <= len(r.at); c++ {
			if e, closeness := r.closeness(c, r.at[i+c-1]-r.at[i]+1); closeness > best.closeness {
				best = candidate{Cluster{First: i, Last: i + c - 1, Expected: e}, closeness}
			}
		}
		if best.closeness > 0 {
			use(best)
		}
	}
}

// largest returns how many stops a cluster has at most: not all.
func (r *row) largest() int { return min(mostCluster, len(r.at)-1) }

// closeness returns how many stops are expected in some feeds, and how close together a number of
// stops lie that has come in them; 0 if it is no cluster.
func (r *row) closeness(stops int, feeds int64) (expected, closeness float64) {
	n, c := float64(len(r.at)), float64(stops)
	e := float64(n / float64(r.feeds) * float64(feeds))
	if c < 2*e {
		return e, 0
	}
	return e, float64(c*portable.Log(c/e)) + float64((n-c)*portable.Log((n-c)/(n-e)))
}

// spans says of each number of stops within how many feeds they lie as close together as a cluster
// that was found; of more stops these are more feeds.
type spans struct {
	most  [mostCluster + 1]int64
	fewer [256]int // of feeds in steps of a power of 2: fewer stops than these do not lie so close
	step  int      // the exponent
}

func (r *row) spansOf(closeness float64) (s spans) {
	for c := leastCluster; c <= r.largest(); c++ {
		s.most[c] = int64(sort.Search(int(r.feeds), func(feeds int) bool {
			_, its := r.closeness(c, int64(feeds)+1)
			return its < closeness
		}))
	}
	largest := max(leastCluster, r.largest())
	s.step = max(0, bits.Len64(uint64(s.most[largest]))-8)
	c := leastCluster
	for k := range s.fewer {
		for c <= largest && s.most[c] < int64(k)<<s.step {
			c++
		}
		s.fewer[k] = c
	}
	return s
}

// anyWithin reports whether any stops lie as close together as the spans of their stretches say.
func (all series) anyWithin(most []spans) bool {
	for k, r := range all {
		if r.anyWithin(&most[k]) {
			return true
		}
	}
	return false
}

func (r *row) anyWithin(s *spans) bool {
	largest := r.largest()
	for i := range r.at {
		for c := leastCluster; c <= largest && i+c <= len(r.at); {
			feeds := r.at[i+c-1] - r.at[i] + 1
			if feeds <= s.most[c] {
				return true
			}
			k := feeds >> s.step
			if k >= int64(len(s.fewer)) {
				break
			}
			c = max(c+1, s.fewer[k]) // more stops do not lie in fewer feeds
		}
	}
	return false
}
