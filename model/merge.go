package model

import (
	"cmp"
	"slices"
)

// Putting strategies together station after station, and dropping on the way what another is
// no worse than in everything.

// price is what answers cost on paper: stop seconds in each cycle and, as logarithms of what
// is left, sets not delivered good, sets delivered defective, and remakes. Prices add up.
//
// Of several jobs each counts by its share of the envelopes and, in sets not delivered good, by the
// time that a set takes there. That is what the answers cost of the mix but for products of two
// faults, as long as few sets are lost.
type price [4]float64

// within reports whether a price is no higher than another, or higher by no more than a share
// of it, in everything.
func (p price) within(q price, slack float64) bool {
	for k := range p {
		if !(p[k] <= q[k]*(1+slack)) {
			return false
		}
	}
	return true
}

// partial is a strategy up to some station.
type partial struct {
	price   price
	changes int // answers that differ from the line's own
	from    *partial
	answers []Response // to the decisions of the last part
}

// undominated returns the strategies of some decisions that are worth a look: no other is
// within slack of them in everything. It raises the slack where too many would be left.
func (a *AtJobs) undominated(among []Decision, own Strategy, slack *float64) []Strategy {
	parts := a.parts(among)
	kept := []*partial{{}}
	for _, part := range parts {
		options := a.options(among, own, part, slack)
		longer := make([]*partial, 0, len(kept)*len(options))
		for _, p := range kept {
			for _, o := range options {
				q := partial{price: p.price, changes: p.changes + o.changes, from: p, answers: o.answers}
				for k := range q.price {
					q.price[k] += o.price[k]
				}
				longer = append(longer, &q)
			}
		}
		kept = dropDominated(longer, slack)
	}
	strategies := make([]Strategy, len(kept))
	for n, p := range kept {
		strategies[n] = slices.Clone(own)
		for _, part := range slices.Backward(parts) {
			for j, decision := range part {
				strategies[n][decision] = p.answers[j]
			}
			p = p.from
		}
	}
	return strategies
}

// dropDominated drops every partial that another one is within slack of, and doubles the
// slack until no more than a crowd are left. Of two with the same price the one with fewer
// changes stays. It sorts the list.
func dropDominated(all []*partial, slack *float64) []*partial {
	slices.SortStableFunc(all, func(a, b *partial) int {
		return cmp.Or(slices.Compare(a.price[:], b.price[:]), cmp.Compare(a.changes, b.changes))
	})
	var kept []*partial
	for ; ; *slack *= 2 {
		kept = kept[:0]
		for _, p := range all {
			if !slices.ContainsFunc(kept, func(q *partial) bool { return q.price.within(p.price, *slack) }) {
				kept = append(kept, p)
			}
			if len(kept) > crowd {
				break
			}
		}
		if len(kept) <= crowd {
			return kept
		}
	}
}

// parts returns the numbers of the decisions, those together whose prices depend on one another:
// those of one station and, as the first reader's alarm ends what another would have found,
// those of all readers. Where these are too many to be looked at jointly each station is taken
// by itself, the others answering as they do in the line.
func (a *AtJobs) parts(decisions []Decision) [][]int {
	together := 1
	for _, d := range decisions {
		if a.seen(d.Station) {
			together = min(together*len(d.Responses), jointly+1)
		}
	}
	var parts [][]int
	readers, station := -1, -1 // the part of the readers; the station of the last part
	for k, d := range decisions {
		joint := a.seen(d.Station) && together <= jointly
		switch {
		case joint && readers >= 0:
			parts[readers] = append(parts[readers], k)
			continue
		case joint:
			readers = len(parts)
		case d.Station == station:
			parts[len(parts)-1] = append(parts[len(parts)-1], k)
			continue
		}
		parts = append(parts, []int{k})
		station = d.Station
	}
	return parts
}

// options returns all answers to the decisions of a part, the dominated ones left out.
func (a *AtJobs) options(decisions []Decision, own Strategy, part []int, slack *float64) []*partial {
	all := []*partial{{}}
	for _, k := range part {
		var longer []*partial
		for _, p := range all {
			for _, r := range decisions[k].Responses {
				q := &partial{changes: p.changes, answers: append(slices.Clone(p.answers), r)}
				if r != own[k] {
					q.changes++
				}
				longer = append(longer, q)
			}
		}
		all = longer
	}
	for _, p := range all {
		s := slices.Clone(own)
		for j, k := range part {
			s[k] = p.answers[j]
		}
		p.price = a.priceOf(decisions, s, part)
	}
	return dropDominated(all, slack)
}

// priceOf returns what the answers of a strategy to the decisions of a part cost.
func (a *AtJobs) priceOf(decisions []Decision, s Strategy, part []int) price {
	var sum price
	for j, l := range a.answering(decisions, s) {
		share, slower := a.Shares[j], a.Jobs[0].RunSpeed()/l.RunSpeed()
		last := -1
		for _, k := range part {
			if i := a.at(j, decisions[k].Station); i != last && i >= 0 {
				t := l.term(i)
				sum[0] += float64(share * t.Stops * float64(t.Down))
				sum[1] -= float64(share * slower * logLeft(t.Lost+t.Flawed, 1))
				sum[2] -= float64(share * logLeft(t.Flawed, 1-t.Lost))
				sum[3] -= float64(share * logLeft(t.Remakes, 1))
				last = i
			}
		}
	}
	return sum
}

// seen reports whether at any job the price of a station's answers depends on what readers do.
func (a *AtJobs) seen(station int) bool {
	for j, l := range a.Jobs {
		if i := a.at(j, station); i >= 0 && l.seen(i) {
			return true
		}
	}
	return false
}

// seen reports whether the price of a station's answers depends on what readers do: it is one
// itself, or may let go what a reader then sees: by shipping it, or by an operator who errs.
func (l *Line) seen(i int) bool {
	return l.is(i, Reads) || StreamOf(l.Stations[i]).Name != "" && (!l.Matched(i) || l.Crew.WrongRepair > 0)
}
