package study

import (
	"reflect"
	"slices"

	"netrate/model"
	"netrate/model/runs"
)

// Layout is where the stations of a line stand, along the track, and what each costs. Of a line
// that is set against another, stations that the other has and it has not are among them.
type Layout struct {
	Stations []LayoutStation
}

// LayoutStation is one of them.
type LayoutStation struct {
	model.Kind
	Name   string
	At     int     // pitches
	Rated  float64 // cycles an hour; 0 for none
	Lost   float64 // envelopes an hour for which it is the reason
	Change LayoutChange
	Before int // pitches, of one that was moved

	Otherwise bool // it was moved, and something else of it was changed
}

// LayoutChange is what a line has done with a station of another.
type LayoutChange int

// The changes.
const (
	LayoutKept    LayoutChange = iota
	LayoutAltered              // something else of it
	LayoutMoved
	LayoutAdded
	LayoutTakenAway
)

// LayoutOf returns the layout of a line with what each station costs on paper: the time of stops
// for its faults, at the speed of the line, and the sets that are lost to it. Stocks that are used
// up and waiting for a busy operator are not in that sum.
func LayoutOf(l *model.Line) Layout {
	h := l.Analytic()
	a := layout(l)
	for i, t := range h.Terms {
		stood := t.Reach * t.Stops * float64(t.Down) * h.Speed / 3600 // cycles for each one that is run
		starved := float64(t.Starved+t.Broken) * h.Speed / 3600
		a.Stations[i].Lost = h.Speed * h.Efficiency * (stood + starved + float64(t.Reach*(t.Lost+t.Flawed)))
	}
	return a
}

// SimulatedLayout returns the layout of a line with what each station costs in its replications:
// the time of all its stops, at the speed of the line, and the sets that are lost to it.
func SimulatedLayout(s *runs.Study) Layout {
	a := layout(s.Line)
	hours, speed := float64(s.Total.Time.Shift)/3600, s.Line.RunSpeed()
	for i := range s.Total.Stations {
		o := &s.Total.Stations[i]
		cycles, sets := 0.0, 0.0
		for _, t := range o.Stops {
			cycles += float64(t.Total()) * speed / 3600
		}
		for _, n := range o.Lost {
			sets += float64(n)
		}
		a.Stations[i].Lost = (cycles + sets) / hours
	}
	return a
}

func layout(l *model.Line) Layout {
	var a Layout
	for _, s := range l.Stations {
		p := s.Where()
		a.Stations = append(a.Stations, LayoutStation{Kind: s.Kind(), Name: p.Name, At: p.At, Rated: p.Rated})
	}
	return a
}

// LayoutAgainst returns the layout of a line and how it differs from that of a base; stations are
// the same by their names. What they cost is not in it.
func LayoutAgainst(l, base *model.Line) Layout {
	a := layout(l)
	for i, s := range l.Stations {
		x := &a.Stations[i]
		k := slices.IndexFunc(base.Stations, func(b model.Station) bool { return b.Where().Name == x.Name })
		switch {
		case k < 0:
			x.Change = LayoutAdded
		case base.Stations[k].Where().At != x.At:
			x.Change, x.Before = LayoutMoved, base.Stations[k].Where().At
			there := base.Stations[k].Clone()
			there.Where().At = x.At
			x.Otherwise = !reflect.DeepEqual(there, s)
		case !reflect.DeepEqual(base.Stations[k], s):
			x.Change = LayoutAltered
		}
	}
	for _, s := range layout(base).Stations {
		if !slices.ContainsFunc(a.Stations, func(x LayoutStation) bool { return x.Name == s.Name }) {
			s.Change = LayoutTakenAway
			a.Stations = append(a.Stations, s)
		}
	}
	slices.SortStableFunc(a.Stations, func(x, y LayoutStation) int { return x.At - y.At })
	return a
}

// Differs reports whether the layout differs in any station.
func (a Layout) Differs() bool {
	return slices.ContainsFunc(a.Stations, func(x LayoutStation) bool { return x.Change != LayoutKept })
}
