package model

import (
	"slices"

	"netrate/sim"
)

// handReader returns a case with a reader as station number index that verifies the
// sequence of A. The outcome is filled in as if it were not there, and then the reader's.
func handReader(
	name string, shift sim.Seconds, index int, change func(a, b *Feeder, r *Reader), want func(o *Outcome, r *StationOutcome),
) handCase {
	line := handLine(shift, func(l *Line, a, b *Feeder) {
		twoLanes(a, b)
		a.Double = 1
		r := &Reader{
			Place: Place{Name: "reader", At: l.Stations[index-1].Where().At},
			Reads: "a", Sequence: true, Clear: sim.Constant(30.25),
		}
		change(a, b, r)
		l.Stations = slices.Insert(l.Stations, index, Station(r))
	})
	return handCase{name, line, func() *Outcome {
		o, r := handOutcome(shift, 0), StationOutcome{}
		want(o, &r)
		o.Stations = slices.Insert(o.Stations, index, r)
		return o
	}}
}

// handReaders are cases of doubles that the feeder does not see, in line.
func handReaders() []handCase {
	inLine := func(a, _ *Feeder, r *Reader) { a.Hopper.Capacity, r.OnMismatch = 3, Divert }
	return []handCase{
		// The hopper of 3 gives set 1 two pieces and set 2 the last, which is for set 3: an
		// alarm. Sets 1 and 2 are condemned, and set 3, for which A holds. Used up at 2 s, full
		// at 32.5, the line runs at 36.75; used up at 39.75, runs at 74.5, used up at 77.5.
		handReader("a reader at the feeder, in line: three sets are lost by a double", 80.5, 1, inLine,
			func(o *Outcome, r *StationOutcome) {
				o.Time.Running, o.Cycles = 8, 8
				o.Sets = Sets{Started: 8, Diverted: 6, OnLine: 2}
				a := &o.Stations[handA]
				a.Attempts, a.Faults[Double], a.Missed = 6, 3, 3
				a.Pieces = Pieces{Loaded: 9, Diverted: 6, OnLine: 3}
				a.lost(Double, 6)
				a.usedUpThrice(23.5)
				o.Stations[handB].fed(7, Pieces{Diverted: 6, OnLine: 1})
				o.Stations[handGate].Removed = 6
				o.Stations[handInserter].fed(0, Pieces{})
				r.Attempts, r.Faults[Mismatch] = 6, 3
			}),
		// As before, but the reader sees set 2 when set 3 has been doubled too and set 1 has
		// passed the track gate: 1 is outsorted; 2 and 3 are diverted, and 4 and 5, for which
		// A holds. Set 6 gets the last piece, its own. Used up at 2, 40.75 and 77.5 s.
		handReader("a reader one pitch on, in line: one set more", 80.5, 2, inLine,
			func(o *Outcome, r *StationOutcome) {
				o.Time.Running, o.Cycles = 8, 8
				o.Sets = Sets{Started: 8, Diverted: 4, Outsorted: 1, OnLine: 3}
				a := &o.Stations[handA]
				a.Attempts, a.Faults[Double], a.Missed = 6, 3, 3
				a.Pieces = Pieces{Loaded: 9, Diverted: 3, Outsorted: 2, OnLine: 4}
				a.lost(Double, 5)
				a.usedUpThrice(23.5)
				o.Stations[handB].fed(7, Pieces{Diverted: 4, Outsorted: 1, OnLine: 2})
				o.Stations[handGate].Removed = 4
				o.Stations[handInserter].fed(1, Pieces{Outsorted: 1})
				o.Stations[handExit].Removed = 1
				r.Attempts, r.Faults[Mismatch] = 4, 1
			}),
	}
}

// handReadersStop are cases of a reader that stops the line.
func handReadersStop() []handCase {
	return []handCase{
		// The alarm comes with set 2, at 2 s, when both sets hold two pieces. The operator has
		// realigned A at 37.5: both are taken off, those for 3 and 4 go back into the hopper,
		// and B's for the pocket of set 2 is spoiled when it comes. Again at 43.75 and 85.5 s.
		handReader("a reader at the feeder, by hand", 100.5, 1, func(_, _ *Feeder, r *Reader) { r.OnMismatch = Stop },
			func(o *Outcome, r *StationOutcome) {
				o.Time.Running, o.Cycles = 6, 6
				o.LeftOver = LeftOver{85.5 + 35.5 - 100.5, 4.25}
				o.Sets = Sets{Started: 6, Spoiled: 4, OnLine: 2}
				a := &o.Stations[handA]
				a.fed(6, Pieces{Spoiled: 4, OnLine: 4})
				a.Faults[Double], a.Missed = 6, 6
				a.lost(Double, 4)
				o.Stations[handB].fed(3, Pieces{Spoiled: 4, OnLine: 1})
				o.Stations[handInserter].fed(0, Pieces{})
				r.Attempts, r.Faults[Mismatch] = 6, 3
				r.Stops[CauseMismatch] = StopTotal{Count: 3, Waiting: 30.75, Working: 55.25, Restarting: 8.5}
				r.Clearing = sim.Account{Calls: 3, Done: 2, Walking: 30.75, Working: 55.25}
			}),
		// Set 1 comes to it in cycle 2; it stops the line at 2, 47.75 and 93.5 s.
		handReader("no-reads stop", 100.5, 2, func(a, _ *Feeder, r *Reader) { a.Double, r.NoRead = 0, 1 },
			func(o *Outcome, r *StationOutcome) {
				o.Time.Running, o.Cycles = 4, 4
				o.LeftOver = LeftOver{93.5 + 40.5 - 100.5, 4.25}
				o.Sets = Sets{Started: 4, OnLine: 4}
				o.Stations[handA].fed(4, Pieces{OnLine: 4})
				o.Stations[handB].fed(3, Pieces{OnLine: 3})
				o.Stations[handInserter].fed(1, Pieces{OnLine: 1})
				r.Attempts, r.Faults[NoRead] = 3, 3
				r.Stops[CauseNoRead] = StopTotal{Count: 3, Waiting: 27.5, Working: 60.5, Restarting: 8.5}
				r.Clearing = sim.Account{Calls: 3, Done: 2, Walking: 27.5, Working: 60.5}
			}),
	}
}

