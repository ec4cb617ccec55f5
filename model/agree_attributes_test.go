package model

import (
	"fmt"
	"slices"

	"pgregory.net/rapid"

	"netrate/sim"
)

// agreeAttributes are lines with feeders that are only for some sets.
func agreeAttributes() []agreeCase {
	return []agreeCase{
		{"attributes: two feeders share one, all responses", changed(func(l *Line) {
			faulty(l, 0.02, 0.01, 0.002)
			onlyFor(l)
			for i, f := range stationsOf[*Feeder](l) {
				f.OnMisfeed, f.OnDouble = Response(i%4), Response((i+2)%4)
				f.Noticed, f.Caught, f.FalseCalls = 0.8, 0.7, 0.004
			}
		})},
		{"attributes: streaks and speed", changed(func(l *Line) {
			faulty(l, 0.03, 0.02, 0.001)
			onlyFor(l)
			l.Restart = lognormal(1, 0.5)
			for i, f := range stationsOf[*Feeder](l) {
				f.Clear, f.OnMisfeed = lognormal(2, 0.8), Response(i%4)
				f.Streak = Streak{Given: true, Again: 0.5, StopAfter: []int{3, 2, 2, 4, 0, 3}[i]}
			}
			l.Slow.Starting = Slowly{Cycles: 150, Share: 0.4}
		})},
		{"attributes: hoppers that run empty, lots and days", changed(func(l *Line) {
			faulty(l, 0.004, 0.002, 0.0005)
			low(l, 1)
			onlyFor(l)
			lotsOf(l, 40)
			l.Days = Days{CV: 0.6, Hours: 0.05}
			for _, f := range stationsOf[*Feeder](l) {
				f.Hopper = Stock{Capacity: 60, Warn: 20, Work: lognormal(14, 0.5)}
			}
		})},
		{"attributes: wrong repairs and wrong stock", changed(func(l *Line) {
			faulty(l, 0.02, 0.01, 0.001)
			onlyFor(l)
			l.Crew.WrongRepair = 0.3
			for i, f := range stationsOf[*Feeder](l) {
				f.Hopper = Stock{Capacity: 120, Warn: 30, Work: lognormal(14, 0.5)}
				f.WrongStock = Mixup{Chance: 0.3}
				if i%2 == 0 {
					f.WrongStock.FoundAfter = lognormal(20, 0.5)
				}
				f.OnMisfeed, f.OnDouble = Response(i%4), Response((i+1)%4)
			}
		})},
		{"attributes: a shift that goes on from the one before", changed(func(l *Line) {
			faulty(l, 0.02, 0.01, 0.002)
			low(l, 1)
			onlyFor(l)
			l.Begins = Begins{Before: 300.1, Track: true}
			respond(l, Divert)
		})},
		{"attributes: a job of letters that stay matched", func() *Line {
			l := lettersLine(3)
			l.Shift, l.Crew.Walk = 0, lognormal(4, 0.3)
			l.Job = Job{Sets: 600, Closing: SecondPass, Setup: sim.Constant(100)}
			l.Attributes = []Attribute{{"card", 0.3}}
			for i, f := range stationsOf[*Feeder](l) {
				f.Misfeed, f.Double, f.Clear = 0.02, 0.003, lognormal(8, 0.5)
				if i == 2 {
					f.Stream, f.Only, f.OnMisfeed = Stream{}, "card", Divert
				}
			}
			return l
		}},
	}
}

// onlyFor gives a line two attributes. Feeders 1, 2 and 4 are for one of them, feeder 5 is for the
// other, and feeder 3 for a share of its own.
func onlyFor(l *Line) {
	l.Attributes = []Attribute{{"gold", 0.2}, {"new", 0.7}}
	for i, f := range stationsOf[*Feeder](l) {
		f.Only = []string{"", "gold", "gold", "", "gold", "new"}[i]
	}
	stationsOf[*Feeder](l)[3].Share = 0.4
}

// anyAttributes has some of the plain feeders of a line be only for attributes.
func anyAttributes(t *rapid.T, l *Line) {
	for i := range rapid.IntRange(1, 3).Draw(t, "attributes") {
		l.Attributes = append(l.Attributes, Attribute{fmt.Sprint("attribute ", i+1), rapid.SampledFrom([]float64{0.01, 0.3, 0.9, 1}).Draw(t, "share")})
	}
	for _, f := range stationsOf[*Feeder](l) {
		if f.Stream.Name == "" && rapid.IntRange(0, 3).Draw(t, "only") > 0 {
			f.Only, f.Share = rapid.SampledFrom(l.Attributes).Draw(t, "attribute").Name, 1
		}
	}
	anySomeStreams(t, l)
}

// handAttributes are cases of feeders that are only for some sets.
func handAttributes() []handCase {
	// The sets of an attribute of them all are all sets: of both feeders alike.
	shared := func(l *Line, a, b *Feeder) {
		l.Attributes = []Attribute{{"all", 1}}
		a.Only, b.Only = "all", "all"
	}
	var all []handCase
	for _, c := range slices.Concat(handRefills(), handUsedUp()) {
		c.name += ", of an attribute of all sets"
		shared(c.line, c.line.Stations[handA].(*Feeder), c.line.Stations[handB].(*Feeder))
		all = append(all, c)
	}
	return append(all, handCase{
		// Set 1 comes to A in cycle 1 and jams. The operator arrives at 11.25 s and works until
		// 31.5, the line runs at 35.75 and stops again at 36.75 and 72.5, where he arrives at 82.75
		// and would have finished at 103. B gets none of the three.
		"an attribute shared by two feeders, one jams",
		handLine(100.5, func(l *Line, a, b *Feeder) {
			shared(l, a, b)
			a.Jam = 1
		}),
		func() *Outcome {
			o := handOutcome(100.5, 3)
			o.Cycles, o.Sets = 3, Sets{Started: 3, Spoiled: 3}
			o.LeftOver = LeftOver{2.5, 4.25}
			a := &o.Stations[handA]
			a.fed(3, Pieces{Spoiled: 3})
			a.Faults[Jam], a.Lost[Jam] = 3, 3
			a.Stops[CauseJam] = StopTotal{Count: 3, Waiting: 30.75, Working: 58.25, Restarting: 8.5}
			a.Clearing = sim.Account{Calls: 3, Done: 2, Walking: 30.75, Working: 58.25}
			o.Stations[handB].fed(0, Pieces{})
			o.Stations[handInserter].fed(0, Pieces{})
			return o
		},
	})
}
