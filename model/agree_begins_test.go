package model

import (
	"slices"

	"netrate/sim"
)

// lotsAsLeft is the line of agreeBeginnings on which lots weigh most.
const lotsAsLeft = "lots, all as left"

// agreeBeginnings are lines whose shift does not begin afresh, each so short that how it begins
// is a good part of it.
func agreeBeginnings() []agreeCase {
	short := func(l *Line, b Begins) {
		faulty(l, 0.01, 0.005, 0.002)
		low(l, 1)
		for i, f := range stationsOf[*Feeder](l) {
			f.Share = []float64{1, 0.3, 0.7, 0.05, 0.5, 0.9}[i]
			f.OnMisfeed = []Response{Divert, Outsort, Ship}[i%3]
			f.Caught, f.FalseCalls = 0.8, 0.002
		}
		firstOf[*TrackGate](l).Bin = Stock{Capacity: 12, Warn: 4, Work: lognormal(12, 0.5)}
		firstOf[*Delivery](l).Belt = Stock{Capacity: 250, Warn: 60, Work: lognormal(10, 0.5)}
		l.Begins, l.Shift = b, 200.1
	}
	streams := func(l *Line) {
		l.Begins, l.Shift = Begins{Before: 300.03, Track: true}, 200.1
	}
	people := func(l *Line) { // what came before ends in the middle of whatever is done
		l.Begins = Begins{Before: 333.33, Track: true}
		if n := len(l.Crew.Breaks); n > 0 {
			l.Begins.Before = l.Crew.Breaks[0].After + l.Crew.Breaks[0].Length/2 + 0.003
		}
	}
	return []agreeCase{
		{"hoppers at a level", changed(func(l *Line) { short(l, Begins{Level: 0.33}) })},
		{"hoppers as left", changed(func(l *Line) { short(l, Begins{Before: 333.33}) })},
		{"all as left", changed(func(l *Line) { short(l, Begins{Before: 333.33, Track: true}) })},
		{"all as left, few sets", changed(func(l *Line) {
			short(l, Begins{Before: 100.7, Track: true})
			l.Shift = 3.1
		})},
		{"lanes as left", changedFrom("lanes: in line, outsort, streaks and false calls", streams)},
		{"readers as left", changedFrom("readers: three pitches on, no-reads diverted", streams)},
		{"documents as left", changedFrom("documents: alone, by hand, a small buffer", streams)},
		{"breaks, all as left", changedFrom("breaks for which the line stands", people)},
		{"breaks with documents, all as left", changedFrom("breaks for which a line with documents stands", people)},
		{"breakdowns, all as left", changedFrom("breakdowns, one technician, small hoppers", people)},
		{"half an operator, hoppers as left", changedFrom("a crew that changes, and half an operator", func(l *Line) {
			l.Begins.Before = 250.3
		})},
		{lotsAsLeft, changedFrom("lots of all kinds, stop and divert", func(l *Line) {
			people(l)
			for i, f := range stationsOf[*Feeder](l) { // lots as long as the shift: what they are like is seen in it
				f.Misfeed *= 3
				f.Lots = Lots{Of: 1500 + float64(i), Bad: 0.2, Times: 60}
			}
		})},
		{"days within a shift, all as left", changedFrom("days within a shift, with lots and hoppers that run empty", people)},
		{"wrong stock, all as left", changedFrom("errors: wrong stock, found by an operator or not at all", people)},
		{"wrong stock and readers, all as left", changedFrom("errors: wrong stock, found by readers", people)},
		{"sheets in lots, all as left", changedFrom("sheets of documents in lots", people)},
		{"two channels, all as left", changedFrom("channels: two that starve in turn", people)},
		{"a job of several passes, hoppers kept", changedFrom("a job of several passes, days and lots", func(l *Line) {
			l.Begins.Kept = true
			for i, f := range stationsOf[*Feeder](l) { // plain ones, used up in some passes and not in others
				if f.Hopper = (Stock{Capacity: 90, Warn: 30, Work: lognormal(20, 0.5)}); i == 2 {
					f.Stream, f.OnMisfeed, f.OnDouble = Stream{}, Stop, Stop
				}
			}
			firstOf[*Inserter](l).Hopper = Stock{Capacity: 70, Warn: 20, Work: lognormal(15, 0.5)}
		})},
		{"lanes, hoppers as left", changedFrom("lanes: in line, outsort, streaks and false calls", func(l *Line) {
			l.Begins, l.Shift = Begins{Before: sim.Seconds(400.03)}, 200.1
		})},
	}
}

// changedFrom returns another line of those that are held against the slow model, as change
// will have it.
func changedFrom(name string, change func(l *Line)) func() *Line {
	return func() *Line {
		for _, c := range slices.Concat(agreeStreams(), agreePeople(), agreeLots(), agreeErrors(), agreeTwoChannels()) {
			if c.name == name {
				l := c.line()
				change(l)
				return l
			}
		}
		panic("no line " + name)
	}
}
