package sim

import "slices"

// Staff makes the servers of a pool persons with numbers, of whom each task says who may take it:
// see [Task.For]. Of n servers that are there, these are the first n, or those that Attend says.
func (p *Pool) Staff(servers int) { p.staff = make([]server, servers) }

// server is one of a staff.
type server struct {
	there bool // or he is to go, and does when he has finished
	busy  bool
	away  bool // he was last at a task away from the place where he stays
}

// Attend is Resize of a staff some of whom are absent, by their numbers: the others of the first so many are
// there. Who comes, and had gone, is at the place where he stays.
func (p *Pool) Attend(servers int, absent []int) {
	p.servers = servers
	for n := range p.staff {
		s, is := &p.staff[n], n < servers && !slices.Contains(absent, n)
		if is && !s.there && !s.busy {
			s.away = false
		}
		s.there = is
	}
}

// For says which of the staff may take the task, those who are preferred first, and how many of
// these, the first, stay at its place: they do not walk, unless they were last at another.
func (t *Task) For(numbers []int, home int) { t.able, t.home = numbers, home }

// HelpedBy lets a second server who is free when no task waits that he may take help with the
// task, once one has set off for it. walk says how long he is on his way; from when both are there
// the work that is left takes faster times less.
func (t *Task) HelpedBy(walk func() Seconds, faster float64) {
	t.help = &help{walk: walk, faster: Seconds(faster), join: t.pool.calendar.Timer(t.joined)}
	t.pool.helped = append(t.pool.helped, t)
}

// help is a second server at a task.
type help struct {
	walk    func() Seconds
	faster  Seconds
	join    *Alarm
	on      bool // somebody has set off
	started Seconds
	arrives Seconds
	server  int
}

// By returns the number of who does the task in hand; -1 for one without a number.
func (t *Task) By() int { return t.server }

// Helper returns the number of who helps with the task in hand, as By does, and when he arrives.
func (t *Task) Helper() (number int, arrives Seconds) { return t.help.server, t.help.arrives }

// dispatchStaff sends those who are free to the most urgent tasks that they may take.
func (p *Pool) dispatchStaff() {
	for {
		best := -1
		for i, t := range p.waiting {
			if t.anybody() >= 0 && (best < 0 || t.before(p.waiting[best])) {
				best = i
			}
		}
		if best < 0 {
			return
		}
		p.remove(best).start()
	}
}

// anybody returns the place, among those who may take the task, of the first who is there and free;
// -1 for none.
func (t *Task) anybody() int {
	p := t.pool
	for k, n := range t.able {
		if p.staff[n].there && !p.staff[n].busy {
			return k
		}
	}
	return -1
}

// engage has a free server take part in the task. It returns his number, -1 for one without, and
// whether he need not walk.
func (t *Task) engage() (number int, there bool) {
	p := t.pool
	if p.staff == nil {
		p.free--
		return -1, false
	}
	k := t.anybody()
	number = t.able[k]
	s := &p.staff[number]
	there = k < t.home && !s.away
	s.busy, s.away = true, k >= t.home
	return number, there
}

// release has who took part in a task be free.
func (p *Pool) release(number int) {
	if p.staff == nil {
		p.free++
		return
	}
	p.staff[number].busy = false
}

// sendHelp sends those who are still free to help.
func (p *Pool) sendHelp() {
	for {
		var first *Task
		for _, t := range p.helped {
			if t.state == inHand && !t.help.on && t.canHelp() && (first == nil || t.before(first)) {
				first = t
			}
		}
		if first == nil {
			return
		}
		first.getsHelp()
	}
}

func (t *Task) canHelp() bool {
	if t.pool.staff != nil {
		return t.anybody() >= 0
	}
	return t.pool.free > 0
}

// getsHelp sends a free server to help.
func (t *Task) getsHelp() {
	h := t.help
	number, there := t.engage()
	h.on, h.server, h.started = true, number, t.pool.calendar.Now()
	h.arrives = h.started
	if walk := h.walk(); !there {
		h.arrives += walk
	}
	h.join.Set(h.arrives)
	if t.watch != nil {
		t.watch(TaskHelped)
	}
}

// joined lets what is left of the work take less, from when both are there.
func (t *Task) joined() {
	both := max(t.pool.calendar.Now(), t.arrives)
	t.ends = both + (t.ends-both)/t.help.faster
	t.finish.Set(t.ends)
}

// helpEnds frees who helps with a task that is done.
func (t *Task) helpEnds() {
	if !t.help.on {
		return
	}
	t.help.account(&t.account, t.ends)
	t.help.join.Stop()
	t.help.on = false
	t.pool.release(t.help.server)
}

// account adds what he has spent on the task by now.
func (h *help) account(a *Account, now Seconds) {
	a.Walking += min(now, h.arrives) - h.started
	a.Working += max(now-h.arrives, 0)
}
