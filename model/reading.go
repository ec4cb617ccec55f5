package model

import "netrate/sim"

// seen is what one reading comes to.
type seen int

const (
	seesAll seen = iota
	seesNothing
	seesFalsely
)

// reader is a reader in use. It looks only at the sets that were drawn for something out
// of the ordinary, and at those that may be wrong.
type reader struct {
	*Reader
	s     *Sim
	index int
	at    sim.Cycles
	own   []*lane  // of the stream it reads
	other []*lane  // of the stream that it matches to that
	all   uint8    // both, a bit each
	only  *holders // of the attribute that the stream it reads is only for; nil if that is for all sets
	stock uint64   // the feeders whose wrong stock it sees, a bit each
	gap   sim.Gap  // sets from one reading out of the ordinary to the next
	next  *sim.Slot
	odd   *sim.Slot // when the next set is here that may be wrong
	gaps  *sim.Stream
	kinds *sim.Stream
	wrong *sim.Stream // whether it misreads
	human *mender     // who reads what it cannot
	fix   *stop       // for a no-read or a false alarm
	align *stop       // for an alarm

	reading bool // in this cycle
	sees    seen
	out     *StationOutcome // what is counted as it happens
}

// Install returns the reader in use.
func (r *Reader) Install(seat *Seat) Unit {
	s, index := seat.s, seat.index
	u := &reader{Reader: r, s: s, index: index, at: s.track.at[index], align: &stop{station: index}, stock: r.sees(s.line), only: s.track.only(index)}
	for _, l := range s.lanes {
		switch l.Name {
		case r.Reads:
			u.own = append(u.own, l)
		case r.Match:
			u.other = append(u.other, l)
		default:
			continue
		}
		u.all |= 1 << l.number
	}
	u.gap = sim.NewGap(r.NoRead + r.FalseAlarm)
	u.next = s.clocks.Track.Timer(u.drawn)
	u.odd = s.clocks.Track.Timer(func() { u.reading = true })
	u.gaps, u.kinds = s.stream(r.Name, "gaps"), s.stream(r.Name, "kinds")
	u.wrong, u.human = s.ifAny(r.Misread, index, "misread"), s.mender(index)
	u.fix = s.fixer(index, r.Clear, &r.Clearings)
	work := r.Clear
	if len(u.own) > 0 {
		work = u.own[0].work
	}
	u.align.task = s.task(index, RealignLane, r.Clearings.Of(Mismatch, work), func() { s.standstill.over(u.align) })
	s.readers = append(s.readers, u)
	return u
}

func (r *reader) Begin() {
	r.reading, r.sees, r.out = false, seesAll, &r.s.out.Stations[r.index]
	r.await(r.at)
}

// await sets the timer for the next reading out of the ordinary after the given cycle.
func (r *reader) await(cycle sim.Cycles) {
	if r.NoRead+r.FalseAlarm > 0 {
		r.next.Set(cycle + sim.Cycles(r.gap.Draw(r.gaps)))
	}
}

// drawn is a cycle that was drawn for a no-read or a false alarm.
func (r *reader) drawn() {
	r.reading, r.sees = true, seesFalsely
	if r.kinds.Uniform()*(r.NoRead+r.FalseAlarm) < r.NoRead {
		r.sees = seesNothing
	}
	r.await(r.s.clocks.Track.Now())
}

// expect makes the reader ready for a set that may be wrong.
func (r *reader) expect(set sim.Cycles) {
	cycle := set + r.at
	if at, waiting := r.odd.At(); cycle >= r.s.clocks.Track.Now() && (!waiting || cycle < at) {
		r.odd.Set(cycle)
	}
}

// read reads the set that is here, at the end of the cycle.
func (r *reader) read() {
	sees, cycle := r.sees, r.s.clocks.Track.Now()
	r.reading, r.sees = false, seesAll
	t, set := &r.s.track, cycle-r.at
	r.ahead(set)
	o := t.find(set)
	if !t.passes(set, r.index) || o != nil && t.condemned(o) || r.only != nil && !r.only.has(set) {
		return
	}
	wrong, alien := false, uint64(0)
	if o != nil {
		wrong, alien = r.shows(o), o.alien&r.stock
	}
	switch {
	case sees == seesNothing:
		r.nothing(set, cycle, wrong, alien)
	case (wrong || alien != 0) && r.misreads(set):
	case wrong:
		r.alarm(r.OnMismatch, cycle)
		r.finds(alien)
	case alien != 0:
		r.finds(alien)
	case sees == seesFalsely:
		r.falsely(set, cycle)
	}
}

