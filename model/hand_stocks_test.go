package model

import "netrate/sim"

// handRefills are cases of hoppers that are refilled, in time or too late.
func handRefills() []handCase {
	return []handCase{
		{
			// Called at 50 s, full at 80.5 in mid-cycle, when 80 of 100 are gone; 99 left
			// at 81, called again at 130, full at 160.5, 90 left at the end.
			"a refill that ends in mid-cycle",
			handLine(170.5, func(_ *Line, a, _ *Feeder) { a.Hopper.Capacity, a.Hopper.Warn = 100, 50 }),
			func() *Outcome {
				o := handOutcome(170.5, 170.5)
				allGood(o, 170)
				a := &o.Stations[handA]
				a.Pieces.Loaded, a.Pieces.Left = 260, 90
				a.Stock = sim.Account{Calls: 2, Done: 2, Walking: 20.5, Working: 40.5}
				return o
			},
		},
		{
			// Called at 80 s. He arrives at 90.25 and works until 120.75; the hopper is used
			// up at 100. The line runs at 125, 100 cycles later the same: called at 205, used
			// up at 225, full at 245.75, runs at 250, and 9 cycles more are done by 259.5.
			"a hopper used up while it is refilled",
			handLine(259.5, func(_ *Line, a, _ *Feeder) {
				a.Hopper = Stock{Capacity: 100, Warn: 20, Work: sim.Constant(30.5)}
			}),
			func() *Outcome {
				o := handOutcome(259.5, 209.5)
				allGood(o, 209)
				a := &o.Stations[handA]
				a.Pieces.Loaded, a.Pieces.Left = 300, 91
				a.Stock = sim.Account{Calls: 2, Done: 2, Walking: 20.5, Working: 61}
				a.Stops[CauseStock] = StopTotal{Count: 2, Working: 41.5, Restarting: 8.5}
				return o
			},
		},
		{
			// The operator is with B from 4 s until 74.75 (10.25 and 60.5). A calls at 10 and
			// is used up at 30, when B has fed 29; he comes to A at 85 and has finished at
			// 105.25. Then it is the turn of the belt, which has called since 6. The line
			// runs at 109.5; B calls at 112.5, A at 119.5; 4.75 s of work on the belt.
			"a hopper used up while its refill waits",
			handLine(120.25, func(l *Line, a, b *Feeder) {
				a.Hopper.Capacity, a.Hopper.Warn = 30, 20
				b.Hopper = Stock{Capacity: 45, Warn: 42, Work: sim.Constant(60.5)}
				firstOf[*Delivery](l).Belt = Stock{Capacity: 61, Warn: 60, Work: sim.Constant(20.25)}
			}),
			func() *Outcome {
				o := handOutcome(120.25, 40.75)
				allGood(o, 40)
				a, b := &o.Stations[handA], &o.Stations[handB]
				a.Pieces.Loaded, a.Pieces.Left = 60, 20
				a.Stock = sim.Account{Calls: 2, Done: 1, Waiting: 65.5, Walking: 10.25, Working: 20.25}
				a.Stops[CauseStock] = StopTotal{Count: 1, Waiting: 55, Working: 20.25, Restarting: 4.25}
				b.Pieces.Loaded, b.Pieces.Left = 74, 35
				b.Stock = sim.Account{Calls: 2, Done: 1, Waiting: 7.75, Walking: 10.25, Working: 60.5}
				o.Stations[handDelivery].Stock = sim.Account{Calls: 1, Waiting: 99.25, Walking: 10.25, Working: 4.75}
				return o
			},
		},
		{
			// As before until 74.75 s, but the crew goes by who called first, used up or not: he
			// sweeps the belt, which has called since 6, until 105.25, and fills A until 135.75.
			// The line runs at 140; in cycle 31 the belt calls again.
			"a hopper used up that keeps its place",
			handLine(141.25, func(l *Line, a, b *Feeder) {
				l.Crew.Order, l.Crew.Exhausted = FirstCome, InTurn
				a.Hopper.Capacity, a.Hopper.Warn = 30, 20
				b.Hopper = Stock{Capacity: 45, Warn: 42, Work: sim.Constant(60.5)}
				firstOf[*Delivery](l).Belt = Stock{Capacity: 61, Warn: 60, Work: sim.Constant(20.25)}
			}),
			func() *Outcome {
				o := handOutcome(141.25, 31.25)
				allGood(o, 31)
				a, b := &o.Stations[handA], &o.Stations[handB]
				a.Pieces.Loaded, a.Pieces.Left = 60, 29
				a.Stock = sim.Account{Calls: 1, Done: 1, Waiting: 95.25, Walking: 10.25, Working: 20.25}
				a.Stops[CauseStock] = StopTotal{Count: 1, Waiting: 85.5, Working: 20.25, Restarting: 4.25}
				b.Pieces.Loaded, b.Pieces.Left = 74, 44
				b.Stock = sim.Account{Calls: 1, Done: 1, Walking: 10.25, Working: 60.5}
				o.Stations[handDelivery].Stock = sim.Account{Calls: 2, Done: 1, Waiting: 68.75, Walking: 10.5, Working: 20.25}
				return o
			},
		},
	}
}

