package model

import "netrate/sim"

// checkWrongStock notes what cannot be of a stock that may be the wrong one.
func (f *Feeder) checkWrongStock(l *Line, c *Checks) {
	w := f.WrongStock
	c.Probability(w.Chance, "wrong_stock.per_refill")
	c.Require(w.Chance == 0 || f.Stream.Name == "", "wrong_stock", "%s carries a stream: that its pieces are loaded in the wrong order is not built; a stream out of step is", f.Name)
	if w.FoundBy == "" {
		return
	}
	for i, s := range l.Stations {
		if r, ok := s.(*Reader); ok && r.Name == w.FoundBy {
			c.Require(i > c.At(), "wrong_stock.found_by", "%s stands before %s feeds what it is to see", r.Name, f.Name)
			return
		}
	}
	c.Require(false, "wrong_stock.found_by", "no reader is called %q", w.FoundBy)
}

// sees returns the feeders whose wrong stock the reader sees, a bit each.
func (r *Reader) sees(l *Line) (feeders uint64) {
	for i, s := range l.Stations {
		if f, ok := s.(*Feeder); ok && f.WrongStock.FoundBy == r.Name {
			feeders |= 1 << i
		}
	}
	return feeders
}

// mixup is what may be wrong with the stock of a feeder.
type mixup struct {
	f     *feeder
	wrong bool // the pieces in the hopper are the wrong ones
	stop  *stop
	late  *sim.Alarm // when an operator sees it, if he ever does
	seen  *sim.Slot  // the end of the cycle in which he does
	draws *sim.Stream
	times *sim.Stream
}

// newMixup returns what may be wrong with the stock of a feeder; nil if nothing ever is. It comes
// after the stock itself: of one cycle, that is what the crew sees to first.
func (f *feeder) newMixup() *mixup {
	s, spec := f.s, &f.WrongStock
	if !(spec.Chance > 0) {
		return nil
	}
	m := &mixup{f: f, stop: &stop{station: f.index}}
	work := f.Clearings.Of(WrongStock, f.Hopper.Work)
	m.stop.task = s.task(f.index, ChangeStock, work, m.change)
	m.late, m.seen = s.clocks.Shop.Timer(m.notice), s.clocks.Track.Timer(m.found)
	m.draws, m.times = s.stream(f.Name, "wrong stock"), s.stream(f.Name, "wrong stock found")
	f.stock.brought = m.brought
	return m
}

func (m *mixup) begin() {
	if m != nil {
		m.wrong = false
	}
}

// is reports whether the hopper holds the wrong pieces.
func (m *mixup) is() bool { return m != nil && m.wrong }

// brought is when an operator has brought pieces.
func (m *mixup) brought() {
	f, was := m.f, m.wrong
	m.late.Stop()
	m.seen.Stop()
	if m.wrong = m.draws.Chance(f.WrongStock.Chance); m.wrong {
		f.out.Faults[WrongStock]++
		f.s.observeFault(f.index, WrongStock, f.s.clocks.Cycle()-f.at+1, false)
		if after := f.WrongStock.FoundAfter; after != nil {
			m.late.Set(f.s.clocks.Shop.Now() + after.Draw(m.times))
		}
	}
	if was != m.wrong {
		f.restart()
	}
}

// notice is when an operator sees it, in the middle of a cycle.
func (m *mixup) notice() { m.seen.Set(m.f.s.clocks.Cycle() + 1) }

// found stops the line for it.
func (m *mixup) found() {
	if !m.stop.open {
		m.f.row = 0
		m.f.s.standstill.arise(m.stop, CauseWrongStock)
	}
}

// change is when an operator has done: the sets with wrong pieces are taken off, and the pieces
// in the hopper are changed.
func (m *mixup) change() {
	f := m.f
	t, cycle := &f.s.track, f.s.clocks.Cycle()
	for k := range t.odds {
		o := &t.odds[k]
		if o.alien>>f.index&1 == 0 || t.left(o, cycle) || t.condemned(o) {
			continue
		}
		if at := t.passed(o, cycle); o.set > cycle-t.at[t.inserter] {
			t.spoil(o, at)
		} else {
			f.s.condemn(o, f.index, f.s.ways[at][Outsort])
		}
	}
	if m.wrong {
		m.wrong = false
		m.late.Stop()
		m.seen.Stop()
		f.exchange(cycle)
		f.restart()
	}
	f.s.standstill.over(m.stop)
}

// exchange throws away what is in the hopper, and fills it.
func (f *feeder) exchange(cycle sim.Cycles) {
	left := f.stock.left(cycle)
	f.stock.extra += left
	if f.some != nil {
		f.some.used += left
	}
	f.s.track.pieces[f.index][Spoiled] += left
	f.s.observeNumber(PiecesDiscarded, f.index, left)
	f.stock.add(cycle, 0)
	f.rate.look()
}

// restart sets the timer for the next attempt out of the ordinary anew: now every one is, or is no
// longer.
func (f *feeder) restart() {
	f.next.Stop()
	f.await(max(f.s.clocks.Cycle(), f.at))
}

// feedWrong makes one attempt to feed one piece of the wrong stock.
func (f *feeder) feedWrong(kind feeding, set, cycle sim.Cycles) (pieces int8) {
	if kind != fedNothing {
		f.s.track.odd(set, cycle).blames(f.index, WrongStock)
	}
	if pieces = f.feedOne(kind, set, cycle); pieces > 0 {
		o := f.s.track.odd(set, cycle)
		o.fed(f.index, pieces)
		o.blames(f.index, WrongStock)
		o.flawed = true
		o.alien |= 1 << f.index
		f.s.suspect(set)
	}
	return pieces
}

// finds has the wrong stocks changed of which the reader sees pieces, a bit for each feeder.
func (r *reader) finds(feeders uint64) {
	for i, u := range r.s.units {
		if f, ok := u.(*feeder); ok && feeders>>i&1 != 0 {
			f.mixup.found()
		}
	}
}
