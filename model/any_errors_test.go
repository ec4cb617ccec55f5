package model

import (
	"slices"

	"pgregory.net/rapid"
)

// anyErringLine is any line on which people and readers err.
func anyErringLine(t *rapid.T) *Line {
	l := anyLine(t)
	moreChannels(t, l)
	erring(t, l)
	return l
}

// moreChannels makes document channels of some lanes of a line that has one, or of none.
func moreChannels(t *rapid.T, l *Line) {
	gate := slices.IndexFunc(l.Stations, isTrackGate)
	for i, s := range l.Stations {
		f, ok := s.(*Feeder)
		if !ok || f.Stream.Name == "" || f.Envelopes || f.Only != "" || gate >= 0 && i > gate || l.Job.Sets > 0 {
			continue
		}
		if rapid.IntRange(0, 1).Draw(t, "one more channel") == 0 {
			h := anyChannel(t, f.Place)
			h.Stream, h.OnMisfeed, h.OnDouble = f.Stream, Stop, Stop
			if f.OnMisfeed != Ship {
				h.OnMisfeed = f.OnMisfeed
			}
			l.Stations[i] = h
		}
	}
}

// erring has people and readers err, often.
func erring(t *rapid.T, l *Line) {
	chance := func(name string) float64 {
		return rapid.SampledFrom([]float64{0, 0.01, 0.2, 0.6, 1}).Draw(t, name)
	}
	l.Crew.WrongRepair, l.Crew.WrongRealign = chance("wrong repair"), chance("wrong realigning")
	for _, r := range stationsOf[*Reader](l) {
		r.Misread = chance("misread")
	}
	for i, s := range l.Stations {
		x := loadingOf(s)
		if x == nil || StreamOf(s).Name != "" || x.hopper.Capacity == 0 {
			continue
		}
		x.Chance = chance("wrong stock")
		if x.Chance == 0 {
			continue
		}
		if rapid.Bool().Draw(t, "found after") {
			x.FoundAfter = anyDuration(t, "found after")
		}
		var names []string
		for _, s := range l.Stations[i:] {
			if r, ok := s.(*Reader); ok {
				names = append(names, r.Name)
			}
		}
		if slices.Sort(names); len(names) > 0 {
			x.FoundBy = rapid.SampledFrom(names).Draw(t, "found by")
		}
	}
}
