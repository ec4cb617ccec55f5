package model

import (
	"fmt"

	"netrate/sim"
)

// changeovers is the class of the tasks of a changeover: after stops and stocks.
const changeovers = stocks + 1

// lineAtJobs is a line on its way through its jobs. It is always in one of these: it waits for the
// time of its next job; it is changed over; it is down before a pass; it runs a pass; it is held after
// one.
type lineAtJobs struct {
	group *GroupAtJobsSim
	index int
	sims  []*Sim     // one for each set-up
	idle  sim.Clocks // stands in for a machine between passes
	work  []JobRun
	at    int    // of the job in hand
	made  []bool // of each set-up, whether a job had it before: the next goes on with its lots

	comes     *sim.Alarm // the time of the next job
	again     *sim.Alarm // the next pass
	closed    *sim.Alarm // the line is free for the next job
	passEnds  *sim.Alarm
	automatic *sim.Alarm
	tasks     []*sim.Task     // of a changeover, made when they are first needed
	able      map[string]able // who may do a piece of a changeover at each station, and at ""; nil if all may do all
	left      int             // pieces of the changeover that are not done

	turns  *sim.Alarm // goes down, or comes up
	downs  int        // that have begun
	isDown bool
	held   func() // what it would begin, but that it is down; nil for nothing
	change func()
	pass   func()
}

// able is who may do some work, by number, and how many of these, the first, stay there.
type able struct {
	numbers []int
	home    int
}

func newLineAtJobs(g *GroupAtJobsSim, index int) *lineAtJobs {
	x := &lineAtJobs{group: g, index: index, made: make([]bool, len(g.spec.Setups[index]))}
	shop := &g.floor.Shop
	x.change, x.pass = x.changes, x.passes // once, so that a replication allocates nothing
	x.comes, x.again, x.closed = shop.Timer(x.change), shop.Timer(x.pass), shop.Timer(x.free)
	x.passEnds, x.automatic, x.turns = shop.Timer(x.ends), shop.Timer(x.changed), shop.Timer(x.turn)
	for _, l := range g.spec.Setups[index] {
		s := &Sim{line: l.AttendedBy(g.spec.Crew), owner: g.spec.Names[index] + ", " + l.Name, known: g.spec.Names[index], shared: true, crew: g.crew, technicians: g.technicians}
		if l.Random != "" {
			s.owner = l.Random
		}
		s.install()
		s.jobs.ended = func() { x.passEnds.Set(shop.Now()) }
		if g.spec.Down != nil && len(g.spec.Down[index]) > 0 {
			s.standstill.pause = s.clocks.Track.Timer(s.standstill.stands)
		}
		x.sims = append(x.sims, s)
	}
	if g.spec.Crew.People != nil {
		x.changers()
	}
	return x
}

// changers finds who may do the pieces of a changeover.
func (x *lineAtJobs) changers() {
	x.able = map[string]able{}
	find := func(station string) {
		numbers, home := x.group.spec.Crew.able(x.group.spec.Names[x.index], station, Changing)
		x.able[station] = able{numbers, home}
	}
	find("")
	for _, l := range x.group.spec.Setups[x.index] {
		for _, s := range l.Stations {
			find(s.Where().Name)
		}
	}
}

func (x *lineAtJobs) begin(work []JobRun) {
	x.work, x.at, x.downs, x.isDown, x.held = work, -1, 0, false, nil
	clear(x.made)
	x.idle.Reset(1)
	x.group.floor.Machines[x.index] = &x.idle
	x.turnNext()
	x.proceed()
}

// job returns the job in hand, and the line as it is set up for it.
func (x *lineAtJobs) job() (*JobRun, *Sim) {
	j := &x.work[x.at]
	return j, x.sims[j.Setup]
}

// proceed goes on to the next job, when its time has come.
func (x *lineAtJobs) proceed() {
	if x.at++; x.at == len(x.work) {
		x.group.done(x.index, nil)
		return
	}
	j, _ := x.job()
	x.comes.Set(max(j.NotBefore, x.group.floor.Shop.Now()))
}

