package model

import (
	"netrate/sim"
)

// before is what came before a shift that does not begin afresh. It is run as a shift is;
// then either its stocks alone are taken over, or all goes on and what it came to by then is
// taken off in the end.
type before struct {
	s        *Sim
	out      Outcome  // what it came to, if all goes on
	stocks   []int64  // what was left in each, if nothing else is taken over
	observer Observer // of the shift alone

	pieces  [][Fates]int64 // of the track, while it is looked at what is on it
	choices []selection    // of the feeders that feed only some sets, likewise
}

func newBefore(s *Sim) *before {
	return &before{
		s: s, out: Outcome{Stations: make([]StationOutcome, len(s.units))}, stocks: make([]int64, len(s.stocks)),
		pieces: make([][Fates]int64, len(s.units)), choices: make([]selection, len(s.choosers)),
	}
}

// opened returns when the shift began, by the shop clock.
func (s *Sim) opened() sim.Seconds {
	if s.line.Begins.Track {
		return s.line.Begins.Before
	}
	return 0
}

// open brings a shift to its beginning, and lets the line run.
func (s *Sim) open(seed uint64, replication int, out *Outcome) {
	s.begin(seed, replication, out)
	s.start()
	if b := s.before; b != nil {
		s.clocks.Run(s.line.Begins.Before)
		switch b.leaves(out); {
		case !s.line.Begins.Track:
			b.clearedAway(out)
			s.start()
		case s.roster != nil:
			s.roster.handsOver()
		}
	}
}

// begin lets nobody hear of what comes before the shift.
func (b *before) begin() {
	if b.s.observer != nil {
		b.observer, b.s.observer = b.s.observer, nil
	}
}

// leaves notes what is there at the handover. If all goes on, the shift has begun then.
func (b *before) leaves(out *Outcome) {
	if b.s.line.Begins.Track {
		b.goesOn(out)
		return
	}
	cycle := b.s.clocks.Cycle()
	for i, k := range b.s.stocks {
		if b.stocks[i] = k.left(cycle); b.stocks[i] <= 0 {
			b.stocks[i] = k.spec.Capacity
		}
	}
}

// clearedAway puts the line at the beginning of the shift, with its stocks as they were left.
func (b *before) clearedAway(out *Outcome) {
	s := b.s
	s.observer, b.observer = b.observer, nil
	s.clear(out)
	for i, k := range s.stocks {
		if k.spec.Capacity > 0 {
			k.beginWith(b.stocks[i])
		}
	}
	if s.observer != nil {
		s.tellLevels()
	}
}

// goesOn writes down what all came to by the handover, and changes nothing by that.
func (b *before) goesOn(out *Outcome) {
	s := b.s
	s.standstill.book()
	cycle := s.clocks.Cycle()
	s.track.settle(cycle)
	for _, f := range s.choosers {
		f.singleOut(cycle)
	}
	b.copyFrom(out)
	b.look(cycle)
	s.track.run.longest = 0
	s.out = out
	if b.observer != nil {
		from := s.clocks.Shop.Now()
		s.observer = func(e Event) {
			e.At, e.Until, e.Arrives = e.At-from, e.Until-from, e.Arrives-from
			b.observer(e)
		}
		s.tellBegins()
	}
}

// look has all that is on the line counted as such, and takes that back.
func (b *before) look(cycle sim.Cycles) {
	s, t := b.s, &b.s.track
	sets, runs := t.sets, t.runs
	copy(b.pieces, t.pieces)
	for i, f := range s.choosers {
		kept := append(b.choices[i].batches[:0], f.some.batches...)
		b.choices[i] = *f.some
		b.choices[i].batches = kept
	}
	s.out = &b.out
	t.finish(cycle)
	s.count(cycle)
	t.sets, t.runs = sets, runs
	copy(t.pieces, b.pieces)
	for i, f := range s.choosers {
		own := append(f.some.batches[:0], b.choices[i].batches...)
		*f.some = b.choices[i]
		f.some.batches = own
	}
}

