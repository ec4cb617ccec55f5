package model

import "netrate/sim"

// Feeder puts one insert into each set that passes. Its probabilities are those at its
// rated speed.
type Feeder struct {
	Place
	Hopper Stock

	Misfeed    float64 // probability of each attempt
	Double     float64
	Jam        float64
	Growth     float64 // exponent of the growth of these three with speed; 0 for none
	Material   float64 // factor of the insert on these three; 1 for the material they were measured with
	Noticed    float64 // probability that a misfeed is noticed
	Caught     float64 // probability that a double is noticed
	FalseCalls float64 // probability that a good feed is taken for a double
	Streak     Streak
	Share      float64 // share of the sets it feeds, in (0, 1]
	Stream     Stream  // what it carries if its pieces are personalised
	Envelopes  bool    // its pieces are the personalised envelopes of the sets

	OnMisfeed Response
	OnDouble  Response
	Clear     sim.Duration // an operator's work at a stop for a fault, after the walk
}

// Streak is how misfeeds of one feeder come in a row.
type Streak struct {
	Given     bool    // whether Again is given; if not, misfeeds are independent
	Again     float64 // probability of a misfeed right after a misfeed, at any speed and material
	StopAfter int     // so many in a row stop the line; 0 for never
}

func (f *Feeder) levers(all *levers) {
	all.rate("misfeed", &f.Misfeed)
	all.rate("double", &f.Double)
	all.rate("jam", &f.Jam)
	all.rate("false_calls", &f.FalseCalls)
	all.rate("streak.again", &f.Streak.Again)
	all.duration("clear", &f.Clear)
	all.duration("stream.realign", &f.Stream.Realign)
	all.stock("hopper.refill", &f.Hopper)
}

func (f *Feeder) clone() Station { c := *f; return &c }

func (f *Feeder) check(l *Line, c *checks) {
	factor := f.Material * l.growth(f.Rated, f.Growth)
	c.faults([3]string{"misfeed", "double", "jam"}, [3]float64{f.Misfeed, f.Double, f.Jam}, factor)
	c.exponent(f.Place, f.Growth)
	c.require(f.Material > 0 && f.Material <= 1000, "material", "material is %v, want a factor above 0, at most 1000", f.Material)
	c.probability(f.Noticed, "noticed")
	c.probability(f.Caught, "caught")
	c.probability(f.FalseCalls, "false_calls")
	c.probability(f.Streak.Again, "streak.again")
	if f.Streak.Given {
		c.require(f.Streak.Again+(f.Double+f.Jam)*factor <= 1, "streak.again", "again, double and jam come to more than 1")
	}
	c.require(f.Streak.StopAfter >= 0, "streak.stop_after", "stop_after is %d, want 1 or more", f.Streak.StopAfter)
	c.require(f.Share > 0 && f.Share <= 1, "share", "share is %v, want a share above 0, at most 1", f.Share)
	l.checkStream(c, f.Stream)
	c.require(f.Stream.Name == "" || f.Share == 1, "share", "%s carries a stream and feeds a share of the sets: a stream that only some sets have is not built", f.Name)
	c.require(!f.Envelopes || f.Stream.Name != "", "stream", "%s feeds personalised envelopes and names no stream", f.Name)
	c.stock(f.Hopper, "hopper", false)
	c.clear(f.Clear)
	c.response(l, Misfeed, f.OnMisfeed)
	c.response(l, Double, f.OnDouble)
}

// feeding is what one attempt of a feeder comes to.
type feeding int

const (
	fedGood feeding = iota
	fedNothing
	fedTwo
	fedJam
	calledFalsely
)

// feedingOdds are the probabilities of what is not a plain good feed, one after the
// other: each entry is the sum of those before it and its own.
type feedingOdds [calledFalsely + 1]float64

// odds returns the probabilities of an attempt at the speed the line runs at; after says
// whether it comes right after a misfeed.
func (f *Feeder) odds(l *Line, after bool) feedingOdds {
	factor := f.Material * l.growth(f.Rated, f.Growth)
	misfeed := f.Misfeed * factor
	if after && f.Streak.Given {
		misfeed = f.Streak.Again
	}
	var o feedingOdds
	o[fedNothing] = misfeed
	o[fedTwo] = o[fedNothing] + f.Double*factor
	o[fedJam] = o[fedTwo] + f.Jam*factor
	o[calledFalsely] = o[fedJam] + (1-min(1, o[fedJam]))*f.FalseCalls
	return o
}

