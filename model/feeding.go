package model

import "netrate/sim"

// feeder is a feeder in use.
type feeder struct {
	*Feeder
	s      *Sim
	index  int
	at     sim.Cycles
	odds   [2]feedingOdds // of a plain attempt, and of one right after a misfeed
	gap    sim.Gap        // sets from one attempt out of the ordinary to the next
	next   *sim.Slot
	stock  stock
	fix    *stop     // for a jam
	hand   *stop     // for all else; the same if it carries no stream
	ways   [Ship]way // of a set condemned here
	random struct {
		gaps    *sim.Stream
		kinds   *sim.Stream // what an attempt comes to
		noticed *sim.Stream
		caught  *sim.Stream
		chosen  *sim.Stream // whether a set after a misfeed is one it feeds
	}
	some  *selection // nil if it feeds all sets
	only  *holders   // of the attribute that it is only for; nil if it is for all sets
	lane  *lane      // nil if it carries no stream
	slow  *thinner   // nil if its faults are as likely in a slow cycle
	rate  *factor    // nil if its rates never change
	usual float64    // what speed and material multiply its rates by, if they change

	human *mender // who puts sets right
	mixup *mixup  // of its stock; nil if that is always right

	every bool            // the next attempt was not drawn for a fault: its outcome is open
	row   int             // misfeeds in a row up to now, where that matters
	held  int64           // sets for which it held
	tries int64           // attempts at sets one by one
	out   *StationOutcome // what is counted as it happens
}

// Install returns the feeder in use.
func (f *Feeder) Install(seat *Seat) Unit {
	s, index := seat.s, seat.index
	u := &feeder{Feeder: f, s: s, index: index, at: s.track.at[index], only: s.track.only(index)}
	u.odds = [2]feedingOdds{f.odds(s.line, false), f.odds(s.line, true)}
	u.gap = sim.NewGap(min(1, f.Share*u.odds[0][calledFalsely]))
	u.next = s.clocks.Track.Timer(u.attempt)
	u.random.gaps, u.random.kinds = s.stream(f.Name, "gaps"), s.stream(f.Name, "kinds")
	u.random.caught, u.random.chosen = s.stream(f.Name, "caught"), s.stream(f.Name, "chosen")
	u.random.noticed = s.stream(f.Name, "noticed")
	u.slow = s.newThinner(&f.Place, f.Growth)
	if f.Share < 1 {
		plain := float64(f.Share * (1 - u.odds[0][calledFalsely]))
		u.some = &selection{share: plain / (plain + 1 - f.Share), random: s.stream(f.Name, "selection")}
		s.choosers = append(s.choosers, u)
	}
	u.human = s.mender(index)
	u.fix = s.fixer(index, f.Clear, &f.Clearings) // before the stock: what the crew sees to first, of one cycle
	if u.hand = u.fix; f.Stream.Name != "" {
		u.lane = newLane(s, index, f.Stream, f.realigning(), &f.Clearings, u.move)
		u.hand = u.lane.hand
	}
	var user user
	if u.some != nil {
		user = u
	}
	u.stock.install(s, index, f.Hopper, f.share(s.line), user)
	u.stock.before = u.next
	if u.rate = s.newFactor(index, &f.Lots, u.next, u.faster, u.await); u.rate != nil {
		u.rate.user, u.rate.cap = &u.stock, f.most(u.odds)
		u.usual = f.Material * s.line.Growth(f.Rated, f.Growth)
	}
	u.mixup = newMixup(s, index, &u.stock, u.rate, u)
	u.ways = s.ways[index]
	if u.some == nil {
		s.track.feeds(index, nil)
	} else {
		s.track.feeds(index, u)
	}
	return u
}

func (f *feeder) Begin() {
	f.row, f.held, f.tries = 0, 0, 0
	f.out = &f.s.out.Stations[f.index]
	if f.some != nil {
		f.some.begin()
	}
	f.stock.begin()
	f.rate.begin()
	f.mixup.begin()
	f.await(f.at)
}

// most returns the highest factor that these odds leave room for.
func (f *Feeder) most(o [2]feedingOdds) float64 {
	again := 0.0
	if f.Streak.Given {
		again = f.Streak.Again
	}
	return capOf(o[0][fedJam], o[0][fedJam]-o[0][fedNothing], again)
}

// faster gives the feeder its usual rates times a factor.
func (f *feeder) faster(factor float64) {
	if f.some != nil {
		f.settle(f.s.clocks.Cycle())
	}
	factor *= f.usual
	f.odds[0] = f.oddsTimes(factor, false)
	if f.odds[1] = f.odds[0]; f.Streak.Given {
		f.odds[1] = f.oddsTimes(factor, true)
	}
	f.gap = sim.NewGap(min(1, f.Share*f.odds[0][calledFalsely]))
	if f.some != nil {
		plain := float64(f.Share * (1 - f.odds[0][calledFalsely]))
		f.some.share = plain / (plain + 1 - f.Share)
	}
}

