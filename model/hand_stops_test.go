package model

import "netrate/sim"

// handPutRight are cases in which every cycle from the first of the faulty station on
// ends with a stop. At B, which sees set 1 in cycle 2, the line stops at 2 s. The operator
// arrives at 12.25, has finished at 42.5, and the line runs at 46.75; so it stops again
// at 47.75 and at 93.5, and the operator is still walking at 100.5. At the inserter it is
// 4, 49.75 and 95.5 s.
func handPutRight() []handCase {
	atB := func(name string, cause Cause, change func(a, b *Feeder), want func(o *Outcome)) handCase {
		return handCase{name, handLine(100.5, func(_ *Line, a, b *Feeder) { change(a, b) }), func() *Outcome {
			o := handOutcome(100.5, 4)
			o.Cycles, o.Sets.Started, o.Sets.OnLine = 4, 4, 4
			o.LeftOver = LeftOver{93.5 + 40.5 - 100.5, 4.25}
			o.Stations[handA].fed(4, Pieces{OnLine: 4})
			o.Stations[handB].fed(3, Pieces{OnLine: 3})
			o.Stations[handInserter].fed(1, Pieces{OnLine: 1})
			o.Stations[handB].Stops[cause] = StopTotal{Count: 3, Waiting: 27.5, Working: 60.5, Restarting: 8.5}
			o.Stations[handB].Clearing = sim.Account{Calls: 3, Done: 2, Walking: 27.5, Working: 60.5}
			want(o)
			return o
		}}
	}
	atInserter := func(name string, cause Cause, change func(in *Inserter), want func(o *Outcome)) handCase {
		line := handLine(100.5, func(l *Line, _, _ *Feeder) { change(firstOf[*Inserter](l)) })
		return handCase{name, line, func() *Outcome {
			o := handOutcome(100.5, 6)
			o.Cycles, o.Sets.Started = 6, 6
			o.LeftOver = LeftOver{95.5 + 40.5 - 100.5, 4.25}
			o.Stations[handInserter].Faults[cause] = 3
			o.Stations[handInserter].Stops[cause] = StopTotal{Count: 3, Waiting: 25.5, Working: 60.5, Restarting: 8.5}
			o.Stations[handInserter].Clearing = sim.Account{Calls: 3, Done: 2, Walking: 25.5, Working: 60.5}
			want(o)
			return o
		}}
	}
	// onward fills in that set 1 was delivered at the end of cycle 6.
	onward := func(o *Outcome) {
		o.Sets.Good, o.Sets.OnLine = 1, 5
		o.Stations[handA].fed(6, Pieces{Good: 1, OnLine: 5})
		o.Stations[handB].fed(5, Pieces{Good: 1, OnLine: 4})
		o.Stations[handInserter].fed(3, Pieces{Good: 1, OnLine: 2})
		o.Stations[handDelivery].Removed = 1
	}
	return []handCase{
		atB("misfeeds stop", CauseMisfeed, func(_, b *Feeder) { b.Misfeed = 1 },
			func(o *Outcome) { o.Stations[handB].Faults[Misfeed] = 3 }),
		atB("doubles stop", CauseDouble, func(_, b *Feeder) { b.Double, b.Caught = 1, 1 },
			func(o *Outcome) { o.Stations[handB].Faults[Double] = 3 }),
		atB("false calls stop", CauseDouble, func(_, b *Feeder) { b.FalseCalls = 1 },
			func(o *Outcome) { o.Stations[handB].FalseCalls = 3 }),
		atB("jams spoil what was fed before", CauseJam, func(_, b *Feeder) { b.Jam = 1 }, func(o *Outcome) {
			o.Stations[handB].Faults[Jam], o.Stations[handB].Lost[Jam] = 3, 3
			o.Sets.Spoiled, o.Sets.OnLine = 3, 1
			o.Stations[handA].fed(4, Pieces{Spoiled: 3, OnLine: 1})
			o.Stations[handB].fed(3, Pieces{Spoiled: 3})
			o.Stations[handInserter].fed(0, Pieces{})
		}),
		{
			// The second stop, at 47.75 s, is over at 88.25 s; the line would run at 92.5.
			"a shift that ends within the restart delay", handLine(90.5, func(_ *Line, _, b *Feeder) { b.Misfeed = 1 }), func() *Outcome {
				o := handOutcome(90.5, 3)
				o.Cycles, o.Sets.Started, o.Sets.OnLine = 3, 3, 3
				o.LeftOver = LeftOver{0, 92.5 - 90.5}
				o.Stations[handA].fed(3, Pieces{OnLine: 3})
				b := &o.Stations[handB]
				b.fed(2, Pieces{OnLine: 2})
				o.Stations[handInserter].fed(0, Pieces{})
				b.Faults[Misfeed] = 2
				b.Stops[CauseMisfeed] = StopTotal{Count: 2, Waiting: 20.5, Working: 60.5, Restarting: 6.5}
				b.Clearing = sim.Account{Calls: 2, Done: 2, Walking: 20.5, Working: 60.5}
				return o
			},
		},
		atInserter("envelope misfeeds", CauseEnvelopeMisfeed, func(in *Inserter) { in.EnvelopeMisfeed = 1 }, onward),
		atInserter("flaps stop", CauseFlap, func(in *Inserter) { in.Flap = 1 }, onward),
		atInserter("insertion jams", CauseInsertionJam, func(in *Inserter) { in.Jam = 1 }, func(o *Outcome) {
			o.Sets.Spoiled, o.Sets.OnLine = 3, 3
			o.Stations[handInserter].Lost[InsertionJam] = 3
			o.Stations[handA].fed(6, Pieces{Spoiled: 3, OnLine: 3})
			o.Stations[handB].fed(5, Pieces{Spoiled: 3, OnLine: 2})
			o.Stations[handInserter].fed(3, Pieces{Spoiled: 3})
		}),
	}
}

