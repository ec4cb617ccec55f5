package model

import (
	"slices"

	"netrate/sim"
)

// Seat is a station's place in a running line, and all that it needs of the engine. What a
// station does is done in a cycle of the track, when it is called: by a timer, or by one of
// its trials. Of a set that passes as it should nothing is said.
//
// A seat begins and ends what was made on it: as a [Unit] it makes the hopper full and draws
// the first trial, and counts attempts, pieces and the work of the crew.
type Seat struct {
	s      *Sim
	index  int
	at     sim.Cycles
	name   string
	trials *trials // nil if it makes none
	hopper *stock  // nil if it feeds no pieces
	fixes  []*stop
	only   *holders // of the attribute that it is only for; nil if it is for all sets
}

// trials are attempts that are all alike: of those out of the ordinary it draws when the next
// one is, and what it comes to.
type trials struct {
	odds    []float64 // of each outcome, with those before it
	usual   []float64 // the same, where nothing multiplies them
	rate    *factor   // nil if nothing does
	gap     sim.Gap
	next    *sim.Slot
	gaps    *sim.Stream
	kinds   *sim.Stream
	slow    *thinner // nil if they are as likely in a slow cycle
	happens func(outcome int, set sim.Cycles)
}

// Stoppage is a reason for the line to stop at one station: it stands until an operator has
// cleared it.
type Stoppage struct {
	s *Sim
	p *stop
}

func newSeat(s *Sim, index int) *Seat {
	return &Seat{s: s, index: index, at: s.track.at[index], name: s.line.Stations[index].Where().Name, only: s.track.only(index)}
}

// Line returns the line, which must not be changed.
func (p *Seat) Line() *Line { return p.s.line }

// Stream returns a new random stream, named by the station and a purpose, and seeded for each
// replication. Two lines compared have the same one where station and purpose have the same
// names.
func (p *Seat) Stream(purpose string) *sim.Stream { return p.s.stream(p.name, purpose) }

// Timer returns a new timer of the track clock, which calls do at the end of a cycle.
func (p *Seat) Timer(do func()) *sim.Slot { return p.s.clocks.Track.Timer(do) }

// Stoppage returns a new reason to stop, with the operator's work, after the walk, to clear
// it. Make it before the hopper: of one cycle, the crew sees first to what was made first.
func (p *Seat) Stoppage(clear sim.Duration) Stoppage { return p.stoppage(clear, new(Clearings)) }

// stoppage returns a reason to stop for faults that may have times of their own.
func (p *Seat) stoppage(clear sim.Duration, own *Clearings) Stoppage {
	fix := p.s.fixer(p.index, clear, own)
	p.fixes = append(p.fixes, fix)
	return Stoppage{p.s, fix}
}

// Arise stops the line for a fault, at the end of this cycle. A station that can have two
// reasons in one cycle needs two stoppages.
func (x Stoppage) Arise(f Fault) { x.s.standstill.arise(x.p, Cause(f)) }

// Hopper gives the station a hopper and has it put a piece of it into every set that it
// handles, but for what is said of single sets by [Seat.Spoil], [Seat.Condemn] and
// [Seat.Flaw]. A seat has one hopper at most.
func (p *Seat) Hopper(spec Stock) {
	p.hopper = new(stock)
	p.hopper.install(p.s, p.index, spec, p.s.line.ShareOf(p.s.line.Stations[p.index]), nil)
	if p.trials != nil {
		p.hopper.before = p.trials.next
	}
	p.s.track.feeds(p.index, nil)
}

// used returns how many pieces have left the hopper.
func (p *Seat) used(cycle sim.Cycles) int64 {
	if p.hopper == nil {
		return p.Handled(cycle)
	}
	return p.hopper.used(cycle)
}

// Trials has the station make one attempt at each set that it handles, all alike. happens is
// called for those out of the ordinary, with the number of the outcome, of which each has its
// probability in odds, and that of the set. The sum of the odds must be 1 at most. A seat has
// one row of trials at most.
func (p *Seat) Trials(happens func(outcome int, set sim.Cycles), odds ...float64) {
	t := &trials{happens: happens}
	sum := 0.0
	for _, x := range odds {
		sum += x
		t.odds = append(t.odds, sum)
	}
	t.usual = slices.Clone(t.odds)
	t.gap = sim.NewGap(min(1, sum))
	t.next = p.Timer(p.attempt)
	t.gaps, t.kinds = p.Stream("gaps"), p.Stream("kinds")
	if p.trials = t; p.hopper != nil {
		p.hopper.before = t.next
	}
	p.changes()
}

// Grows has the odds of the trials, which are those at the speed of the line, follow the speed in
// cycles that the line runs slower, as faults do that grow with this exponent.
func (p *Seat) Grows(growth float64) {
	p.trials.slow = p.s.newThinner(p.s.line.Stations[p.index].Where(), growth)
}

