package model

import (
	"errors"
	"fmt"
	"slices"

	"netrate/sim"
)

// LineGroup is several lines that one crew attends to, through one shift. The crews of the
// lines themselves do not count. The rules are in the package comment, under Lines with one crew.
type LineGroup struct {
	Lines []*Line
	Crew  Crew
}

// Check returns everything that is wrong with the line group; the problems of a line are its own.
func (h *LineGroup) Check() []error {
	var found []error
	if len(h.Lines) == 0 {
		found = append(found, errors.New("the line group has no line"))
	}
	names := map[string]bool{}
	for _, l := range h.Lines {
		for _, err := range l.AttendedBy(h.Crew).CheckAmong(h.Lines) {
			found = append(found, fmt.Errorf("%s: %w", l.Name, err))
		}
		switch {
		case l.Name == "" || names[l.Name]:
			found = append(found, fmt.Errorf("a line is named %q: each wants a name of its own", l.Name))
		case l.Job.Sets > 0:
			found = append(found, fmt.Errorf("%s works for a job: lines that share a crew work for a shift", l.Name))
		case l.Shift != h.Lines[0].Shift:
			found = append(found, fmt.Errorf("%s has a shift of %v s, want that of %s, %v s", l.Name, float64(l.Shift), h.Lines[0].Name, float64(h.Lines[0].Shift)))
		}
		if l.Begins != h.Lines[0].Begins {
			found = append(found, fmt.Errorf("%s begins its shift in another way than %s: lines that share a crew begin alike", l.Name, h.Lines[0].Name))
		}
		names[l.Name] = true
	}
	return found
}

// Alone returns one of the lines with as many people to itself: those who stay at another line do nothing
// at this one, unless they go elsewhere.
func (h *LineGroup) Alone(i int) *LineGroup {
	return &LineGroup{Lines: h.Lines[i : i+1 : i+1], Crew: h.Crew.At(h.Lines[i])}
}

// LineGroupSim runs replications of a line group, one after the other. It serves one goroutine.
type LineGroupSim struct {
	group *LineGroup
	floor sim.Floor
	crew  *sim.Pool
	lines []*Sim

	technicians *sim.Pool // nil if nothing breaks down
	roster      *roster   // nil if the crew never changes
}

// NewLineGroup returns the line group ready to run, or everything that is wrong with it.
func NewLineGroup(h *LineGroup) (*LineGroupSim, error) {
	if problems := h.Check(); len(problems) > 0 {
		return nil, errors.Join(problems...)
	}
	s := &LineGroupSim{group: h}
	s.crew = sim.NewPool(&s.floor.Shop)
	if slices.ContainsFunc(h.Lines, (*Line).BreaksDown) {
		s.technicians = newTechnicians(&s.floor.Shop)
	}
	for _, l := range h.Lines {
		line := &Sim{line: l.AttendedBy(h.Crew), owner: l.Name, shared: true, crew: s.crew, technicians: s.technicians}
		line.install()
		s.lines = append(s.lines, line)
		s.floor.Machines = append(s.floor.Machines, &line.clocks)
	}
	s.roster = newRoster(&h.Crew, s.crew, &s.floor.Shop, s.lines...)
	return s, nil
}

// Run runs one replication into outs, one outcome for each line, whose memory is used
// again. The same seed and replication always give the same outcomes.
func (s *LineGroupSim) Run(seed uint64, replication int, outs []Outcome) error {
	s.start(func(i int, line *Sim) { line.begin(seed, replication, &outs[i]) })
	first := s.group.Lines[0]
	if first.Begins.Before > 0 {
		s.handOver(first.Begins, outs)
	}
	s.floor.Run(s.lines[0].opened() + first.Shift)
	for i, line := range s.lines {
		line.end()
		if err := outs[i].Balance(); err != nil {
			return fmt.Errorf("%s, seed %d, replication %d: %w", line.line.Name, seed, replication, err)
		}
	}
	return nil
}

// Observe has an observer told of all that happens on a line of the group, by its number, in all
// replications to come; nil is for nobody. The events of several lines come in the order of time.
func (s *LineGroupSim) Observe(line int, o Observer) { s.lines[line].Observe(o) }

// start puts all lines, and those who attend to them, at the start of a run, and lets them run.
func (s *LineGroupSim) start(begin func(i int, line *Sim)) {
	s.floor.Shop.Reset()
	s.crew.Reset(s.group.Crew.Operators)
	if s.technicians != nil {
		s.technicians.Reset(s.group.Crew.technicians())
	}
	for i, line := range s.lines {
		begin(i, line)
	}
	if s.roster != nil {
		s.roster.begin()
	}
	for _, line := range s.lines {
		line.start()
	}
}

// handOver brings all lines from what came before to the beginning of the shift.
func (s *LineGroupSim) handOver(b Begins, outs []Outcome) {
	s.floor.Run(b.Before)
	for i, line := range s.lines {
		line.before.leaves(&outs[i])
	}
	switch {
	case !b.Track:
		s.start(func(i int, line *Sim) { line.before.clearedAway(&outs[i]) })
	case s.roster != nil:
		s.roster.handsOver()
	}
}
