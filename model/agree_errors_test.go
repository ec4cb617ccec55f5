package model

// agreeErrors are lines on which people and readers err, often enough for a short shift to have
// many errors, and some upon others.
func agreeErrors() []agreeCase {
	err := func(l *Line, repair, realign, misread float64) {
		l.Crew.WrongRepair, l.Crew.WrongRealign = repair, realign
		for _, r := range stationsOf[*Reader](l) {
			r.Misread = misread
		}
	}
	return []agreeCase{
		{"errors: plain feeders, put right wrongly", changed(func(l *Line) {
			faulty(l, 0.01, 0.006, 0.0005)
			respond(l, Stop)
			for _, f := range stationsOf[*Feeder](l) {
				f.Caught, f.FalseCalls = 0.8, 0.002
				f.Streak = Streak{Given: true, Again: 0.3, StopAfter: 2}
				f.Clear = lognormal(2, 0.5)
			}
			stationsOf[*Feeder](l)[1].OnMisfeed = Ship
			firstOf[*Inserter](l).OnFlap = Stop
			err(l, 0.3, 0, 0)
		})},
		{"errors: lanes by hand, with a reader", blinded(func(l *Line, lanes []*Feeder) {
			for _, f := range lanes {
				f.OnMisfeed, f.OnDouble = Stop, Stop
				f.Stream.Realign = lognormal(3, 0.5)
			}
			addReader(l, &Reader{Place: Place{Name: "match", At: 5}, Reads: "2", Match: "1", NoRead: 0.05, OnNoRead: Stop, OnMismatch: Stop})
			l.Crew.Walk = lognormal(0.5, 0.3)
			err(l, 0.4, 0.3, 0.3)
		})},
		{"errors: lanes in line, crowded with second faults", blinded(func(l *Line, lanes []*Feeder) {
			for i, f := range lanes {
				f.Misfeed, f.Double, f.Jam = 0.05, 0.04, 0.01
				f.Stream.Realign, f.Clear, f.Stream.Tries = lognormal(2, 0.5), lognormal(2, 0.5), 1+i
				blind(f, 0.8, 0.7)
			}
			addReader(l, &Reader{Place: Place{Name: "match", At: 6}, Reads: "2", Match: "1", FalseAlarm: 0.02, OnMismatch: Divert})
			l.Crew.Walk, l.Restart = lognormal(0.5, 0.3), lognormal(0.3, 0.5)
			err(l, 0.3, 0.4, 0.5)
		})},
		{"errors: jams and small hoppers", blinded(func(l *Line, lanes []*Feeder) {
			for i, f := range lanes {
				f.Double, f.Jam = 0.03, 0.01
				f.OnMisfeed, f.OnDouble = Stop, Divert
				f.Stream.Realign, f.Clear = lognormal(1, 0.5), lognormal(1, 0.5)
				f.Hopper = Stock{Capacity: 12 + int64(i), Warn: int64(4 * i), Work: lognormal(1, 0.5)}
			}
			addReader(l, &Reader{Place: Place{Name: "late", At: 14}, Reads: "2", Match: "1", OnMismatch: Stop})
			l.Crew.Walk, l.Restart = lognormal(0.2, 0.3), lognormal(0.1, 0.5)
			err(l, 0.4, 0.5, 0.1)
		})},
		{"errors: wrong stock, found by an operator or not at all", changed(func(l *Line) {
			faulty(l, 0.01, 0.01, 0.001)
			low(l, 2)
			l.Restart, l.Crew.Walk = lognormal(1, 0.5), lognormal(2, 0.3)
			for i, f := range stationsOf[*Feeder](l) {
				f.Caught, f.Noticed, f.FalseCalls, f.Clear = 0.8, 0.9, 0.002, lognormal(2, 0.5)
				f.Share = []float64{1, 0.4, 1, 0.7, 1, 1}[i]
				f.OnMisfeed, f.OnDouble = Response(i%4), Response((i+1)%4)
				f.Hopper.Capacity = 100 + 10*int64(i)
				f.WrongStock.Chance = 0.3
				if i%2 == 0 {
					f.WrongStock.FoundAfter = lognormal(12, 0.8)
				}
			}
			stationsOf[*Feeder](l)[2].Streak = Streak{Given: true, Again: 0.4, StopAfter: 2}
			stationsOf[*Feeder](l)[3].Clearings[WrongStock] = lognormal(8, 0.5)
			err(l, 0.2, 0, 0)
		})},
		{"errors: wrong stock, found by readers", blinded(func(l *Line, lanes []*Feeder) {
			f := stationsOf[*Feeder](l)[2]
			f.Hopper = Stock{Capacity: 60, Warn: 20, Work: lognormal(3, 0.5)}
			f.WrongStock = Mixup{Chance: 0.4, FoundBy: "match", FoundAfter: lognormal(10, 0.5)}
			f.OnMisfeed, f.OnDouble, f.Share = Divert, Stop, 0.8
			addReader(l, &Reader{Place: Place{Name: "match", At: 6}, Reads: "2", Match: "1", NoRead: 0.1, FalseAlarm: 0.01, OnNoRead: Stop, OnMismatch: Divert})
			l.Crew.Walk, l.Crew.Operators = lognormal(0.5, 0.3), 2
			err(l, 0.3, 0.2, 0.4)
		})},
		{"errors: wrong stock, found by a reader that reads nothing else", changed(func(l *Line) {
			low(l, 2)
			l.Crew.Walk, l.Restart = lognormal(2, 0.3), lognormal(1, 0.5)
			for i, f := range stationsOf[*Feeder](l)[:3] {
				f.Hopper.Capacity = 100 + 15*int64(i)
				f.WrongStock = Mixup{Chance: 0.3, FoundBy: "camera"}
			}
			addReader(l, &Reader{Place: Place{Name: "camera", At: 15}, NoRead: 0.3, OnNoRead: Outsort, OnMismatch: Stop})
			err(l, 0, 0, 0.5)
		})},
		{"errors: wrong envelopes, found by a reader behind the inserter or by an operator", changed(func(l *Line) {
			faulty(l, 0.004, 0.002, 0.001)
			low(l, 2)
			l.Crew.Walk, l.Restart = lognormal(2, 0.3), lognormal(1, 0.5)
			n := firstOf[*Inserter](l)
			n.Flap, n.OnFlap, n.Jam = 0.01, Outsort, 0.004
			n.Hopper.Capacity = 200
			n.WrongStock = Mixup{Chance: 0.4, FoundBy: "camera", FoundAfter: lognormal(12, 0.8)}
			n.Clearings[WrongStock] = lognormal(6, 0.5)
			firstOf[*Feeder](l).WrongStock.Chance = 0.2
			addReader(l, &Reader{Place: Place{Name: "camera", At: n.At + 1}, NoRead: 0.2, OnNoRead: Outsort, OnMismatch: Stop})
			err(l, 0, 0, 0.6)
		})},
		{"errors: wrong envelopes, found by an operator, lots and days", changed(func(l *Line) {
			faulty(l, 0.004, 0.002, 0.001)
			low(l, 2)
			n := firstOf[*Inserter](l)
			n.Flap, n.OnFlap, n.Jam, n.EnvelopeMisfeed = 0.2, Outsort, 0.01, 0.004
			n.Clear = lognormal(3, 0.5)
			n.Lots = Lots{Of: 300, CV: 0.3}
			n.Hopper.Capacity = 150
			n.WrongStock = Mixup{Chance: 0.6, FoundAfter: lognormal(20, 0.8)}
			err(l, 0, 0, 0)
		})},
		{"errors: documents", personal(2, Divert, func(l *Line, _ []*Feeder) {
			h := documents(l, fastSheets, geometricPages(2), 6, Stop)
			h.Misfeed, h.Double, h.Jam, h.FalseCalls = 0.01, 0.008, 0.002, 0.002
			h.Noticed, h.Caught, h.OnDouble = 0.9, 0.7, Divert
			h.Clear, h.Stream.Realign = lognormal(2, 0.5), lognormal(2, 0.5)
			addReader(l, &Reader{Place: Place{Name: "reader", At: 4}, Reads: "documents", Sequence: true, OnMismatch: Stop})
			addReader(l, &Reader{Place: Place{Name: "match", At: 8}, Reads: "2", Match: "documents", OnMismatch: Divert})
			l.Crew.Walk, l.Restart = lognormal(0.2, 0.3), lognormal(0.1, 0.5)
			err(l, 0.4, 0.4, 0.2)
		})},
	}
}
