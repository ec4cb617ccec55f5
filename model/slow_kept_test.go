package model

import "netrate/sim"

// slowLeft is what is left at each station at the end of a pass.
type slowLeft struct {
	pieces []int64
	lots   []*slowLot
}

// leaves returns what is left now.
func (m *slowModel) leaves() *slowLeft {
	x := &slowLeft{lots: m.lots()}
	for _, u := range m.units {
		x.pieces = append(x.pieces, u.left)
	}
	return x
}

// slowStays reports whether what is in the hopper of a station may stay there for the next pass.
func (m *slowModel) slowStays(i int) bool {
	return m.line.Begins.Kept && m.units[i].hopper && m.units[i].lane == nil && !slowIsChannel(m.line.Stations[i])
}

// goesOnWith has the hoppers hold what was left in them at the stations of another line that are named
// for each station, or none, -1.
func (m *slowModel) goesOnWith(before *slowLeft, of []int) {
	for i, from := range of {
		if from < 0 || !m.slowStays(i) {
			continue
		}
		if left := before.pieces[from]; left > 0 {
			m.holds(i, left)
		}
	}
}

// slowSame names every station to itself.
func slowSame(l *Line) (of []int) {
	for i := range l.Stations {
		of = append(of, i)
	}
	return of
}

// slowJob is one job: pass after pass. It may take over from another.
type slowJob struct {
	line   *Line
	random slowRandom
	watch  func(*slowSet)
	before *slowLeft // what is left; nil at the start of a job that takes nothing over
	of     []int     // from which station each takes over, -1 for none
	arose  []sim.Seconds
	busy   sim.Seconds // until when the bench is at the remakes of jobs before
}

// pass returns what a pass of a number of sets comes to.
func (j *slowJob) pass(sets int64) Outcome {
	m := newSlow(j.line, j.random, sets)
	m.watch = j.watch
	var lots []*slowLot
	if j.before != nil {
		for _, from := range j.of {
			if from < 0 {
				lots = append(lots, nil)
			} else {
				lots = append(lots, j.before.lots[from])
			}
		}
	}
	m.openLots(lots)
	if j.before != nil {
		m.goesOnWith(j.before, j.of)
	}
	out := m.run()
	j.before, j.of, j.arose = m.leaves(), slowSame(j.line), m.arose
	return out
}