// changes lets the odds of the trials change with lots and days.
func (p *Seat) changes() {
	t := p.trials
	if t.rate = p.s.newFactor(p.index, LotsOf(p.s.line.Stations[p.index]), t.next, t.times, p.await); t.rate != nil {
		t.rate.user, t.rate.cap = p, capOf(t.any(), 0, 0)
	}
}

// times multiplies the usual odds.
func (t *trials) times(factor float64) {
	for i, p := range t.usual {
		t.odds[i] = p * factor
	}
	t.gap = sim.NewGap(min(1, t.any()))
}

// Begin puts what was made on the seat at the start of a replication.
func (p *Seat) Begin() {
	if p.hopper != nil {
		p.hopper.begin()
	}
	if p.trials != nil {
		p.trials.rate.begin()
		p.await(p.at)
	}
}

// await sets the timer for the next attempt out of the ordinary after the given cycle.
func (p *Seat) await(cycle sim.Cycles) {
	if t := p.trials; t.any() > 0 {
		t.next.Set(cycle + sim.Cycles(t.gap.Draw(t.gaps)))
	} else if t.rate != nil {
		t.next.Stop() // it was set at another rate
	}
}

// any returns the probability that an attempt is out of the ordinary.
func (t *trials) any() float64 { return t.odds[len(t.odds)-1] }

// attempt is what happens to the set in a cycle that was drawn for something out of the
// ordinary: nothing, where the station does not handle it.
func (p *Seat) attempt() {
	cycle, t := p.s.clocks.Track.Now(), p.trials
	u, outcome := t.kinds.Uniform()*t.any(), 0
	if set := cycle - p.at; p.Handles(set) {
		for outcome < len(t.odds)-1 && !(u < t.odds[outcome]) {
			outcome++
		}
		if !t.slow.spares() {
			t.happens(outcome, set)
		}
	}
	p.await(cycle)
}

// Cycle returns the number of the cycle that is being completed.
func (p *Seat) Cycle() sim.Cycles { return p.s.clocks.Track.Now() }

// Set returns the number of the set that is at the station in this cycle; below 1 while the
// first one is still to come.
func (p *Seat) Set() sim.Cycles { return p.Cycle() - p.at }

// Handles reports whether the station does its work on the set: it is one, it is in its
// pocket, and it is not condemned, or the station handles condemned sets of its kind.
func (p *Seat) Handles(set sim.Cycles) bool {
	return p.s.track.passes(set, p.index) && (p.only == nil || p.only.has(set))
}

// Handled returns the number of sets that the station has handled by the end of the cycle.
func (p *Seat) Handled(cycle sim.Cycles) int64 {
	return p.s.track.done(p.index, p.only, cycle)
}

// Count counts a fault at the set that is here, and whether the station has seen it.
func (p *Seat) Count(f Fault, set sim.Cycles, seen bool) {
	out := &p.s.out.Stations[p.index]
	out.Faults[f]++
	switch {
	case seen:
	case f == Double:
		out.Missed++
	default:
		out.Unnoticed++
	}
	p.s.observeFault(p.index, f, set, seen)
}

// Spoil takes the set that is here off the line, destroyed by the fault, with that many
// pieces of this station.
func (p *Seat) Spoil(set sim.Cycles, f Fault, pieces int) {
	p.s.track.spoil(p.mark(set, f, pieces), p.index)
}

// Condemn sends the set that is here to the gate at which the response has it leave, with so
// many pieces of this station.
func (p *Seat) Condemn(set sim.Cycles, f Fault, r Response, pieces int) {
	p.s.condemn(p.mark(set, f, pieces), p.index, p.s.ways[p.index][r])
}

// Flaw lets the set that is here go on although it is not as it should be, with that many
// pieces of this station: where it is delivered, it is defective.
func (p *Seat) Flaw(set sim.Cycles, f Fault, pieces int) { p.mark(set, f, pieces).flawed = true }

// mark returns the record of the set that is here, lost to the fault if it is lost.
func (p *Seat) mark(set sim.Cycles, f Fault, pieces int) *odd {
	o := p.s.track.odd(set, p.Cycle())
	if p.hopper != nil {
		o.fed(p.index, int8(pieces))
		p.hopper.uses(int64(pieces) - 1)
	}
	o.blames(p.index, f)
	return o
}

// End counts attempts, pieces and the work of the crew.
func (p *Seat) End(cycle sim.Cycles, out *StationOutcome) {
	out.Name, out.Attempts = p.name, p.Handled(cycle)
	if p.trials != nil {
		p.trials.rate.close(cycle)
	}
	if p.hopper != nil {
		out.Pieces = p.s.pieces(p.index, p.hopper, cycle)
		if out.Pieces.Good = p.s.out.Sets.Good; p.only != nil {
			out.Pieces.Good = p.s.track.goodWith(p.only, cycle)
		}
		out.Stock = p.hopper.task.Account()
	}
	for _, fix := range p.fixes {
		out.Clearing.Add(fix.task.Account())
	}
}
