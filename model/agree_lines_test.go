package model

import (
	"slices"

	"netrate/sim"
)

// agreeCase is a line on which the engine is held against the slow model.
type agreeCase struct {
	name string
	line func() *Line
}

// changed returns the reference line with a shift of half an hour, or as change will
// have it. Walks do not take a whole number of cycles, so that no event of the crew
// coincides with the end of a cycle: which of the two comes first would be a matter of
// rounding.
func changed(change func(l *Line)) func() *Line {
	return func() *Line {
		l := referenceLine()
		l.Shift = 1800.1
		l.Crew.Walk = sim.Constant(15.03)
		change(l)
		return l
	}
}

// faulty raises the rates of faults so that a short shift has many, and shortens their
// clearing so that it has time for them.
func faulty(l *Line, misfeed, double, jam float64) {
	for _, f := range stationsOf[*Feeder](l) {
		f.Misfeed, f.Double, f.Jam = misfeed, double, jam
		f.Clear = lognormal(12, 0.8)
	}
	in := firstOf[*Inserter](l)
	in.EnvelopeMisfeed, in.Flap, in.Jam = jam, double, jam
	in.Clear = lognormal(18, 0.8)
	l.Crew.Walk = lognormal(4, 0.3)
}

// respond has every feeder respond to misfeeds and doubles alike.
func respond(l *Line, r Response) {
	for _, f := range stationsOf[*Feeder](l) {
		f.OnMisfeed, f.OnDouble = r, r
	}
}

// low gives the hoppers so little that they run low every minute, at different times.
func low(l *Line, operators int) {
	for i, f := range stationsOf[*Feeder](l) {
		f.Hopper = Stock{Capacity: 240 + 30*int64(i), Warn: 90, Work: lognormal(14, 0.5)}
	}
	firstOf[*Inserter](l).Hopper = Stock{Capacity: 300, Warn: 100, Work: lognormal(10, 0.5)}
	l.Crew = Crew{Operators: operators, Walk: lognormal(5, 0.3)}
	l.Restart = lognormal(4, 0.3)
	l.Shift = 900.1
}

func agreeCases() []agreeCase {
	return slices.Concat(agreeResponses(), agreeStocks(), agreeTracks(), agreeStops(), agreeStreams(), agreeClearings(), agreePeople(), agreeLots(), agreeErrors(), agreeTwoChannels(), agreeBeginnings(), agreeDevices(), agreePaces(), agreeAttributes(), agreeSomeStreams())
}

// agreeResponses are lines that differ in what a fault leads to.
func agreeResponses() []agreeCase {
	return []agreeCase{
		{"the reference line", changed(func(*Line) {})},
		{"stop everywhere", changed(func(l *Line) {
			faulty(l, 0.002, 0.001, 0.0005)
			respond(l, Stop)
			for _, f := range stationsOf[*Feeder](l) {
				f.Caught, f.FalseCalls = 0.8, 0.0005
			}
			firstOf[*Inserter](l).OnFlap = Stop
		})},
		{"outsort everywhere", changed(func(l *Line) {
			faulty(l, 0.01, 0.005, 0.0005)
			respond(l, Outsort)
			firstOf[*Inserter](l).Jam = 0.002
		})},
		{"ship, with imperfect detection", changed(func(l *Line) {
			faulty(l, 0.004, 0.004, 0.0002)
			respond(l, Ship)
			for i, f := range stationsOf[*Feeder](l) {
				f.Caught, f.FalseCalls = 0.7, 0.002
				f.OnDouble = Response(i % 4)
			}
		})},
		{"streaks", changed(func(l *Line) {
			faulty(l, 0.02, 0.02, 0.001)
			l.Restart = lognormal(1, 0.5)
			for i, f := range stationsOf[*Feeder](l) {
				f.Clear = lognormal(2, 0.8)
				f.OnMisfeed, f.OnDouble = Response(i%4), Response((i+1)%4)
				f.Streak = Streak{Given: i != 2, Again: 0.5, StopAfter: []int{3, 2, 2, 4, 0, 3}[i]}
				if !f.Streak.Given {
					f.Streak.Again = 0
				}
			}
			// A double between two misfeeds ends the first streak.
			f := stationsOf[*Feeder](l)[3]
			f.Double, f.OnDouble, f.Streak.Again = 0.3, Ship, 0.6
		})},
	}
}

