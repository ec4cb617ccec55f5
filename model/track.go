package model

import (
	"math"

	"netrate/sim"
)

// track knows where every set is. Of the sets that are like all others it keeps nothing:
// in cycle c they are where the station x pitches on handles set c-x. Only the odd ones
// are kept one by one.
type track struct {
	at   []sim.Cycles // pitch of each station, from the first
	end  sim.Cycles   // pitch of the delivery
	odds []odd        // on the track, or left it through a gate or a jam; in no order
	seen uint64       // the last six bits of their numbers, a bit for each: most sets that are asked for are not odd
	// skips counts, for each station, the odd sets that it will not handle, those that
	// have not reached it yet included, but for those that lack the attribute it is only for.
	skips   tally
	hoppers []hopper // nil for stations without one, and for those that feed every set
	feeding uint64   // the stations with a hopper, a bit each
	every   uint64   // those of them that feed every set they handle
	gates   []Fate   // what becomes of a set that leaves at each station
	pieces  [][Fates]int64
	runs    [Fates][maxStations]int64 // sets that got one piece at every feeding station up to this one; to be added to pieces
	sets    [Fates]int64
	removed []int64 // sets that left at each station, but for the ordinary ones delivered

	last     sim.Cycles // number of the last set
	lanes    lanes
	inserter int
	losses   [][faults]int64 // sets lost, by the station and the fault that they were lost to
	remakes  [][faults]int64
	defects  [][faults]int64 // those of the losses that were delivered
	run      defectiveRun
	taken    []int64 // pieces taken out of each lane for pockets that were empty

	attributes []*holders // those that some station is only for
	s          *Sim       // whose observer hears of it
}

// odd is a set unlike the others: condemned, defective or spoiled, or with something of
// another set in it.
type odd struct {
	set    sim.Cycles      // its number
	gate   int             // where it leaves: a gate if it is condemned, where it was spoiled, else the delivery
	skip   uint64          // the stations that will not handle it, though it has what they are for, a bit each
	lacks  uint64          // the stations that are only for an attribute it does not have
	noted  uint64          // the stations of which it is noted how many pieces they fed
	owed   uint64          // the lanes that take out a piece for it yet, a bit for each station
	gone   bool            // it has left the track and its pocket is empty
	flawed bool            // a piece is missing or too many that is not a lane's
	mixed  uint8           // the lanes whose documents have sheets missing or too many, a bit each
	off    [maxLanes]int32 // by how much each lane was out of step when it fed this set
	fate   Fate            // once it is gone
	blame  int             // the station it was lost to, or -1
	fault  Fault           // what was wrong there
	alien  uint64          // the stations that fed it of a wrong stock, a bit each
	pieces [maxStations]int8
}

// hopper is a station that puts pieces in some sets only.
type hopper interface {
	// holdsSet returns how many pieces an ordinary set that has passed got here: 0 or 1.
	holdsSet(set sim.Cycles) int8
}

func newTrack(s *Sim) track {
	l := s.line
	n := len(l.Stations)
	t := track{
		s:     s,
		skips: newTally(n), hoppers: make([]hopper, n), gates: make([]Fate, n),
		pieces: make([][Fates]int64, n), removed: make([]int64, n),
		losses: make([][faults]int64, n), remakes: make([][faults]int64, n), taken: make([]int64, n),
		defects: make([][faults]int64, n), run: defectiveRun{begun: make([][faults]int64, n)},
		lanes: lanesOnTrack(l), inserter: l.First(Inserts),
	}
	for i, s := range l.Stations {
		t.at = append(t.at, sim.Cycles(s.Where().At-l.Stations[0].Where().At))
		switch s.Kind().Role {
		case Diverts:
			t.gates[i] = Diverted
		case Outsorts:
			t.gates[i] = Outsorted
		case Works, Reads, Gathers, Envelopes, Inserts, Delivers: // defective, if it ends there
		}
	}
	t.end = t.at[n-1]
	t.attributes = newHolders(s, t.end)
	t.lanes.choose(&t)
	return t
}

func (t *track) begin() {
	t.odds, t.seen = t.odds[:0], 0
	t.skips.begin()
	clear(t.pieces)
	clear(t.removed)
	for f := range t.runs {
		clear(t.runs[f][:len(t.at)])
	}
	clear(t.losses)
	clear(t.remakes)
	clear(t.taken)
	clear(t.defects)
	t.run.begin()
	for _, h := range t.attributes {
		h.begin()
	}
	t.sets = [Fates]int64{}
	if t.last == 0 {
		t.last = math.MaxInt64
	}
}

// feeds makes station i one that puts a piece in every set it handles or, if some is not
// nil, in those that some says.
func (t *track) feeds(i int, some hopper) {
	t.feeding |= 1 << i
	if t.hoppers[i] = some; some == nil {
		t.every |= 1 << i
	}
}

