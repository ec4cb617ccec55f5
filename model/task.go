package model

import "netrate/sim"

// Work is what an operator is called for.
type Work int

// What operators do, and technicians.
const (
	ClearFault  Work = iota
	RealignLane      // after a fault, or a mismatch
	FillStock        // fill a hopper, empty a bin, sweep the belt
	Repair           // what has broken down: for a technician
	ChangeStock      // take the wrong pieces out of a hopper, and fill it
)

// workNames are also in the names of random streams.
var workNames = [...]string{"clear", "realign", "stock", "repair", "change stock"}

func (w Work) String() string { return workNames[w] }

// task is a task of the crew at a station of the line.
type task struct {
	*sim.Task
	station int
	work    Work
}

// task returns a new task for the crew at a station; the random numbers of its walks and of its
// work have the name of the station and of the work.
func (s *Sim) task(station int, work Work, lasts sim.Duration, done func()) *sim.Task {
	return s.attended(s.crew, station, work, s.line.Crew.Walk, lasts, done)
}

// timed returns such a task whose work takes what it is asked for when an operator sets off.
func (s *Sim) timed(station int, work Work, lasts func() sim.Duration, done func()) *sim.Task {
	return s.task(station, work, askedFor(lasts), done)
}

// askedFor is a duration that depends on what has happened by when it is drawn.
type askedFor func() sim.Duration

// Draw draws from what lasts as long now.
func (a askedFor) Draw(r *sim.Stream) sim.Seconds { return a().Draw(r) }

// Mean returns the mean of what lasts as long now.
func (a askedFor) Mean() sim.Seconds { return a().Mean() }

// attended returns such a task for a pool of people, with how long they take to come.
func (s *Sim) attended(by *sim.Pool, station int, work Work, comes, lasts sim.Duration, done func()) *sim.Task {
	name := s.line.Stations[station].Where().Name
	walks, works := s.stream(name, work.String()+" walk"), s.stream(name, work.String()+" work")
	durations := func() (walk, w sim.Seconds) {
		return comes.Draw(walks), lasts.Draw(works)
	}
	t := by.NewTask(durations, done)
	if by == s.crew {
		s.skilled(t, name, work)
		if work != FillStock && s.line.Slow.Stopping.Cycles > 0 { // nobody reaches into what still moves
			t.NotBefore(func() sim.Seconds { return s.standstill.rest })
		}
	}
	s.tasks = append(s.tasks, task{t, station, work})
	return t
}

// watchTasks has the observer told of what becomes of the tasks of the crew.
func (s *Sim) watchTasks() {
	for number, t := range s.tasks {
		e := Event{Station: t.station, Task: number, Work: t.work}
		if s.observer == nil {
			t.Watch(nil)
			continue
		}
		t.Watch(func(moment sim.TaskMoment) {
			if s.observer == nil { // before the shift
				return
			}
			e := e
			switch moment {
			case sim.TaskCalled:
				e.Kind = TaskCalled
			case sim.TaskTaken:
				e.Kind, e.Operator, e.Arrives, e.Until = TaskTaken, t.By(), t.Arrival(), t.Ends()
			case sim.TaskHelped:
				e.Kind = TaskHelped
				e.Operator, e.Arrives = t.Helper()
			case sim.TaskFinished:
				e.Kind = TaskDone
			}
			s.tell(e)
		})
	}
}
