package model

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"netrate/sim"
)

// GroupAtJobs is several lines that one crew attends to, each at a list of jobs: what they and their
// people are. What they do is said for each replication, see [GroupAtJobsSim.Run].
type GroupAtJobs struct {
	Names  []string    // of the lines, each its own
	Setups [][]*Line   // each line as it is set up for each product that it makes, for a job
	Crew   Crew        // of all; those of the lines do not count
	Staff  []Staffing  // how many operators are there, in order of time; those of the crew until the first
	Down   [][]Stretch // when each line is down, in order of time; nil if none ever is

	BenchBusy sim.Seconds // until then the bench beside the lines is at remakes that lay there from the start

	EndsWith int // the line, from 1, with whose last job all ends, whatever the others have not done by then; 0 for the last of all
}

// Staffing is how many operators there are from a time on.
type Staffing struct {
	From      sim.Seconds
	Operators int
	Absent    []int // of those who are stated one by one, who of them is not there, by number
}

// has reports whether an operator who is stated is there.
func (s *Staffing) has(number int) bool {
	return number < s.Operators && !slices.Contains(s.Absent, number)
}

// Stretch is from one time to another.
type Stretch struct{ From, To sim.Seconds }

// JobRun is one job of a line: what it is, and when it was done.
type JobRun struct {
	Setup       int // which one of the line it needs
	Sets        int64
	Replication int           // of its random numbers
	NotBefore   sim.Seconds   // its changeover does not begin before
	Change      []sim.Seconds // the pieces of work of its changeover, in the order in which they are taken
	ChangeAt    []string      // the station that each of them is of, "" for the line as a whole; nil if all are of that
	Automatic   sim.Seconds   // what the line does of it by itself
	AtBench     sim.Seconds   // when the last of its remakes is made that lay at the bench from the start; 0 for none
	Stays       []int         // of each station, that of the job before whose pieces stay in its hopper, -1 for none; nil if all begin as a job does by itself

	Begun    sim.Seconds // its changeover
	First    sim.Seconds // it is changed over: its first cycle may begin, unless the line is down
	Free     sim.Seconds // the line is free for its next job: when this one is finished, unless remakes are made beside the line
	Finished sim.Seconds // its last remake is made
	Outcome  Outcome
}

// Check returns everything that is wrong with the group.
func (g *GroupAtJobs) Check() []error {
	var found []error
	require := func(ok bool, text string, args ...any) {
		if !ok {
			found = append(found, fmt.Errorf(text, args...))
		}
	}
	require(len(g.Setups) > 0 && len(g.Setups) == len(g.Names), "there are %d lines with %d names, want one line at least and a name for each", len(g.Setups), len(g.Names))
	require(!g.Crew.Varies(), "the crew changes within a shift: at jobs that is stated by day and shift")
	require(g.Down == nil || len(g.Down) == len(g.Setups), "it is stated of %d lines when they are down, and there are %d", len(g.Down), len(g.Setups))
	require(g.BenchBusy >= 0 && !math.IsInf(float64(g.BenchBusy), 0), "the bench is busy for %v s, want 0 or more", float64(g.BenchBusy))
	before, stated := sim.Seconds(0), g.Crew.stated()
	for i := range g.Staff { // with breaks of people some thousands: what is right of them is not put into words
		s := &g.Staff[i]
		if !(s.From >= before && !math.IsInf(float64(s.From), 0) && s.Operators >= 0) {
			require(false, "%d operators are there from %v s on: want 0 or more, in order of time", s.Operators, float64(s.From))
		}
		if g.Crew.People != nil && s.Operators > stated {
			require(false, "%d operators are there from %v s on, and people are %d", s.Operators, float64(s.From), stated)
		}
		if g.Crew.People == nil && s.Absent != nil {
			require(false, "somebody is absent from %v s on, and it is not stated who there is", float64(s.From))
		}
		before = s.From
	}
	if n := len(g.Staff); n > 0 {
		require(g.Staff[n-1].Operators > 0, "nobody is there in the end")
	}
	for i, down := range g.Down {
		before := sim.Seconds(0)
		for _, s := range down {
			require(s.From >= before && s.From < s.To && !math.IsInf(float64(s.To), 0), "line %d is down from %v s to %v s: want one time after the other", i+1, float64(s.From), float64(s.To))
			before = s.To
		}
	}
	if len(found) > 0 {
		return found
	}
	for i, setups := range g.Setups {
		for _, l := range setups {
			own := l.AttendedBy(g.Crew)
			if g.Crew.People != nil {
				own.Crew = g.Crew.at(g.Names[i], l)
				own.Crew.Operators, own.Crew.Reserve = own.Crew.stated(), 0
			}
			require(l.Job.Sets > 0, "%s: %s works for a shift, want a job", g.Names[i], l.Name)
			for _, err := range own.Check() {
				found = append(found, fmt.Errorf("%s: %s: %w", g.Names[i], l.Name, err))
			}
			found = append(found, g.neverDone(i, l)...)
		}
	}
	return found
}

