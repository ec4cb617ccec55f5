package model

import (
	"slices"

	"netrate/sim"
)

// handStreams are cases of personalised pieces. Those of a lane whose feeds are all good
// but the first, or all but the one right after a fault, need tricks: right after a misfeed
// there is none (again is 0), and the last piece of a hopper cannot be doubled.
func handStreams() []handCase {
	return slices.Concat(
		handInLine(), handSecondFault(), handByHand(), handReaders(), handReadersStop(), handNotRead(), handFalseAlarms(),
		handSingleLane(), handEnvelopes(), handChannels(), handJobs(),
	)
}

// twoLanes gives A and B a stream each and A an operator's work of 25.25 s to realign it.
func twoLanes(a, b *Feeder) {
	a.Stream = Stream{Name: "a", Tries: 1, Realign: sim.Constant(25.25)}
	b.Stream = Stream{Name: "b", Tries: 1}
}

// lost fills in sets lost to a fault, all of them remakes.
func (o *StationOutcome) lost(f Fault, sets int64) { o.Lost[f], o.Remakes[f] = sets, sets }

// handInLine are cases of recovery in line.
func handInLine() []handCase {
	return []handCase{
		// Set 1 misses, set 2 gets the two pieces that are due, set 3 misses, and so on.
		handFate("in line, two sets are lost by a misfeed", func(_ *Line, a, b *Feeder) {
			twoLanes(a, b)
			a.Misfeed, a.OnMisfeed, a.Streak.Given = 1, Divert, true
		}, func(o *Outcome) {
			o.Sets.Diverted, o.Sets.OnLine = 98, 2
			o.Stations[handA].fed(100, Pieces{Diverted: 98, OnLine: 2})
			o.Stations[handA].Faults[Misfeed] = 50
			o.Stations[handA].lost(Misfeed, 98)
			o.Stations[handB].fed(99, Pieces{Diverted: 98, OnLine: 1})
			o.Stations[handGate].Removed = 98
			o.Stations[handInserter].fed(0, Pieces{})
		}),
		// A lane in step that calls a double falsely is not in recovery: if it were, the call of
		// the next set would be a second fault.
		handFate("in line, one set is lost by a false call", func(_ *Line, a, b *Feeder) {
			twoLanes(a, b)
			a.FalseCalls, a.OnDouble = 1, Divert
		}, func(o *Outcome) {
			o.Sets.Diverted, o.Sets.OnLine = 98, 2
			a := &o.Stations[handA]
			a.fed(100, Pieces{Diverted: 98, OnLine: 2})
			a.FalseCalls = 100
			a.lost(Double, 98)
			o.Stations[handB].fed(99, Pieces{Diverted: 98, OnLine: 1})
			o.Stations[handGate].Removed = 98
			o.Stations[handInserter].fed(0, Pieces{})
		}),
		// Set 1 misses and nobody knows. Set 2 gets the piece for it, which is called a double:
		// A is out of step, so it is in recovery, and set 3, which misses, is a catch-up set.
		// That nobody knows either: it is over, and begins anew with the call of set 4.
		handFate("in line, a false call of a lane out of step begins a recovery", func(_ *Line, a, b *Feeder) {
			twoLanes(a, b)
			a.Misfeed, a.Noticed, a.Streak.Given = 1, 0, true
			a.FalseCalls, a.OnDouble = 1, Divert
		}, func(o *Outcome) {
			o.Sets.Diverted, o.Sets.OnLine = 97, 2
			o.bad(handA, Misfeed, 1, 1, 1)
			a := &o.Stations[handA]
			a.fed(100, Pieces{Diverted: 49, OnLine: 1})
			a.Faults[Misfeed], a.Unnoticed, a.FalseCalls = 50, 50, 50
			a.lost(Misfeed, 98)
			o.Stations[handB].fed(99, Pieces{Defective: 1, Diverted: 97, OnLine: 1})
			o.Stations[handGate].Removed = 97
			o.Stations[handInserter].fed(1, Pieces{Defective: 1})
			o.Stations[handDelivery].Removed = 1
		}),
		{
			// The hopper of 3 gives set 1 two pieces, set 2 none, for it holds, and set 3 the
			// last, which cannot be doubled. Used up at 3 s, full at 33.5, the line runs at
			// 37.75; used up at 40.75, full at 71.25, runs at 75.5, used up at 78.5. Of 9 sets
			// 1, 2, 4, 5 and 7 are diverted and 3 is delivered.
			"in line, two sets are lost by a double",
			handLine(80.5, func(_ *Line, a, b *Feeder) {
				twoLanes(a, b)
				a.Hopper.Capacity = 3
				a.Double, a.Caught, a.OnDouble = 1, 1, Divert
			}),
			func() *Outcome {
				o := handOutcome(80.5, 9)
				o.Cycles, o.Sets = 9, Sets{Started: 9, Good: 1, Diverted: 5, OnLine: 3}
				a := &o.Stations[handA]
				a.Attempts, a.Faults[Double] = 6, 3
				a.Pieces = Pieces{Loaded: 9, Good: 1, Diverted: 6, OnLine: 2}
				a.lost(Double, 5)
				a.usedUpThrice(22.5)
				o.Stations[handB].fed(8, Pieces{Good: 1, Diverted: 5, OnLine: 2})
				o.Stations[handGate].Removed = 5
				o.Stations[handInserter].fed(2, Pieces{Good: 1, OnLine: 1})
				o.Stations[handDelivery].Removed = 1
				return o
			},
		},
	}
}

