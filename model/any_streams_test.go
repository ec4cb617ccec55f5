package model

import (
	"fmt"
	"slices"

	"pgregory.net/rapid"

	"netrate/sim"
)

// personalise gives a line lanes, a document channel, personalised envelopes and readers,
// some of these or none.
func personalise(t *rapid.T, l *Line) {
	gate := slices.IndexFunc(l.Stations, isTrackGate)
	if rapid.IntRange(0, 3).Draw(t, "channel") == 0 {
		l.Stations[0] = anyChannel(t, *l.Stations[0].Where())
	}
	for i, s := range l.Stations {
		f, ok := s.(*Feeder)
		if !ok || rapid.IntRange(0, 2).Draw(t, "plain") == 0 {
			continue
		}
		envelopes := l.envelopeFeeder() < 0 && rapid.IntRange(0, 3).Draw(t, "envelopes") == 0
		if gate >= 0 && i > gate && !envelopes {
			continue
		}
		f.Share, f.Envelopes, f.Stream = 1, envelopes, anyStream(t, f.Name)
	}
	if l.envelopeFeeder() >= 0 {
		in := firstOf[*Inserter](l)
		in.Hopper, in.EnvelopeMisfeed = Stock{}, 0
	}
	halve(t, l)
	if l.Personalised() {
		for range rapid.IntRange(0, 3).Draw(t, "readers") {
			anyReader(t, l)
		}
	}
}

func anyStream(t *rapid.T, name string) Stream {
	s := Stream{Name: name, Tries: rapid.IntRange(1, 3).Draw(t, "tries")}
	if rapid.Bool().Draw(t, "realign") {
		s.Realign = anyDuration(t, "realigning")
	}
	return s
}

// halve makes one stream of the first two lanes, or not.
func halve(t *rapid.T, l *Line) {
	var lanes []*Stream
	for _, s := range l.Stations {
		switch s := s.(type) {
		case *Feeder:
			lanes = append(lanes, &s.Stream)
		case *Channel:
			lanes = append(lanes, &s.Stream)
		}
	}
	lanes = slices.DeleteFunc(lanes, func(s *Stream) bool { return s.Name == "" })
	if len(lanes) >= 2 && rapid.IntRange(0, 3).Draw(t, "halves") == 0 {
		lanes[1].Name = lanes[0].Name
		lanes[0].Half, lanes[1].Half = true, true
	}
}

func anyChannel(t *rapid.T, p Place) *Channel {
	p.Rated = 0
	h := &Channel{
		Unwatched: true,
		Place:     p, Sheets: rapid.Float64Range(2000, 80_000).Draw(t, "sheets"),
		Pages: sim.Always(rapid.IntRange(1, 4).Draw(t, "pages")), Buffer: rapid.IntRange(1, 5).Draw(t, "buffer"),
		Misfeed: anyRate(t), Double: anyRate(t), Jam: anyRate(t), FalseCalls: anyRate(t),
		Noticed: anySight(t), Caught: anySight(t),
		Stream: anyStream(t, "documents"), Clear: anyDuration(t, "clear"), Hopper: anyStock(t, 0),
	}
	if rapid.Bool().Draw(t, "pages vary") {
		h.Pages = geometricPages(rapid.Float64Range(1.1, 5).Draw(t, "mean pages"))
	}
	return h
}

// anySight returns the share of faults that are seen.
func anySight(t *rapid.T) float64 {
	return rapid.SampledFrom([]float64{0, 0.5, 0.9, 1}).Draw(t, "seen")
}

// anyReader puts a reader somewhere after the lanes that it reads.
func anyReader(t *rapid.T, l *Line) {
	streams := l.Streams()
	r := &Reader{
		Place: Place{Name: fmt.Sprint("reader ", len(l.Stations))},
		Reads: rapid.SampledFrom(streams).Draw(t, "reads"), Presence: true,
		NoRead: anyRate(t), FalseAlarm: anyRate(t), Clear: anyDuration(t, "clear"),
	}
	lanes := l.LanesOf(r.Reads)
	r.Sequence = l.Matched(lanes[0]) && rapid.Bool().Draw(t, "sequence")
	if other := rapid.SampledFrom(streams).Draw(t, "match"); other != r.Reads {
		r.Match = other
		lanes = append(lanes, l.LanesOf(other)...)
	}
	at := rapid.IntRange(slices.Max(lanes)+1, len(l.Stations)-1).Draw(t, "reader at")
	r.At = l.Stations[at-1].Where().At
	if rapid.Bool().Draw(t, "further on") && r.At+1 < l.Stations[at].Where().At {
		r.At++
	}
	l.Stations = slices.Insert(l.Stations, at, Station(r))
}

// anyJob makes the work of a line a job. So that it comes to an end, faults are not too
// frequent where remakes are run again.
func anyJob(t *rapid.T, l *Line) {
	l.Shift = 0
	l.Job = Job{
		Sets:    rapid.Int64Range(1, 300).Draw(t, "sets"),
		Closing: Closing(rapid.IntRange(int(Open), int(Beside)).Draw(t, "closing")),
		Setup:   anyDuration(t, "setup"), PerHour: rapid.Float64Range(1, 100).Draw(t, "by hand"),
	}
	if !l.Personalised() {
		l.Job.Closing = Open
	}
	if !l.Job.Closing.Manual() {
		l.Job.PerHour = 0
	}
	if l.Job.Closing != SecondPass {
		return
	}
	for _, v := range l.Parameters() {
		if v.rate != nil {
			*v.rate = min(*v.rate, 0.01)
		}
	}
}

// allSeen has feeders and channels see all their faults and ship none.
func allSeen(l *Line) {
	seen := func(noticed, caught *float64, responses ...*Response) {
		*noticed, *caught = 1, 1
		for _, r := range responses {
			if *r == Ship {
				*r = Stop
			}
		}
	}
	for _, f := range stationsOf[*Feeder](l) {
		seen(&f.Noticed, &f.Caught, &f.OnMisfeed, &f.OnDouble)
	}
	for _, h := range stationsOf[*Channel](l) {
		seen(&h.Noticed, &h.Caught, &h.OnMisfeed, &h.OnDouble)
	}
}
