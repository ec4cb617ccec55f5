package model

import (
	"math/bits"
	"slices"

	"netrate/sim"
)

// lanes is what the track knows about the stations that carry streams.
type lanes struct {
	stations []int  // in order
	mask     uint64 // of them, a bit each
	channel  bool   // one of them is a document channel
	alone    int    // the only lane, a feeder, which is matched to nothing; else -1

	only []*holders // of each lane, of the attribute that it is only for; nil if all are for all sets
	base int        // a lane that is for all sets
}

func lanesOnTrack(l *Line) lanes {
	all := lanes{stations: l.Lanes(), channel: l.First(Gathers) >= 0, alone: -1}
	for _, i := range all.stations {
		all.mask |= 1 << i
	}
	if len(all.stations) == 1 && !all.channel {
		all.alone = all.stations[0]
	}
	return all
}

// choose notes which lanes are only for some sets.
func (all *lanes) choose(t *track) {
	for n, i := range all.stations {
		if h := t.only(i); h != nil {
			if all.only == nil {
				all.only = make([]*holders, len(all.stations))
			}
			all.only[n] = h
		}
	}
	if all.only != nil {
		all.base = slices.Index(all.only, nil)
	}
}

// person returns the set that the piece of a lane in an odd set is for.
func (all *lanes) person(o *odd, n int) sim.Cycles {
	d := sim.Cycles(o.off[n])
	if h := all.only[n]; h != nil && d != 0 {
		return h.nth(h.rank(o.set) + int64(d))
	}
	return o.set + d
}

// apart reports whether the pieces of two lanes in an odd set that is to have both are for different persons.
func (all *lanes) apart(o *odd, a, b int) bool {
	if all.only == nil || o.off[a] == 0 || o.off[b] == 0 {
		return o.off[a] != o.off[b]
	}
	return all.person(o, a) != all.person(o, b)
}

// differ reports whether the personalised pieces in a set are not one of each lane, all
// for the same person.
func (all *lanes) differ(o *odd) bool {
	if o.mixed != 0 {
		return true
	}
	for n, k := range all.stations {
		if o.lacks>>k&1 != 0 {
			continue
		}
		if !o.holdsOne(k) || all.apart(o, n, all.base) || all.channel && o.off[n] != 0 {
			return true
		}
	}
	return false
}

// remakes returns how many remakes a set is that left the line at station i, not good; a
// lane further on adds its own when it takes out its piece.
func (all *lanes) remakes(o *odd, i int) int64 {
	switch k := all.alone; {
	case len(all.stations) == 0 || k > i:
		return 0
	case k < 0 || o.noted>>k&1 == 0:
		return 1
	default:
		return int64(o.pieces[k])
	}
}

// holdsOne reports whether an odd set got just one piece at station k, if it has passed.
func (o *odd) holdsOne(k int) bool { return o.noted>>k&1 == 0 || o.pieces[k] == 1 }

// lane is a station in use that carries a stream: what is different there.
type lane struct {
	s *Sim
	Stream
	number  int // among the lanes
	station int
	at      sim.Cycles
	only    *holders // of the attribute that it is only for; nil if it is for all sets
	matched bool     // it can come out of step
	channel bool
	ways    [Ship]way
	work    sim.Duration  // of an operator who recovers it
	hand    *stop         // for that
	take    func(n int64) // takes pieces from the hopper, or puts them back if n < 0
	wrongly float64       // probability that it is realigned one short
	random  *sim.Stream   // of that

	d       int32 // how many pieces it is ahead
	rest    int32 // what of d stays when it has held as often as it should
	errors  int64 // of people who realigned it
	origin  Fault // by which it came out of step
	holding bool  // it has lost pieces for sets to come, and holds for them

	recovering   bool // in line
	response     Response
	began, ended sim.Cycles
	tries        int
}

// newLane returns the lane of station i.
func newLane(s *Sim, i int, spec Stream, work sim.Duration, own *Clearings, take func(n int64)) *lane {
	number := slices.Index(s.track.lanes.stations, i)
	l := &lane{
		s: s, Stream: spec, number: number, station: i, at: s.track.at[i],
		matched: s.line.Matched(i), channel: s.line.is(i, Gathers), ways: s.ways[i], take: take,
		work: work, hand: &stop{station: i},
		wrongly: s.line.Crew.WrongRealign, random: s.ifAny(s.line.Crew.WrongRealign, i, "wrong realigning"),
	}
	l.hand.task = s.timed(i, RealignLane, func() sim.Duration { return own.Of(l.hand.cause.clears(), work) }, func() { s.standstill.over(l.hand) })
	if s.track.lanes.only != nil {
		l.only = s.track.lanes.only[number]
	}
	s.lanes = append(s.lanes, l)
	return l
}

func (l *lane) begin() {
	l.d, l.holding, l.recovering, l.began, l.ended = 0, false, false, 0, -1
	l.rest, l.errors = 0, 0
}