// handTwoStops are cases in which A and B stop the line in one cycle.
func handTwoStops() []handCase {
	return []handCase{
		{
			// A stops the line at 1 s until 31.5; it runs at 35.75 and stops at 36.75 for
			// both. The operator is with A until 67.25, with B until 107.75; the line runs
			// at 112 and stops at 113 for both. He is with A until 143.5, then on his way.
			"two stops at once and one operator",
			handLine(150.5, func(_ *Line, a, b *Feeder) { a.Misfeed, b.Misfeed = 1, 1 }),
			func() *Outcome {
				o := handOutcome(150.5, 3)
				twoStops(o, 3)
				o.LeftOver = LeftOver{143.5 + 40.5 - 150.5, 4.25} // of the stop at B
				o.Stations[handA].Stops[CauseMisfeed] = StopTotal{Count: 3, Waiting: 30.75, Working: 60.75, Restarting: 8.5}
				o.Stations[handA].Clearing = sim.Account{Calls: 3, Done: 3, Walking: 30.75, Working: 60.75}
				o.Stations[handB].Stops[CauseMisfeed] = StopTotal{Count: 2, Waiting: 17.25, Working: 30.25}
				o.Stations[handB].Clearing = sim.Account{Calls: 2, Done: 1, Waiting: 61, Walking: 17.25, Working: 30.25}
				return o
			},
		},
		{
			// As before up to 36.75. Both arrive at 47; A is put right at 67.25, B at 77.25;
			// the line runs at 81.5 and stops at 82.5; A 113, B 123, runs at 127.25, stops
			// at 128.25; both arrive at 138.5 and are at work for the last 12 s.
			"two stops at once and two operators",
			handLine(150.5, func(l *Line, a, b *Feeder) {
				a.Misfeed, b.Misfeed = 1, 1
				l.Crew.Operators = 2
			}),
			func() *Outcome {
				o := handOutcome(150.5, 4)
				twoStops(o, 4)
				o.LeftOver = LeftOver{(128.25 + 30.5 - 150.5) + (128.25 + 40.5 - 150.5), 4.25}
				o.Stations[handInserter].fed(1, Pieces{OnLine: 1})
				o.Stations[handA].Stops[CauseMisfeed] = StopTotal{Count: 4, Waiting: 41, Working: 72.75, Restarting: 12.75}
				o.Stations[handA].Clearing = sim.Account{Calls: 4, Done: 3, Walking: 41, Working: 72.75}
				o.Stations[handB].Stops[CauseMisfeed] = StopTotal{Count: 3, Working: 20}
				o.Stations[handB].Clearing = sim.Account{Calls: 3, Done: 2, Walking: 30.75, Working: 72.5}
				return o
			},
		},
	}
}