// handUsedUp are cases of stocks whose use shows at their end.
func handUsedUp() []handCase {
	return []handCase{
		{
			// The hopper of 5 gives 2, 2 and 1: the last piece comes alone, and is not called
			// a double either. Used up at 3 s, full at 33.5; the line runs at 37.75; used up
			// at 40.75, full at 71.25; runs at 75.5; used up at 78.5, at work from 88.75.
			// Of the 9 sets, 1, 2 and 4 are delivered with two pieces and 3 with one.
			"the last piece cannot be doubled",
			handLine(100.5, func(_ *Line, a, _ *Feeder) {
				a.Hopper.Capacity = 5
				a.Double, a.FalseCalls, a.OnDouble = 1, 1, Divert
			}),
			func() *Outcome {
				o := handOutcome(100.5, 9)
				allGood(o, 9)
				o.Sets.Good = 1
				o.bad(handA, Double, 3, 2, 2) // 1 and 2, and 4
				a := &o.Stations[handA]
				a.Faults[Double], a.Missed, a.Lost[Double] = 6, 6, 3
				a.Pieces = Pieces{Loaded: 15, Good: 1, Defective: 6, OnLine: 8}
				a.Stock = sim.Account{Calls: 3, Done: 2, Walking: 30.75, Working: 52.25}
				a.Stops[CauseStock] = StopTotal{Count: 3, Waiting: 30.75, Working: 52.25, Restarting: 8.5}
				o.Stations[handB].Pieces.Good, o.Stations[handB].Pieces.Defective = 1, 3
				o.Stations[handInserter].Pieces.Good, o.Stations[handInserter].Pieces.Defective = 1, 3
				return o
			},
		},
		{
			// The tenth set is diverted at 12 s. He arrives at 22.25 and has finished at 42.5;
			// the line runs at 46.75; the twentieth comes at 56.75, and 3.75 s are left.
			"a bin full",
			handLine(60.5, func(l *Line, a, _ *Feeder) {
				a.Misfeed, a.OnMisfeed = 1, Divert
				firstOf[*TrackGate](l).Bin = Stock{Capacity: 10, Work: sim.Constant(20.25)}
			}),
			func() *Outcome {
				o := handOutcome(60.5, 22)
				o.Cycles, o.Sets = 22, Sets{Started: 22, Diverted: 20, OnLine: 2}
				o.Stations[handA].fed(22, Pieces{})
				o.Stations[handA].Faults[Misfeed], o.Stations[handA].Lost[Misfeed] = 22, 20
				o.Stations[handB].fed(0, Pieces{})
				o.Stations[handInserter].fed(0, Pieces{})
				gate := &o.Stations[handGate]
				gate.Removed = 20
				gate.Stock = sim.Account{Calls: 2, Done: 1, Walking: 14, Working: 20.25}
				gate.Stops[CauseStock] = StopTotal{Count: 2, Waiting: 14, Working: 20.25, Restarting: 4.25}
				return o
			},
		},
	}
}

// allGood fills in sets and pieces of a line on which every set is fed and delivered.
func allGood(o *Outcome, cycles int64) {
	good := cycles - handDelivery
	o.Cycles, o.Sets = cycles, Sets{Started: cycles, Good: good, OnLine: handDelivery}
	for _, at := range []int64{handA, handB, handInserter} {
		o.Stations[at].fed(cycles-at, Pieces{Good: good, OnLine: handDelivery - at})
	}
	o.Stations[handDelivery].Removed = good
}
