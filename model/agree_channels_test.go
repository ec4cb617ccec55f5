package model

import "netrate/sim"

// agreeEnvelopes are lines with personalised envelopes.
func agreeEnvelopes() []agreeCase {
	// enveloped makes the third feeder that of the envelopes.
	enveloped := func(at int, change func(l *Line, lanes []*Feeder, envelopes *Feeder)) func() *Line {
		return personal(3, Divert, func(l *Line, lanes []*Feeder) {
			lanes[2].Envelopes = true
			in := firstOf[*Inserter](l)
			in.Hopper, in.EnvelopeMisfeed = Stock{}, 0
			if at > 12 { // after the track gate
				lanes[2].At, lanes[2].OnMisfeed, lanes[2].OnDouble = at, Stop, Stop
				l.Stations[2], l.Stations[3] = l.Stations[3], l.Stations[2]
			}
			for _, f := range lanes {
				blind(f, 0.6, 0.5)
			}
			change(l, lanes, lanes[2])
		})
	}
	return []agreeCase{
		{"envelopes: before the gate", enveloped(4, func(l *Line, _ []*Feeder, _ *Feeder) {
			addReader(l, &Reader{
				Place: Place{Name: "reader", At: 6}, Reads: "3", Match: "1",
				NoRead: 0.005, FalseAlarm: 0.002, OnNoRead: Divert, OnMismatch: Divert,
			})
			addReader(l, &Reader{Place: Place{Name: "sequence", At: 8}, Reads: "2", Sequence: true, OnMismatch: Divert})
		})},
		{"envelopes: after the gate", enveloped(13, func(l *Line, lanes []*Feeder, _ *Feeder) {
			blind(lanes[0], 1, 1)
			addReader(l, &Reader{
				Place: Place{Name: "reader", At: 14}, Reads: "3", Match: "2", NoRead: 0.005, OnNoRead: Stop, OnMismatch: Stop,
			})
		})},
		{"envelopes: alone", enveloped(4, func(_ *Line, lanes []*Feeder, _ *Feeder) {
			lanes[0].Stream, lanes[1].Stream = Stream{}, Stream{}
			lanes[0].OnMisfeed = Stop
		})},
	}
}

// documents puts a document channel in the place of the first feeder.
func documents(l *Line, perHour float64, pages sim.IntegerDistribution, buffer int, r Response) *Channel {
	h := &Channel{
		Place: Place{Name: "documents", At: 0}, Sheets: perHour, Pages: pages, Buffer: buffer,
		Misfeed: 0.004, Double: 0.003, Jam: 0.0006, Noticed: 1, Caught: 1,
		Stream:    Stream{Name: "documents", Tries: 1, Realign: lognormal(14, 0.5)},
		OnMisfeed: r, OnDouble: r, Clear: lognormal(8, 0.5),
	}
	l.Stations[0] = h
	return h
}

func geometricPages(mean float64) sim.IntegerDistribution {
	w, err := sim.NewGeometric(mean)
	if err != nil {
		panic(err)
	}
	return w
}

// Sheets an hour that are no whole number of them in a cycle, so that no document is gathered
// in the moment in which a cycle ends.
const slowSheets, fastSheets = 31_234.567, 71_234.567

// agreeChannels are lines with a document channel and no other lane, but for one.
func agreeChannels() []agreeCase {
	return []agreeCase{
		{"documents: alone, by hand, a small buffer", personal(0, Stop, func(l *Line, _ []*Feeder) {
			h := documents(l, slowSheets, geometricPages(2), 2, Stop)
			h.FalseCalls = 0.001
		})},
		{"documents: alone, in line", personal(0, Stop, func(l *Line, _ []*Feeder) {
			h := documents(l, fastSheets, sim.Always(3), 5, Divert)
			h.OnDouble, h.FalseCalls, h.Stream.Tries = Outsort, 0.001, 2
			h.Misfeed, h.Double = 0.01, 0.006
			h.Hopper = Stock{Capacity: 150, Warn: 60, Work: lognormal(6, 0.5)}
		})},
		{"documents: unseen", personal(0, Stop, func(l *Line, _ []*Feeder) {
			h := documents(l, fastSheets, geometricPages(2.5), 10, Divert)
			h.Noticed, h.Caught, h.OnDouble = 0.6, 0.5, Stop
			addReader(l, &Reader{
				Place: Place{Name: "reader", At: 1}, Reads: "documents", Sequence: true,
				NoRead: 0.003, FalseAlarm: 0.002, OnNoRead: Divert, OnMismatch: Divert,
			})
		})},
		{"documents: faults with the last of a hopper, and jams out of step", personal(2, Divert, func(l *Line, _ []*Feeder) {
			h := documents(l, fastSheets, geometricPages(1.5), 3, Divert)
			h.Double, h.Jam, h.Caught = 0.05, 0.03, 0.8
			h.Clear, h.Stream.Realign = lognormal(0.5, 0.5), lognormal(3, 0.5)
			h.Hopper = Stock{Capacity: 2, Work: lognormal(0.5, 0.5)}
			addReader(l, &Reader{
				Place: Place{Name: "reader", At: 4}, Reads: "documents", Sequence: true, FalseAlarm: 0.02, OnMismatch: Divert,
			})
			l.Crew.Walk, l.Restart = lognormal(0.2, 0.3), lognormal(0.1, 0.5)
		})},
	}
}

