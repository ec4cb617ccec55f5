package trace

import (
	"errors"
	"slices"

	"netrate/model"
	"netrate/sim"
)

// errAsLeft is why a shift is not traced that goes on from another: what is on the track then was
// not heard of.
var errAsLeft = errors.New("a shift that begins with sets on the track and stops open is not traced: set work.begins.track=empty")

// Of runs a replication of a line and returns all of it. The line must work for a shift.
func Of(l *model.Line, seed uint64, replication int) (*Shift, error) {
	if l.Job.Sets > 0 {
		return nil, errors.New("trace: the line works for a job, not for a shift")
	}
	if l.Begins.Track {
		return nil, errAsLeft
	}
	s, err := model.New(l)
	if err != nil {
		return nil, err
	}
	h := newHearing(&Shift{Line: l, Seed: seed, Replication: replication}, &hands{})
	s.Observe(h.hear)
	if err := s.Run(seed, replication, &h.shift.Outcome); err != nil {
		return nil, err
	}
	h.close()
	return h.shift, nil
}

// Job is one job of a line, whole.
type Job struct {
	Passes  []*Shift // in order, one at least
	Outcome model.Outcome
}

// OfJob runs a replication of a line that works for a job and returns all of it.
func OfJob(l *model.Line, seed uint64, replication int) (*Job, error) {
	if l.Job.Sets == 0 {
		return nil, errors.New("trace: the line works for a shift, not for a job")
	}
	s, err := model.New(l)
	if err != nil {
		return nil, err
	}
	j := &Job{}
	var h *hearing
	begins := sim.Seconds(0)
	s.Observe(func(e model.Event) {
		if e.Kind == model.PassBegins {
			begins += e.Until
			h = newHearing(&Shift{Line: l, Seed: seed, Replication: replication, Pass: len(j.Passes) + 1, Begins: begins}, &hands{})
		}
		h.hear(e)
		if e.Kind == model.PassEnds {
			h.shift.Outcome = *s.Ended()
			h.shift.Outcome.Stations = slices.Clone(h.shift.Outcome.Stations)
			h.close()
			j.Passes = append(j.Passes, h.shift)
			begins += h.shift.Lasts()
		}
	})
	return j, s.Run(seed, replication, &j.Outcome)
}

// OfGroup runs a replication of several lines that share a crew and returns all of it, line by line.
// Operators have the same numbers on all of them.
func OfGroup(g *model.LineGroup, seed uint64, replication int) ([]*Shift, error) {
	if len(g.Lines) > 0 && g.Lines[0].Begins.Track {
		return nil, errAsLeft
	}
	s, err := model.NewLineGroup(g)
	if err != nil {
		return nil, err
	}
	all := make([]*hearing, len(g.Lines))
	at := &hands{}
	for i, l := range g.Lines {
		all[i] = newHearing(&Shift{Line: l.AttendedBy(g.Crew), Seed: seed, Replication: replication}, at)
		s.Observe(i, all[i].hear)
	}
	outs := make([]model.Outcome, len(g.Lines))
	if err := s.Run(seed, replication, outs); err != nil {
		return nil, err
	}
	shifts := make([]*Shift, len(g.Lines))
	for i, h := range all {
		h.shift.Outcome = outs[i]
		h.close()
		shifts[i] = h.shift
	}
	return shifts, nil
}