// copyFrom takes over what was counted so far.
func (b *before) copyFrom(out *Outcome) {
	stations := b.out.Stations
	copy(stations, out.Stations)
	b.out = *out
	b.out.Stations = stations
}

// takeOff takes off from an outcome what came before the shift.
func (b *before) takeOff(o *Outcome) {
	s := b.s
	if !s.line.Begins.Track {
		return
	}
	if b.observer != nil {
		s.observer, b.observer = b.observer, nil
	}
	o.since(&b.out)
	o.Time.Shift = s.line.Shift
}

// settle books the sets that have left by the end of the cycle, and what was taken out for them.
func (t *track) settle(cycle sim.Cycles) {
	t.forget(cycle)
	for k := range t.odds {
		if o := &t.odds[k]; t.left(o, cycle) {
			t.takeOut(o, cycle)
		}
	}
}

// singleOut decides of every set on the line whether it was fed.
func (f *feeder) singleOut(cycle sim.Cycles) {
	t := &f.s.track
	f.settle(cycle)
	for set := cycle - f.at; set > max(0, cycle-t.end); set-- {
		if o := t.find(set); o == nil || !o.gone && !o.skips(f.index) && o.noted>>f.index&1 == 0 {
			f.some.singleOut(set)
		}
	}
}

// since takes off what was so at a moment before. What stood on the line then counts as started,
// and as loaded.
func (o *Outcome) since(a *Outcome) {
	o.Cycles -= a.Cycles
	o.Sets.Started -= a.Sets.Started - a.Sets.OnLine
	o.Sets.Good -= a.Sets.Good
	o.Sets.Defective -= a.Sets.Defective
	o.Sets.Diverted -= a.Sets.Diverted
	o.Sets.Outsorted -= a.Sets.Outsorted
	o.Sets.Spoiled -= a.Sets.Spoiled
	o.Time.Running -= a.Time.Running
	o.Time.Slow.since(a.Time.Slow)
	o.Time.Breaks -= a.Time.Breaks
	for i := range o.Stations {
		o.Stations[i].since(&a.Stations[i])
	}
}

func (o *StationOutcome) since(a *StationOutcome) {
	o.Attempts -= a.Attempts
	o.Missed -= a.Missed
	o.Unnoticed -= a.Unnoticed
	o.FalseCalls -= a.FalseCalls
	o.Removed -= a.Removed
	for f := range o.Faults {
		o.Faults[f] -= a.Faults[f]
		o.Lost[f] -= a.Lost[f]
		o.Remakes[f] -= a.Remakes[f]
		o.Defective[f] -= a.Defective[f]
		o.Runs[f] -= a.Runs[f]
	}
	o.Pieces.Loaded -= a.Pieces.Loaded - a.Pieces.OnLine - a.Pieces.Left
	o.Pieces.Good -= a.Pieces.Good
	o.Pieces.Defective -= a.Pieces.Defective
	o.Pieces.Diverted -= a.Pieces.Diverted
	o.Pieces.Outsorted -= a.Pieces.Outsorted
	o.Pieces.Spoiled -= a.Pieces.Spoiled
	for c := range o.Stops {
		o.Stops[c].since(a.Stops[c])
	}
	o.Repair.Add(less(a.Repair))
	o.Stock.Add(less(a.Stock))
	o.Clearing.Add(less(a.Clearing))
}

func (t *StopTotal) since(a StopTotal) {
	t.Count -= a.Count
	t.Waiting -= a.Waiting
	t.Working -= a.Working
	t.Restarting -= a.Restarting
	t.Starved -= a.Starved
}

// less returns an account that takes another off.
func less(a sim.Account) sim.Account {
	return sim.Account{Calls: -a.Calls, Done: -a.Done, Waiting: -a.Waiting, Walking: -a.Walking, Working: -a.Working}
}
