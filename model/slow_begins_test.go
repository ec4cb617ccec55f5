package model

import (
	"math"
	"reflect"
	"slices"
)

// slowShift returns the outcome of a shift, begun as the line says.
func slowShift(l *Line, random slowRandom, watch func(*slowSet)) Outcome {
	b := l.Begins
	m := newSlow(l, random, 0)
	m.watch = watch
	m.openLots(nil)
	if b.Before == 0 {
		return m.run()
	}
	m.limit = b.Before
	m.works()
	if !b.Track {
		next := newSlow(l, random, 0)
		next.watch = watch
		next.openLots(nil)
		for i := range next.units {
			if left := m.units[i].left; left > 0 {
				next.holds(i, left)
			}
		}
		return next.run()
	}
	m.handsOver()
	m.limit = b.Before + l.Shift
	m.works()
	m.close()
	return m.out
}

// atLevel gives every hopper the share of its capacity that the line says.
func (m *slowModel) atLevel() {
	share := m.line.Begins.Level
	for i, u := range m.units {
		if share > 0 && u.hopper {
			m.holds(i, max(1, int64(math.Round(share*float64(u.stock.Capacity)))))
		}
	}
}

// holds makes station i one whose stock begins with so much.
func (m *slowModel) holds(i int, left int64) {
	u := &m.units[i]
	if u.hopper {
		m.out.Stations[i].Pieces.Loaded = left
	}
	if u.lane != nil && !u.lane.documents {
		u.lane.hopper, u.lane.printed = nil, u.lane.after(0)
		m.load(i, left)
		return
	}
	u.left = left
}

// handsOver lets the shift begin that is counted, with all as it stands.
func (m *slowModel) handsOver() {
	m.out.LongestRun = 0
	before := m.out
	before.Time.Shift = m.now
	before.Stations = slices.Clone(m.out.Stations)
	for i, u := range m.units {
		if u.hopper {
			before.Stations[i].Pieces.Loaded -= u.left
		}
	}
	for _, set := range m.track {
		if set == nil || set.gone() {
			continue
		}
		before.Sets.Started--
		for i := range m.units {
			before.Stations[i].Pieces.Loaded -= set.pieces[i] + int64(len(set.held[i]))
		}
	}
	m.before = &before
	m.peopleHandOver()
}

// peopleHandOver lets the crew be there as at the start of a shift: a break under way is over.
func (m *slowModel) peopleHandOver() {
	p := m.people
	if p.rest != nil {
		p.breakEnds()
	}
	p.plan.Later, p.plan.Breaks, p.breaks = slices.Clone(p.plan.Later), slices.Clone(p.plan.Breaks), 0
	for i := range p.plan.Later {
		p.plan.Later[i].After += m.now
	}
	for i := range p.plan.Breaks {
		p.plan.Breaks[i].After += m.now
	}
	m.stageBegins(0)
	m.present()
	m.restartEnds()
	m.looksForDocument()
	m.crewChooses()
}

// sinceHandover takes off what came before the shift.
func (m *slowModel) sinceHandover() {
	if m.before != nil {
		slowSubtract(reflect.ValueOf(&m.out).Elem(), reflect.ValueOf(*m.before))
	}
}

// slowSubtract takes every number of b from that of a.
func slowSubtract(a, b reflect.Value) {
	switch a.Kind() {
	case reflect.Struct:
		for i := range a.NumField() {
			slowSubtract(a.Field(i), b.Field(i))
		}
	case reflect.Slice, reflect.Array:
		for i := range a.Len() {
			slowSubtract(a.Index(i), b.Index(i))
		}
	case reflect.Int64:
		a.SetInt(a.Int() - b.Int())
	case reflect.Float64:
		a.SetFloat(a.Float() - b.Float())
	default: // a name
	}
}