// handOneCycle are cases of a hopper that calls in the cycle of a stop.
func handOneCycle() []handCase {
	return []handCase{
		{
			// At 8 s the hopper of A is used up and B has its seventh misfeed in a row: A
			// goes first, being first along the track. He is with A until 38.5 and with B
			// until 79; the line runs at 83.25, and 2 cycles more are done by 85.25.
			"a stock used up and a fault in one cycle",
			handLine(85.5, func(_ *Line, a, b *Feeder) {
				a.Hopper.Capacity = 8
				b.Misfeed, b.OnMisfeed, b.Streak.StopAfter = 1, Ship, 7
			}),
			func() *Outcome {
				o := handOutcome(85.5, 10.25)
				seventh(o, 10)
				o.Stations[handA].Pieces.Loaded, o.Stations[handA].Pieces.Left = 16, 6
				o.Stations[handA].Stock = sim.Account{Calls: 1, Done: 1, Walking: 10.25, Working: 20.25}
				o.Stations[handA].Stops[CauseStock] = StopTotal{Count: 1, Waiting: 10.25, Working: 20.25, Restarting: 4.25}
				o.Stations[handB].Stops[CauseStreak] = StopTotal{Count: 1, Waiting: 10.25, Working: 30.25}
				o.Stations[handB].Clearing = sim.Account{Calls: 1, Done: 1, Waiting: 30.5, Walking: 10.25, Working: 30.25}
				return o
			},
		},
		{
			// At 8 s the hopper of A runs low and B has its seventh misfeed in a row: the
			// operator, though free when A called, goes to B, which stops the line. He has
			// finished there at 48.5 and comes to A at 58.75; the line runs at 52.75.
			"a call and a stop in one cycle",
			handLine(59.5, func(_ *Line, a, b *Feeder) {
				a.Hopper.Warn = 9992
				b.Misfeed, b.OnMisfeed, b.Streak.StopAfter = 1, Ship, 7
			}),
			func() *Outcome {
				o := handOutcome(59.5, 14.75)
				seventh(o, 14)
				o.Stations[handA].Stock = sim.Account{Calls: 1, Waiting: 40.5, Walking: 10.25, Working: 0.75}
				o.Stations[handB].Stops[CauseStreak] = StopTotal{Count: 1, Waiting: 10.25, Working: 30.25, Restarting: 4.25}
				o.Stations[handB].Clearing = sim.Account{Calls: 1, Done: 1, Walking: 10.25, Working: 30.25}
				return o
			},
		},
	}
}

// handOneStation is a case of two stops at one station.
func handOneStation() []handCase {
	return []handCase{
		{
			// At 4 s the inserter jams with the last envelope of its hopper of 1: the operator
			// clears the jam first, until 44.5, and has filled the hopper at 75; the line runs at
			// 79.25 and stops again at 80.25.
			"a fault and its stock used up in one cycle",
			handLine(85.5, func(l *Line, _, _ *Feeder) {
				in := firstOf[*Inserter](l)
				in.Jam, in.Hopper.Capacity = 1, 1
			}),
			func() *Outcome {
				o := handOutcome(85.5, 5)
				o.Cycles, o.Sets = 5, Sets{Started: 5, Spoiled: 2, OnLine: 3}
				o.LeftOver = LeftOver{80.25 + 40.5 - 85.5, 4.25} // the hopper still waits
				o.Stations[handA].fed(5, Pieces{Spoiled: 2, OnLine: 3})
				o.Stations[handB].fed(4, Pieces{Spoiled: 2, OnLine: 2})
				in := &o.Stations[handInserter]
				in.Attempts, in.Faults[InsertionJam], in.Lost[InsertionJam] = 2, 2, 2
				in.Pieces = Pieces{Loaded: 2, Spoiled: 2}
				in.Stops[CauseInsertionJam] = StopTotal{Count: 2, Waiting: 15.5, Working: 30.25, Restarting: 4.25}
				in.Stops[CauseStock] = StopTotal{Count: 2, Waiting: 10.25, Working: 20.25}
				in.Clearing = sim.Account{Calls: 2, Done: 1, Walking: 15.5, Working: 30.25}
				in.Stock = sim.Account{Calls: 2, Done: 1, Waiting: 45.75, Walking: 10.25, Working: 20.25}
				return o
			},
		},
	}
}

