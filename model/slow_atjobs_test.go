package model

import (
	"math"
	"slices"

	"netrate/sim"
)

// slowAtJobs is lines that share a crew, each at a list of jobs.
type slowAtJobs struct {
	spec   *GroupAtJobs
	random slowRandom
	people *slowModel // no line: whoever attends to all of them
	rows   []*slowRow
	bench  []slowRemake // made by hand beside the lines
}

// slowRow is one of the lines, on its way through its jobs.
type slowRow struct {
	all   *slowAtJobs
	index int
	work  []JobRun
	at    int
	state slowRowState
	until sim.Seconds // when what it waits for has come
	left  int         // pieces of the changeover that are not done
	sets  int64       // of the pass that is next
	m     *slowModel  // the pass under way; nil for none
	downs []Stretch   // when the line is down
}

type slowRowState int

const (
	slowComes    slowRowState = iota // it waits for the time of its job
	slowChanges                      // it is changed over
	slowSetsUp                       // before a pass
	slowRuns                         // a pass
	slowClosing                      // its remakes are made by hand, and the line waits for them
	slowFinished                     // all its jobs are done
)

// slowRemake is one remake at the bench.
type slowRemake struct {
	at   sim.Seconds
	line int
	job  *JobRun
	each sim.Seconds
}

// slowJobs does the jobs of some lines, and takes down what came of them.
func slowJobs(g *GroupAtJobs, work [][]JobRun, seed uint64, replication int) {
	random := newSlowRandom(seed, replication)
	x := &slowAtJobs{spec: g, random: random, people: newSlow(g.Setups[0][0].AttendedBy(g.Crew), random, 1)}
	x.people.people.lines = nil
	x.people.people.away = [][]int{nil}
	for _, s := range g.Staff {
		x.people.people.away = append(x.people.people.away, s.Absent)
		x.people.people.plan.Later = append(x.people.people.plan.Later, Presence{After: s.From, Operators: s.Operators})
	}
	for i := range work {
		row := &slowRow{all: x, index: i, work: work[i], at: -1}
		if g.Down != nil {
			row.downs = g.Down[i]
		}
		x.rows = append(x.rows, row)
		row.proceeds()
	}
	x.people.peopleChange() // what is stated from the start
	x.act()
	x.people.crewChooses()
	for slices.ContainsFunc(x.rows, func(r *slowRow) bool { return r.state != slowFinished }) {
		x.moment(x.next())
	}
	x.atTheBench()
}

// next returns when something next happens.
func (x *slowAtJobs) next() sim.Seconds {
	next := x.people.nextChange()
	for _, o := range x.people.crew.operators {
		next = min(next, o.next())
	}
	for _, r := range x.rows {
		next = min(next, r.downChanges())
		switch {
		case r.m != nil:
			next = min(next, r.m.nextMoment())
		case r.until > x.people.now:
			next = min(next, r.until)
		}
	}
	return next
}

// moment lets the time pass up to a moment, and lets happen what is due then.
func (x *slowAtJobs) moment(at sim.Seconds) {
	x.people.peopleSpend(at - x.people.now)
	x.people.now = at
	running := x.running()
	for _, m := range running {
		m.elapse(at)
	}
	for _, m := range running {
		m.channelMoves()
		m.cycleEnds()
	}
	x.act()
	x.people.peopleChange()
	for _, r := range x.rows {
		r.downChange()
	}
	x.people.crewMoves()
	x.people.techniciansMove()
	x.act()
	for _, m := range x.running() {
		m.channelMoves()
		m.restartEnds()
		m.looksForDocument()
	}
	x.people.crewChooses()
	x.people.techniciansChoose()
}

func (x *slowAtJobs) running() (all []*slowModel) {
	for _, r := range x.rows {
		if r.m != nil {
			all = append(all, r.m)
		}
	}
	return all
}

// act has each line go on as far as it can now.
func (x *slowAtJobs) act() {
	for _, r := range x.rows {
		for r.acts() {
		}
	}
}

// isDown reports whether the line is down.
func (r *slowRow) isDown() bool {
	now := r.all.people.now
	return slices.ContainsFunc(r.downs, func(s Stretch) bool { return s.From <= now && now < s.To })
}

// downChanges returns when the line is next down, or no longer.
func (r *slowRow) downChanges() sim.Seconds {
	for _, s := range r.downs {
		for _, at := range []sim.Seconds{s.From, s.To} {
			if at > r.all.people.now {
				return at
			}
		}
	}
	return sim.Seconds(math.Inf(1))
}

// downChange has the line stand as for a break from when it is down, and restart when it is no longer.
func (r *slowRow) downChange() {
	switch m := r.m; {
	case m == nil:
	case r.isDown() && m.down == nil:
		m.down = &Break{After: m.now, Length: r.downChanges() - m.now, Stands: true}
		m.breakBegins()
	case !r.isDown() && m.down != nil:
		m.down = nil
		m.breakIsOver()
	}
}