// pick returns what an attempt comes to for a number u, uniform on [0, 1).
func (o *feedingOdds) pick(u float64) feeding {
	for k := fedNothing; k <= calledFalsely; k++ {
		if u < o[k] {
			return k
		}
	}
	return fedGood
}

// feeder is a feeder in use.
type feeder struct {
	*Feeder
	s     *Sim
	index int
	at    sim.Cycles
	odds  [2]feedingOdds // of a plain attempt, and of one right after a misfeed
	gap   sim.Gap        // sets from one attempt out of the ordinary to the next
	next  *sim.Timer[sim.Cycles]
	stock stock
	fix   *stop
	ways  [Ship]way // of a set condemned here
	luck  struct {
		gaps   *sim.Stream
		kinds  *sim.Stream // what an attempt comes to
		caught *sim.Stream
		chosen *sim.Stream // whether a set after a misfeed is one it feeds
	}
	some *selection // nil if it feeds all sets

	trying bool  // in the middle of an attempt
	row    int   // misfeeds in a row up to now, where that matters
	extra  int64 // pieces used beyond one for each set handled
	out    StationOutcome
}

func (f *Feeder) install(s *Sim, index int) unit {
	u := &feeder{Feeder: f, s: s, index: index, at: s.track.at[index]}
	u.odds = [2]feedingOdds{f.odds(s.line, false), f.odds(s.line, true)}
	u.gap = sim.NewGap(min(1, f.Share*u.odds[0][calledFalsely]))
	u.next = s.clocks.Track.Timer(u.attempt)
	u.luck.gaps, u.luck.kinds = s.stream(f.Name, "gaps"), s.stream(f.Name, "kinds")
	u.luck.caught, u.luck.chosen = s.stream(f.Name, "caught"), s.stream(f.Name, "chosen")
	if f.Share < 1 {
		plain := f.Share * (1 - u.odds[0][calledFalsely])
		u.some = &selection{share: plain / (plain + 1 - f.Share), luck: s.stream(f.Name, "selection")}
	}
	u.fix = s.fixer(index, f.Clear) // before the stock: what the crew sees to first, of one cycle
	u.stock.install(s, index, f.Hopper, f.Share, u.used)
	u.stock.busy = u.due
	u.ways = s.line.ways(index)
	if u.some == nil {
		s.track.feeds(index, nil)
	} else {
		s.track.feeds(index, u)
	}
	return u
}

func (f *feeder) begin() {
	f.row, f.extra, f.out = 0, 0, StationOutcome{}
	if f.some != nil {
		f.some.begin()
	}
	f.stock.begin()
	f.await(f.at)
}

// await sets the timer for the next attempt out of the ordinary after the given cycle.
// Where streaks matter, every attempt right after a misfeed is one.
func (f *feeder) await(cycle sim.Cycles) {
	switch {
	case f.row > 0:
		f.next.Set(cycle + 1)
	case f.odds[0][calledFalsely] > 0:
		f.next.Set(cycle + sim.Cycles(f.gap.Draw(f.luck.gaps)))
	}
}

// attempt is what the feeder does with the set before it in a cycle that was drawn for
// something out of the ordinary. Gaps have no memory: where the feeder passes the set
// over, nothing happens, and the next gap counts from here.
func (f *feeder) attempt() {
	cycle := f.s.clocks.Track.Now()
	set := cycle - f.at
	afterMisfeed := f.row > 0
	kind, chosen := fedGood, true
	if !afterMisfeed {
		kind = f.odds[0].pick(f.luck.kinds.Uniform() * f.odds[0][calledFalsely])
	}
	if f.s.track.passes(set, f.index) {
		if afterMisfeed {
			chosen = f.Share == 1 || f.luck.chosen.Chance(f.Share)
			kind = f.odds[1].pick(f.luck.kinds.Uniform())
		}
		if f.some != nil {
			f.settle(cycle - 1)
		}
		f.trying = true
		pieces := int8(0)
		if chosen {
			pieces = f.feed(kind, set, cycle)
			f.out.Attempts++
		}
		f.extra += int64(pieces) - 1
		if f.some != nil {
			f.some.single(set, pieces, f.s.track.noted(set, f.index))
		}
		f.trying = false
		if pieces > 1 {
			f.stock.look() // it is used up sooner than its timer allows for
		}
	}
	f.await(cycle)
}

