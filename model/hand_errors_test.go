package model

import (
	"slices"

	"netrate/sim"
)

// handErrors are cases of people and readers who always err, and of two document channels.
func handErrors() []handCase {
	return slices.Concat(handMisread(), handRealignedWrongly(), handWrongStock(), handTwoChannels())
}

// Every set lacks its piece of A, which neither A nor the reader says, though A falls ever further
// behind: all are delivered defective, lost to the misfeeds.
func handMisread() []handCase {
	return []handCase{handReader("a reader that misreads while the stream is out of step", 10.5, 1, func(a, _ *Feeder, r *Reader) {
		a.Double, a.Misfeed, a.Noticed, r.Misread = 0, 1, 0, 1
	}, func(o *Outcome, r *StationOutcome) {
		o.Time.Running, o.Cycles = 10.5, 10
		o.Sets = Sets{Started: 10, OnLine: 5}
		a := &o.Stations[handA]
		a.fed(10, Pieces{})
		a.Faults[Misfeed], a.Unnoticed = 10, 10
		a.lost(Misfeed, 5)
		o.bad(handA, Misfeed, 5, 1, 5)
		o.Stations[handB].fed(9, Pieces{Defective: 5, OnLine: 4})
		o.Stations[handInserter].fed(7, Pieces{Defective: 5, OnLine: 2})
		o.Stations[handDelivery].Removed = 5
		r.Attempts, r.Faults[Misread] = 10, 10
	})}
}

// Set 1 lacks its piece of A, and the reader stops the line at 1 s. The operator has realigned A at
// 36.5 s, but for the one piece that he should have taken out; set 1 is taken off. At 41.75 s set 2
// lacks its piece, of two to be taken out he takes one at 77.25 s, and set 2 is lost to his first
// error. At 82.5 s the line stops for set 3.
func handRealignedWrongly() []handCase {
	c := handReader("a stream realigned wrongly, twice", 90.5, 1, func(a, _ *Feeder, _ *Reader) {
		a.Double, a.Misfeed, a.Noticed, a.OnMisfeed = 0, 1, 0, Divert
	}, func(o *Outcome, r *StationOutcome) {
		o.Time.Running, o.Cycles = 3, 3
		o.LeftOver = LeftOver{82.5 + 35.5 - 90.5, 4.25}
		o.Sets = Sets{Started: 3, Spoiled: 2, OnLine: 1}
		a := &o.Stations[handA]
		a.fed(3, Pieces{Spoiled: 1})
		a.Faults[Misfeed], a.Unnoticed, a.Faults[WrongRealign] = 3, 3, 2
		a.lost(Misfeed, 1)
		a.lost(WrongRealign, 1)
		o.Stations[handB].fed(0, Pieces{Spoiled: 2})
		o.Stations[handInserter].fed(0, Pieces{})
		r.Attempts, r.Faults[Mismatch] = 3, 3
		r.Stops[CauseMismatch] = StopTotal{Count: 3, Waiting: 28.5, Working: 50.5, Restarting: 8.5}
		r.Clearing = sim.Account{Calls: 3, Done: 2, Walking: 28.5, Working: 50.5}
	})
	c.line.Crew.WrongRealign = 1
	return []handCase{c}
}

// A's hopper of 2 is used up at 2 s and filled with the wrong pieces at 32.5 s. Set 3 gets one at
// 37.75 s, and the reader sees it at once: at 68.25 s the set is taken off, the other piece thrown
// away, and the hopper filled with two that are right. They are used up at 74.5 s.
func handWrongStock() []handCase {
	line := handLine(80.5, func(l *Line, a, _ *Feeder) {
		a.Hopper = Stock{Capacity: 2, Work: sim.Constant(20.25)}
		a.WrongStock = Mixup{Chance: 1, FoundBy: "camera"}
		camera := &Reader{Place: Place{Name: "camera"}, Clear: sim.Constant(30.25)}
		l.Stations = slices.Insert(l.Stations, 1, Station(camera))
	})
	return []handCase{{"a wrong stock, found by a reader", line, func() *Outcome {
		o := handOutcome(80.5, 5)
		o.Cycles, o.Sets = 5, Sets{Started: 5, Spoiled: 1, OnLine: 4}
		a := &o.Stations[handA]
		a.Attempts, a.Faults[WrongStock], a.Lost[WrongStock] = 5, 1, 1
		a.Pieces = Pieces{Loaded: 6, Spoiled: 2, OnLine: 4}
		a.Stops[CauseStock] = StopTotal{Count: 2, Waiting: 16.25, Working: 20.25, Restarting: 4.25}
		a.Stops[CauseWrongStock] = StopTotal{Count: 1, Waiting: 10.25, Working: 20.25, Restarting: 4.25}
		a.Stock = sim.Account{Calls: 2, Done: 1, Walking: 16.25, Working: 20.25}
		a.Clearing = sim.Account{Calls: 1, Done: 1, Walking: 10.25, Working: 20.25}
		o.Stations[handB].fed(3, Pieces{OnLine: 3})
		o.Stations[handInserter].fed(2, Pieces{OnLine: 2})
		o.Stations = slices.Insert(o.Stations, 1, StationOutcome{Attempts: 5})
		return o
	}}}
}

// Two channels in the places of A and B, with documents of one sheet and buffers of one: A takes
// 2.5 s, B 4.2 s. Of A document 2 is there at 2.5 s, 3 at 5, 4 at 7.5 and 5 at 10; of B document 2
// at 4.2, 3 at 8.4 and 4 at 12.6. So cycle 2 begins at 2.5 s and cycle 3 at 5, when both are there.
// Cycle 4 waits from 6 s for A, and from 7.5 to 8.4 for B; cycle 5 from 9.4 for A, and from 10 for B.
func handTwoChannels() []handCase {
	line := handLine(12.25, func(l *Line, a, b *Feeder) {
		channel := func(p Place, sheet float64, stream string) *Channel {
			p.Rated = 0
			return &Channel{
				Place: p, Sheets: 3600 / sheet, Pages: sim.Always(1), Buffer: 1, Noticed: 1, Caught: 1,
				Stream: Stream{Name: stream, Tries: 1}, Clear: sim.Constant(1),
			}
		}
		l.Stations[handA], l.Stations[handB] = channel(a.Place, 2.5, "a"), channel(b.Place, 4.2, "b")
	})
	return []handCase{{"two channels that starve in turn", line, func() *Outcome {
		o := handOutcome(12.25, 4)
		o.Cycles, o.Sets = 4, Sets{Started: 4, OnLine: 4}
		a, b := &o.Stations[handA], &o.Stations[handB]
		a.Attempts, a.Pieces = 4, Pieces{Loaded: 4, OnLine: 4}
		b.Attempts, b.Pieces = 3, Pieces{Loaded: 3, OnLine: 3}
		a.Stops[CauseStarved] = StopTotal{Count: 4, Starved: 1.5 + 1.5 + 1.5 + 0.6}
		b.Stops[CauseStarved] = StopTotal{Count: 2, Starved: 0.9 + 2.25}
		o.Stations[handInserter].fed(1, Pieces{OnLine: 1})
		return o
	}}}
}
