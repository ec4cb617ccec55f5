package model

import (
	"fmt"
	"math"
)

// chance reports true with probability p.
func (m *slowModel) chance(p float64) bool { return m.dice.Float64() < p }

// slowStock returns a station as it is at the start of a shift: its hopper full, its
// bin or belt empty.
func slowStock(s Station) slowUnit {
	switch s := s.(type) {
	case *Feeder:
		return slowUnit{stock: s.Hopper, left: s.Hopper.Capacity, hopper: true, share: s.Share}
	case *Inserter:
		return slowUnit{stock: s.Hopper, left: s.Hopper.Capacity, hopper: true, share: 1}
	case *TrackGate:
		return slowUnit{stock: s.Bin, left: s.Bin.Capacity, share: 1}
	case *ExitGate:
		return slowUnit{stock: s.Bin, left: s.Bin.Capacity, share: 1}
	case *Delivery:
		return slowUnit{stock: s.Belt, left: s.Belt.Capacity, share: 1}
	}
	panic(fmt.Sprintf("slow model: a station of type %T", s))
}

// handle lets station i do its work on the pocket in front of it. An empty pocket is
// nobody's work.
func (m *slowModel) handle(i int, s Station, pocket **slowSet) {
	if *pocket == nil {
		return
	}
	switch s := s.(type) {
	case *Feeder:
		m.feeder(i, s, pocket)
	case *Inserter:
		m.inserter(i, s, pocket)
	case *TrackGate:
		if (*pocket).divert {
			m.remove(i, pocket, &m.out.Sets.Diverted, func(p *Pieces) *int64 { return &p.Diverted })
		}
	case *ExitGate:
		if (*pocket).outsort {
			m.remove(i, pocket, &m.out.Sets.Outsorted, func(p *Pieces) *int64 { return &p.Outsorted })
		}
	case *Delivery:
		m.deliver(i, pocket)
	}
}

// feeder tries to feed a set, unless it is condemned or not to have this insert.
func (m *slowModel) feeder(i int, f *Feeder, pocket **slowSet) {
	set, unit, o := *pocket, &m.units[i], &m.out.Stations[i]
	if set.condemned() || !m.chance(f.Share) {
		return
	}
	o.Attempts++
	factor := slowGrowth(m.speed, f.Rated, f.Growth) * f.Material
	misfeed, double, jam := f.Misfeed*factor, f.Double*factor, f.Jam*factor
	if f.Streak.Given && unit.row > 0 {
		misfeed = f.Streak.Again
	}
	draw := m.dice.Float64()
	if draw < misfeed {
		m.misfeed(i, f, set)
		return
	}
	unit.row = 0
	switch {
	case draw < misfeed+double && unit.left == 1:
		m.take(i, set, 1) // the last piece cannot come with a second
	case draw < misfeed+double:
		m.double(i, f, set)
	case draw < misfeed+double+jam:
		o.Faults[Jam]++
		m.take(i, set, 1)
		m.spoil(pocket)
		m.faultStop(i, CauseJam, f.Clear)
	case m.chance(f.FalseCalls):
		o.FalseCalls++
		m.calledDouble(i, f, set, 1)
	default:
		m.take(i, set, 1)
	}
}

// misfeed is a feed that brought nothing.
func (m *slowModel) misfeed(i int, f *Feeder, set *slowSet) {
	unit := &m.units[i]
	m.out.Stations[i].Faults[Misfeed]++
	unit.row++
	switch {
	case f.Streak.StopAfter > 0 && unit.row == f.Streak.StopAfter:
		m.take(i, set, 1)
		m.faultStop(i, CauseStreak, f.Clear)
	case f.OnMisfeed == Stop:
		m.take(i, set, 1)
		m.faultStop(i, CauseMisfeed, f.Clear)
	case f.OnMisfeed == Ship:
		set.defective = true
	default:
		set.condemn(f.OnMisfeed)
	}
}

// double is a feed that brought two pieces, noticed or not.
func (m *slowModel) double(i int, f *Feeder, set *slowSet) {
	o := &m.out.Stations[i]
	o.Faults[Double]++
	if m.chance(f.Caught) {
		m.calledDouble(i, f, set, 2)
		return
	}
	o.Missed++
	m.take(i, set, 2)
	set.defective = true
}

