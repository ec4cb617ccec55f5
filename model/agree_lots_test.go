package model

import "netrate/sim"

// agreeLots are lines with lots of pieces, good and bad days, and drift.
func agreeLots() []agreeCase {
	return []agreeCase{
		{"lots of all kinds, stop and divert", changed(func(l *Line) {
			faulty(l, 0.004, 0.002, 0.0005)
			lotsOf(l, 400)
			for i, f := range stationsOf[*Feeder](l) {
				f.OnMisfeed, f.Caught, f.FalseCalls = Response(i%4), 0.8, 0.001
				if i%2 == 1 {
					f.Share = 0.3
				}
			}
		})},
		{"tiny lots, streaks, a cap that binds", changed(func(l *Line) {
			faulty(l, 0.05, 0.02, 0.001)
			l.Shift, l.Restart = 900.1, lognormal(1, 0.5)
			lotsOf(l, 7)
			for _, f := range stationsOf[*Feeder](l) {
				f.Clear, f.Lots.Bad, f.Lots.CV, f.Lots.Times, f.Lots.Factors = lognormal(2, 0.8), 0.02, 0, 40, nil
				f.Streak = Streak{Given: true, Again: 0.5, StopAfter: 3}
			}
		})},
		{"days and drift in a shift", changed(func(l *Line) {
			faulty(l, 0.004, 0.002, 0.0005)
			l.Days = Days{CV: 0.6, Drift: []DriftStep{{0, 3}, {0.05, 1.5}, {0.1, 0.5}, {10, 7}}}
		})},
		{"days within a shift, with lots and hoppers that run empty", changed(func(l *Line) {
			faulty(l, 0.004, 0.002, 0.0005)
			low(l, 1)
			lotsOf(l, 150)
			l.Days = Days{CV: 1, Hours: 0.021, Drift: []DriftStep{{0.004, 2.5}}}
			for i, f := range stationsOf[*Feeder](l) {
				f.Share = []float64{1, 0.5}[i%2]
			}
		})},
		{"lanes with lots and days", func() *Line {
			l := lettersLine(3)
			l.Shift, l.Crew.Walk = 1800.1, lognormal(4, 0.3)
			for _, f := range stationsOf[*Feeder](l) {
				f.Misfeed, f.Double, f.Jam, f.Noticed, f.Caught, f.FalseCalls = 0.005, 0.003, 0.0005, 0.8, 0.8, 0.0005
				f.Hopper.Capacity, f.Hopper.Warn = 900, 200
				f.Clear = lognormal(8, 0.5)
			}
			lotsOf(l, 60)
			l.Days = Days{CV: 0.5, Hours: 0.09}
			firstOf[*Reader](l).Clear = lognormal(8, 0.5)
			return l
		}},
		{"sheets of documents in lots", func() *Line {
			l := documentsLine()
			h := firstOf[*Channel](l)
			h.Misfeed, h.Double, h.Jam, h.FalseCalls, h.Noticed, h.Caught = 0.004, 0.002, 0.001, 0.0005, 0.8, 0.8
			h.Pages, h.Clear = geometricPages(2.5), lognormal(6, 0.5)
			h.OnMisfeed, h.OnDouble = Divert, Stop
			h.Lots = Lots{Of: 25, CV: 1.2}
			return l
		}},
		{"sheets by the day, all documents alike", func() *Line {
			l := documentsLine()
			h := firstOf[*Channel](l)
			h.Sheets, h.Misfeed, h.Double, h.Jam = 60_000, 0.004, 0.002, 0.001
			h.OnMisfeed, h.OnDouble = Stop, Divert
			h.Pages, h.Clear = sim.Always(2), lognormal(6, 0.5)
			h.Lots = Lots{Of: 90, Bad: 0.2, Times: 9}
			l.Days = Days{CV: 0.7, Hours: 0.05, Drift: []DriftStep{{0.02, 0.2}}}
			return l
		}},
		{"a job of several passes, days and lots", func() *Line {
			l := lettersLine(3)
			l.Shift, l.Crew.Walk = 0, lognormal(4, 0.3)
			l.Job = Job{Sets: 600, Closing: SecondPass, Setup: sim.Constant(100)}
			for _, f := range stationsOf[*Feeder](l) {
				f.Misfeed, f.Double, f.Noticed, f.Clear = 0.02, 0.003, 1, lognormal(8, 0.5)
			}
			lotsOf(l, 300)
			l.Days = Days{CV: 0.5, Hours: 0.02}
			return l
		}},
	}
}

// documentsLine returns the line of letters with a document channel in the place of the first
// feeder.
func documentsLine() *Line {
	l := lettersLine(3)
	l.Shift, l.Crew.Walk = 1800.1, lognormal(4, 0.3)
	l.Stations[0] = &Channel{
		Place: Place{Name: "documents"}, Sheets: 40_000, Pages: sim.Always(1), Buffer: 4,
		Noticed: 1, Caught: 1, Stream: Stream{Name: "documents", Tries: 1}, Clear: sim.Constant(30),
	}
	return l
}

// lotsOf gives the feeders and the inserter of a line lots of so many pieces, of all kinds.
func lotsOf(l *Line, pieces float64) {
	kinds := []Lots{{CV: 0.8}, {Bad: 0.1, Times: 12}, {Factors: []float64{0, 1, 1, 4}}}
	for i, f := range stationsOf[*Feeder](l) {
		f.Lots = kinds[i%3]
		f.Lots.Of = pieces + float64(i)
	}
	for _, n := range stationsOf[*Inserter](l) {
		n.Lots = Lots{Of: pieces, CV: 1.5}
	}
}