// await sets the timer for the next attempt out of the ordinary after the given cycle.
// Where streaks matter every attempt right after a misfeed is one, and every attempt of a
// lane that is out of step.
func (f *feeder) await(cycle sim.Cycles) {
	f.every = f.row > 0 || f.lane.out() || f.mixup.is()
	switch {
	case f.every:
		f.next.Set(cycle + 1)
	case f.odds[0][calledFalsely] > 0:
		f.next.Set(cycle + sim.Cycles(f.gap.Draw(f.random.gaps)))
	case f.rate != nil:
		f.next.Stop() // it was set at another rate
	}
}

// attempt is what the feeder does with the set before it in a cycle that was drawn for
// something out of the ordinary. Gaps have no memory: where the feeder passes the set
// over, nothing happens, and the next gap counts from here.
func (f *feeder) attempt() {
	cycle := f.s.clocks.Track.Now()
	set := cycle - f.at
	kind := fedGood
	if !f.every {
		kind = f.odds[0].pick(f.random.kinds.Uniform() * f.odds[0][calledFalsely])
	}
	switch {
	case f.lane != nil && f.lane.holding && f.s.track.emptied(set, f.index, cycle):
		if f.only == nil || f.only.has(set) {
			f.holdFor(set, cycle)
		}
	case f.s.track.passes(set, f.index) && (f.only == nil || f.only.has(set)):
		f.handle(kind, set, cycle)
	}
	f.await(cycle)
}

// handle makes the attempt, if the set is one that the feeder feeds. Of one drawn for a
// fault it is known that it is.
func (f *feeder) handle(kind feeding, set, cycle sim.Cycles) {
	chosen := true
	if f.every && !f.holds() {
		chosen = f.Share == 1 || f.random.chosen.Chance(f.Share)
		kind = f.open()
	}
	if f.slow != nil {
		kind = f.thinned(kind)
	}
	if f.some != nil {
		f.settle(cycle - 1)
	}
	pieces := int8(0)
	if chosen {
		pieces = f.feed(kind, set, cycle)
		f.tries++
	}
	if f.some != nil {
		f.some.single(set, pieces, f.s.track.noted(set, f.index))
	}
	f.stock.uses(int64(pieces) - 1)
	if pieces > 1 {
		f.rate.look() // its pieces are used up sooner than its timer allows for
	}
}

// thinned returns what an attempt comes to in a cycle that may be slower than others. A fault that
// is none after all is a good feed, which may be taken for a double.
func (f *feeder) thinned(kind feeding) feeding {
	again := kind == fedNothing && f.row > 0 && f.Streak.Given
	switch {
	case kind == fedGood || kind == calledFalsely || again || !f.slow.spares():
		return kind
	case f.FalseCalls > 0 && f.random.caught.Chance(f.FalseCalls):
		return calledFalsely
	}
	return fedGood
}

// open returns what an attempt comes to of which nothing is known yet.
func (f *feeder) open() feeding {
	after := 0
	if f.row > 0 {
		after = 1
	}
	return f.odds[after].pick(f.random.kinds.Uniform())
}

// feed makes one attempt, or holds, and returns how many pieces left the hopper for good.
func (f *feeder) feed(kind feeding, set, cycle sim.Cycles) (pieces int8) {
	if f.lane == nil {
		if f.mixup.is() {
			return f.feedWrong(kind, set, cycle)
		}
		return f.feedOne(kind, set, cycle)
	}
	inStep, errors := f.lane.d == 0, f.human.errors
	if f.lane.recovering || f.lane.holding {
		pieces = f.catchUp(kind, set, cycle)
	} else {
		if f.lane.d != 0 {
			f.lane.wrong(set, cycle)
		}
		pieces = f.feedOne(kind, set, cycle)
	}
	f.lane.move(int32(pieces)-1, cycle)
	if inStep && f.human.errors > errors {
		f.lane.origin = WrongRepair
	}
	return pieces
}

// feedOne makes one attempt to feed one piece.
func (f *feeder) feedOne(kind feeding, set, cycle sim.Cycles) (pieces int8) {
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
		if !f.doubled(set) {
			return f.answer(Ship, CauseDouble, 2, set, cycle)
		}
		return f.answer(f.OnDouble, CauseDouble, 2, set, cycle)
	case fedJam:
		f.jam(set, cycle)
	case calledFalsely:
		f.calledFalsely(set)
		return f.answer(f.OnDouble, CauseDouble, 1, set, cycle)
	}
	return 1
}

// jam stops the line and spoils the set, with one piece.
func (f *feeder) jam(set, cycle sim.Cycles) {
	f.out.Faults[Jam]++
	f.s.observeFault(f.index, Jam, set, true)
	f.fix.second = f.lane != nil && f.s.recovering(nil, cycle)
	f.s.standstill.arise(f.fix, CauseJam)
	o := f.s.track.odd(set, cycle)
	o.fed(f.index, 1)
	o.blames(f.index, Jam)
	f.s.track.spoil(o, f.index)
}

