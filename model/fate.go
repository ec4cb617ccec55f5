package model

import (
	"math/bits"

	"netrate/sim"
)

// Fate is how a set ends.
type Fate int

// The fates of sets that are not delivered good.
const (
	Defective Fate = iota // delivered, but not as it should be
	Diverted              // taken off at a track gate
	Outsorted             // taken out at an exit gate
	Spoiled               // destroyed in a jam, or taken off by hand
	OnLine                // still on the line at the end
	Fates     = iota
	fine      = Fate(Fates) // delivered as it should be, though something was unlike the others
)

var fateNames = [Fates]string{"defective", "diverted", "outsorted", "spoiled", "on line"}

func (f Fate) String() string { return fateNames[f] }

// forget drops the odd sets that have passed the delivery. It books them all before it
// drops any: the count of sets handled, which booking may ask for, needs the whole list.
func (t *track) forget(cycle sim.Cycles) {
	gone, bad := cycle-t.end, t.run.length > 0
	for k := range t.odds {
		if o := &t.odds[k]; o.set <= gone {
			t.left(o, cycle)
			t.takeOut(o, cycle)
			bad = bad || o.fate == Defective
		}
	}
	if bad {
		t.run.follow(t.odds, gone)
	}
	n, seen := 0, uint64(0)
	for k := range t.odds {
		set := t.odds[k].set
		if set <= gone {
			continue
		}
		seen |= 1 << (set & 63)
		if n != k {
			t.odds[n] = t.odds[k]
		}
		n++
	}
	t.odds, t.seen = t.odds[:n], seen
}

// left reports whether an odd set has left the line by the end of the cycle. A set that
// left by itself, at a gate or at the delivery, is booked when this is first asked:
// nothing on the line depends on it before.
func (t *track) left(o *odd, cycle sim.Cycles) bool {
	if o.gone || o.set > cycle-t.at[o.gate] {
		return o.gone
	}
	t.removed[o.gate]++
	if f := t.gates[o.gate]; f != Defective || t.wrong(o) {
		t.leave(o, f, o.gate)
	} else {
		o.gone, o.fate = true, fine
	}
	return true
}

// wrong reports whether a set must not be delivered as it is.
func (t *track) wrong(o *odd) bool { return o.flawed || t.lanes.mask != 0 && t.lanes.differ(o) }

// condemned reports whether the set is to leave at a gate.
func (t *track) condemned(o *odd) bool { return o.gate != len(t.at)-1 }

// blames says what an odd set is lost to, if it is: the first fault that is named.
func (o *odd) blames(station int, f Fault) {
	if o.blame < 0 {
		o.blame, o.fault = station, f
	}
}

// takeOut books the pieces that lanes have taken out, by the end of the cycle, for a set
// that had left before it came to them.
func (t *track) takeOut(o *odd, cycle sim.Cycles) {
	for owed := o.owed; owed != 0; owed &= owed - 1 {
		k := bits.TrailingZeros64(owed)
		if o.set > cycle-t.at[k] {
			continue
		}
		o.owed &^= 1 << k
		t.pieces[k][o.fate]++
		t.taken[k]++
		if k == t.lanes.alone {
			t.remakes[o.blame][o.fault]++
			t.s.bench.comes(o.set+t.at[k], 1)
		}
		if t.s.observer != nil {
			t.s.tellTaken(o, k)
		}
	}
}

// good returns how many good sets have been delivered by the end of the cycle. It books
// nothing, so that asking changes nothing.
func (t *track) good(cycle sim.Cycles) int64 {
	last := len(t.at) - 1
	n := t.handled(last, cycle) - t.sets[Defective]
	for k := range t.odds {
		if o := &t.odds[k]; !o.gone && o.gate == last && o.set <= cycle-t.end && t.wrong(o) {
			n-- // delivered defective, not yet booked
		}
	}
	return n
}

// leave takes the set off the line at station i and books its pieces.
func (t *track) leave(o *odd, f Fate, i int) {
	if t.s.observer != nil {
		t.s.tellLeaves(o, f, i)
	}
	t.sets[f]++
	if len(t.attributes) > 0 {
		t.loses(o)
	}
	t.book(o, f, upTo(i))
	o.gone, o.gate, o.fate = true, i, f
	if o.owed = t.lanes.mask; o.owed != 0 {
		o.owed &^= upTo(i) | o.lacks
	}
	t.losses[o.blame][o.fault]++
	if f == Defective {
		t.defects[o.blame][o.fault]++
	}
	n := t.lanes.remakes(o, i)
	t.remakes[o.blame][o.fault] += n
	if b := t.s.bench; b != nil && f == t.gates[i] {
		b.comes(o.set+t.at[i], n)
	} else if b != nil {
		b.comesNow(t.s, n)
	}
}

// book books the pieces of an odd set that has passed the given stations.
func (t *track) book(o *odd, f Fate, passed uint64) {
	fed := t.feeding & passed &^ (o.passedOver() &^ o.noted)
	if fed == 0 {
		return
	}
	last := bits.Len64(fed) - 1
	t.runs[f][last]++ // one piece of each up to there, but for
	for others := t.feeding & upTo(last) &^ (fed & t.every &^ o.noted); others != 0; others &= others - 1 {
		k, n := bits.TrailingZeros64(others), int64(-1)
		switch {
		case o.noted&fed>>k&1 != 0:
			n += int64(o.pieces[k])
		case fed>>k&1 != 0:
			n += int64(t.hoppers[k].holdsSet(o.set))
		}
		t.pieces[k][f] += n
	}
}

// spoil destroys an odd set at station i, with what it holds.
func (t *track) spoil(o *odd, i int) {
	t.leave(o, Spoiled, i)
	t.skip(o, upTo(len(t.at)-1)&^upTo(i)&^t.lanes.mask)
}

// finish books the sets that are still on the line after the given cycle.
func (t *track) finish(cycle sim.Cycles) {
	t.forget(cycle)
	for set := max(1, cycle-t.end+1); set <= min(cycle, t.last); set++ {
		o := t.find(set)
		if o == nil {
			o = &odd{set: set, lacks: t.lacks(set)} // to be booked like the others
		} else if t.left(o, cycle) {
			t.takeOut(o, cycle)
			continue
		}
		t.sets[OnLine]++
		last := t.passed(o, cycle)
		if t.s.observer != nil {
			t.s.tellLeaves(o, OnLine, last)
		}
		t.book(o, OnLine, upTo(last))
	}
	for f := range t.runs {
		n := int64(0)
		for i := len(t.at) - 1; i >= 0; i-- {
			if n += t.runs[f][i]; t.feeding>>i&1 != 0 {
				t.pieces[i][f] += n
			}
		}
	}
}
