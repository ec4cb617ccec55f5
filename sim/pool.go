package sim

import (
	"math"
	"slices"
)

// Pool is a crew of servers that attend to tasks: the lowest class first, within a
// class the earliest deadline, then first come first served; of one instant, the task
// that was made first. A server walks to the
// task, works on it and is free again; work in hand is never interrupted. Walking
// belongs to the task: a server who is done goes to the next one from where he
// stands, and the walk to it is drawn anew.
type Pool struct {
	calendar *Alarms
	servers  int
	free     int // below 0: so many leave when they have finished
	waiting  []*Task
	tasks    []*Task
	held     bool
	staff    []server // nil for servers who may take any task
	helped   []*Task  // with which a second server may help
}

// Task is one piece of work, made once and called whenever it is needed.
type Task struct {
	pool      *Pool
	durations func() (walk, work Seconds)
	least     func() Seconds // when the server arrives at the soonest; nil for at any time
	done      func()
	watch     func(TaskMoment) // nil for nobody
	finish    *Alarm

	state    taskState
	class    int
	deadline float64
	made     int     // tasks of the pool made before it
	queued   Seconds // when it took its place among those of its class
	called   Seconds // when the task was called
	started  Seconds // when a server set off for it
	arrives  Seconds // when he arrives there
	ends     Seconds // when the work is done

	account Account

	able   []int // of a staff, who may take it
	home   int   // how many of these stay at its place
	server int   // who does it; -1 for one without a number
	help   *help // nil for a task with which nobody helps
}

type taskState int

const (
	idle taskState = iota
	waiting
	inHand
)

// TaskMoment is a moment in the life of a task.
type TaskMoment int

// The moments.
const (
	TaskCalled   TaskMoment = iota // a server is wanted
	TaskTaken                      // a server sets off for it
	TaskFinished                   // the work is done
	TaskHelped                     // a second server sets off to help
)

// Watch has watch told of each moment of the task, before anything else comes of it; nil is
// for nobody.
func (t *Task) Watch(watch func(TaskMoment)) { t.watch = watch }

// Account is what a task has cost so far.
type Account struct {
	Calls   int64   // times the task was called
	Done    int64   // times it was finished
	Waiting Seconds // the task waited for a free server
	Walking Seconds // a server was on the way
	Working Seconds // a server was at work
}

// Busy returns the time that servers spent on it.
func (a Account) Busy() Seconds { return a.Walking + a.Working }

// Add adds what another task has cost.
func (a *Account) Add(b Account) {
	a.Calls += b.Calls
	a.Done += b.Done
	a.Waiting += b.Waiting
	a.Walking += b.Walking
	a.Working += b.Working
}

// NewPool returns a pool with no servers; call Reset before a run.
func NewPool(calendar *Alarms) *Pool { return &Pool{calendar: calendar} }

// Reset forgets every call and account and leaves the pool with the given number
// of free servers. Reset the calendar first.
func (p *Pool) Reset(servers int) {
	p.servers, p.free = servers, servers
	p.waiting = p.waiting[:0]
	for _, t := range p.tasks {
		t.finish.Stop()
		t.state, t.account, t.arrives = idle, Account{}, Seconds(math.Inf(1))
		if t.help != nil {
			t.help.join.Stop()
			t.help.on = false
		}
	}
	if p.staff != nil {
		p.free = 0
		clear(p.staff)
		p.Attend(servers, nil)
	}
}

// Resize lets servers come or go until there are as many as stated: those who come are free at
// once, and of those who are to go those who are free go first, the others when they have finished what
// they have in hand; of a staff go those with the highest numbers. It sends nobody to a task: Dispatch does.
func (p *Pool) Resize(servers int) {
	if p.staff != nil {
		p.Attend(servers, nil)
		return
	}
	p.free += servers - p.servers
	p.servers = servers
}

// NewTask returns a task of the pool. When a server takes it up, durations says how
// long he walks and works; done is called when the work is finished.
func (p *Pool) NewTask(durations func() (walk, work Seconds), done func()) *Task {
	t := &Task{pool: p, made: len(p.tasks), durations: durations, done: done}
	t.finish = p.calendar.Timer(t.finished)
	p.tasks = append(p.tasks, t)
	return t
}

// Call asks for a server. It panics if the task is called for already.
func (t *Task) Call(class int, deadline float64) {
	if t.state != idle {
		panic("sim: a task was called twice")
	}
	t.state, t.called = waiting, t.pool.calendar.Now()
	t.account.Calls++
	if t.watch != nil {
		t.watch(TaskCalled)
	}
	t.queue(class, deadline)
	t.pool.waiting = append(t.pool.waiting, t)
	if !t.pool.held {
		t.pool.Dispatch()
	}
}

