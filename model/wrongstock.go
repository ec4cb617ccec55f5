package model

import "netrate/sim"

// Mixup is how often the wrong pieces are brought to a hopper, and who finds them.
type Mixup struct {
	Chance     float64      // probability each time pieces are brought
	FoundBy    string       // the reader that sees them; "" for none
	FoundAfter sim.Duration // from when they were brought until an operator sees them; nil for never
}

// WrongStock adds the numbers of a mixup, with the time for changing a wrong stock.
func (v *Parameters) WrongStock(m *Mixup, own *Clearings) {
	v.Rate("wrong_stock.per_refill", &m.Chance)
	v.Duration("wrong_stock.found_after", &m.FoundAfter)
	v.Duration("wrong_stock.change", &own[WrongStock])
}

// loading is a station whose hopper may be filled with the wrong pieces.
type loading struct {
	*Mixup
	station Station
	hopper  *Stock
	own     *Clearings
}

func (f *Feeder) loading() *loading   { return &loading{&f.WrongStock, f, &f.Hopper, &f.Clearings} }
func (n *Inserter) loading() *loading { return &loading{&n.WrongStock, n, &n.Hopper, &n.Clearings} }

// loadingOf returns what may be wrong with the stock of a station; nil of a kind whose stock never is.
func loadingOf(s Station) *loading {
	if x, may := s.(interface{ loading() *loading }); may {
		return x.loading()
	}
	return nil
}

// check notes what cannot be of a stock that may be the wrong one.
func (x *loading) check(l *Line, c *Checks) {
	c.Probability(x.Chance, "wrong_stock.per_refill")
	if x.FoundBy == "" {
		return
	}
	for i, s := range l.Stations {
		if r, ok := s.(*Reader); ok && r.Name == x.FoundBy {
			c.Require(i > c.At(), "wrong_stock.found_by", "%s stands before %s feeds what it is to see", r.Name, x.station.Where().Name)
			return
		}
	}
	c.Require(false, "wrong_stock.found_by", "no reader is called %q", x.FoundBy)
}

// sees returns the stations whose wrong stock the reader sees, a bit each.
func (r *Reader) sees(l *Line) (stations uint64) {
	for i, s := range l.Stations {
		if x := loadingOf(s); x != nil && x.FoundBy == r.Name {
			stations |= 1 << i
		}
	}
	return stations
}

// mixup is what may be wrong with the stock of a station in use.
type mixup struct {
	*loading
	s     *Sim
	index int
	at    sim.Cycles
	unit  loaded
	stock *stock
	rate  *factor
	wrong bool // the pieces in the hopper are the wrong ones
	stop  *stop
	late  *sim.Alarm // when an operator sees it, if he ever does
	seen  *sim.Slot  // the end of the cycle in which he does
	draws *sim.Stream
	times *sim.Stream
}

// loaded is a station in use whose hopper may hold the wrong pieces.
type loaded interface {
	turns()           // from now on they are wrong, or right again
	discards(n int64) // so many were thrown away
	halts()           // the line stops for it, at the end of this cycle
}

// newMixup returns what may be wrong with the stock of a station; nil if nothing ever is. It comes
// after the stock itself: of one cycle, that is what the crew sees to first.
func newMixup(s *Sim, index int, stock *stock, rate *factor, unit loaded) *mixup {
	x := loadingOf(s.line.Stations[index])
	if !(x.Chance > 0) {
		return nil
	}
	m := &mixup{loading: x, s: s, index: index, at: s.track.at[index], unit: unit, stock: stock, rate: rate, stop: &stop{station: index}}
	m.stop.task = s.task(index, ChangeStock, x.own.Of(WrongStock, x.hopper.Work), m.change)
	m.late, m.seen = s.clocks.Shop.Timer(m.notice), s.clocks.Track.Timer(m.found)
	name := x.station.Where().Name
	m.draws, m.times = s.stream(name, "wrong stock"), s.stream(name, "wrong stock found")
	stock.brought = m.brought
	s.mixups[index] = m
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
	was := m.wrong
	m.late.Stop()
	m.seen.Stop()
	if m.wrong = m.draws.Chance(m.Chance); m.wrong {
		m.s.out.Stations[m.index].Faults[WrongStock]++
		m.s.observeFault(m.index, WrongStock, m.s.clocks.Cycle()-m.at+1, false)
		if after := m.FoundAfter; after != nil {
			m.late.Set(m.s.clocks.Shop.Now() + after.Draw(m.times))
		}
	}
	if was != m.wrong {
		m.unit.turns()
	}
}

// notice is when an operator sees it, in the middle of a cycle.
func (m *mixup) notice() { m.seen.Set(m.s.clocks.Cycle() + 1) }

// found stops the line for it.
func (m *mixup) found() {
	if !m.stop.open {
		m.unit.halts()
		m.s.standstill.arise(m.stop, CauseWrongStock)
	}
}

// change is when an operator has done: the sets with wrong pieces are taken off, and the pieces
// in the hopper are changed.
func (m *mixup) change() {
	t, cycle := &m.s.track, m.s.clocks.Cycle()
	for k := range t.odds {
		o := &t.odds[k]
		if o.alien>>m.index&1 == 0 || t.left(o, cycle) || t.condemned(o) {
			continue
		}
		if at := t.passed(o, cycle); o.set > cycle-t.at[t.inserter] {
			t.spoil(o, at)
		} else {
			m.s.condemn(o, m.index, m.s.ways[at][Outsort])
		}
	}
	if m.wrong {
		m.wrong = false
		m.late.Stop()
		m.seen.Stop()
		m.exchange(cycle)
		m.unit.turns()
	}
	m.s.standstill.over(m.stop)
}

// exchange throws away what is in the hopper, and fills it.
func (m *mixup) exchange(cycle sim.Cycles) {
	left := m.stock.left(cycle)
	m.stock.extra += left
	m.unit.discards(left)
	m.s.track.pieces[m.index][Spoiled] += left
	m.s.observeNumber(PiecesDiscarded, m.index, left)
	m.stock.add(cycle, 0)
	m.rate.look()
}

// turns sets the timer for the next attempt out of the ordinary anew: now every one is, or is no
// longer.
func (f *feeder) turns() {
	f.next.Stop()
	f.await(max(f.s.clocks.Cycle(), f.at))
}

func (f *feeder) discards(n int64) {
	if f.some != nil {
		f.some.used += n
	}
}

func (f *feeder) halts() { f.row = 0 }

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

// finds has the wrong stocks changed of which the reader sees pieces, a bit for each station.
func (r *reader) finds(stations uint64) {
	for i, m := range r.s.mixups {
		if m != nil && stations>>i&1 != 0 {
			m.found()
		}
	}
}
