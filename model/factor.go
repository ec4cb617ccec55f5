package model

import "netrate/sim"

// factor is what multiplies the fault rates of a station in use: that of the lot that is open,
// of the day, and of the drift within it. Between two changes the rates are constant; where one
// comes the next fault is drawn anew from there, as Bernoulli trials have no memory.
type factor struct {
	s       *Sim
	station int
	at      sim.Cycles
	cap     float64         // no factor is higher
	set     func(f float64) // gives the station its rates
	draw    func(sim.Cycles)
	user    user // whose pieces come in lots
	lots    *openLot
	// before is what the station does first of what is due in one cycle.
	before, timer *sim.Slot
	end           int64 // pieces used when the lot is over
}

// openLot is the lot that is open at a station in use.
type openLot struct {
	*Lots
	random *sim.Stream
	factor float64
	left   int64 // pieces, where it is not counted by when it ends
	kept   int64 // pieces that were left of it when it was last counted, for the next pass
	opened bool
	taken  bool // from another job, for the one that is next
}

// newFactor returns what multiplies the rates of a station; nil if nothing does. The rates are
// set by one function, and the next attempt out of the ordinary after a cycle drawn by another.
func (s *Sim) newFactor(station int, x *Lots, before *sim.Slot, set func(f float64), draw func(sim.Cycles)) *factor {
	lots := s.newLot(station, x)
	if lots == nil && s.days == nil {
		return nil
	}
	f := &factor{s: s, station: station, at: s.track.at[station], cap: MostFactor * MostFactor, set: set, draw: draw, lots: lots, before: before}
	if lots != nil {
		f.timer = s.clocks.Track.Timer(f.due)
	}
	if s.days != nil {
		s.days.rates = append(s.days.rates, f)
	}
	s.factors = append(s.factors, f)
	return f
}

// newLot returns the lots of a station in use; nil if there are none.
func (s *Sim) newLot(station int, x *Lots) *openLot {
	if x == nil || !x.Given() {
		return nil
	}
	return &openLot{Lots: x, random: s.stream(s.line.Stations[station].Where().Name, "lots")}
}

// mostOften is how often an attempt fails at most, in the worst lot on the worst day.
const mostOften = 0.9

// capOf returns the highest factor on probabilities that come to p, of which a part has to leave
// room for another probability.
func capOf(p, part, again float64) float64 {
	most := float64(MostFactor * MostFactor)
	if p > 0 {
		most = min(most, max(1, mostOften/p))
	}
	if part > 0 && again > 0 {
		most = min(most, max(1, (1-again)/part))
	}
	return most
}

// begin opens a lot at the start of a replication, and sets the rates.
func (x *factor) begin() {
	if x == nil {
		return
	}
	if x.lots != nil {
		x.lots.begin(x.s.keeps())
		x.end = x.lots.left
		x.timer.Set(x.at + sim.Cycles(x.end))
	}
	x.set(x.now())
}

// begin opens a lot, somewhere in it, or goes on with the one that is open.
func (x *openLot) begin(keep bool) {
	if keep = keep || x.taken; keep && x.opened {
		x.taken = false
		x.left = x.kept
		x.pass(0)
		return
	}
	x.opened = true
	x.factor = x.draw(x.random)
	x.left = 1 + int64(x.random.Uniform()*float64(x.size()))
}

// pass takes pieces out of the lot, and opens the next one where it is over.
func (x *openLot) pass(pieces int64) {
	for x.left -= pieces; x.left <= 0; x.left += x.size() {
		x.factor = x.draw(x.random)
	}
}

// close notes what is left of the lot at the end of a pass.
func (x *factor) close(cycle sim.Cycles) {
	if x != nil && x.lots != nil {
		x.lots.kept = x.end - x.user.used(cycle)
	}
}

// now returns the factor that is in force.
func (x *factor) now() float64 {
	f := 1.0
	if x.lots != nil {
		f = x.lots.factor
	}
	if d := x.s.days; d != nil {
		f *= d.now
	}
	return min(f, x.cap)
}

// turn lets the rates be those of now from the cycle after this one on.
func (x *factor) turn(cycle sim.Cycles) {
	x.set(x.now())
	x.draw(max(cycle, x.at))
}

// due looks whether the lot is over, when the station has done its work in the cycle.
func (x *factor) due() {
	if x.s.due(x.before) {
		x.timer.Set(x.s.clocks.Track.Now())
		return
	}
	x.look()
}

// look opens the next lot if the one that is open is over, and waits for when it can be.
func (x *factor) look() {
	if x == nil || x.lots == nil {
		return
	}
	now := x.s.clocks.Cycle()
	used := x.user.used(now)
	if used >= x.end {
		x.lots.left = 0
		x.lots.pass(used - x.end)
		x.end = used + x.lots.left
		x.turn(now)
	}
	x.timer.Set(now + sim.Cycles(x.end-used))
}