// Hasten moves a waiting task to another class and deadline, behind those already
// there with the same. It does nothing if a server has set off for it.
func (t *Task) Hasten(class int, deadline float64) {
	if t.state == waiting {
		t.queue(class, deadline)
	}
}

// Drop takes back a call, if there is one: whoever is on the way or at work is free at once. What
// the task has cost is forgotten. It sends nobody to another task: Dispatch does.
func (t *Task) Drop() {
	switch p := t.pool; t.state {
	case idle:
	case waiting:
		p.remove(slices.Index(p.waiting, t))
	case inHand:
		t.finish.Stop()
		p.release(t.server)
		if t.help != nil && t.help.on {
			t.help.join.Stop()
			t.help.on = false
			p.release(t.help.server)
		}
	}
	t.state, t.account, t.arrives = idle, Account{}, Seconds(math.Inf(1))
}

// Idle reports whether the task is not called for.
func (t *Task) Idle() bool { return t.state == idle }

// Arrival returns when a server arrived, or will arrive, at the task last called for:
// +Inf while none has set off.
func (t *Task) Arrival() Seconds {
	if t.state == waiting {
		return Seconds(math.Inf(1))
	}
	return t.arrives
}

// Ends returns when the work in hand is done.
func (t *Task) Ends() Seconds { return t.ends }

// Account returns what the task has cost up to now, the part in hand included.
func (t *Task) Account() Account {
	a, now := t.account, t.pool.calendar.Now()
	switch t.state {
	case idle:
	case waiting:
		a.Waiting += now - t.called
	case inHand:
		a.Walking += min(now, t.arrives) - t.started
		a.Working += max(now-t.arrives, 0)
		if t.help != nil && t.help.on {
			t.help.account(&a, now)
		}
	}
	return a
}

func (t *Task) queue(class int, deadline float64) {
	if math.IsNaN(deadline) {
		panic("sim: the deadline of a task is NaN")
	}
	t.class, t.deadline, t.queued = class, deadline, t.pool.calendar.Now()
}

func (t *Task) before(u *Task) bool {
	if t.class != u.class {
		return t.class < u.class
	}
	if t.deadline != u.deadline {
		return t.deadline < u.deadline
	}
	if t.queued != u.queued {
		return t.queued < u.queued
	}
	return t.made < u.made
}

// Hold makes every call from now on wait for Dispatch, so that of the calls of one instant
// the most urgent is served first, whichever came first. A server who is done goes on by
// himself.
func (p *Pool) Hold() { p.held = true }

// Dispatch sends free servers to the most urgent tasks.
func (p *Pool) Dispatch() {
	if min(p.free, len(p.waiting)) > 0 || p.staff != nil || p.helped != nil {
		p.dispatch()
	}
}

func (p *Pool) dispatch() {
	if p.staff != nil {
		p.dispatchStaff()
	}
	for p.free > 0 && len(p.waiting) > 0 {
		p.serve()
	}
	if p.helped != nil {
		p.sendHelp()
	}
}

// serve sends a free server to the most urgent task.
func (p *Pool) serve() {
	first := 0
	for i := 1; i < len(p.waiting); i++ {
		if p.waiting[i].before(p.waiting[first]) {
			first = i
		}
	}
	p.remove(first).start()
}

// remove takes a task off those that wait.
func (p *Pool) remove(i int) *Task {
	t, last := p.waiting[i], len(p.waiting)-1
	p.waiting[i] = p.waiting[last]
	p.waiting = p.waiting[:last]
	return t
}

// NotBefore has a server who sets off arrive no sooner than at the moment that is asked for then, on the
// pool's calendar, also where he need not walk.
func (t *Task) NotBefore(moment func() Seconds) { t.least = moment }

func (t *Task) start() {
	now := t.pool.calendar.Now()
	walk, work := t.durations()
	if t.server = -1; t.pool.staff == nil {
		t.pool.free--
	} else if number, there := t.engage(); there {
		t.server, walk = number, 0
	} else {
		t.server = number
	}
	t.state, t.started, t.arrives = inHand, now, now+walk
	if t.least != nil {
		t.arrives = max(t.arrives, t.least())
	}
	t.ends = t.arrives + work
	t.account.Waiting += now - t.called
	t.finish.Set(t.ends)
	if t.watch != nil {
		t.watch(TaskTaken)
	}
}

func (t *Task) finished() {
	t.account.Done++
	t.account.Walking += t.arrives - t.started
	t.account.Working += t.ends - t.arrives
	t.state = idle
	if t.pool.staff == nil {
		t.pool.free++
	} else {
		t.pool.staff[t.server].busy = false
	}
	if t.help != nil {
		t.helpEnds()
	}
	if t.watch != nil {
		t.watch(TaskFinished)
	}
	t.done()
	t.pool.Dispatch()
}
