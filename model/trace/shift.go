package trace

import (
	"cmp"
	"slices"

	"netrate/model"
	"netrate/sim"
)

// Shift is one shift of a line, or one pass of its job.
type Shift struct {
	Line        *model.Line
	Seed        uint64
	Replication int         // from 0
	Pass        int         // of a job, from 1; 0 of a shift
	Begins      sim.Seconds // of a pass: from the start of the first one
	Outcome     model.Outcome
	Runs        []Run     // stretches in which the line ran, in order
	Stood       []Stretch // stretches in which it stood, in order
	Stops       []Stop    // reasons to stand, in the order in which they arose
	Faults      []Fault   // in the order in which they were known
	Sets        []Set     // all with which anything happened, by number
	Tasks       []Task    // of the crew, in the order of the calls
	Breaks      []Run     // stretches in which it stood for a break
	Present     []Present // how many operators there are, of a crew that changes
	Levels      []Level   // of the stocks, in order of time
}

// Run is a stretch in which the line ran.
type Run struct {
	From, To sim.Seconds
	Cycle    sim.Cycles  // completed before it
	Each     sim.Seconds // how long a cycle takes in it; 0 where no cycles are run
}

// Stretch is a stretch in which the line stood, all of it for one stop and in one phase.
type Stretch struct {
	From, To sim.Seconds
	Station  int
	Cause    model.Cause
	Phase    model.Phase
}

// Present is how many operators are to be there from a moment on: of fewer than before, those at
// work finish first.
type Present struct {
	At        sim.Seconds
	Operators int
}

// Level is what was left in a stock.
type Level struct {
	Station int
	At      sim.Seconds
	Cycle   sim.Cycles
	Left    int64 // pieces or places
	Filled  int64 // of these, put in since the level before
}

// Lasts returns how long the shift, or the pass, is.
func (s *Shift) Lasts() sim.Seconds { return s.Outcome.Time.Shift }

// Moment returns when a cycle was completed, by the engine's own formula; 0 for cycle 0.
func (s *Shift) Moment(cycle sim.Cycles) sim.Seconds {
	i, _ := slices.BinarySearchFunc(s.Runs, cycle, func(r Run, c sim.Cycles) int { return cmp.Compare(r.Cycle, c) })
	if i == 0 { // the last run that begins before the cycle
		return 0
	}
	r := s.Runs[i-1]
	return r.From + sim.Seconds(sim.Seconds(cycle-r.Cycle)*r.Each)
}

// cycle returns how long a cycle takes at the speed of the line.
func (s *Shift) cycle() sim.Seconds { return sim.Seconds(3600 / s.Line.RunSpeed()) }

// Name returns the name of a station.
func (s *Shift) Name(station int) string { return s.Line.Stations[station].Where().Name }

// Cause returns what a cause is called at a station.
func (s *Shift) Cause(station int, c model.Cause) string { return c.Name(s.Line.Stations[station]) }

// pitch returns how many cycles after the first station a set comes to a station.
func (s *Shift) pitch(station int) sim.Cycles {
	return sim.Cycles(s.Line.Stations[station].Where().At - s.Line.Stations[0].Where().At)
}

// Technicians returns how many were at work together, at most.
func (s *Shift) Technicians() int {
	most := 0
	for i := range s.Tasks {
		if x := &s.Tasks[i]; x.Taken && x.Work == model.Repair {
			most = max(most, x.Operator+1)
		}
	}
	return most
}

// Completed returns how many cycles were completed by a moment.
func (s *Shift) Completed(at sim.Seconds) sim.Cycles {
	done := sim.Cycles(0)
	for _, r := range s.Runs {
		if r.From > at {
			break
		}
		done = r.Cycle + sim.Cycles((min(at, r.To)-r.From)/r.Each)
		for r.From+sim.Seconds(sim.Seconds(done-r.Cycle)*r.Each) > min(at, r.To) {
			done--
		}
		for r.From+sim.Seconds(sim.Seconds(done+1-r.Cycle)*r.Each) <= min(at, r.To) {
			done++
		}
	}
	return done
}

// Good returns how many good sets were delivered by a moment.
func (s *Shift) Good(at sim.Seconds) int64 {
	last := s.Completed(at) - s.pitch(len(s.Line.Stations)-1) // the set delivered last
	good := int64(max(0, last))
	for i := range s.Sets {
		if x := &s.Sets[i]; !x.Good && x.Number <= last {
			good--
		}
	}
	return good
}

// Delivered returns the cycle in which a set that is not taken off comes to the delivery.
func (s *Shift) Delivered(set sim.Cycles) sim.Cycles { return set + s.pitch(len(s.Line.Stations)-1) }