// neverDone returns what a line calls for that nobody may do who is there in the end.
func (g *GroupAtJobs) neverDone(line int, l *Line) (found []error) {
	if g.Crew.People == nil {
		return nil
	}
	last := Staffing{Operators: g.Crew.Operators}
	if n := len(g.Staff); n > 0 {
		last = g.Staff[n-1]
	}
	for _, n := range l.Needs() {
		if !slices.ContainsFunc(g.Crew.Able(g.Names[line], n), last.has) {
			found = append(found, fmt.Errorf("%s: %s: nobody who is there in the end may %v", g.Names[line], l.Name, n))
		}
	}
	return found
}

// GroupAtJobsSim runs replications of lines at jobs, one after the other. It serves one goroutine.
type GroupAtJobsSim struct {
	spec        *GroupAtJobs
	floor       sim.Floor
	crew        *sim.Pool
	technicians *sim.Pool // nil if nothing breaks down
	lines       []*lineAtJobs
	staff       *sim.Alarm // the next change of the number of operators
	stage       int
	bench       sharedBench
	open        int // lines that are not done
	seed        uint64
	err         error
}

// NewGroupAtJobs returns the group ready to run, or everything that is wrong with it.
func NewGroupAtJobs(g *GroupAtJobs) (*GroupAtJobsSim, error) {
	if problems := g.Check(); len(problems) > 0 {
		return nil, errors.Join(problems...)
	}
	s := &GroupAtJobsSim{spec: g}
	s.crew = sim.NewPool(&s.floor.Shop)
	s.staff = s.floor.Shop.Timer(s.staffTurns)
	if slices.ContainsFunc(slices.Concat(g.Setups...), (*Line).BreaksDown) {
		s.technicians = newTechnicians(&s.floor.Shop)
	}
	for i := range g.Setups {
		s.lines = append(s.lines, newLineAtJobs(s, i))
		s.floor.Machines = append(s.floor.Machines, &s.lines[i].idle)
	}
	return s, nil
}

// Run runs one replication: work is the jobs of each line in their order, and takes down what came of
// them; their memory is used again. The same work, seed and replications of the jobs always give the
// same.
//
// An error says which ledger of which job does not balance, or that a line cannot close a job.
func (s *GroupAtJobsSim) Run(seed uint64, work [][]JobRun) error {
	s.floor.Shop.Reset()
	s.crew.Reset(s.spec.Crew.Operators)
	if s.technicians != nil {
		s.technicians.Reset(s.spec.Crew.technicians())
	}
	s.seed, s.err, s.stage, s.open = seed, nil, -1, len(s.lines)
	s.bench.begin()
	s.staffNext()
	for i, line := range s.lines {
		line.begin(work[i])
	}
	s.floor.Run(math.MaxFloat64)
	if s.err == nil && s.open > 0 {
		if s.spec.Crew.People == nil {
			panic("model: lines at jobs wait for nothing")
		}
		s.err = errors.New("a changeover has a piece that nobody may do who is there in the end")
	}
	s.bench.close(s.spec.BenchBusy)
	return s.err
}

// staffTurns has as many operators be there as there should be from now on.
func (s *GroupAtJobsSim) staffTurns() {
	s.stage++
	if now := &s.spec.Staff[s.stage]; s.spec.Crew.People != nil {
		s.crew.Attend(now.Operators, now.Absent)
	} else {
		s.crew.Resize(now.Operators)
	}
	s.crew.Dispatch()
	s.staffNext()
}

func (s *GroupAtJobsSim) staffNext() {
	if s.stage+1 < len(s.spec.Staff) {
		s.staff.Set(s.spec.Staff[s.stage+1].From)
	}
}

// done is called when a line, by its index, has done all its jobs, or cannot: with the last one all is over.
func (s *GroupAtJobsSim) done(line int, err error) {
	if s.open--; err != nil {
		s.err = err
	}
	if line+1 == s.spec.EndsWith {
		s.open = 0
	}
	if s.open == 0 || err != nil {
		for i, line := range s.lines {
			s.floor.Machines[i] = &line.idle
		}
		s.floor.Shop.Reset()
	}
}