// handNotRead are cases of a reader that reads nothing, and what else happens then.
func handNotRead() []handCase {
	return []handCase{
		// Set 1 gets no piece of A, which does not notice, and is not read: the operator sees it
		// and realigns A at 36.5 s, with set 1 taken off and the piece for it. The line runs at
		// 40.75 s and stops for set 2 at 41.75; it runs at 81.5 and stops at 82.5.
		handReader("an operator sees what was not read", 100.5, 1, func(a, _ *Feeder, r *Reader) {
			a.Double, a.Misfeed, a.Noticed, a.OnMisfeed, r.NoRead = 0, 1, 0, Divert, 1
		}, func(o *Outcome, r *StationOutcome) {
			o.Time.Running, o.Cycles = 3, 3
			o.LeftOver = LeftOver{82.5 + 35.5 - 100.5, 4.25}
			o.Sets = Sets{Started: 3, Spoiled: 2, OnLine: 1}
			a := &o.Stations[handA]
			a.fed(3, Pieces{Spoiled: 2})
			a.Faults[Misfeed], a.Unnoticed = 3, 3
			a.lost(Misfeed, 2)
			o.Stations[handB].fed(0, Pieces{Spoiled: 2})
			o.Stations[handInserter].fed(0, Pieces{})
			r.Attempts, r.Faults[NoRead], r.Faults[Mismatch] = 3, 3, 3
			r.Stops[CauseMismatch] = StopTotal{Count: 3, Waiting: 30.75, Working: 58.25, Restarting: 8.5}
			r.Clearing = sim.Account{Calls: 3, Done: 2, Walking: 30.75, Working: 58.25}
		}),
		// Set 1 is not read and the line stops at 1 s; it runs at 45.75. At 46.75 set 2 is not
		// read and set 1 gets no piece of B: the reader goes first, though it reads last. The
		// operator has done at 87.25 and is at work on B from 97.5 on.
		handReader("a reader and the feeder after it stop in one cycle", 100.5, 1,
			func(a, b *Feeder, r *Reader) { a.Double, b.Misfeed, r.NoRead = 0, 1, 1 },
			func(o *Outcome, r *StationOutcome) {
				o.Time.Running, o.Cycles = 2, 2
				o.LeftOver = LeftOver{97.5 + 30.25 - 100.5, 4.25} // of the stop at B
				o.Sets = Sets{Started: 2, OnLine: 2}
				o.Stations[handA].fed(2, Pieces{OnLine: 2})
				b := &o.Stations[handB]
				b.fed(1, Pieces{OnLine: 1})
				b.Faults[Misfeed] = 1
				b.Stops[CauseMisfeed] = StopTotal{Count: 1, Waiting: 10.25, Working: 3}
				b.Clearing = sim.Account{Calls: 1, Waiting: 40.5, Walking: 10.25, Working: 3}
				o.Stations[handInserter].fed(0, Pieces{})
				r.Attempts, r.Faults[NoRead] = 2, 2
				r.Stops[CauseNoRead] = StopTotal{Count: 2, Waiting: 20.5, Working: 60.5, Restarting: 4.25}
				r.Clearing = sim.Account{Calls: 2, Done: 2, Walking: 20.5, Working: 60.5}
			}),
	}
}

// handFalseAlarms is a case of a false alarm in a recovery.
func handFalseAlarms() []handCase {
	return []handCase{
		// Every set is taken for a mismatch. Sets 1 and 2 are condemned for that; set 1 gets no
		// piece of B in cycle 2, and set 2, which is to catch up, none in cycle 3. So the alarm
		// at set 3 is a second fault: the line stops at 3 s, and at 43.5 s the operator has
		// looked and has realigned B, with two pieces taken out. It runs at 47.75 s, set 3 gets
		// no piece in cycle 4, in which set 4 is condemned, and at 49.75 s the line stops again.
		handReader("a false alarm in a recovery: the operator realigns", 60.25, 1, func(a, b *Feeder, r *Reader) {
			a.Double, r.FalseAlarm, r.OnMismatch = 0, 1, Divert
			b.Misfeed, b.OnMisfeed, b.Stream.Tries = 1, Divert, 9
		}, func(o *Outcome, r *StationOutcome) {
			o.Time.Running, o.Cycles = 5, 5
			o.LeftOver = LeftOver{49.75 + 40.5 - 60.25, 4.25}
			o.Sets = Sets{Started: 5, Diverted: 3, OnLine: 2}
			o.Stations[handA].fed(5, Pieces{Diverted: 3, OnLine: 2})
			b := &o.Stations[handB]
			b.fed(4, Pieces{Spoiled: 2})
			b.Faults[Misfeed] = 4
			b.lost(Misfeed, 1)
			o.Stations[handGate].Removed = 3
			o.Stations[handInserter].fed(0, Pieces{})
			r.Attempts, r.Faults[FalseAlarm] = 5, 5
			r.lost(FalseAlarm, 2)
			r.Stops[CauseFalseAlarm] = StopTotal{Count: 2, Waiting: 20.5, Working: 30.5, Restarting: 4.25}
			r.Clearing = sim.Account{Calls: 2, Done: 1, Walking: 20.5, Working: 30.5}
		}),
	}
}
