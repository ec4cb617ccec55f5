package model

import (
	"math"

	"netrate/sim"
)

// slowLot is the lot that is open at a station.
type slowLot struct {
	factor float64
	left   int64 // pieces of it that have yet to leave the hopper
	used   int64 // pieces that had left the hopper when that was counted
}

// slowLots returns the lots that the pieces of a station come in.
func slowLots(s Station) Lots {
	switch s := s.(type) {
	case *Feeder:
		return s.Lots
	case *Inserter:
		return s.Lots
	case *Channel:
		return s.Lots
	}
	return Lots{}
}

// openLots opens a lot at each station that has them, somewhere in it, or goes on with those
// of the pass before.
func (m *slowModel) openLots(before []*slowLot) {
	for i, s := range m.line.Stations {
		lots := slowLots(s)
		switch {
		case lots.Of == 0:
		case before != nil && before[i] != nil:
			m.units[i].lot = &slowLot{factor: before[i].factor, left: before[i].left}
		default:
			m.units[i].lot = &slowLot{factor: m.lotFactor(lots), left: 1 + m.dice.Int64N(int64(math.Round(lots.Of)))}
		}
	}
}

// lots returns the open lots, by station.
func (m *slowModel) lots() (open []*slowLot) {
	for _, u := range m.units {
		open = append(open, u.lot)
	}
	return open
}

// lotFactor draws the factor of a lot.
func (m *slowModel) lotFactor(lots Lots) float64 {
	switch {
	case lots.CV > 0:
		d, err := sim.NewGamma(1, lots.CV)
		if err != nil {
			panic(err)
		}
		return float64(d.Draw(m.times))
	case lots.Bad > 0:
		good := 1 / (1 - lots.Bad + lots.Bad*lots.Times)
		if m.chance(lots.Bad) {
			return good * lots.Times
		}
		return good
	}
	sum := 0.0
	for _, x := range lots.Factors {
		sum += x
	}
	return lots.Factors[m.dice.IntN(len(lots.Factors))] * float64(len(lots.Factors)) / sum
}

// countLot opens the next lot of a station if the pieces that have left its hopper by now end
// the one that is open.
func (m *slowModel) countLot(i int) {
	lot := m.units[i].lot
	if lot == nil || slowIsChannel(m.line.Stations[i]) {
		return
	}
	used := m.out.Stations[i].Pieces.Loaded - m.units[i].left
	m.passLot(i, used-lot.used)
	lot.used = used
}

// passLot takes pieces out of the open lot, and opens the next one where it is over.
func (m *slowModel) passLot(i int, pieces int64) {
	lots, lot := slowLots(m.line.Stations[i]), m.units[i].lot
	if lot == nil {
		return
	}
	for lot.left -= pieces; lot.left <= 0; lot.left += int64(math.Round(lots.Of)) {
		lot.factor = m.lotFactor(lots)
	}
}

func slowIsChannel(s Station) bool { _, is := s.(*Channel); return is }

// dayFactor returns the factor of the day, and of what it has drifted by, in a cycle.
func (m *slowModel) dayFactor(cycle int64) float64 {
	days := m.line.Days
	day := 0
	if days.Hours > 0 {
		length := max(1, int64(math.Round(days.Hours*m.speed)))
		day = int((cycle - 1) / length)
		cycle = (cycle-1)%length + 1
	}
	for len(m.days) <= day {
		f := 1.0
		if days.CV > 0 {
			d, err := sim.NewGamma(1, days.CV)
			if err != nil {
				panic(err)
			}
			f = float64(d.Draw(m.times))
		}
		m.days = append(m.days, f)
	}
	factor := m.days[day]
	drift := 1.0
	for _, step := range days.Drift {
		if cycle > int64(math.Round(step.From*m.speed)) {
			drift = step.Times
		}
	}
	return factor * drift
}

// factor returns what lot, day and drift multiply three probabilities by, whose sum is p and of
// which part has to leave room for again.
func (m *slowModel) factor(i int, cycle int64, p, part, again float64) float64 {
	f := m.dayFactor(cycle)
	if lot := m.units[i].lot; lot != nil {
		f *= lot.factor
	}
	if p > 0 {
		f = min(f, max(1, 0.9/p))
	}
	if part > 0 && again > 0 {
		f = min(f, max(1, (1-again)/part))
	}
	return f
}
