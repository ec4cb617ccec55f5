package model

import "netrate/sim"

// handChannel puts a document channel in the place of A: three sheets a document, two a
// second, and room for one document.
func handChannel(l *Line, jam float64) {
	l.Stations[handA] = &Channel{
		Place: Place{Name: "channel", At: handA}, Sheets: 7200, Pages: sim.Always(3), Buffer: 1,
		Jam: jam, Stream: Stream{Name: "documents", Tries: 1}, Clear: sim.Constant(20.25),
	}
}

// handChannels are cases of a document channel.
func handChannels() []handCase {
	return []handCase{
		{
			// A document takes 1.5 s and the next is begun at once, as a place is free by
			// then: document n is gathered at 1.5 (n-1) s and fed a second later. Document 67
			// is fed at 100 s, and each time the line waits for half a second.
			"a line that starves for documents",
			handLine(100.375, func(l *Line, _, _ *Feeder) { handChannel(l, 0) }),
			func() *Outcome {
				o := handOutcome(100.375, 67)
				allGood(o, 67)
				channel := &o.Stations[handA]
				channel.Pieces.Loaded, channel.Pieces.Left = 67, 0
				channel.Stops[CauseStarved] = StopTotal{Count: 67, Starved: 33.375}
				return o
			},
		},
		{
			// All documents jam but the first, which was there. Document 2 is begun at 0 s and
			// cleared at 32, document 3 is begun then and cleared at 64, 4 at 96, and 5 jams at
			// 97.5. Cycles end at 1, 33, 65 and 97 s, and the pockets of 2, 3 and 4 are empty.
			"documents that jam",
			handLine(100.5, func(l *Line, _, _ *Feeder) { handChannel(l, 1) }),
			func() *Outcome {
				o := handOutcome(100.5, 4)
				o.Cycles, o.Sets = 4, Sets{Started: 4, Spoiled: 3, OnLine: 1}
				channel := &o.Stations[handA]
				channel.Attempts, channel.Faults[Jam] = 1, 4
				channel.Pieces = Pieces{Loaded: 4, Spoiled: 3, OnLine: 1}
				channel.lost(Jam, 3)
				// Half a second each time that the document takes longer than the cycle, and then
				// what the jam takes.
				channel.Stops[CauseStarved] = StopTotal{Count: 4, Starved: 2}
				channel.Stops[CauseJam] = StopTotal{Count: 4, Waiting: 33.75, Working: 60.75}
				channel.Clearing = sim.Account{Calls: 4, Done: 3, Walking: 33.75, Working: 60.75}
				o.Stations[handB].fed(1, Pieces{OnLine: 1})
				o.Stations[handInserter].fed(1, Pieces{OnLine: 1})
				return o
			},
		},
		{
			// A document takes a second, as a cycle does. The channel stops at 1 s with document 2,
			// in the moment in which the cycle ends that has taken the only one there was: the line
			// starves, and not a moment for a channel that is too slow. Document 2 is put right at
			// 31.5 s, and so on: cycles end at 1, 32.5, 64 and 95.5 s.
			"documents taken for doubles, as a cycle ends",
			handLine(100.5, func(l *Line, _, _ *Feeder) {
				handChannel(l, 0)
				h := firstOf[*Channel](l)
				h.Sheets, h.FalseCalls = 10_800, 1
			}),
			func() *Outcome {
				o := handOutcome(100.5, 4)
				o.Cycles, o.Sets = 4, Sets{Started: 4, OnLine: 4}
				channel := &o.Stations[handA]
				channel.Attempts, channel.FalseCalls = 4, 4
				channel.Pieces = Pieces{Loaded: 4, OnLine: 4}
				channel.Stops[CauseStarved] = StopTotal{Count: 4}
				channel.Stops[CauseDouble] = StopTotal{Count: 4, Waiting: 35.75, Working: 60.75}
				channel.Clearing = sim.Account{Calls: 4, Done: 3, Walking: 35.75, Working: 60.75}
				o.Stations[handB].fed(4-handB, Pieces{OnLine: 4 - handB})
				o.Stations[handInserter].fed(4-handInserter, Pieces{OnLine: 4 - handInserter})
				return o
			},
		},
		{
			// Three documents are there when document 4 jams at 1.5 s: the line starves from 3 s
			// on, is waited for until 11.75 s and worked on until 32. Document 5 is begun then and
			// jams at 33.5 s, half a second after its cycle should have begun.
			"a jam that a buffer covers for a while",
			handLine(40.5, func(l *Line, _, _ *Feeder) {
				handChannel(l, 1)
				firstOf[*Channel](l).Buffer = 3
			}),
			func() *Outcome {
				o := handOutcome(40.5, 4)
				o.Cycles, o.Sets = 4, Sets{Started: 4, Spoiled: 1, OnLine: 3}
				channel := &o.Stations[handA]
				channel.Attempts, channel.Faults[Jam] = 3, 2
				channel.Pieces = Pieces{Loaded: 4, Spoiled: 1, OnLine: 3}
				channel.lost(Jam, 1)
				channel.Stops[CauseStarved] = StopTotal{Count: 1, Starved: 0.5}
				channel.Stops[CauseJam] = StopTotal{Count: 2, Waiting: 8.75 + 7, Working: 20.25}
				channel.Clearing = sim.Account{Calls: 2, Done: 1, Walking: 17.25, Working: 20.25}
				o.Stations[handB].fed(4-handB, Pieces{OnLine: 4 - handB})
				o.Stations[handInserter].fed(4-handInserter, Pieces{OnLine: 4 - handInserter})
				return o
			},
		},
	}
}

