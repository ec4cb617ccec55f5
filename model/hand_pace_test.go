package model

import "netrate/sim"

// handPaces are lines that run some cycles slower than others.
func handPaces() []handCase {
	return append(append(handSlowStarts(), handRepeated()...), handSlowingDown()...)
}

// handSlowStarts are stops in the slow cycles of a start, which take 2 s each.
func handSlowStarts() []handCase {
	return []handCase{
		{
			// B jams with set 1 in the second slow cycle, at 4 s; the line runs at 48.75. It is
			// at a quarter of its speed now, and no longer at half: set 2 jams at 52.75, set 3,
			// from 97.5, at 101.5.
			"a jam within the slow cycles of a start",
			handLine(110.5, func(l *Line, _, b *Feeder) {
				b.Jam = 1
				l.Slow = Slow{Starting: Slowly{Cycles: 4, Share: 0.5}, AfterJam: Slowly{Cycles: 3, Share: 0.25}}
			}),
			func() *Outcome {
				o := handOutcome(110.5, 4+4+4)
				o.Time.Slow = SlowTime{Starting: 2, AfterJam: 6}
				o.Cycles, o.Sets = 4, Sets{Started: 4, Spoiled: 3, OnLine: 1}
				o.LeftOver = LeftOver{101.5 + 40.5 - 110.5, 4.25}
				o.Stations[handA].fed(4, Pieces{Spoiled: 3, OnLine: 1})
				b := &o.Stations[handB]
				b.fed(3, Pieces{Spoiled: 3})
				b.Faults[Jam], b.Lost[Jam] = 3, 3
				b.Stops[CauseJam] = StopTotal{Count: 3, Waiting: 29.5, Working: 60.5, Restarting: 8.5}
				b.Clearing = sim.Account{Calls: 3, Done: 2, Walking: 29.5, Working: 60.5}
				o.Stations[handInserter].fed(0, Pieces{})
				return o
			},
		},
		{
			// The seventh misfeed in a row stops the line after 8 of 10 slow cycles, at 16 s. It
			// runs at 60.75, with 10 slow cycles anew: 6 are done at 72.75.
			"a stop in a slow start",
			sevenInARow(73.25, Slow{Starting: Slowly{Cycles: 10, Share: 0.5}}),
			func() *Outcome {
				o := handOutcome(73.25, 16+12.5)
				o.Time.Slow.Starting = 8 + 6.25
				seventh(o, 14)
				stopsOfSevenths(o, 1)
				return o
			},
		},
	}
}

// handRepeated are lines that stop after 8 cycles, at 8 s, run at 52.75, and stop again after 7
// more, at 59.75: the second stop in a minute, for which the crew lowers the speed to half. The
// line runs at 104.5.
func handRepeated() []handCase {
	rule := func(within, lowered sim.Seconds) Slow {
		return Slow{Repeated: Repeated{Stops: 2, Within: within, Share: 0.5, For: lowered}}
	}
	return []handCase{
		{
			// 3 cycles take the 6 s, until 110.5, and the rule is over; 4 more end at 114.5 with a
			// stop. That is 54.75 s after the last: again the second in a minute. From 159.25
			// on 3 cycles take 6 s, and 2 at full speed are done at 167.25.
			"repeated stops, twice",
			sevenInARow(167.75, rule(60, 6)),
			func() *Outcome {
				o := handOutcome(167.75, 8+7+10+8.5)
				o.Time.Slow.Repeated = 3 + 3
				seventh(o, 27)
				stopsOfSevenths(o, 3)
				return o
			},
		},
		{
			// As before, but 51.75 s lie within the time and 54.75 do not: from 159.25 on all
			// cycles are at full speed, and 5 are done at 164.25.
			"repeated stops that end",
			sevenInARow(164.75, rule(52, 6)),
			func() *Outcome {
				o := handOutcome(164.75, 8+7+10+5.5)
				o.Time.Slow.Repeated = 3
				seventh(o, 27)
				stopsOfSevenths(o, 3)
				return o
			},
		},
		{
			// 20 s are 10 cycles, and after 7 of them, at 118.5, the line stops: it has not run
			// through, and though that stop is 58.75 s after the last it is slow again from
			// 163.25 on, for 10 cycles: 6 are done at 175.25.
			"a stop while the crew runs the line slower",
			sevenInARow(176.75, rule(52, 20)),
			func() *Outcome {
				o := handOutcome(176.75, 8+7+14+13.5)
				o.Time.Slow.Repeated = 7 + 6.75
				seventh(o, 28)
				stopsOfSevenths(o, 3)
				return o
			},
		},
	}
}

// sevenInARow returns a line that stops for every seventh misfeed of B, which has no others.
func sevenInARow(shift sim.Seconds, slow Slow) *Line {
	return handLine(shift, func(l *Line, _, b *Feeder) {
		b.Misfeed, b.OnMisfeed, b.Streak.StopAfter = 1, Ship, 7
		l.Slow = slow
	})
}

// stopsOfSevenths fills in so many stops of sevenInARow, all over.
func stopsOfSevenths(o *Outcome, n int64) {
	s, b := sim.Seconds(n), &o.Stations[handB]
	b.Stops[CauseStreak] = StopTotal{Count: n, Waiting: 10.25 * s, Working: 30.25 * s, Restarting: 4.25 * s}
	b.Clearing = sim.Account{Calls: n, Done: n, Walking: 10.25 * s, Working: 30.25 * s}
}

// handSlowingDown are lines that are at rest only some time after a stop has arisen.
func handSlowingDown() []handCase {
	return []handCase{
		{
			// B jams with set 1 at 2 s and the line is at rest at 14, when the operator, who would be
			// there at 12.25, arrives. It runs at 48.5, jams again at 49.5, and runs at 96.
			"an operator waits until the line is at rest",
			handLine(96.5, func(l *Line, _, b *Feeder) {
				b.Jam = 1
				l.Slow.Stopping = Slowly{Cycles: 12, Share: 0.5}
			}),
			func() *Outcome {
				o := handOutcome(96.5, 3.5)
				o.Cycles, o.Sets = 3, Sets{Started: 3, Spoiled: 2, OnLine: 1}
				o.Stations[handA].fed(3, Pieces{Spoiled: 2, OnLine: 1})
				b := &o.Stations[handB]
				b.fed(2, Pieces{Spoiled: 2})
				b.Faults[Jam], b.Lost[Jam] = 2, 2
				b.Stops[CauseJam] = StopTotal{Count: 2, Waiting: 24, Working: 60.5, Restarting: 8.5}
				b.Clearing = sim.Account{Calls: 2, Done: 2, Walking: 24, Working: 60.5}
				o.Stations[handInserter].fed(0, Pieces{})
				return o
			},
		},
		{
			// A is used up at 100 s and full at 112.75. The line is at rest at 120, and runs at 124.25.
			"a hopper that is full before the line is at rest",
			handLine(150.5, func(l *Line, a, _ *Feeder) {
				a.Hopper = Stock{Capacity: 100, Work: sim.Constant(2.5)}
				l.Slow.Stopping = Slowly{Cycles: 20, Share: 0.5}
			}),
			func() *Outcome {
				o := handOutcome(150.5, 126.25)
				allGood(o, 126)
				a := &o.Stations[handA]
				a.Pieces.Loaded, a.Pieces.Left = 200, 200-126
				a.Stock = sim.Account{Calls: 1, Done: 1, Walking: 10.25, Working: 2.5}
				a.Stops[CauseStock] = StopTotal{Count: 1, Waiting: 10.25, Working: 2.5, Restarting: 11.5}
				return o
			},
		},
	}
}