// ahead makes the reader ready for the first set after the given one that may be wrong.
func (r *reader) ahead(set sim.Cycles) {
	for k := range r.s.track.odds {
		if o := &r.s.track.odds[k]; o.set > set && !o.gone {
			r.expect(o.set)
		}
	}
}

// shows reports whether the reader, if it can read the set, sees that something is wrong.
func (r *reader) shows(o *odd) bool {
	other := r.other
	if len(other) > 0 && o.lacks>>other[0].station&1 != 0 {
		other = r.own // there is nothing else to match
	}
	for _, l := range r.own {
		if (r.Presence || r.Sequence) && !o.holdsAny(l.station) || r.Sequence && o.off[l.number] != 0 {
			return true
		}
		for _, m := range other {
			apart := r.s.track.lanes.apart(o, l.number, m.number) || l != m && (l.channel || m.channel) && o.off[l.number] != 0
			if apart || !o.holdsAny(l.station) || !o.holdsAny(m.station) {
				return true
			}
		}
	}
	return false
}

// nothing is a no-read.
func (r *reader) nothing(set, cycle sim.Cycles, wrong bool, alien uint64) {
	r.out.Faults[NoRead]++
	r.s.observeFault(r.index, NoRead, set, true)
	switch {
	case r.OnNoRead == Ship:
	case r.OnNoRead == Stop && (wrong || alien != 0) && !r.human.errs(set):
		if wrong {
			r.alarm(Stop, cycle)
		}
		r.finds(alien)
	case r.OnNoRead == Stop:
		r.s.standstill.arise(r.fix, CauseNoRead)
	default:
		r.condemn(set, cycle, NoRead, r.OnNoRead)
	}
}

// falsely is a false alarm.
func (r *reader) falsely(set, cycle sim.Cycles) {
	r.out.Faults[FalseAlarm]++
	r.s.observeFault(r.index, FalseAlarm, set, true)
	if second := r.s.recovering(nil, cycle); r.OnMismatch == Stop || second {
		r.fix.second = second
		r.s.standstill.arise(r.fix, CauseFalseAlarm)
		return
	}
	r.condemn(set, cycle, FalseAlarm, r.OnMismatch)
}

// condemn condemns the set that is here, alone.
func (r *reader) condemn(set, cycle sim.Cycles, f Fault, response Response) {
	o := r.s.track.odd(set, cycle)
	o.blames(r.index, f)
	r.s.condemn(o, r.index, r.s.ways[r.index][response])
}

// alarm answers a mismatch.
func (r *reader) alarm(response Response, cycle sim.Cycles) {
	r.out.Faults[Mismatch]++
	r.s.observeFault(r.index, Mismatch, cycle-r.at, true)
	if response == Stop || r.s.recovering(nil, cycle) {
		r.align.lanes, r.align.second = r.all, true
		r.s.standstill.arise(r.align, CauseMismatch)
		return
	}
	t := &r.s.track
	for k := range t.odds {
		o := &t.odds[k]
		if t.left(o, cycle) || t.condemned(o) || !r.wrongIn(o) {
			continue
		}
		r.s.condemn(o, r.index, r.s.ways[r.passed(o, cycle)][response])
	}
	for _, l := range r.s.lanes {
		if r.all>>l.number&1 != 0 && l.d != 0 {
			l.recover(response, cycle)
		}
	}
}

// wrongIn reports whether a set has a wrong piece of a lane that is read or matched, too
// many or none.
func (r *reader) wrongIn(o *odd) bool {
	for _, l := range r.s.lanes {
		if r.all>>l.number&1 != 0 && l.wrongIn(o) {
			return true
		}
	}
	return false
}

// passed returns the last station that a set has passed when this reader reads: readers
// that stand at the same place as the set, and read after this one, have not.
func (r *reader) passed(o *odd, cycle sim.Cycles) int {
	t := &r.s.track
	i := t.passed(o, cycle)
	for ; i > r.index && t.at[i] == cycle-o.set; i-- {
		if _, ok := r.s.units[i].(*reader); !ok {
			break
		}
	}
	return i
}

func (r *reader) End(cycle sim.Cycles, out *StationOutcome) {
	out.Name = r.Name
	r.human.report(nil, out)
	out.Attempts = r.s.track.done(r.index, r.only, cycle)
	out.Clearing = r.fix.task.Account()
	out.Clearing.Add(r.align.task.Account())
}
