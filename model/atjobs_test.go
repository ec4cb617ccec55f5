package model

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// without returns a copy of a line without some stations, as it is set up for a job that has no use
// for them.
func without(l *Line, names ...string) *Line {
	c := l.Clone()
	c.Stations = slices.DeleteFunc(c.Stations, func(s Station) bool { return slices.Contains(names, s.Where().Name) })
	return c
}

// twoJobs returns two streams and two readers at a job of all of them, which has 40 % of the
// envelopes, and at one without the cards, for which the line runs at half its speed. There are few
// strategies: there is no exit gate. The feeders fail as many times as often as given.
func twoJobs(often float64) *AtJobs {
	l := without(searchLines()["two streams and two readers"], "exit gate")
	for _, f := range stationsOf[*Feeder](l) {
		f.Misfeed, f.Double = often*f.Misfeed, often*f.Double
	}
	letters := without(l, "cards", "late")
	letters.Speed /= 2
	reader := stationsOf[*Reader](letters)[0]
	reader.Sequence, reader.Presence = false, true // there is nothing to match
	return &AtJobs{Line: l, Jobs: []*Line{l.Clone(), letters}, Shares: []float64{0.4, 0.6}}
}

// everyStrategy returns all strategies on paper.
func (a *AtJobs) everyStrategy() []Candidate {
	decisions, all := a.Decisions(), []Strategy{nil}
	for _, d := range decisions {
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
		found[n] = a.onPaper(decisions, s)
	}
	return found
}

// Eight of ten good envelopes are of a job at which nothing goes wrong, at 36,000 an hour. At the
// other, at half that speed, a fifth of the sets lacks the leaflet. Shipped, 14,400 an hour are good
// and a fifth of what is delivered is not: 0.8/36,000 + 0.2/14,400 hours for a good envelope, and for
// each one 0.2 × 1/4 defective. Diverted, there are none, and a set to be made again for every four
// good ones, of 0.8 + 0.2/0.8 = 1.05 sets started.
func TestAtJobsByHand(t *testing.T) {
	l := lanesLine(func(l *Line, _, _ *Feeder, _ *Reader) { l.Stations[2].(*Feeder).Misfeed = 0.2 })
	slow := l.Clone()
	slow.Speed = 18_000
	a := &AtJobs{Line: l, Jobs: []*Line{without(l, "leaflet"), slow}, Shares: []float64{0.8, 0.2}}
	for _, c := range []struct {
		response           Response
		defective, remakes float64
	}{{Ship, 0.05 / 1.05, 0.05 / 1.05}, {Divert, 0, 0.05 / 1.05}} {
		s := a.Strategy()
		leaflet := slices.IndexFunc(a.Decisions(), func(d Decision) bool { return d.Station == 2 && d.Fault == Misfeed })
		s[leaflet] = c.response
		got := a.onPaper(a.Decisions(), s)
		assert.InEpsilon(t, 1/(0.8/36_000+0.2/14_400), got.NetRate, 1e-9)
		assert.InDelta(t, c.defective, got.Defective, 1e-12)
		assert.InDelta(t, c.remakes, got.Remakes, 1e-12)
	}
}

// A strategy decides for what any job uses, and a response is possible where it is so at each of
// these; at a job the rest of it says nothing.
func TestAtJobsDecides(t *testing.T) {
	l := lanesLine(func(*Line, *Feeder, *Feeder, *Reader) {})
	plain := without(l, "reader", "cards")
	plain.Stations[0].(*Feeder).Stream = Stream{} // this job's letters are all alike: they may be shipped
	of := func(jobs ...*Line) *AtJobs {
		return &AtJobs{Line: l, Jobs: jobs, Shares: slices.Repeat([]float64{1 / float64(len(jobs))}, len(jobs))}
	}
	own := func(a *AtJobs, station int) (all []Response) {
		for _, d := range a.Decisions() {
			if d.Station == station && d.Fault == Misfeed {
				all = d.Responses
			}
		}
		return all
	}
	assert.Equal(t, []Response{Stop, Divert, Outsort, Ship}, own(of(plain), 0))
	assert.Equal(t, []Response{Stop, Divert, Outsort}, own(of(plain, l.Clone()), 0), "the other job's are personalised")
	assert.Empty(t, own(of(plain), 1), "no job uses it")
	assert.Len(t, own(of(plain, l.Clone()), 1), 3)

	a := of(plain, l.Clone())
	s := a.Strategy()
	for k := range s {
		s[k] = Divert
	}
	s[len(s)-1] = Outsort // of the flap
	assert.Equal(t, "all feeders: misfeed divert, double divert; reader: no read divert; inserter: flap outsort", a.StrategyWords(s, a.Strategy()))
	lines := a.Answering(s)
	assert.Equal(t, Strategy{Divert, Divert, Divert, Divert, Outsort}, lines[0].Strategy())
	assert.Equal(t, s, lines[1].Strategy())
	assert.Equal(t, l.Strategy(), a.Strategy(), "the line stays as it was")
}