// handSecondFault is a case of a fault in recovery.
func handSecondFault() []handCase {
	return []handCase{
		{
			// Set 1 misses and so does set 2, which is to catch up: the line stops at 2 s, the
			// operator is there at 12.25 and has realigned A at 37.5, with the pieces for
			// these two sets taken out. The line runs at 41.75 and stops at 43.75 and 85.5.
			"a second misfeed stops the line",
			handLine(100.5, func(_ *Line, a, b *Feeder) {
				twoLanes(a, b)
				a.Misfeed, a.OnMisfeed = 1, Divert
			}),
			func() *Outcome {
				o := handOutcome(100.5, 6)
				o.Cycles, o.Sets = 6, Sets{Started: 6, Diverted: 4, OnLine: 2}
				o.LeftOver = LeftOver{85.5 + 35.5 - 100.5, 4.25}
				a := &o.Stations[handA]
				a.fed(6, Pieces{Spoiled: 4})
				a.Faults[Misfeed] = 6
				a.lost(Misfeed, 4)
				a.Stops[CauseMisfeed] = StopTotal{Count: 3, Waiting: 30.75, Working: 55.25, Restarting: 8.5}
				a.Clearing = sim.Account{Calls: 3, Done: 2, Walking: 30.75, Working: 55.25}
				o.Stations[handB].fed(5, Pieces{Diverted: 4, OnLine: 1})
				o.Stations[handGate].Removed = 4
				o.Stations[handInserter].fed(0, Pieces{})
				return o
			},
		},
	}
}

// usedUpThrice fills in a hopper that is refilled twice and used up a third time, with the
// operator still on his way to it, having walked so long.
func (o *StationOutcome) usedUpThrice(walking sim.Seconds) {
	o.Stock = sim.Account{Calls: 3, Done: 2, Walking: walking, Working: 40.5}
	o.Stops[CauseStock] = StopTotal{Count: 3, Waiting: walking, Working: 40.5, Restarting: 8.5}
}

// handByHand are cases of recovery by hand.
func handByHand() []handCase {
	return []handCase{{
		// The line stops at 1 s, runs at 40.75, stops at 41.75, runs at 81.5, stops at 82.5.
		"by hand, no set is lost by a misfeed",
		handLine(100.5, func(_ *Line, a, b *Feeder) {
			twoLanes(a, b)
			a.Misfeed, a.OnMisfeed = 1, Stop
		}),
		func() *Outcome {
			o := handOutcome(100.5, 3)
			o.Cycles, o.Sets = 3, Sets{Started: 3, OnLine: 3}
			o.LeftOver = LeftOver{82.5 + 35.5 - 100.5, 4.25}
			a := &o.Stations[handA]
			a.fed(3, Pieces{OnLine: 3})
			a.Faults[Misfeed] = 3
			a.Stops[CauseMisfeed] = StopTotal{Count: 3, Waiting: 30.75, Working: 58.25, Restarting: 8.5}
			a.Clearing = sim.Account{Calls: 3, Done: 2, Walking: 30.75, Working: 58.25}
			o.Stations[handB].fed(2, Pieces{OnLine: 2})
			o.Stations[handInserter].fed(0, Pieces{})
			return o
		},
	}}
}

