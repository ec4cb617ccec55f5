package model

import (
	"slices"

	"pgregory.net/rapid"
)

// agreeSomeStreams are lines with streams that only some sets have.
func agreeSomeStreams() []agreeCase {
	// carded is a line of letters that all sets have and cards for some, of which many faults go unseen.
	carded := func(share float64, change func(l *Line, lanes []*Feeder, card *Feeder)) func() *Line {
		return personal(2, Divert, func(l *Line, lanes []*Feeder) {
			l.Attributes = []Attribute{{"gold", share}, {"new", 0.5}}
			for _, f := range lanes {
				blind(f, 0.7, 0.6)
			}
			lanes[1].Only = "gold"
			lanes[1].Misfeed, lanes[1].Double = 0.03, 0.02
			change(l, lanes, lanes[1])
		})
	}
	match := func(at int, r Response) *Reader {
		return &Reader{
			Place: Place{Name: "match", At: at}, Reads: "2", Match: "1", Sequence: true,
			NoRead: 0.02, FalseAlarm: 0.01, OnNoRead: Stop, OnMismatch: r,
		}
	}
	return []agreeCase{
		{"some streams: in line, read on the track", carded(0.3, func(l *Line, _ []*Feeder, card *Feeder) {
			card.Streak = Streak{Given: true, Again: 0.3, StopAfter: 3}
			card.FalseCalls, card.Stream.Tries = 0.01, 2
			addReader(l, match(5, Divert))
		})},
		{"some streams: seen by the reader of what all sets have", carded(0.6, func(l *Line, lanes []*Feeder, _ *Feeder) {
			lanes[0].Misfeed, lanes[0].Double = 0.02, 0.02
			r := match(15, Outsort)
			r.Reads, r.Match, r.Sequence = "1", "2", false
			addReader(l, r)
		})},
		{"some streams: nobody reads, and pieces meet by chance", carded(0.7, func(_ *Line, lanes []*Feeder, card *Feeder) {
			for _, f := range lanes {
				f.Misfeed, f.Double, f.Jam = 0.02, 0.02, 0.002
				blind(f, 0.05, 0)
			}
			card.OnMisfeed = Outsort
		})},
		{"some streams: two attributes, three lanes, by hand", personal(3, Stop, func(l *Line, lanes []*Feeder) {
			l.Attributes = []Attribute{{"gold", 0.4}, {"new", 0.7}}
			lanes[0].Only, lanes[2].Only = "gold", "new"
			for _, f := range lanes {
				f.Misfeed, f.Double = 0.03, 0.03
				f.Stream.Realign, f.Clear = lognormal(2, 0.5), lognormal(2, 0.5)
				blind(f, 0.6, 0.5)
			}
			r := match(6, Stop)
			r.Reads, r.Match, r.Sequence = "1", "3", false
			addReader(l, r)
			l.Crew.Walk, l.Restart = lognormal(0.5, 0.3), lognormal(0.3, 0.5)
			l.Crew.WrongRepair, l.Crew.WrongRealign = 0.2, 0.3
		})},
		{"some streams: jams upstream, small hoppers, held for empty pockets", carded(0.5, func(l *Line, lanes []*Feeder, card *Feeder) {
			lanes[0].Jam, card.Jam = 0.05, 0.01
			card.Double, card.OnMisfeed, card.OnDouble = 0.08, Stop, Stop
			for i, f := range lanes {
				f.Hopper = Stock{Capacity: 25 + int64(i), Warn: int64(8 * i), Work: lognormal(2, 0.5)}
				f.Clear, f.Stream.Realign = lognormal(0.5, 0.5), lognormal(0.5, 0.5)
			}
			card.At = 9
			third := stationsOf[*Feeder](l)[2]
			third.At = 4
			l.Stations[1], l.Stations[2] = l.Stations[2], l.Stations[1]
			addReader(l, match(10, Stop))
			l.Crew.Walk, l.Restart = lognormal(0.2, 0.3), lognormal(0.1, 0.5)
		})},
		{"some streams: halves, documents and devices", personal(3, Divert, func(l *Line, lanes []*Feeder) {
			l.Attributes = []Attribute{{"gold", 0.3}, {"new", 0.6}}
			documents(l, 60_000, geometricPages(1.5), 4, Divert)
			for i, f := range lanes[1:] {
				f.Only, f.Stream.Name, f.Stream.Half = "gold", "card", true
				f.Misfeed, f.Double = 0.02, 0.02
				blind(f, 0.6, 0.5+0.1*float64(i))
			}
			addReader(l, &Reader{Place: Place{Name: "halves", At: 6}, Reads: "card", Presence: true, Misread: 0.2, OnMismatch: Divert})
			addReader(l, &Reader{Place: Place{Name: "match", At: 8}, Reads: "documents", Match: "card", NoRead: 0.01, OnNoRead: Divert, OnMismatch: Divert})
			withDevices(l, func(i int, d *Device) { d.Only = []string{"gold", "new", "new"}[i] })
		})},
		{"some streams: a job with a second pass, lots and days", carded(0.4, func(l *Line, _ []*Feeder, _ *Feeder) {
			l.Shift, l.Job = 0, Job{Sets: 500, Closing: SecondPass, Setup: lognormal(60, 0.3)}
			lotsOf(l, 40)
			l.Days = Days{CV: 0.6, Hours: 0.05}
			addReader(l, match(5, Divert))
		})},
		{"some streams: a shift that goes on from the one before", carded(0.4, func(l *Line, _ []*Feeder, _ *Feeder) {
			l.Begins = Begins{Before: 200.1, Track: true}
			addReader(l, match(5, Divert))
		})},
	}
}

// anySomeStreams has some of the streams and devices of a line be only for attributes, and leaves one
// stream for all sets.
func anySomeStreams(t *rapid.T, l *Line) {
	lanes := l.Lanes()
	if len(lanes) > 1 && rapid.Bool().Draw(t, "some streams") {
		forAll := StreamOf(l.Stations[rapid.SampledFrom(lanes).Draw(t, "for all sets")]).Name
		only := map[string]string{}
		for _, i := range lanes {
			name := StreamOf(l.Stations[i]).Name
			f, ok := l.Stations[i].(*Feeder)
			own := slices.ContainsFunc(l.LanesOf(name), func(k int) bool { return l.is(k, Gathers) || l.is(k, Envelopes) })
			if !ok || name == forAll || own {
				continue
			}
			if only[name] == "" {
				only[name] = rapid.SampledFrom(l.Attributes).Draw(t, "attribute of a stream").Name
			}
			f.Only = only[name]
		}
	}
	for _, d := range stationsOf[*Device](l) {
		if rapid.Bool().Draw(t, "device only") {
			d.Only = rapid.SampledFrom(l.Attributes).Draw(t, "attribute of a device").Name
		}
	}
}