func (f *feeder) misfeed(set, cycle sim.Cycles) (pieces int8) {
	f.missed()
	seen := f.sees(set)
	switch {
	case !seen:
		return f.answer(Ship, CauseMisfeed, 0, set, cycle)
	case f.streak():
		return f.answer(Stop, CauseStreak, 0, set, cycle)
	}
	return f.answer(f.OnMisfeed, CauseMisfeed, 0, set, cycle)
}

// missed counts a misfeed.
func (f *feeder) missed() {
	f.out.Faults[Misfeed]++
	if f.Streak.Given || f.Streak.StopAfter > 0 {
		f.row++
	}
}

// sees counts whether the misfeed of a set is noticed, and reports it.
func (f *feeder) sees(set sim.Cycles) bool {
	seen := !(f.Noticed < 1) || f.random.noticed.Chance(f.Noticed)
	if !seen {
		f.out.Unnoticed++
	}
	f.s.observeFault(f.index, Misfeed, set, seen)
	return seen
}

// doubled counts a double, and reports whether it is noticed.
func (f *feeder) doubled(set sim.Cycles) (seen bool) {
	f.out.Faults[Double]++
	if seen = f.random.caught.Chance(f.Caught); !seen {
		f.out.Missed++
	}
	f.s.observeFault(f.index, Double, set, seen)
	return seen
}

// calledFalsely counts a false call.
func (f *feeder) calledFalsely(set sim.Cycles) {
	f.out.FalseCalls++
	f.s.observeFalseCall(f.index, set)
}

// streak reports whether there were enough misfeeds in a row to stop the line.
func (f *feeder) streak() bool { return f.Streak.StopAfter > 0 && f.row >= f.Streak.StopAfter }

// answer does what is to be done about a set that got the given number of pieces, and
// returns how many pieces left the hopper for good.
func (f *feeder) answer(r Response, cause Cause, pieces int8, set, cycle sim.Cycles) int8 {
	fault := Misfeed
	if cause == CauseDouble {
		fault = Double
	}
	second := f.lane != nil && r != Ship && f.lane.second(cycle)
	switch {
	case r == Stop || second:
		f.row = 0
		f.hand.second = second
		f.s.standstill.arise(f.hand, cause)
		if pieces == 1 || !f.human.errs(set) {
			return 1 // the set is put right
		}
		f.flaw(WrongRepair, pieces, set, cycle)
	case r != Ship:
		o := f.s.track.odd(set, cycle)
		o.fed(f.index, pieces)
		o.blames(f.index, fault)
		f.s.condemn(o, f.index, f.ways[r])
		if f.lane != nil {
			f.lane.recover(r, cycle)
		}
	case pieces != 1:
		f.flaw(fault, pieces, set, cycle)
	}
	return pieces
}

// flaw lets a set go on that got no piece, or two.
func (f *feeder) flaw(fault Fault, pieces int8, set, cycle sim.Cycles) {
	o := f.s.track.odd(set, cycle)
	o.fed(f.index, pieces)
	o.blames(f.index, fault)
	o.flawed = true
	f.s.suspect(set)
}

// used returns how many pieces have left the hopper for good by the end of the cycle, where it feeds
// only some sets.
func (f *feeder) used(cycle sim.Cycles) int64 {
	f.settle(cycle)
	return f.some.used
}

// settle decides how many of the sets handled by the end of the cycle were fed.
func (f *feeder) settle(cycle sim.Cycles) {
	t := &f.s.track
	f.some.settle(t.handled(f.index, cycle), cycle-f.at, t.oldest(f.s.clocks.Track.Now()))
}

// holdsSet returns how many pieces a set got that is like all others, where it feeds only some.
func (f *feeder) holdsSet(set sim.Cycles) int8 { return f.some.ask(set) }

func (f *feeder) End(cycle sim.Cycles, out *StationOutcome) {
	out.Name = f.Name
	f.rate.close(cycle)
	f.human.report(f.lane, out)
	out.Pieces = f.s.pieces(f.index, &f.stock, cycle)
	if f.some != nil {
		out.Attempts = f.tries + f.some.fed
		out.Pieces.Good = f.some.inGoodSets()
	} else {
		out.Attempts = f.s.track.done(f.index, f.only, cycle) - f.held - f.s.track.taken[f.index]
		if out.Pieces.Good = f.s.out.Sets.Good; f.only != nil {
			out.Pieces.Good = f.s.track.goodWith(f.only, cycle)
		}
	}
	out.Stock, out.Clearing = f.stock.task.Account(), f.fix.task.Account()
	if f.hand != f.fix {
		out.Clearing.Add(f.hand.task.Account())
	}
	if f.mixup != nil {
		out.Clearing.Add(f.mixup.stop.task.Account())
	}
}