// handSingleLane are cases of a lane that has nothing to be matched to.
func handSingleLane() []handCase {
	single := Stream{Name: "only", Tries: 1}
	return []handCase{
		handFate("a single lane: a misfeed costs one set and no piece", func(_ *Line, a, _ *Feeder) {
			a.Stream = single
			a.Misfeed, a.OnMisfeed = 1, Divert
		}, func(o *Outcome) {
			o.Sets.Diverted, o.Sets.OnLine = 98, 2
			o.Stations[handA].fed(100, Pieces{})
			o.Stations[handA].Faults[Misfeed], o.Stations[handA].Lost[Misfeed] = 100, 98
			o.Stations[handB].fed(0, Pieces{})
			o.Stations[handGate].Removed = 98
			o.Stations[handInserter].fed(0, Pieces{})
		}),
		handFate("a single lane feeds condemned sets", func(_ *Line, a, b *Feeder) {
			b.Stream = single
			a.Misfeed, a.OnMisfeed = 1, Divert
		}, func(o *Outcome) {
			o.Sets.Diverted, o.Sets.OnLine = 98, 2
			o.Stations[handA].fed(100, Pieces{})
			o.Stations[handA].Faults[Misfeed] = 100
			o.Stations[handA].lost(Misfeed, 98)
			o.Stations[handB].fed(99, Pieces{Diverted: 98, OnLine: 1})
			o.Stations[handGate].Removed = 98
			o.Stations[handInserter].fed(0, Pieces{})
		}),
		{
			// A jams in every cycle, which end at 1, 36.75 and 72.5 s. The pocket of sets 1 and
			// 2 comes to B, whose pieces for them are spoiled too; that of set 3 does not.
			"a single lane: the piece for an emptied pocket",
			handLine(100.5, func(_ *Line, a, b *Feeder) {
				b.Stream = single
				a.Jam = 1
			}),
			func() *Outcome {
				o := handOutcome(100.5, 3)
				o.Cycles, o.Sets = 3, Sets{Started: 3, Spoiled: 3}
				o.LeftOver = LeftOver{72.5 + 30.5 - 100.5, 4.25}
				a := &o.Stations[handA]
				a.fed(3, Pieces{Spoiled: 3})
				a.Faults[Jam], a.Lost[Jam], a.Remakes[Jam] = 3, 3, 2
				a.Stops[CauseJam] = StopTotal{Count: 3, Waiting: 30.75, Working: 58.25, Restarting: 8.5}
				a.Clearing = sim.Account{Calls: 3, Done: 2, Walking: 30.75, Working: 58.25}
				o.Stations[handB].fed(0, Pieces{Spoiled: 2})
				o.Stations[handInserter].fed(0, Pieces{})
				return o
			},
		},
	}
}

// handEnvelopes are cases in which B feeds personalised envelopes.
func handEnvelopes() []handCase {
	envelopes := func(l *Line, b *Feeder) {
		b.Stream, b.Envelopes = Stream{Name: "envelopes", Tries: 1}, true
		firstOf[*Inserter](l).Hopper = Stock{}
	}
	afterTheGate := handFate("the envelope of a diverted set leaves alone", func(l *Line, a, b *Feeder) {
		envelopes(l, b)
		a.Misfeed, a.OnMisfeed = 1, Divert
		gate := firstOf[*TrackGate](l)
		gate.At, b.At = 1, 2
		l.Stations[handB], l.Stations[handGate] = gate, b
	}, func(o *Outcome) {
		o.Sets.Diverted, o.Sets.OnLine = 99, 1
		o.Stations[handA].fed(100, Pieces{})
		o.Stations[handA].Faults[Misfeed], o.Stations[handA].Lost[Misfeed] = 100, 99
		o.Stations[handA].Remakes[Misfeed] = 98 // that of set 99 is still to come
		o.Stations[1].Removed = 99
		o.Stations[2].fed(0, Pieces{Diverted: 98})
	})
	return []handCase{
		afterTheGate,
		handFate("a flap sends out a set in its envelope", func(l *Line, _, b *Feeder) {
			envelopes(l, b)
			in := firstOf[*Inserter](l)
			in.Flap, in.OnFlap = 1, Outsort
		}, func(o *Outcome) {
			o.Sets.Outsorted, o.Sets.OnLine = 96, 4
			o.Stations[handA].fed(100, Pieces{Outsorted: 96, OnLine: 4})
			o.Stations[handB].fed(99, Pieces{Outsorted: 96, OnLine: 3})
			in := &o.Stations[handInserter]
			in.Attempts, in.Faults[Flap] = 97, 97
			in.lost(Flap, 96)
			o.Stations[handExit].Removed = 96
		}),
	}
}