// calledDouble is a feed of one or two pieces that the feeder takes for a double.
func (m *slowModel) calledDouble(i int, f *Feeder, set *slowSet, fed int64) {
	switch f.OnDouble {
	case Stop:
		m.take(i, set, 1) // put right: of two, one goes back
		m.faultStop(i, CauseDouble, f.Clear)
	case Ship:
		m.take(i, set, fed)
		set.defective = set.defective || fed == 2
	default:
		m.take(i, set, fed)
		set.condemn(f.OnDouble)
	}
}

// inserter puts a set into an envelope. One that is to leave at a track gate is not
// its work.
func (m *slowModel) inserter(i int, in *Inserter, pocket **slowSet) {
	set, o := *pocket, &m.out.Stations[i]
	if set.divert {
		return
	}
	o.Attempts++
	m.take(i, set, 1) // in each of the outcomes, by the machine or by hand
	factor := slowGrowth(m.speed, in.Rated, in.Growth)
	misfeed, flap, jam := in.EnvelopeMisfeed*factor, in.Flap*factor, in.Jam*factor
	draw := m.dice.Float64()
	switch {
	case draw < misfeed:
		o.Faults[EnvelopeMisfeed]++
		m.faultStop(i, CauseEnvelopeMisfeed, in.Clear)
	case draw < misfeed+flap:
		o.Faults[Flap]++
		if in.OnFlap == Stop {
			m.faultStop(i, CauseFlap, in.Clear)
		} else {
			set.condemn(in.OnFlap)
		}
	case draw < misfeed+flap+jam:
		o.Faults[InsertionJam]++
		m.spoil(pocket)
		m.faultStop(i, CauseInsertionJam, in.Clear)
	}
}

// deliver puts whatever arrives onto the belt.
func (m *slowModel) deliver(i int, pocket **slowSet) {
	switch set := *pocket; {
	case set.condemned():
		panic("slow model: a condemned set came to the delivery")
	case set.defective:
		m.remove(i, pocket, &m.out.Sets.Defective, func(p *Pieces) *int64 { return &p.Defective })
	default:
		m.remove(i, pocket, &m.out.Sets.Good, func(p *Pieces) *int64 { return &p.Good })
	}
}

// slowGrowth returns what the speed multiplies fault probabilities by.
func slowGrowth(speed, rated, growth float64) float64 {
	if rated == 0 {
		return 1 // without a rated speed there is nothing to compare with
	}
	return math.Pow(speed/rated, growth)
}

// condemn marks a set for the gate of the response.
func (s *slowSet) condemn(r Response) {
	switch r {
	case Divert:
		s.divert = true
	case Outsort:
		s.outsort = true
	case Stop, Ship:
		panic(fmt.Sprintf("slow model: a set is condemned by the response %v", r))
	}
}

// take moves pieces from the hopper of station i into a set.
func (m *slowModel) take(i int, set *slowSet, pieces int64) {
	m.units[i].left -= pieces
	set.pieces[i] += pieces
	if m.units[i].left < 0 {
		panic(fmt.Sprintf("slow model: station %d took a piece from an empty hopper", i))
	}
}

// spoil destroys a set.
func (m *slowModel) spoil(pocket **slowSet) {
	m.leave(pocket, &m.out.Sets.Spoiled, func(p *Pieces) *int64 { return &p.Spoiled })
}

// remove takes a set out at station i, where it needs a place in the bin or on the belt.
func (m *slowModel) remove(i int, pocket **slowSet, sets *int64, pieces func(*Pieces) *int64) {
	m.out.Stations[i].Removed++
	if m.units[i].stock.Capacity > 0 {
		m.units[i].left--
	}
	m.leave(pocket, sets, pieces)
}

// leave empties a pocket and counts its set and its pieces as what became of them.
func (m *slowModel) leave(pocket **slowSet, sets *int64, pieces func(*Pieces) *int64) {
	*sets++
	for i, n := range (*pocket).pieces {
		*pieces(&m.out.Stations[i].Pieces) += n
	}
	*pocket = nil
}
