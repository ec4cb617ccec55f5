package model

import "slices"

// laned gives the first feeders of a line streams of their own, "1", "2" and so on, of
// which all misfeeds and doubles have one response.
func laned(l *Line, lanes int, r Response) []*Feeder {
	feeders := stationsOf[*Feeder](l)[:lanes]
	for _, f := range feeders {
		f.Stream = Stream{Name: f.Name, Tries: 1, Realign: lognormal(20, 0.6)}
		f.OnMisfeed, f.OnDouble = r, r
	}
	return feeders
}

// personal is a line for short runs with many faults in its lanes: three feeders, of which
// the given number are lanes with the given response, a track gate, an inserter, an exit
// gate and a delivery, and whatever else change adds.
func personal(lanes int, r Response, change func(l *Line, feeders []*Feeder)) func() *Line {
	return changed(func(l *Line) {
		l.Stations = slices.Delete(l.Stations, 3, 6)
		l.Shift = 600.1
		faulty(l, 0.01, 0.006, 0.001)
		l.Restart = lognormal(1.5, 0.5)
		change(l, laned(l, lanes, r))
	})
}

// addReader puts a reader after all other stations up to the given pitch.
func addReader(l *Line, r *Reader) {
	r.Clear = lognormal(9, 0.5)
	at := len(l.Stations)
	for i, s := range slices.Backward(l.Stations) {
		if s.Where().At <= r.At {
			break
		}
		at = i
	}
	l.Stations = slices.Insert(l.Stations, at, Station(r))
}

// blind lets a feeder miss some of its misfeeds and doubles.
func blind(f *Feeder, noticed, caught float64) {
	f.Noticed, f.Caught, f.Unwatched = noticed, caught, true
}

func agreeStreams() []agreeCase {
	return slices.Concat(
		agreeRecovery(), agreeUnseen(), agreePockets(), agreeReaders(), agreeLateReaders(),
		agreeEnvelopes(), agreeChannels(), agreeDocuments(), agreeJobs(),
	)
}

// agreeRecovery are lines in which feeders see their faults.
func agreeRecovery() []agreeCase {
	return []agreeCase{
		{"lanes: in line, divert", personal(2, Divert, func(*Line, []*Feeder) {})},
		{"lanes: in line, outsort, streaks and false calls", personal(2, Outsort, func(_ *Line, lanes []*Feeder) {
			lanes[0].Streak = Streak{Given: true, Again: 0.4, StopAfter: 2}
			lanes[1].Streak = Streak{Given: true, Again: 0.3, StopAfter: 3}
			lanes[0].FalseCalls, lanes[1].FalseCalls = 0.004, 0.002
			lanes[1].Stream.Tries = 3
		})},
		{"lanes: by hand", personal(3, Stop, func(_ *Line, lanes []*Feeder) {
			lanes[1].Stream.Realign = nil
			lanes[2].FalseCalls = 0.003
		})},
		{"lanes: three in line, crowded with second faults", personal(3, Divert, func(l *Line, lanes []*Feeder) {
			for i, f := range lanes {
				f.Misfeed, f.Double, f.Jam, f.FalseCalls = 0.03, 0.02, 0.004, 0.004
				f.Stream.Realign, f.Clear = lognormal(2, 0.5), lognormal(2, 0.5)
				f.OnDouble = []Response{Divert, Outsort, Stop}[i]
				f.Stream.Tries = 1 + i
			}
			l.Crew.Walk, l.Restart = lognormal(0.5, 0.3), lognormal(0.3, 0.5)
			l.Stations = slices.Insert(l.Stations, 1, Station(&Reader{
				Place: Place{Name: "reader", At: 0}, Reads: "1", Presence: true,
				NoRead: 0.01, FalseAlarm: 0.06, OnNoRead: Divert, OnMismatch: Outsort, Clear: lognormal(1, 0.5),
			}))
		})},
	}
}