// agreeStocks are lines whose hoppers, bins and belt run low and are used up.
func agreeStocks() []agreeCase {
	return []agreeCase{
		{"stocks run empty, one operator", changed(func(l *Line) { low(l, 1) })},
		{"stocks run empty, along the track", changed(func(l *Line) {
			low(l, 1)
			l.Crew.Order = AlongTheTrack
		})},
		{"stocks run empty, first come", changed(func(l *Line) {
			faulty(l, 0.002, 0.001, 0.0005)
			low(l, 1)
			for i, f := range stationsOf[*Feeder](l) {
				f.Hopper.Warn = []int64{20, 160, 40, 120, 60, 90}[i]
			}
			l.Crew.Order = FirstCome
		})},
		{"stocks run empty, in turn", changed(func(l *Line) {
			faulty(l, 0.002, 0.001, 0.0005)
			low(l, 1)
			for i, f := range stationsOf[*Feeder](l) {
				f.Hopper.Warn = []int64{20, 160, 0, 120, 60, 90}[i]
			}
			l.Crew.Exhausted = InTurn
		})},
		{"stocks run empty, first come, in turn", changed(func(l *Line) {
			faulty(l, 0.002, 0.001, 0.0005)
			low(l, 1)
			for i, f := range stationsOf[*Feeder](l) {
				f.Hopper.Warn = []int64{20, 160, 40, 0, 60, 90}[i]
			}
			l.Crew.Order, l.Crew.Exhausted = FirstCome, InTurn
		})},
		{"stocks run empty, two operators", changed(func(l *Line) {
			faulty(l, 0.002, 0.001, 0.0005)
			low(l, 2)
		})},
		{"stocks run empty, three operators", changed(func(l *Line) {
			faulty(l, 0.002, 0.001, 0.0005)
			low(l, 3)
			for _, f := range stationsOf[*Feeder](l) {
				f.Hopper.Work = lognormal(40, 0.5)
			}
		})},
		{"doubles at the bottom of small hoppers", changed(func(l *Line) {
			faulty(l, 0.01, 0.2, 0)
			for i, f := range stationsOf[*Feeder](l) {
				f.Hopper = Stock{Capacity: 30 + int64(i), Warn: int64(i % 2), Work: lognormal(3, 0.5)}
				f.Caught, f.FalseCalls, f.OnDouble = 0.5, 0.1, []Response{Divert, Ship}[i%2]
			}
			l.Crew.Operators = 4
			l.Shift = 900.1
		})},
		{"small bins and belt", changed(func(l *Line) {
			faulty(l, 0.004, 0.002, 0.0002)
			for i, f := range stationsOf[*Feeder](l) {
				f.OnMisfeed = []Response{Divert, Outsort}[i%2]
			}
			firstOf[*TrackGate](l).Bin = Stock{Capacity: 12, Warn: 4, Work: lognormal(12, 0.5)}
			firstOf[*ExitGate](l).Bin = Stock{Capacity: 8, Warn: 0, Work: lognormal(12, 0.5)}
			firstOf[*Delivery](l).Belt = Stock{Capacity: 250, Warn: 60, Work: lognormal(10, 0.5)}
		})},
	}
}

// agreeTracks are lines that differ in what the stations do to one another.
func agreeTracks() []agreeCase {
	return []agreeCase{
		{"selective feeders", changed(func(l *Line) {
			faulty(l, 0.01, 0.005, 0.0005)
			low(l, 1)
			for i, f := range stationsOf[*Feeder](l) {
				f.Share = []float64{1, 0.3, 0.7, 0.05, 0.5, 0.9}[i]
				f.Hopper = Stock{Capacity: []int64{150, 60, 110, 12, 80, 140}[i], Warn: 9, Work: lognormal(5, 0.5)}
				f.OnMisfeed, f.OnDouble = Response(i%3), Divert
				f.Caught, f.FalseCalls = 0.9, 0.001
				f.Streak = Streak{Given: true, Again: 0.3, StopAfter: 3}
				if !f.Streak.Given {
					f.Streak.Again = 0
				}
			}
		})},
		{"speed and material", changed(func(l *Line) {
			faulty(l, 0.04, 0.01, 0.0004)
			l.Speed = 15_000
			for i, f := range stationsOf[*Feeder](l) {
				f.Growth, f.Material = 1+float64(i)/2, 0.5+float64(i)/4
				f.Rated = 18_000 + 1000*float64(i)
				f.Streak = Streak{Given: i%2 == 0, Again: 0.3}
				if !f.Streak.Given {
					f.Streak.Again = 0
				}
			}
			in := firstOf[*Inserter](l)
			in.Rated, in.Growth = 14_000, 2
		})},
		{"two track gates", changed(func(l *Line) {
			faulty(l, 0.01, 0.005, 0.0005)
			early := &TrackGate{
				Place: Place{Name: "early gate", At: 5},
				Bin:   Stock{Capacity: 40, Warn: 10, Work: lognormal(12, 0.5)},
			}
			l.Stations = append(l.Stations[:3:3], append([]Station{early}, l.Stations[3:]...)...)
		})},
		{"a track crowded with faults", changed(func(l *Line) {
			faulty(l, 0.05, 0.03, 0.0005)
			l.Shift = 900.1
			for i, f := range stationsOf[*Feeder](l) {
				f.OnMisfeed = []Response{Divert, Outsort, Ship}[i%3]
				f.OnDouble = []Response{Outsort, Ship, Divert}[i%3]
				f.Caught, f.FalseCalls = 0.6, 0.01
				f.Streak = Streak{Given: i%2 == 0, Again: 0.2}
				if !f.Streak.Given {
					f.Streak.Again = 0
				}
			}
			// What came defective stays so when it is put right.
			last := stationsOf[*Feeder](l)[5]
			last.OnMisfeed, last.OnDouble, last.Clear = Stop, Stop, lognormal(0.2, 0.5)
			last.Double, last.Caught = 0.2, 1
			l.Restart, l.Crew.Walk = lognormal(0.1, 0.5), lognormal(0.2, 0.5)
		})},
	}
}

// agreeStops are lines that stop every few cycles, often for two reasons.
func agreeStops() []agreeCase {
	return []agreeCase{
		{"several stops at once", changed(func(l *Line) {
			faulty(l, 0.04, 0.03, 0.02)
			respond(l, Stop)
			firstOf[*Inserter](l).OnFlap = Stop
			l.Crew.Operators = 3
			l.Restart = lognormal(2, 0.5)
		})},
		{"several stops at once, with small hoppers and nobody to spare", changed(func(l *Line) {
			low(l, 1)
			faulty(l, 0.02, 0.02, 0.01)
			respond(l, Stop)
			for i, f := range stationsOf[*Feeder](l) {
				f.Hopper = Stock{Capacity: 12 + int64(i), Warn: 4 * int64(i%2), Work: lognormal(4, 0.5)}
				f.Clear = lognormal(3, 0.8)
			}
			l.Crew.Walk, l.Restart = lognormal(1, 0.3), lognormal(1, 0.5)
			l.Shift = 1800.1
		})},
	}
}
