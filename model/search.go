package model

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// Candidate is a strategy with what it comes to on paper.
type Candidate struct {
	Strategy  Strategy
	NetRate   float64 // good envelopes an hour
	Defective float64 // share of the sets delivered
	Remakes   float64 // for each set

	twice float64 // net rate if every stop took twice as long
}

// Search is what is left of all strategies of a line once those are dropped that the sum on
// paper shows to be no good. What is left is to be simulated: paper knows nothing of waiting
// and of stops that overlap.
type Search struct {
	Candidates  []Candidate // the highest net rate first
	Own         int         // the line's own strategy, among them
	Best        int         // the highest net rate within the limit on defective sets; -1 if there is none
	Considered  float64     // how many strategies are allowed in all
	Undominated int         // of them no other is as good in everything, or they are as good as alike
	Near        int         // of these, within Margin of a frontier
	Slack       float64     // what is as good as alike: how far apart, as a share of each figure
}

// Margin is how far behind a frontier a strategy may be, as a share of the net rate, and
// still be a candidate.
const Margin = 0.02

const (
	usualMost   = 24   // candidates
	crowd       = 1500 // strategies kept from one station to the next
	jointly     = 4096 // strategies of all readers that are looked at together
	leastSlack  = 1e-4
	alike       = 1.01 // no difference in defective sets or remakes
	stopsLonger = 2    // a stop may take this many times as long as on paper
)

// SearchStrategies returns the strategies of the line that are worth a simulation, of those
// that the responses of among allow, which are the line's decisions or fewer responses to
// them; nil allows all. It returns no more than most of them, or than 24 if that is 0:
// those on the two frontiers, net rate against defective sets and net rate against remakes, and
// within 2 % of them; always the line's own strategy and the one with the highest net rate of
// those within maxDefective, a share of the sets delivered (or, if there is none, the one with
// the fewest defective). It panics unless maxDefective is 0 or more.
//
// There are far too many strategies to look at each: six feeders have 4¹². But what one
// station answers changes only its own part of the sum on paper. So they are put together
// station after station, and at each step a strategy is dropped if another is no worse in all
// of stop time, sets lost, defective sets and remakes. Whatever a stop really costs, a
// strategy so dropped is not the best. Where too many are left to go on with, those go that
// are as good as alike to another one.
//
// Near a frontier is what would be near it if every stop took as long as on paper, or twice
// as long: an operator who is wanted elsewhere makes it longer, nothing makes it shorter.
//
// Source: a sum of costs with more than one objective, and dropping what is dominated but for
// a share of each cost; Warburton, Operations Research 35 (1987) 70–79 (from memory).
func (l *Line) SearchStrategies(among []Decision, maxDefective float64, most int) Search {
	return l.AsItStands().SearchStrategies(among, maxDefective, most)
}

// SearchStrategies does the same of all jobs together: see [Line.SearchStrategies].
func (a *AtJobs) SearchStrategies(among []Decision, maxDefective float64, most int) Search {
	if !(maxDefective >= 0) {
		panic(fmt.Sprintf("model: a search within %v defective", maxDefective))
	}
	if most == 0 {
		most = usualMost
	}
	most = max(most, 3)
	if among == nil {
		among = a.Decisions()
	}
	s := Search{Considered: 1, Slack: leastSlack}
	for _, d := range among {
		s.Considered *= float64(len(d.Responses))
	}
	own := a.answers(among)
	found := []Candidate{a.onPaper(among, own)}
	for _, answers := range a.undominated(among, own, &s.Slack) {
		if !slices.Equal(answers, own) {
			found = append(found, a.onPaper(among, answers))
		}
	}
	s.Undominated = len(found)
	s.choose(found, maxDefective, most)
	return s
}

// choose chooses among the candidates found, the first of which is the line's own.
func (s *Search) choose(found []Candidate, maxDefective float64, most int) {
	behind := behindFrontiers(found)
	best, safe := bestWithin(found, maxDefective)
	order := make([]int, 0, len(found))
	for k := range found {
		if behind[k] <= Margin {
			s.Near++
		}
		if k != 0 && k != best && k != safe && behind[k] <= Margin {
			order = append(order, k)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Or(cmp.Compare(behind[a], behind[b]), cmp.Compare(found[b].NetRate, found[a].NetRate))
	})
	chosen := []int{0}
	for _, k := range []int{best, safe} {
		if !slices.Contains(chosen, k) && len(chosen) < most {
			chosen = append(chosen, k)
		}
	}
	frontier := 0
	for frontier < len(order) && behind[order[frontier]] == 0 {
		frontier++
	}
	room := max(0, most-len(chosen))
	chosen = append(chosen, spread(order[:frontier], room)...)
	if room > frontier {
		chosen = append(chosen, order[frontier:min(len(order), room)]...)
	}
	slices.SortStableFunc(chosen, func(a, b int) int { return cmp.Compare(found[b].NetRate, found[a].NetRate) })
	s.Own, s.Best = slices.Index(chosen, 0), slices.Index(chosen, best)
	for _, k := range chosen {
		s.Candidates = append(s.Candidates, found[k])
	}
	if !(found[best].Defective <= maxDefective) {
		s.Best = -1
	}
}

// spread returns at most n of a list, evenly spaced over it, the ends included.
func spread(list []int, n int) []int {
	if len(list) <= n {
		return list
	}
	var some []int
	for k := range n {
		some = append(some, list[k*(len(list)-1)/max(1, n-1)])
	}
	return some
}

// bestWithin returns the candidate with the highest net rate within the limit, and the one
// that has it if stops take twice as long; where none is within it, the one with the fewest
// defective.
func bestWithin(found []Candidate, maxDefective float64) (best, safe int) {
	better := func(a, b Candidate, rate func(Candidate) float64) bool {
		in, was := a.Defective <= maxDefective, b.Defective <= maxDefective
		switch {
		case in != was:
			return in
		case !in && a.Defective != b.Defective:
			return a.Defective < b.Defective
		}
		return rate(a) > rate(b)
	}
	for k, c := range found {
		if better(c, found[best], Candidate.onTime) {
			best = k
		}
		if better(c, found[safe], Candidate.slowly) {
			safe = k
		}
	}
	return best, safe
}

func (c Candidate) onTime() float64 { return c.NetRate }
func (c Candidate) slowly() float64 { return c.twice }

// behindFrontiers returns how far each candidate is behind the nearest frontier, as a share
// of the net rate: what the best of those that are no worse in defective sets, or in
// remakes, delivers more. A difference of 1 % in these is none.
func behindFrontiers(found []Candidate) []float64 {
	behind := slices.Repeat([]float64{math.Inf(1)}, len(found))
	for _, rate := range []func(Candidate) float64{Candidate.onTime, Candidate.slowly} {
		behindFrontier(found, behind, rate, func(c Candidate) float64 { return c.Defective })
		behindFrontier(found, behind, rate, func(c Candidate) float64 { return c.Remakes })
	}
	return behind
}

func behindFrontier(found []Candidate, behind []float64, rate, price func(Candidate) float64) {
	order := make([]int, len(found))
	for k := range order {
		order[k] = k
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(price(found[a]), price(found[b])) })
	best, next := 0.0, 0
	for _, k := range order {
		for next < len(order) && price(found[order[next]]) <= alike*price(found[k]) {
			best = max(best, rate(found[order[next]]))
			next++
		}
		behind[k] = min(behind[k], 1-rate(found[k])/best)
	}
}