// proceeds turns to the next job.
func (r *slowRow) proceeds() {
	if r.at++; r.at == len(r.work) {
		r.state, r.until = slowFinished, sim.Seconds(math.Inf(1))
		return
	}
	r.state, r.until = slowComes, r.work[r.at].NotBefore
}

// acts goes on by one step, and reports whether there was one.
func (r *slowRow) acts() bool {
	now := r.all.people.now
	if r.state == slowFinished || r.state != slowRuns && now < r.until {
		return false
	}
	if r.isDown() && (r.state == slowComes || r.state == slowSetsUp) {
		return false
	}
	job := &r.work[r.at]
	switch r.state {
	case slowComes:
		job.Begun, job.Outcome = now, Outcome{Stations: make([]StationOutcome, len(r.setup().Stations))}
		r.changesOver(job)
	case slowChanges:
		if r.left > 0 {
			return false
		}
		job.First, r.sets, r.state = now, job.Sets, slowSetsUp
	case slowSetsUp:
		r.begins()
	case slowRuns:
		if !r.m.over() {
			return false
		}
		r.ends(job)
	case slowClosing:
		job.Free, job.Finished = now, now
		r.proceeds()
	case slowFinished:
	}
	return true
}

func (r *slowRow) setup() *Line { return r.all.spec.Setups[r.index][r.work[r.at].Setup] }

// changesOver calls operators to the pieces of the changeover.
func (r *slowRow) changesOver(job *JobRun) {
	r.state, r.left, r.until = slowChanges, len(job.Change), r.all.people.now+job.Automatic
	for k, lasts := range job.Change {
		t := &slowTask{work: sim.Constant(lasts), account: &sim.Account{}, changed: func() { r.left-- }, known: r.all.spec.Names[r.index]}
		if job.ChangeAt != nil {
			t.piece = job.ChangeAt[k]
		}
		r.all.people.call(t)
	}
}

// begins begins a pass.
func (r *slowRow) begins() {
	x := r.all
	m := newSlow(r.setup().AttendedBy(x.spec.Crew), x.random, r.sets)
	m.shared, m.crew, m.people, m.known = true, x.people.crew, x.people.people, x.spec.Names[r.index]
	m.begun, m.now, m.since = x.people.now, x.people.now, x.people.now
	m.openLots(nil)
	m.channelMoves()
	r.state, r.m, x.people.people.lines = slowRuns, m, append(x.people.people.lines, m)
}

// ends closes a pass: calls for it are withdrawn, and who is on the way or at work there is free.
func (r *slowRow) ends(job *JobRun) {
	x, m := r.all, r.m
	m.close()
	x.people.crew.waiting = slices.DeleteFunc(x.people.crew.waiting, func(t *slowTask) bool { return t.of == m })
	x.people.people.repair = slices.DeleteFunc(x.people.people.repair, func(t *slowTask) bool { return t.of == m })
	for _, all := range [][]slowOperator{x.people.crew.operators, x.people.people.techs} {
		for i := range all {
			if t := all[i].task; t != nil && t.of == m {
				all[i].task, all[i].helps = nil, false
			}
		}
	}
	x.people.people.lines = slices.DeleteFunc(x.people.people.lines, func(line *slowModel) bool { return line == m })
	x.people.present()
	r.m = nil
	job.Outcome.Add(&m.out)
	job.Outcome.Job.Passes++
	r.closes(job, m)
}

// closes does what is done about the remakes of a pass.
func (r *slowRow) closes(job *JobRun, m *slowModel) {
	out, now, own, remakes := &job.Outcome, m.now, r.setup().Job, m.out.Remakes()
	r.state, r.until = slowClosing, now
	switch {
	case own.Closing == SecondPass && remakes > 0:
		setup := own.Setup.Draw(m.times)
		out.Job.Setup += setup
		r.state, r.until, r.sets = slowSetsUp, now+setup, remakes
	case own.Closing == ByHand:
		out.Job.ByHand, out.Job.Hand = remakes, sim.Seconds(float64(remakes)*3600/own.PerHour)
		r.until = now + out.Job.Hand
	case own.Closing == Beside:
		out.Job.ByHand = remakes
		for _, at := range m.arose {
			r.all.bench = append(r.all.bench, slowRemake{at, r.index, job, sim.Seconds(3600 / own.PerHour)})
		}
	}
	out.Job.Finish = out.Time.Shift + out.Job.Setup + out.Job.Hand
}

// atTheBench makes the remakes of all jobs, one after the other as they came.
func (x *slowAtJobs) atTheBench() {
	slices.SortStableFunc(x.bench, func(a, b slowRemake) int {
		switch {
		case a.at < b.at || a.at == b.at && a.line < b.line:
			return -1
		case a.at > b.at || a.line > b.line:
			return 1
		}
		return 0
	})
	free := sim.Seconds(0)
	for _, r := range x.bench {
		free = max(free, r.at) + r.each
		out := &r.job.Outcome
		r.job.Finished = max(r.job.Free, free)
		out.Job.Hand = r.job.Finished - r.job.Free
		out.Job.Finish = out.Time.Shift + out.Job.Setup + out.Job.Hand
	}
}