// changes calls the crew for the changeover, unless the line is down.
func (x *lineAtJobs) changes() {
	if x.isDown {
		x.held = x.change
		return
	}
	j, _ := x.job()
	now := x.group.floor.Shop.Now()
	j.Begun, x.left = now, len(j.Change)+1
	for len(x.tasks) < len(j.Change) {
		k := len(x.tasks)
		lasts := func() (walk, work sim.Seconds) { return 0, x.work[x.at].Change[k] }
		x.tasks = append(x.tasks, x.group.crew.NewTask(lasts, x.changed))
	}
	for k := range j.Change {
		if x.able != nil {
			at := ""
			if j.ChangeAt != nil {
				at = j.ChangeAt[k]
			}
			who := x.able[at]
			x.tasks[k].For(who.numbers, who.home)
		}
		x.tasks[k].Call(changeovers, 0)
	}
	x.automatic.Set(now + j.Automatic)
	x.group.crew.Dispatch()
}

// changed is called when a piece of the changeover is done. After the last the job begins.
func (x *lineAtJobs) changed() {
	if x.left--; x.left > 0 {
		return
	}
	j, s := x.job()
	j.First = x.group.floor.Shop.Now()
	s.KeepLots(x.made[j.Setup])
	x.made[j.Setup] = true
	if x.at > 0 && j.Stays != nil {
		s.TakeOver(x.sims[x.work[x.at-1].Setup], j.Stays)
	}
	s.jobs.opens(x.group.seed, j.Replication, j.Sets, &j.Outcome)
	x.pass()
}

// passes begins the pass that is next, unless the line is down.
func (x *lineAtJobs) passes() {
	if x.isDown {
		x.held = x.pass
		return
	}
	_, s := x.job()
	s.begun = x.group.floor.Shop.Now()
	x.group.floor.Machines[x.index] = &s.clocks
	s.jobs.begins()
}

// ends closes the pass that has ended in this moment.
func (x *lineAtJobs) ends() {
	_, s := x.job()
	again, held, err := s.jobs.ends()
	if err != nil {
		x.group.done(x.index, fmt.Errorf("%s: %s: %w", x.group.spec.Names[x.index], s.line.Name, err))
		return
	}
	x.group.floor.Machines[x.index] = &x.idle
	for _, t := range s.tasks {
		t.Drop()
	}
	switch now := s.clocks.Shop.Now(); {
	case again:
		x.again.Set(now + held)
	case s.line.Job.Closing == Beside:
		j, _ := x.job()
		x.group.bench.takes(x.index, j, s)
		x.closed.Set(now)
	default:
		x.closed.Set(now + held)
	}
	x.group.crew.Dispatch()
	if x.group.technicians != nil {
		x.group.technicians.Dispatch()
	}
}

// free is called when the line is free: the job is finished too, unless its remakes are still made beside it.
func (x *lineAtJobs) free() {
	j, _ := x.job()
	j.Free = x.group.floor.Shop.Now()
	j.Finished = max(j.Free, j.AtBench)
	x.proceed()
}

// turn has the line go down, or come up.
func (x *lineAtJobs) turn() {
	if x.isDown = !x.isDown; x.isDown {
		x.downs++
	}
	x.turnNext()
	switch {
	case x.group.floor.Machines[x.index] != &x.idle:
		_, s := x.job()
		s.standstill.breakTurns(x.isDown)
	case x.held != nil && !x.isDown:
		next := x.held
		x.held = nil
		next()
	}
}

func (x *lineAtJobs) turnNext() {
	if x.group.spec.Down == nil {
		return
	}
	switch down := x.group.spec.Down[x.index]; {
	case x.isDown:
		x.turns.Set(down[x.downs-1].To)
	case x.downs < len(down):
		x.turns.Set(down[x.downs].From)
	}
}