// feed makes one attempt and returns how many pieces left the hopper for good.
func (f *feeder) feed(kind feeding, set, cycle sim.Cycles) (pieces int8) {
	if kind == fedTwo && f.stock.left(cycle-1) == 1 {
		kind = fedGood // the last piece cannot be two
	}
	if kind == fedNothing {
		return f.misfeed(set, cycle)
	}
	f.row = 0
	switch kind {
	case fedGood, fedNothing:
	case fedTwo:
		f.out.Faults[Double]++
		if !f.luck.caught.Chance(f.Caught) {
			f.out.Missed++
			return f.answer(Ship, CauseDouble, 2, set, cycle)
		}
		return f.answer(f.OnDouble, CauseDouble, 2, set, cycle)
	case fedJam:
		f.out.Faults[Jam]++
		f.s.standstill.arise(f.fix, CauseJam)
		f.s.track.spoil(set, f.index, cycle)
	case calledFalsely:
		f.out.FalseCalls++
		return f.answer(f.OnDouble, CauseDouble, 1, set, cycle)
	}
	return 1
}

func (f *feeder) misfeed(set, cycle sim.Cycles) (pieces int8) {
	f.out.Faults[Misfeed]++
	if f.Streak.Given || f.Streak.StopAfter > 0 {
		f.row++
	}
	if f.row > 0 && f.row == f.Streak.StopAfter {
		return f.answer(Stop, CauseStreak, 0, set, cycle)
	}
	return f.answer(f.OnMisfeed, CauseMisfeed, 0, set, cycle)
}

// answer does what is to be done about a set that got the given number of pieces, and
// returns how many pieces left the hopper for good.
func (f *feeder) answer(r Response, cause Cause, pieces int8, set, cycle sim.Cycles) int8 {
	switch r {
	case Stop:
		f.row = 0
		f.s.standstill.arise(f.fix, cause)
		return 1 // the set is put right
	case Divert, Outsort:
		o := f.s.track.odd(set, cycle)
		o.fed(f.index, pieces)
		f.s.condemn(o, f.ways[r])
	case Ship:
		if pieces != 1 {
			f.s.track.odd(set, cycle).fed(f.index, pieces)
		}
	}
	return pieces
}

// used returns how many pieces have left the hopper for good by the end of the cycle.
func (f *feeder) used(cycle sim.Cycles) int64 {
	if f.some != nil {
		f.settle(cycle)
		return f.some.used
	}
	return f.s.track.handled(f.index, cycle) + f.extra
}

// settle decides how many of the sets handled by the end of the cycle were fed.
func (f *feeder) settle(cycle sim.Cycles) {
	t := &f.s.track
	f.some.settle(t.handled(f.index, cycle), cycle-f.at, t.oldest(f.s.clocks.Track.Now()))
}

// holds returns how many pieces a set got that is like all others, where it feeds only some.
func (f *feeder) holds(set sim.Cycles) int8 {
	cycle := f.s.clocks.Track.Now()
	if f.due() {
		cycle--
	}
	f.settle(cycle)
	return f.some.reveal(set)
}

// due reports whether an attempt out of the ordinary is still to be made, or is being made,
// in this very cycle.
func (f *feeder) due() bool {
	at, waiting := f.next.At()
	return f.trying || waiting && at <= f.s.clocks.Track.Now()
}

func (f *feeder) end(cycle sim.Cycles, out *StationOutcome) {
	stops := out.Stops
	*out = f.out
	out.Name, out.Stops = f.Name, stops
	out.Pieces = f.s.pieces(f.index, &f.stock, cycle)
	if f.some != nil {
		out.Attempts += f.some.fed
		out.Pieces.Good = f.some.inGoodSets()
	} else {
		out.Attempts = f.s.track.handled(f.index, cycle)
		out.Pieces.Good = f.s.out.Sets.Good
	}
	out.Stock, out.Clearing = f.stock.task.Account(), f.fix.task.Account()
}