// out reports whether every set has to be looked at one by one.
func (l *lane) out() bool { return l != nil && l.d != 0 }

// move notes by how many pieces the lane fed more than one.
func (l *lane) move(more int32, cycle sim.Cycles) {
	if !l.matched {
		return
	}
	if l.d == 0 && more != 0 {
		l.origin = Double
		if more < 0 {
			l.origin = Misfeed
		}
	}
	if l.d += more; l.d == 0 {
		l.over(cycle)
	} else if l.d == l.rest {
		l.holding = false
	}
}

// recover begins recovery in line.
func (l *lane) recover(r Response, cycle sim.Cycles) {
	if l.matched && !l.recovering {
		l.recovering, l.response, l.began, l.tries = true, r, cycle, 0
	}
}

// over ends a recovery in line, if there is one.
func (l *lane) over(cycle sim.Cycles) {
	l.holding = false
	if l.recovering {
		l.recovering, l.ended = false, cycle
	}
}

// underWay reports whether a recovery that began before this cycle was not over before it.
func (l *lane) underWay(cycle sim.Cycles) bool {
	return l.began < cycle && (l.recovering || l.ended == cycle)
}

// second reports whether a fault at this lane is a second one: another lane is in recovery.
func (l *lane) second(cycle sim.Cycles) bool {
	return l.matched && l.s.recovering(l, cycle)
}

// recovering reports whether a lane other than the given one is in recovery.
func (s *Sim) recovering(but *lane, cycle sim.Cycles) bool {
	for _, l := range s.lanes {
		if l != but && l.underWay(cycle) {
			return true
		}
	}
	return false
}

// wrong marks a set that is fed out of step, and tells the readers.
func (l *lane) wrong(set, cycle sim.Cycles) *odd {
	o := l.s.track.odd(set, cycle)
	o.off[l.number] = l.d
	o.blames(l.station, l.origin)
	l.s.suspect(set)
	return o
}

// wrongIn reports whether a set has a wrong piece of this lane, too many or none.
func (l *lane) wrongIn(o *odd) bool {
	return o.off[l.number] != 0 || o.mixed>>l.number&1 != 0 || !o.holdsOne(l.station)
}

// realign puts the lane in step by hand. The line stands.
func (l *lane) realign() {
	t, cycle := &l.s.track, l.s.clocks.Cycle()
	next := cycle - l.at + 1 // the set that is next to reach the lane
	found := int64(0)        // pieces for it and those after it
	for k := range t.odds {
		o := &t.odds[k]
		inTrack := o.set > cycle-t.at[t.inserter]
		switch {
		case o.set >= next || t.left(o, cycle):
		case t.condemned(o):
			if inTrack {
				found += l.takeBack(o, next)
			}
		case !l.wrongIn(o):
		case inTrack:
			found += l.takeBack(o, next)
			t.spoil(o, t.passed(o, cycle))
		default:
			l.s.condemn(o, l.station, l.s.ways[t.passed(o, cycle)][Outsort])
		}
	}
	short := l.isOneShort()
	l.rest = 0
	switch left := shortBy(l.d, short); {
	case l.channel || l.d == 0:
		l.d = left
	case l.d < 0:
		l.throwAway(left - l.d)
		l.d = left
	default:
		l.take(-found)
		l.throwAway(left)
		l.d += left - int32(found)
		l.rest = left
	}
	l.recovering, l.holding = false, !l.channel && l.d > l.rest
}

// takeBack takes the pieces for set next and later ones out of a set and returns how many.
func (l *lane) takeBack(o *odd, next sim.Cycles) int64 {
	if l.channel || l.d <= 0 || o.lacks>>l.station&1 != 0 {
		return 0
	}
	holds := int64(1)
	if o.noted>>l.station&1 != 0 {
		holds = int64(o.pieces[l.station])
	}
	first := l.place(o.set) + int64(o.off[l.number])
	back := min(max(first+holds-l.place(next-1)-1, 0), holds)
	if back > 0 {
		o.fed(l.station, int8(holds-back))
	}
	return back
}

// place returns the number of the last set up to the given one that is to have a piece of the lane,
// among those that are.
func (l *lane) place(set sim.Cycles) int64 {
	if l.only != nil {
		return l.only.rank(set)
	}
	return int64(set)
}

// realign realigns lanes, a bit each by their numbers.
func (s *Sim) realign(lanes uint8) {
	for ; lanes != 0; lanes &= lanes - 1 {
		s.lanes[bits.TrailingZeros8(lanes)].realign()
	}
}

// inRecovery returns the lanes in recovery, a bit each.
func (s *Sim) inRecovery() uint8 {
	mask := uint8(0)
	for _, l := range s.lanes {
		if l.recovering {
			mask |= 1 << l.number
		}
	}
	return mask
}