// agreeDocuments are lines with a document channel among other lanes.
func agreeDocuments() []agreeCase {
	return []agreeCase{
		{"documents, inserts and envelopes", personal(3, Divert, func(l *Line, lanes []*Feeder) {
			h := documents(l, fastSheets, geometricPages(3), 8, Divert)
			h.Noticed, h.Caught = 0.7, 0.7
			lanes[2].Envelopes = true
			in := firstOf[*Inserter](l)
			in.Hopper, in.EnvelopeMisfeed = Stock{}, 0
			blind(lanes[1], 0.6, 0.6)
			blind(lanes[2], 0.6, 0.6)
			addReader(l, &Reader{Place: Place{Name: "documents read", At: 0}, Reads: "documents", Sequence: true, OnMismatch: Divert})
			addReader(l, &Reader{Place: Place{Name: "match", At: 4}, Reads: "3", Match: "documents", OnMismatch: Divert})
			addReader(l, &Reader{
				Place: Place{Name: "inserts read", At: 5}, Reads: "2", Sequence: true, FalseAlarm: 0.002, OnMismatch: Divert,
			})
		})},
		{"documents and inserts, by hand", personal(2, Stop, func(l *Line, lanes []*Feeder) {
			h := documents(l, fastSheets, geometricPages(3), 3, Stop)
			h.Noticed, h.Caught, h.Jam = 0.7, 0.7, 0.008
			blind(lanes[1], 0.6, 0.6)
			addReader(l, &Reader{
				Place: Place{Name: "match", At: 6}, Reads: "2", Match: "documents",
				NoRead: 0.004, FalseAlarm: 0.002, OnNoRead: Ship, OnMismatch: Stop,
			})
		})},
		{"documents in the middle of the track", personal(3, Divert, func(l *Line, lanes []*Feeder) {
			h := documents(l, fastSheets, geometricPages(3), 4, Divert)
			lanes[1].At, h.At = 0, 2
			l.Stations[0], l.Stations[1] = lanes[1], h
			h.Misfeed, h.Double, h.Jam = 0.02, 0.02, 0.004
			h.Clear, h.Stream.Realign = lognormal(0.5, 0.5), lognormal(0.5, 0.5)
			lanes[1].Jam, lanes[1].Clear = 0.06, lognormal(0.5, 0.5)
			l.Crew.Walk, l.Restart = lognormal(0.5, 0.3), lognormal(0.3, 0.5)
		})},
	}
}

// agreeJobs are jobs with remakes.
func agreeJobs() []agreeCase {
	job := func(l *Line, j Job) {
		l.Shift, l.Job = 0, j
	}
	return []agreeCase{
		{"a job with second passes", personal(2, Divert, func(l *Line, lanes []*Feeder) {
			blind(lanes[0], 0.8, 0.8)
			lanes[0].Misfeed, lanes[0].Double = 0.003, 0.002
			addReader(l, &Reader{Place: Place{Name: "match", At: 6}, Reads: "1", Match: "2", OnMismatch: Divert})
			job(l, Job{Sets: 1500, Closing: SecondPass, Setup: lognormal(300, 0.3)})
		})},
		{"a job closed by hand", personal(1, Divert, func(l *Line, lanes []*Feeder) {
			lanes[0].Double = 0.01
			job(l, Job{Sets: 1500, Closing: ByHand, PerHour: 60})
		})},
		{"a job closed beside the line", personal(2, Divert, func(l *Line, lanes []*Feeder) {
			lanes[0].Double, lanes[1].Jam = 0.004, 0.003
			l.Slow.Starting = Slowly{Cycles: 20, Share: 0.5}
			addReader(l, &Reader{Place: Place{Name: "match", At: 6}, Reads: "1", Match: "2", OnMismatch: Divert})
			job(l, Job{Sets: 1500, Closing: Beside, PerHour: 150})
		})},
		{"a job closed beside the line, one lane", personal(1, Divert, func(l *Line, lanes []*Feeder) {
			lanes[0].Double = 0.01
			job(l, Job{Sets: 1500, Closing: Beside, PerHour: 100})
		})},
		{"a job with documents, and second passes", personal(0, Stop, func(l *Line, _ []*Feeder) {
			documents(l, 41_234.567, geometricPages(2), 3, Divert)
			job(l, Job{Sets: 800, Closing: SecondPass, Setup: sim.Constant(90)})
		})},
		{"a job of plain inserts", personal(0, Divert, func(l *Line, _ []*Feeder) {
			job(l, Job{Sets: 900})
		})},
	}
}
