package model

import "netrate/sim"

// handBeginnings are shifts that do not begin afresh. The line is that of "a hopper used up
// while it is refilled": A calls at 80 s, is full at 120.75 and, used up at 100, the line runs at
// 125; so again at 205, 245.75, 225 and 250.
func handBeginnings() []handCase {
	line := func(shift sim.Seconds, b Begins) *Line {
		return handLine(shift, func(l *Line, a, _ *Feeder) {
			a.Hopper = Stock{Capacity: 100, Warn: 20, Work: sim.Constant(30.5)}
			l.Begins = b
		})
	}
	return []handCase{
		{
			// From 230.5 to 259.5 s. After 200 cycles the line stands for A, until 250, and
			// nine cycles more are done. Five sets stood on the line, two of them past the
			// inserter and four past B.
			"a stop that goes on over the handover",
			line(29, Begins{Before: 230.5, Track: true}),
			func() *Outcome {
				o := handOutcome(29, 9.5)
				o.Cycles, o.Sets = 9, Sets{Started: 14, Good: 9, OnLine: 5}
				a := &o.Stations[handA]
				a.Attempts, a.Pieces = 9, Pieces{Loaded: 105, Good: 9, OnLine: 5, Left: 91}
				a.Stock = sim.Account{Done: 1, Working: 15.25}
				a.Stops[CauseStock] = StopTotal{Working: 15.25, Restarting: 4.25}
				b, in := &o.Stations[handB], &o.Stations[handInserter]
				b.Attempts, b.Pieces = 9, Pieces{Loaded: 9805, Good: 9, OnLine: 4, Left: 9792}
				in.Attempts, in.Pieces = 9, Pieces{Loaded: 9805, Good: 9, OnLine: 2, Left: 9794}
				o.Stations[handDelivery].Removed = 9
				return o
			},
		},
		{
			// At 150.5 s 125 cycles are done: A has fed 25 of its second hundred, B 124, the
			// inserter 122. The shift begins with that and an empty track.
			"hoppers as the shift before left them",
			line(50.5, Begins{Before: 150.5}),
			func() *Outcome {
				o := handOutcome(50.5, 50.5)
				allGood(o, 50)
				for at, less := range map[int]int64{handA: 9925, handB: 124, handInserter: 122} {
					p := &o.Stations[at].Pieces
					p.Loaded, p.Left = p.Loaded-less, p.Left-less
				}
				return o
			},
		},
		{
			// 22 pieces of A, a fifth of a hundred and a half, and its warning at 20: it calls
			// at 2 s and is used up at 22; full at 42.75, the line runs at 47.
			"hoppers at a level",
			handLine(57.5, func(l *Line, a, _ *Feeder) {
				a.Hopper = Stock{Capacity: 100, Warn: 20, Work: sim.Constant(30.5)}
				l.Begins.Level = 0.2249
			}),
			func() *Outcome {
				o := handOutcome(57.5, 32.5)
				allGood(o, 32)
				a, b, in := &o.Stations[handA], &o.Stations[handB], &o.Stations[handInserter]
				a.Pieces.Loaded, a.Pieces.Left = 122, 90
				a.Stock = sim.Account{Calls: 1, Done: 1, Walking: 10.25, Working: 30.5}
				a.Stops[CauseStock] = StopTotal{Count: 1, Working: 20.75, Restarting: 4.25}
				b.Pieces.Loaded, b.Pieces.Left = 2249, 2249-31
				in.Pieces.Loaded, in.Pieces.Left = 2249, 2249-29
				return o
			},
		},
		{
			// 20 pieces, at the warning: the operator is called at the end of the first cycle,
			// and full at 41.75; the line runs at 46.
			"hoppers that begin at their warning",
			handLine(50.5, func(l *Line, a, _ *Feeder) {
				a.Hopper = Stock{Capacity: 100, Warn: 20, Work: sim.Constant(30.5)}
				l.Begins.Level = 0.2
			}),
			func() *Outcome {
				o := handOutcome(50.5, 24.5)
				allGood(o, 24)
				a, b, in := &o.Stations[handA], &o.Stations[handB], &o.Stations[handInserter]
				a.Pieces.Loaded, a.Pieces.Left = 120, 96
				a.Stock = sim.Account{Calls: 1, Done: 1, Walking: 10.25, Working: 30.5}
				a.Stops[CauseStock] = StopTotal{Count: 1, Working: 21.75, Restarting: 4.25}
				b.Pieces.Loaded, b.Pieces.Left = 2000, 2000-23
				in.Pieces.Loaded, in.Pieces.Left = 2000, 2000-21
				return o
			},
		},
	}
}