// The guards hold for every job: what one job cannot read or match is not shipped.
func TestAtJobsGuards(t *testing.T) {
	l := searchLines()["one stream that may be shipped"]
	plain := without(l, "reader")
	a := &AtJobs{Line: l, Jobs: []*Line{plain, l.Clone()}, Shares: []float64{0.5, 0.5}}
	for _, d := range a.GuardedDecisions() {
		if d.Fault == NoRead || StreamOf(l.Stations[d.Station]).Name != "" {
			assert.NotContains(t, d.Responses, Ship)
		}
	}
	s := a.Strategy()
	require.False(t, a.ShipsUnread(s))
	k := slices.IndexFunc(a.Decisions(), func(d Decision) bool { return d.Fault == NoRead })
	s[k] = Ship
	assert.True(t, a.ShipsUnread(s))
	never := []Forbidden{{Mismatch, a.Jobs[1].Answer(slices.IndexFunc(l.Stations, func(s Station) bool { return s.Kind().Role == Reads }), Mismatch)}}
	assert.NotEmpty(t, a.Breach(never), "of the job that has the reader")
	assert.Empty(t, (&AtJobs{Line: l, Jobs: []*Line{plain}, Shares: []float64{1}}).Breach(never))
}

// The search at two jobs finds what a look at every one of their strategies finds, also where a set in
// twenty is lost.
func TestSearchAtJobs(t *testing.T) {
	oneGoroutine(t)
	for _, often := range []float64{1, 50} {
		a := twoJobs(often)
		require.Empty(t, a.Jobs[0].Check())
		require.Empty(t, a.Jobs[1].Check())
		all := a.everyStrategy()
		decisions, slack := a.Decisions(), leastSlack
		var kept []Candidate
		for _, s := range a.undominated(decisions, a.Strategy(), &slack) {
			kept = append(kept, a.onPaper(decisions, s))
		}
		assert.Empty(t, missing(all, kept, 0.01))
		assert.Less(t, len(kept), len(all)/3, "nothing was dropped")
		for _, limit := range []float64{2e-5, 1e-4, 1e-3, 1} {
			t.Run(fmt.Sprint(often, " times as often within ", limit), func(t *testing.T) {
				best, _ := bestWithin(all, limit)
				s := a.SearchStrategies(nil, limit, 0)
				assert.Equal(t, float64(len(all)), s.Considered)
				if all[best].Defective > limit {
					assert.Equal(t, -1, s.Best)
					return
				}
				require.GreaterOrEqual(t, s.Best, 0)
				assert.LessOrEqual(t, s.Candidates[s.Best].Defective, limit)
				assert.InEpsilon(t, all[best].NetRate, s.Candidates[s.Best].NetRate, 0.001)
			})
		}
	}
}

// A limit that the mix keeps and one of its jobs does not: the search is of the mix.
func TestSearchAtJobsIsOfTheMix(t *testing.T) {
	of := func(share float64) []Response {
		l := lanesLine(func(l *Line, _, _ *Feeder, _ *Reader) { l.Stations[2].(*Feeder).Misfeed = 0.01 })
		a := &AtJobs{Line: l, Jobs: []*Line{without(l, "leaflet"), l.Clone()}, Shares: []float64{1 - share, share}}
		gateless := Permitted(a.Decisions(), []Forbidden{{Misfeed, Divert}, {Misfeed, Outsort}})
		s := a.SearchStrategies(gateless, 0.002, 0)
		return s.Candidates[s.Best].Strategy
	}
	const leaflet = 4 // its misfeed
	assert.Equal(t, Ship, of(0.1)[leaflet], "one of a thousand envelopes lacks it")
	assert.Equal(t, Stop, of(0.9)[leaflet], "nine of a thousand would")
}

// Three jobs of six feeders have 2²⁵ strategies and are searched as a line at one work is.
func TestSearchAtManyJobs(t *testing.T) {
	l := referenceLine()
	for n, f := range stationsOf[*Feeder](l) {
		f.Caught, f.Noticed, f.FalseCalls = 0.99, 0.999, 1e-5*float64(n)
		f.Misfeed *= 1 + float64(n)/5
	}
	names := []string{l.Stations[0].Where().Name, l.Stations[3].Where().Name, l.Stations[5].Where().Name}
	a := &AtJobs{Line: l, Jobs: []*Line{l.Clone(), without(l, names[0], names[1]), without(l, names[2])}, Shares: []float64{0.2, 0.5, 0.3}}
	a.Jobs[1].Speed = 7000
	s := a.SearchStrategies(nil, 1e-5, 0)
	assert.Equal(t, float64(1<<25), s.Considered)
	assert.LessOrEqual(t, len(s.Candidates), 24)
	assert.LessOrEqual(t, s.Slack, 0.01)
}