// agreeUnseen are lines in which feeders do not see all their faults, and often recover at
// the same time.
func agreeUnseen() []agreeCase {
	return []agreeCase{
		{"lanes: misfeeds and doubles that nobody sees", personal(2, Divert, func(_ *Line, lanes []*Feeder) {
			for _, f := range lanes {
				f.Misfeed, f.Double, f.Jam = 0.004, 0.01, 0.01
				f.Clear = lognormal(2, 0.5)
				blind(f, 0.8, 0.1)
				f.Streak = Streak{Given: true, Again: 0.3, StopAfter: 2}
			}
		})},
		{"lanes: two responses, side by side", personal(2, Divert, func(l *Line, lanes []*Feeder) {
			lanes[1].At = 1 // the catch-up set of one is there while the other is in recovery
			lanes[0].OnMisfeed, lanes[0].OnDouble = Outsort, Outsort
			for _, f := range lanes {
				f.Misfeed, f.Double = 0.1, 0.02
				f.Stream.Tries, f.Stream.Realign = 3, lognormal(2, 0.5)
				blind(f, 0.9, 0.9)
			}
			addReader(l, &Reader{Place: Place{Name: "match", At: 3}, Reads: "1", Match: "2", FalseAlarm: 0.05, OnMismatch: Divert})
			l.Crew.Walk, l.Restart = lognormal(0.5, 0.3), lognormal(0.3, 0.5)
		})},
		{"lanes: in recovery at the same time", personal(2, Divert, func(l *Line, lanes []*Feeder) {
			for _, f := range lanes {
				f.Misfeed, f.Double, f.Jam = 0.2, 0, 0
				f.Stream.Tries, f.Stream.Realign = 3, lognormal(0.5, 0.5)
				blind(f, 0.7, 1)
			}
			addReader(l, &Reader{Place: Place{Name: "match", At: 3}, Reads: "1", Match: "2", OnMismatch: Divert})
			l.Crew.Walk, l.Restart = lognormal(0.2, 0.3), lognormal(0.1, 0.5)
		})},
	}
}

// agreePockets are lines with emptied pockets, small hoppers or one lane alone.
func agreePockets() []agreeCase {
	return []agreeCase{
		{"lanes: pockets emptied while a lane holds", personal(2, Stop, func(l *Line, lanes []*Feeder) {
			l.Stations = slices.Delete(l.Stations, 2, 3)
			lanes[1].At = 6
			lanes[0].Misfeed, lanes[0].Double, lanes[0].Jam = 0, 0, 0.5
			lanes[1].Misfeed, lanes[1].Double = 0, 0.06
			blind(lanes[1], 1, 0)
			for _, f := range lanes {
				f.Clear, f.Stream.Realign = lognormal(0.1, 0.5), lognormal(0.1, 0.5)
			}
			addReader(l, &Reader{Place: Place{Name: "match", At: 7}, Reads: "2", Match: "1", OnMismatch: Stop})
			l.Crew.Walk, l.Restart = lognormal(0.1, 0.3), lognormal(0.1, 0.5)
		})},
		{"lanes: jams upstream, and small hoppers", personal(2, Divert, func(l *Line, lanes []*Feeder) {
			plain := stationsOf[*Feeder](l)[2]
			places := []Place{plain.Place, lanes[0].Place, lanes[1].Place}
			lanes[0].At, lanes[1].At, plain.At = places[2].At, places[0].At, places[1].At
			l.Stations[0], l.Stations[1], l.Stations[2] = plain, lanes[0], lanes[1]
			plain.At, lanes[0].At, lanes[1].At = 0, 2, 4
			plain.Jam, lanes[0].Jam = 0.006, 0.006
			for i, f := range lanes {
				f.Hopper = Stock{Capacity: 25 + int64(i), Warn: int64(8 * i), Work: lognormal(2, 0.5)}
				f.Double = 0.02
			}
			l.Crew.Operators = 2
		})},
		{"lanes: one alone", personal(1, Divert, func(_ *Line, lanes []*Feeder) {
			blind(lanes[0], 0.8, 0.7)
			lanes[0].FalseCalls, lanes[0].OnDouble = 0.004, Ship
			lanes[0].Streak = Streak{Given: true, Again: 0.3, StopAfter: 2}
		})},
		{"lanes: the last alone, and read", personal(0, Divert, func(l *Line, _ []*Feeder) {
			f := stationsOf[*Feeder](l)[2]
			f.Stream = Stream{Name: "3", Tries: 1}
			blind(f, 0.5, 0.5)
			addReader(l, &Reader{
				Place: Place{Name: "reader", At: 10}, Reads: "3", Presence: true, OnMismatch: Divert, FalseAlarm: 0.003,
			})
		})},
	}
}

