package model

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim"
)

// searchLines are small enough to look at every strategy: a hundred to some thousands.
func searchLines() map[string]*Line {
	rates := func(f *Feeder, misfeed, double, caught float64) {
		f.Misfeed, f.Double, f.Caught, f.Noticed, f.FalseCalls = misfeed, double, caught, 0.999, double/5
	}
	plain := referenceLine()
	plain.Stations = slices.Delete(plain.Stations, 3, 6)
	for n, f := range stationsOf[*Feeder](plain) {
		rates(f, 0.0004*float64(n+1), 0.0003, 0.95+0.02*float64(n))
	}
	return map[string]*Line{
		"three feeders": plain,
		"two streams and two readers": lanesLine(func(l *Line, a, b *Feeder, r *Reader) {
			rates(a, 0.001, 0.0002, 0.98)
			rates(b, 0.0002, 0.0005, 0.9)
			r.NoRead, r.OnNoRead, r.FalseAlarm = 0.002, Ship, 0.0001
			late := &Reader{Place: Place{Name: "late", At: 7}, Reads: "cards", Match: "letters", NoRead: 0.01, OnMismatch: Stop, Clear: sim.Constant(12)}
			l.Stations = slices.Insert(slices.Delete(l.Stations, 2, 3), 5, Station(late))
		}),
		"one stream that may be shipped": lanesLine(func(l *Line, a, b *Feeder, r *Reader) {
			rates(a, 0.001, 0.0002, 0.98)
			rates(b, 0.0002, 0.0005, 0.9)
			b.Stream = Stream{}
			r.Sequence, r.Presence, r.NoRead = false, true, 0.1
			l.Stations = slices.Delete(l.Stations, 2, 3)
		}),
	}
}

// everyStrategy returns all strategies of a line on paper.
func everyStrategy(l *Line) []Candidate {
	all := []Strategy{nil}
	for _, d := range l.Decisions() {
		var longer []Strategy
		for _, s := range all {
			for _, r := range d.Responses {
				longer = append(longer, append(slices.Clone(s), r))
			}
		}
		all = longer
	}
	found := make([]Candidate, len(all))
	for n, s := range all {
		found[n] = l.AsItStands().onPaper(l.Decisions(), s)
	}
	return found
}

// missing returns the first strategy to which none of those kept is as good in everything,
// but for a share of each figure.
func missing(all, kept []Candidate, share float64) string {
	for _, c := range all {
		asGood := slices.ContainsFunc(kept, func(k Candidate) bool {
			return k.NetRate >= c.NetRate*(1-share) && k.twice >= c.twice*(1-share) &&
				k.Defective <= c.Defective*(1+share) && k.Remakes <= c.Remakes*(1+share)
		})
		if !asGood {
			return fmt.Sprint(c)
		}
	}
	return ""
}

// What the search drops must be no loss: every strategy there is has one among those kept
// that is as good in net rate, with stops as long and twice as long, in defective sets and in
// remakes, within a part in a hundred: the slack, a part in ten thousand or the double of
// it for each station, and what the order of the stations changes.
func TestSearchDropsNothingGood(t *testing.T) {
	oneGoroutine(t)
	const share = 0.01
	for name, l := range searchLines() {
		t.Run(name, func(t *testing.T) {
			require.Empty(t, l.Check())
			all := everyStrategy(l)
			slack := leastSlack
			var kept []Candidate
			for _, s := range l.AsItStands().undominated(l.Decisions(), l.Strategy(), &slack) {
				kept = append(kept, l.AsItStands().onPaper(l.Decisions(), s))
			}
			assert.Empty(t, missing(all, kept, share))
			assert.Less(t, len(kept), len(all)/3, "nothing was dropped")
			best, _ := bestWithin(kept, 1)
			worse := slices.DeleteFunc(slices.Clone(kept), func(c Candidate) bool {
				return c.NetRate > kept[best].NetRate*(1-2*share)
			})
			assert.NotEmpty(t, missing(all, worse, share), "without the best ones nothing is missing: this test cannot fail")
		})
	}
}

// The best within a limit is the best of all strategies within it.
func TestSearchFindsTheBest(t *testing.T) {
	oneGoroutine(t)
	for name, l := range searchLines() {
		all := everyStrategy(l)
		for _, limit := range []float64{2e-6, 2e-5, 1e-4, 1e-3, 1} {
			t.Run(fmt.Sprint(name, " within ", limit), func(t *testing.T) {
				best, _ := bestWithin(all, limit)
				s := l.SearchStrategies(nil, limit, 0)
				assert.Equal(t, float64(len(all)), s.Considered)
				assert.LessOrEqual(t, len(s.Candidates), 24)
				assert.LessOrEqual(t, s.Near, s.Undominated)
				assert.Equal(t, l.Strategy(), s.Candidates[s.Own].Strategy)
				if all[best].Defective > limit {
					assert.Equal(t, -1, s.Best)
					assert.True(t, slices.ContainsFunc(s.Candidates, func(c Candidate) bool {
						return c.Defective <= all[best].Defective*1.001
					}), "the one with the fewest defective is not a candidate")
					return
				}
				require.GreaterOrEqual(t, s.Best, 0)
				c := s.Candidates[s.Best]
				assert.LessOrEqual(t, c.Defective, limit)
				assert.InEpsilon(t, all[best].NetRate, c.NetRate, 0.001)
			})
		}
	}
}

// A line of six feeders has 4¹² strategies, and two for the flap: too many to look at each.
func TestSearchOfManyStrategies(t *testing.T) {
	l := referenceLine()
	for n, f := range stationsOf[*Feeder](l) {
		f.Caught, f.Noticed, f.FalseCalls = 0.99, 0.999, 1e-5*float64(n)
		f.Misfeed *= 1 + float64(n)/5
	}
	s := l.SearchStrategies(nil, 1e-5, 10)
	assert.Equal(t, float64(1<<25), s.Considered)
	assert.LessOrEqual(t, len(s.Candidates), 10)
	assert.LessOrEqual(t, s.Slack, 0.01)
	assert.True(t, slices.IsSortedFunc(s.Candidates, func(a, b Candidate) int {
		return int(b.NetRate - a.NetRate)
	}))
	again := l.SearchStrategies(nil, 1e-5, 10)
	assert.Equal(t, s, again)
	assert.Panics(t, func() { l.SearchStrategies(nil, -1, 0) })
}

func TestBehindFrontiers(t *testing.T) {
	of := func(rate, defective float64) Candidate {
		return Candidate{NetRate: rate, twice: rate, Defective: defective, Remakes: defective}
	}
	behind := behindFrontiers([]Candidate{of(100, 1e-6), of(110, 3e-6), of(99, 2e-6), of(110, 4e-6), of(55, 3e-6), of(90, 0.999e-6)})
	assert.InDeltaSlice(t, []float64{0, 0, 0.01, 0, 0.5, 0.1}, behind, 1e-12, "the last one's defective sets are the same as the first one's, within 1 %")
}

func TestSpread(t *testing.T) {
	list := []int{1, 2, 3, 4, 5, 6, 7}
	assert.Equal(t, []int{1, 4, 7}, spread(list, 3))
	assert.Equal(t, []int{1}, spread(list, 1))
	assert.Equal(t, list, spread(list, 9))
	assert.Empty(t, spread(list, 0))
}
