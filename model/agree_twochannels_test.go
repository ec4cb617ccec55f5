package model

// second puts a document channel in the place of a feeder, with a stream of its own.
func second(l *Line, i int, perHour float64, mean float64, buffer int, r Response) *Channel {
	h := &Channel{
		Place: *l.Stations[i].Where(), Sheets: perHour, Pages: geometricPages(mean), Buffer: buffer,
		Misfeed: 0.004, Double: 0.003, Jam: 0.001, Noticed: 1, Caught: 1,
		Stream:    Stream{Name: "second", Tries: 1, Realign: lognormal(6, 0.5)},
		OnMisfeed: r, OnDouble: r, Clear: lognormal(5, 0.5),
	}
	h.Rated = 0
	l.Stations[i] = h
	return h
}

// agreeTwoChannels are lines with more than one document channel.
func agreeTwoChannels() []agreeCase {
	return []agreeCase{
		{"channels: two that starve in turn", personal(0, Stop, func(l *Line, _ []*Feeder) {
			documents(l, slowSheets, geometricPages(1.9), 2, Stop)
			h := second(l, 1, slowSheets+2000, 2, 3, Stop)
			h.FalseCalls = 0.001
			h.Hopper = Stock{Capacity: 90, Warn: 30, Work: lognormal(5, 0.5)}
			l.Crew.Operators = 2
		})},
		{"channels: two in line, matched by a reader", personal(0, Stop, func(l *Line, _ []*Feeder) {
			a := documents(l, fastSheets, geometricPages(2), 4, Divert)
			b := second(l, 1, fastSheets-7000, 2.2, 4, Divert)
			a.Noticed, a.Caught, b.Noticed, b.Caught = 0.7, 0.6, 0.6, 0.7
			a.Stream.Realign, a.Clear = lognormal(3, 0.5), lognormal(3, 0.5)
			b.Stream.Tries, b.OnDouble = 2, Stop
			addReader(l, &Reader{
				Place: Place{Name: "match", At: 5}, Reads: "documents", Match: "second", NoRead: 0.004, FalseAlarm: 0.002,
				OnNoRead: Divert, OnMismatch: Divert,
			})
		})},
		{"channels: three with a lane, errors and a job", personal(3, Divert, func(l *Line, _ []*Feeder) {
			documents(l, fastSheets, geometricPages(2), 3, Stop).FalseCalls = 0.002
			b := second(l, 1, slowSheets+9000, 1.8, 2, Divert)
			b.Caught = 0.6
			addReader(l, &Reader{Place: Place{Name: "reader", At: 4}, Reads: "second", Sequence: true, Match: "3", OnMismatch: Stop, Misread: 0.2})
			l.Crew.WrongRepair, l.Crew.WrongRealign = 0.2, 0.2
			l.Crew.Walk = lognormal(1, 0.3)
			l.Shift, l.Job = 0, Job{Sets: 900, Closing: SecondPass, Setup: lognormal(60, 0.3)}
		})},
	}
}
