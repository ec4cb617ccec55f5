package model

import (
	"math"

	"netrate/sim"
	"netrate/sim/portable"
)

// pace is how fast a line runs that has slow cycles. Which of them are slow is known when the
// line starts: the first ones, so that there is nothing to do but to turn to another speed where
// a stretch of them ends.
type pace struct {
	s     *Sim
	share float64      // of its speed, at which the line runs
	why   *sim.Seconds // the account of what that takes longer
	slow  SlowTime
	ran   sim.Seconds // running time that is accounted for
	next  *sim.Slot   // the last cycle of the stretch
	turns bool        // it is the one at hand

	from     sim.Cycles // completed when the line last started
	live     bool       // it has not stood still since
	jammed   bool       // for one thing, in this standstill
	afterJam bool       // in the one before the last start
	eased    bool       // by the crew
	easy     sim.Cycles // how many cycles it then lets the line run slower
	stops    []sim.Seconds
	last     int  // station of the last stop for a fault
	made     bool // a stop of that moment had the crew let it run slower
	at       int  // the station for which it does
	count    int  // of the stops that were ever remembered: the last of them are in stops, in turn
}

// newPace returns the pace of the line; nil if it never runs slower than its speed.
func newPace(s *Sim) *pace {
	if !s.line.Slow.Given() {
		return nil
	}
	r := s.line.Slow.Repeated
	p := &pace{s: s, stops: make([]sim.Seconds, r.Stops)}
	p.easy = sim.Cycles(min(mostEasy, math.Ceil(float64(float64(r.For)*s.line.RunSpeed())*r.Share/3600-1e-9)))
	p.next = s.clocks.Track.Timer(func() { p.turns = true })
	return p
}

// mostEasy is more cycles than any run has.
const mostEasy = 1 << 50

func (p *pace) begin() {
	p.slow, p.ran, p.turns, p.live = SlowTime{}, 0, false, false
	p.jammed, p.afterJam, p.eased, p.made, p.count = false, false, false, false, 0
	p.share, p.why = 1, &p.slow.Starting
}

// start chooses the speed of the first cycles. The line is about to start.
func (p *pace) start() {
	p.halts()
	p.book()
	p.afterJam, p.jammed = p.jammed, false
	p.from, p.live, p.turns = p.s.clocks.Track.Now(), true, false
	p.choose(1)
}

// choose takes the speed of the n-th cycle since the start, and waits for where that ends.
func (p *pace) choose(n sim.Cycles) {
	slow, last := &p.s.line.Slow, sim.Cycles(mostEasy)
	p.share, p.why = 1, &p.slow.Starting
	slower := func(applies bool, cycles sim.Cycles, share float64, why *sim.Seconds) {
		if !applies || n > cycles {
			return
		}
		if last = min(last, cycles); share < p.share {
			p.share, p.why = share, why
		}
	}
	slower(true, slow.Starting.cycles(), slow.Starting.Share, &p.slow.Starting)
	slower(p.afterJam, slow.AfterJam.cycles(), slow.AfterJam.Share, &p.slow.AfterJam)
	slower(p.eased, p.easy, slow.Repeated.Share, &p.slow.Repeated)
	p.s.clocks.Turn(p.s.cycle / sim.Seconds(p.share))
	if p.next.Stop(); last < mostEasy {
		p.next.Set(p.from + last)
	}
	if p.s.observer != nil {
		p.s.tell(Event{Kind: CycleTakes, Length: p.s.cycle / sim.Seconds(p.share)})
	}
}

// turn goes on at another speed where a stretch of slow cycles ends and the line runs on.
func (p *pace) turn() {
	c := &p.s.clocks
	if p.turns = false; !c.Running() || p.s.lacking() != nil {
		return
	}
	p.book()
	for _, h := range p.s.channels {
		h.forget()
	}
	p.choose(c.Track.Now() - p.from + 1)
	p.s.bench.paces(p.s)
	for _, h := range p.s.channels {
		h.look()
	}
}

// halts notes that the line has stood still, if it has: whether the crew had let it run slower
// for long enough by then.
func (p *pace) halts() {
	if p.live && p.eased && p.s.clocks.Track.Now()-p.from >= p.easy {
		p.eased = false
	}
	p.live = false
}

// stopped is what the crew makes of a stop of the line.
func (p *pace) stopped(station int, cause Cause) {
	if p == nil {
		return
	}
	p.halts()
	p.jammed = p.jammed || cause == CauseJam || cause == CauseInsertionJam
	if len(p.stops) == 0 || cause == CauseStock || cause == CauseBreakdown {
		return
	}
	now := p.s.clocks.Shop.Now()
	if p.count > 0 && p.stops[(p.count-1)%len(p.stops)] == now { // in one cycle
		station = max(station, p.last)
	} else {
		p.made = false
	}
	p.last = station
	p.stops[p.count%len(p.stops)] = now
	p.count++
	if first := p.stops[p.count%len(p.stops)]; p.count >= len(p.stops) && now-first <= p.s.line.Slow.Repeated.Within {
		p.eased, p.made = true, true
	}
	if p.made {
		p.at = station
	}
}

// filled is when somebody has filled the stock of a station: it may be that for which the line runs slower.
func (p *pace) filled(station int) {
	if !p.eased || p.at != station {
		return
	}
	if p.eased = false; p.live {
		p.next.Set(p.s.clocks.Cycle() + 1)
	}
}

// fills has the crew told of stocks that are filled, if that ends what it does about repeated stops.
func (p *pace) fills() {
	if p == nil || !p.s.line.Slow.Repeated.Refill {
		return
	}
	for _, k := range p.s.stocks {
		station, also := k.empty.station, k.brought
		k.brought = func() {
			if also != nil {
				also()
			}
			p.filled(station)
		}
	}
}

// book accounts for the running time up to now.
func (p *pace) book() {
	ran := p.s.clocks.Ran()
	*p.why += sim.Seconds((ran - p.ran) * sim.Seconds(1-p.share))
	p.ran = ran
}

// thinner draws whether a fault comes about that was drawn for the speed of the line, in a cycle
// that may be slower: fewer do if they grow with the speed.
type thinner struct {
	p      *pace
	growth float64
	random *sim.Stream
}

// newThinner returns nil where faults are as likely in a slow cycle as in any.
func (s *Sim) newThinner(at *Place, growth float64) *thinner {
	if s.pace == nil || growth == 0 || at.Rated == 0 {
		return nil
	}
	return &thinner{s.pace, growth, s.stream(at.Name, "slow cycles")}
}

// spares reports whether there is no fault after all.
func (t *thinner) spares() bool {
	return t != nil && t.p.share < 1 && !t.random.Chance(portable.Pow(t.p.share, t.growth))
}