// handJobs are jobs of three sets whose documents jam, all but the first of each pass. The
// cycles of the first pass end at 1, 33, 65, 66, …, 70 s, when the empty pocket of set 3
// comes to the delivery; those of a pass of two sets at 1, 33, 34, …, 38 s; one set alone
// takes 6 s.
func handJobs() []handCase {
	job := func(j Job) *Line {
		return handLine(0, func(l *Line, _, _ *Feeder) {
			handChannel(l, 1)
			l.Job = j
		})
	}
	// passes fills in what a number of passes come to, with a number of jams in all.
	passes := func(o *Outcome, n, jams int64) {
		o.Job.Passes = n
		o.Sets = Sets{Started: n + jams, Good: n, Spoiled: jams}
		channel := &o.Stations[handA]
		channel.Attempts, channel.Faults[Jam] = n, jams
		channel.Pieces = Pieces{Loaded: n + jams, Good: n, Spoiled: jams}
		channel.lost(Jam, jams)
		channel.Stops[CauseStarved] = StopTotal{Count: jams, Starved: 0.5 * sim.Seconds(jams)}
		channel.Stops[CauseJam] = StopTotal{Count: jams, Waiting: 10.25 * sim.Seconds(jams), Working: 20.25 * sim.Seconds(jams)}
		channel.Clearing = sim.Account{
			Calls: jams, Done: jams, Walking: 10.25 * sim.Seconds(jams), Working: 20.25 * sim.Seconds(jams),
		}
		for _, i := range []int{handB, handInserter} {
			o.Stations[i].Attempts = n
			o.Stations[i].Pieces = Pieces{Loaded: 10_000 * n, Good: n, Left: 9999 * n}
		}
		o.Stations[handDelivery].Removed = n
	}
	return []handCase{
		{
			"a job of three passes",
			job(Job{Sets: 3, Closing: SecondPass, Setup: sim.Constant(60.5)}),
			func() *Outcome {
				o := handOutcome(70+38+6, 8+7+6)
				o.Cycles = 8 + 7 + 6
				passes(o, 3, 3)
				o.Job.Setup, o.Job.Finish = 2*60.5, 70+38+6+2*60.5
				return o
			},
		},
		{
			"a job closed by hand",
			job(Job{Sets: 3, Closing: ByHand, PerHour: 120}),
			func() *Outcome {
				o := handOutcome(70, 8)
				o.Cycles = 8
				passes(o, 1, 2)
				o.Job.ByHand, o.Job.Hand, o.Job.Finish = 2, 60, 130
				return o
			},
		},
		{ // sets 2 and 3 are lost when their cycles end, at 33 and 65 s
			"a job closed beside the line",
			job(Job{Sets: 3, Closing: Beside, PerHour: 120}),
			func() *Outcome {
				o := handOutcome(70, 8)
				o.Cycles = 8
				passes(o, 1, 2)
				o.Job.ByHand, o.Job.Hand, o.Job.Finish = 2, 25, 65+30
				return o
			},
		},
		{
			"a job closed beside the line, at a bench that is behind",
			job(Job{Sets: 3, Closing: Beside, PerHour: 60}),
			func() *Outcome {
				o := handOutcome(70, 8)
				o.Cycles = 8
				passes(o, 1, 2)
				o.Job.ByHand, o.Job.Hand, o.Job.Finish = 2, 83, 33+2*60
				return o
			},
		},
		{
			"a job closed beside the line, before it is done",
			job(Job{Sets: 3, Closing: Beside, PerHour: 3600}),
			func() *Outcome {
				o := handOutcome(70, 8)
				o.Cycles = 8
				passes(o, 1, 2)
				o.Job.ByHand, o.Job.Hand, o.Job.Finish = 2, 0, 70
				return o
			},
		},
		{
			"a job left open",
			job(Job{Sets: 3}),
			func() *Outcome {
				o := handOutcome(70, 8)
				o.Cycles = 8
				passes(o, 1, 2)
				o.Job.Finish = 70
				return o
			},
		},
	}
}