// handStanding are cases of a task that ends while the line stands.
func handStanding() []handCase {
	return []handCase{
		{
			// The hopper of B calls at 4 s, when it has fed 3 of its 45; it is full at 34.5.
			// The eighth misfeed of A in a row stops the line at 8 s; A's operator is done
			// at 38.5; the line runs at 42.75. That is the end of the streak: the next would
			// be complete after 8 more. B has fed 3 more at the end of cycle 11, at 45.75.
			"misfeeds in a row, and a refill that ends while the line stands",
			handLine(46.5, func(l *Line, a, b *Feeder) {
				a.Misfeed, a.OnMisfeed, a.Streak.StopAfter = 1, Ship, 8
				b.Hopper.Capacity, b.Hopper.Warn = 45, 42
				l.Crew.Operators = 2
			}),
			func() *Outcome {
				return inARow(StopTotal{Count: 1, Waiting: 10.25, Working: 20.25, Restarting: 4.25})
			},
		},
		{
			// The same, but A is put right at 28.5 and the line runs at 42.75 all the same:
			// the refill ends within the restart delay.
			"a refill that ends within the restart delay",
			handLine(46.5, func(l *Line, a, b *Feeder) {
				a.Misfeed, a.OnMisfeed, a.Streak.StopAfter = 1, Ship, 8
				a.Clear, l.Restart = sim.Constant(10.25), sim.Constant(14.25)
				b.Hopper.Capacity, b.Hopper.Warn = 45, 42
				l.Crew.Operators = 2
			}),
			func() *Outcome {
				return inARow(StopTotal{Count: 1, Waiting: 10.25, Working: 10.25, Restarting: 14.25})
			},
		},
	}
}

// twoStops fills in sets and pieces where A and B stop the line in every cycle.
func twoStops(o *Outcome, cycles int64) {
	o.Cycles, o.Sets = cycles, Sets{Started: cycles, OnLine: cycles}
	o.Stations[handA].fed(cycles, Pieces{OnLine: cycles})
	o.Stations[handA].Faults[Misfeed] = cycles
	o.Stations[handB].fed(cycles-1, Pieces{OnLine: cycles - 1})
	o.Stations[handB].Faults[Misfeed] = cycles - 1
	o.Stations[handInserter].fed(0, Pieces{})
}

// seventh fills in sets and pieces where B misfeeds every set and each seventh is put right.
func seventh(o *Outcome, cycles int64) {
	allGood(o, cycles)
	all := o.Sets.Good
	good := all / 7
	o.Sets.Good = good
	o.bad(handB, Misfeed, all-good, (all+6)/7, min(all, 6))
	for _, at := range []int{handA, handInserter} {
		o.Stations[at].Pieces.Good, o.Stations[at].Pieces.Defective = o.Sets.Good, o.Sets.Defective
	}
	o.Stations[handB].fed(cycles-1, Pieces{Good: good, OnLine: (cycles-1)/7 - good})
	o.Stations[handB].Faults[Misfeed], o.Stations[handB].Lost[Misfeed] = cycles-1, o.Sets.Defective
}

// inARow is what 11 cycles come to in which A misfeeds every set and set 8 is put right.
func inARow(stop StopTotal) *Outcome {
	o := handOutcome(46.5, 11.75)
	o.Cycles, o.Sets = 11, Sets{Started: 11, OnLine: 5}
	o.bad(handA, Misfeed, 6, 1, 6)
	a, b := &o.Stations[handA], &o.Stations[handB]
	a.fed(11, Pieces{OnLine: 1})
	a.Faults[Misfeed], a.Lost[Misfeed] = 11, 6
	a.Stops[CauseStreak] = stop
	a.Clearing = sim.Account{Calls: 1, Done: 1, Walking: stop.Waiting, Working: stop.Working}
	b.Attempts, b.Pieces = 10, Pieces{Loaded: 52, Defective: 6, OnLine: 4, Left: 42}
	b.Stock = sim.Account{Calls: 2, Done: 1, Walking: 11, Working: 20.25}
	o.Stations[handInserter].fed(8, Pieces{Defective: 6, OnLine: 2})
	o.Stations[handDelivery].Removed = 6
	return o
}