// upTo returns the stations up to station i.
func upTo(i int) uint64 { return 2<<(uint(i)%maxStations) - 1 }

// come returns the last set that has come to station i by the end of the given cycle; 0 or less for
// none.
func (t *track) come(i int, cycle sim.Cycles) sim.Cycles { return min(cycle-t.at[i], t.last) }

// done returns on how many sets station i has done its work by the end of the given cycle, where it is
// only for an attribute; nil for none.
func (t *track) done(i int, only *holders, cycle sim.Cycles) int64 {
	last := t.come(i, cycle)
	if last <= 0 {
		return 0
	}
	n := int64(last) - t.skips.of(i)
	for k := range t.odds {
		o := &t.odds[k]
		skip := int64(o.skip >> (uint(i) % maxStations) & 1)
		if o.set > last {
			n += skip // counted in skips, but still to come
		}
	}
	if only != nil {
		n -= only.lacking(last)
	}
	return n
}

// handled returns how many sets station i has handled by the end of the given cycle, or would have if
// it were for all sets.
func (t *track) handled(i int, cycle sim.Cycles) int64 { return t.done(i, nil, cycle) }

func (o *odd) skips(i int) bool { return o.passedOver()>>i&1 != 0 }

// passedOver returns the stations that will not handle the set, for whatever reason.
func (o *odd) passedOver() uint64 { return o.skip | o.lacks }

// holdsAny reports whether an odd set got anything at station k, if it has passed.
func (o *odd) holdsAny(k int) bool { return o.noted>>k&1 == 0 || o.pieces[k] > 0 }

// find returns the odd set of the given number, or nil if that set is like all others.
func (t *track) find(set sim.Cycles) *odd {
	if t.seen>>(set&63)&1 == 0 {
		return nil
	}
	for k := range t.odds {
		if t.odds[k].set == set {
			return &t.odds[k]
		}
	}
	return nil
}

// odd returns the record of a set, made if it was like all others. The record stays in
// its place until the next call.
func (t *track) odd(set, cycle sim.Cycles) *odd {
	if o := t.find(set); o != nil {
		return o
	}
	t.forget(cycle)
	return t.fresh(set)
}

// fresh returns a new record of a set. Where there was one before in its place, what its
// numbers of pieces were stays: nobody looks at those that are not noted.
func (t *track) fresh(set sim.Cycles) *odd {
	n := len(t.odds)
	if n == cap(t.odds) {
		t.odds = append(t.odds, odd{})
	}
	t.odds = t.odds[:n+1]
	o := &t.odds[n]
	t.seen |= 1 << (set & 63)
	o.set, o.gate, o.blame = set, len(t.at)-1, -1
	o.noted, o.owed, o.mixed, o.alien = 0, 0, 0, 0
	if o.skip, o.lacks = 0, 0; len(t.attributes) > 0 {
		o.lacks = t.lacks(set)
	}
	o.gone, o.flawed = false, false
	if len(t.lanes.stations) > 0 {
		o.off = [maxLanes]int32{}
	}
	return o
}

// passed returns the last station that a set on the line has come to by the end of the cycle.
func (t *track) passed(o *odd, cycle sim.Cycles) int {
	last := 0
	for last+1 < len(t.at) && o.set <= cycle-t.at[last+1] {
		last++
	}
	return last
}

// skip makes the stations of the mask pass the set over.
func (t *track) skip(o *odd, stations uint64) {
	added := stations &^ o.passedOver()
	o.skip |= added
	t.skips.add(added)
	t.s.clocks.Track.PutOff(added, o.set+t.end) // so do their stocks fall a cycle later, if the set comes first
}

// passes reports whether station i handles the set: it is one, it is in its pocket, and
// the station has business with it. Whether it has the attribute that a feeder is only for is for that
// feeder to ask.
func (t *track) passes(set sim.Cycles, i int) bool {
	if set > t.last {
		return false
	}
	o := t.find(set)
	return o == nil || !o.skips(i) && o.gate >= i
}

// emptied reports whether the set had left before it came to station i.
func (t *track) emptied(set sim.Cycles, i int, cycle sim.Cycles) bool {
	o := t.find(set)
	return o != nil && o.gate < i && t.left(o, cycle)
}

// oldest returns the number of the first set of which one may still ask what it holds.
func (t *track) oldest(cycle sim.Cycles) sim.Cycles {
	first := cycle - t.end + 1
	for k := range t.odds {
		if o := &t.odds[k]; !o.gone {
			first = min(first, o.set)
		}
	}
	return first
}

// fed notes how many pieces station i put into the set.
func (o *odd) fed(i int, pieces int8) {
	o.noted |= 1 << i
	o.pieces[i] = pieces
}

// noted reports whether it is noted what station k put into the set.
func (t *track) noted(set sim.Cycles, k int) bool {
	o := t.find(set)
	return o != nil && o.noted>>k&1 != 0
}