// blinded is a personal line of two lanes in line that do not see half of their faults.
func blinded(change func(l *Line, lanes []*Feeder)) func() *Line {
	return personal(2, Divert, func(l *Line, lanes []*Feeder) {
		for _, f := range lanes {
			blind(f, 0.5, 0.4)
		}
		change(l, lanes)
	})
}

// agreeReaders are lines in which readers find what feeders did not see.
func agreeReaders() []agreeCase {
	return []agreeCase{
		{"readers: at the feeder", blinded(func(l *Line, _ []*Feeder) {
			addReader(l, &Reader{Place: Place{Name: "reader 1", At: 0}, Reads: "1", Sequence: true, OnMismatch: Divert})
			addReader(l, &Reader{Place: Place{Name: "reader 2", At: 2}, Reads: "2", Sequence: true, OnMismatch: Divert})
		})},
		{"readers: three pitches on, no-reads diverted", blinded(func(l *Line, _ []*Feeder) {
			addReader(l, &Reader{
				Place: Place{Name: "reader", At: 5}, Reads: "2", Sequence: true, Match: "1",
				NoRead: 0.01, FalseAlarm: 0.004, OnNoRead: Divert, OnMismatch: Divert,
			})
		})},
		{"readers: by hand, no-reads stop", blinded(func(l *Line, lanes []*Feeder) {
			lanes[1].Stream.Realign = nil
			lanes[1].OnDouble = Stop
			addReader(l, &Reader{
				Place: Place{Name: "reader", At: 5}, Reads: "2", Match: "1",
				NoRead: 0.1, FalseAlarm: 0.004, OnNoRead: Stop, OnMismatch: Stop,
			})
			firstOf[*Reader](l).Clear = lognormal(0.5, 0.5)
			l.Crew.Walk, l.Restart = lognormal(0.5, 0.3), lognormal(0.3, 0.5)
		})},
		{"readers: one alone, by hand", personal(1, Stop, func(l *Line, lanes []*Feeder) {
			lanes[0].Double = 0.1
			blind(lanes[0], 0.3, 0.2)
			addReader(l, &Reader{Place: Place{Name: "reader", At: 11}, Reads: "1", Presence: true, OnMismatch: Stop})
		})},
	}
}

// agreeLateReaders are lines in which readers stand after the gate, or read halves.
func agreeLateReaders() []agreeCase {
	return []agreeCase{
		{"readers: after the inserter, no-reads shipped", blinded(func(l *Line, lanes []*Feeder) {
			lanes[0].OnMisfeed, lanes[1].OnDouble = Outsort, Outsort
			addReader(l, &Reader{
				Place: Place{Name: "reader", At: 15}, Reads: "1", Match: "2",
				NoRead: 0.02, FalseAlarm: 0.003, OnNoRead: Ship, OnMismatch: Outsort,
			})
		})},
		{"readers: after the gate, no-reads outsorted", blinded(func(l *Line, lanes []*Feeder) {
			lanes[0].Misfeed, lanes[1].Misfeed = 0.02, 0.02
			addReader(l, &Reader{
				Place: Place{Name: "presence", At: 3}, Reads: "1", Presence: true, OnMismatch: Stop,
			})
			addReader(l, &Reader{
				Place: Place{Name: "reader", At: 13}, Reads: "1", Match: "2",
				NoRead: 0.02, FalseAlarm: 0.003, OnNoRead: Outsort, OnMismatch: Divert,
			})
		})},
		{"readers: after the inserter, by hand", blinded(func(l *Line, _ []*Feeder) {
			addReader(l, &Reader{Place: Place{Name: "reader", At: 14}, Reads: "1", Match: "2", OnMismatch: Stop})
		})},
		{"readers: halves", personal(3, Divert, func(l *Line, lanes []*Feeder) {
			for _, f := range lanes {
				blind(f, 0.6, 0.5)
			}
			lanes[0].Stream.Name, lanes[0].Stream.Half = "form", true
			lanes[1].Stream.Name, lanes[1].Stream.Half = "form", true
			addReader(l, &Reader{Place: Place{Name: "halves", At: 3}, Reads: "form", Sequence: true, OnMismatch: Divert})
			addReader(l, &Reader{
				Place: Place{Name: "match", At: 11}, Reads: "3", Match: "form", NoRead: 0.005, OnNoRead: Divert, OnMismatch: Divert,
			})
		})},
	}
}
