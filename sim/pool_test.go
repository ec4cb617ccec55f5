package sim

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// crew is a pool that writes down when its tasks are finished.
type crew struct {
	shop    Alarms
	pool    *Pool
	history []string
}

func newCrew(servers int) *crew {
	c := &crew{}
	c.pool = NewPool(&c.shop)
	c.pool.Reset(servers)
	return c
}

// task returns a task of the crew that takes constant times.
func (c *crew) task(name string, walk, work Seconds) *Task {
	return c.pool.NewTask(
		func() (Seconds, Seconds) { return walk, work },
		func() { c.history = append(c.history, fmt.Sprintf("%g %s", float64(c.shop.Now()), name)) })
}

func (c *crew) at(at Seconds, do func()) { c.shop.Timer(do).Set(at) }

func (c *crew) run(until Seconds) {
	for at, ok := c.shop.Next(); ok && at <= until; at, ok = c.shop.Next() {
		c.shop.Step()
	}
	c.shop.AdvanceTo(until)
}

func (c *crew) want(t *testing.T, history string) {
	t.Helper()
	assert.Equal(t, history, strings.Join(c.history, ", "))
}

func TestPoolTakesTheMostUrgent(t *testing.T) {
	c := newCrew(1)
	c.task("in hand", 1, 9).Call(5, 0) // never interrupted, least urgent though it is
	c.task("late", 1, 1).Call(2, 30)
	c.task("early", 1, 1).Call(2, 20)
	c.task("early too", 1, 1).Call(2, 20)
	c.task("low class, no deadline", 1, 1).Call(1, math.Inf(1))
	c.at(5, func() { c.task("lowest class", 1, 1).Call(0, 99) })
	c.run(100)
	c.want(t, "10 in hand, 12 lowest class, 14 low class, no deadline, 16 early, 18 early too, 20 late")
}

// A server who may not be there before a moment arrives then, and one who is slower later.
func TestPoolNotBefore(t *testing.T) {
	c := newCrew(2)
	for name, walk := range map[string]Seconds{"near": 1, "far": 5} {
		x := c.task(name, walk, 1)
		x.NotBefore(func() Seconds { return 3 })
		x.Call(0, 0)
	}
	c.run(100)
	c.want(t, "4 near, 6 far")
}

// Of calls in one instant, the order of the calls does not matter.
func TestPoolTiesGoByMaking(t *testing.T) {
	c := newCrew(1)
	a, b, d := c.task("a", 0, 1), c.task("b", 0, 1), c.task("d", 0, 1)
	c.task("in hand", 0, 10).Call(0, 0)
	c.at(1, func() { d.Call(1, 0) }) // called earlier: first, although it was made last
	c.at(2, func() { b.Call(1, 0) })
	c.at(2, func() { a.Call(1, 0) })
	c.run(100)
	c.want(t, "10 in hand, 11 d, 12 a, 13 b")
}

func TestPoolSendsAllItHas(t *testing.T) {
	c := newCrew(2)
	for i := range 4 {
		c.task(fmt.Sprint(i), 1, Seconds(2+i)).Call(0, 0)
	}
	c.run(100)
	c.want(t, "3 0, 4 1, 8 2, 10 3")
}

func TestHasten(t *testing.T) {
	c := newCrew(1)
	first := c.task("first", 0, 10)
	first.Call(1, 0)
	for _, name := range []string{"b", "c"} {
		c.task(name, 0, 1).Call(1, 0)
	}
	d, e := c.task("d", 0, 1), c.task("e", 0, 1)
	d.Call(2, 0)
	e.Call(2, 0)
	c.at(5, func() {
		first.Hasten(9, 9) // in hand: nothing changes
		e.Hasten(1, 0)     // now behind those already there
		d.Hasten(1, -1)    // an earlier deadline
	})
	c.run(100)
	c.want(t, "10 first, 11 d, 12 b, 13 c, 14 e")
	assert.Equal(t, Account{Calls: 1, Done: 1, Waiting: 13, Working: 1}, e.Account(), "counted from the call")
	d.Hasten(0, 0)
	assert.True(t, d.Idle(), "a task not called for stays so")
}

func TestDoneMayCallAgain(t *testing.T) {
	c := newCrew(1)
	var again *Task
	again = c.pool.NewTask(
		func() (Seconds, Seconds) { return 1, 2 },
		func() {
			if c.shop.Now() < 10 {
				again.Call(1, 0)
			}
		})
	again.Call(1, 0)
	c.task("other", 1, 2).Call(0, 0) // more urgent than the second call
	c.run(100)
	c.want(t, "6 other")
	assert.Equal(t, Account{Calls: 3, Done: 3, Waiting: 3, Walking: 3, Working: 6}, again.Account())
}

// An account taken in mid-walk and mid-work holds the part that is over, no more.
func TestAccountUpToNow(t *testing.T) {
	c := newCrew(1)
	c.task("before", 0, 10).Call(0, 0)
	var task *Task
	c.at(4, func() {
		task = c.task("task", 3, 5)
		task.Call(0, 0)
	})
	for _, step := range []struct {
		at      Seconds
		arrival float64
		want    Account
	}{
		{4, math.Inf(1), Account{Calls: 1}},
		{9, math.Inf(1), Account{Calls: 1, Waiting: 5}},
		{10, 13, Account{Calls: 1, Waiting: 6}},
		{12, 13, Account{Calls: 1, Waiting: 6, Walking: 2}},
		{13, 13, Account{Calls: 1, Waiting: 6, Walking: 3}},
		{17, 13, Account{Calls: 1, Waiting: 6, Walking: 3, Working: 4}},
		{18, 13, Account{Calls: 1, Done: 1, Waiting: 6, Walking: 3, Working: 5}},
		{50, 13, Account{Calls: 1, Done: 1, Waiting: 6, Walking: 3, Working: 5}},
	} {
		c.run(step.at)
		assert.Equal(t, step.want, task.Account(), "at %v s", step.at)
		assert.Equal(t, Seconds(step.arrival), task.Arrival(), "at %v s", step.at)
		assert.Equal(t, step.at >= 18, task.Idle(), "at %v s", step.at)
	}
}

func TestAccountSum(t *testing.T) {
	a := Account{Calls: 1, Done: 9, Waiting: 2, Walking: 3, Working: 4}
	a.Add(Account{Calls: 10, Done: 90, Waiting: 20, Walking: 30, Working: 40})
	assert.Equal(t, Account{Calls: 11, Done: 99, Waiting: 22, Walking: 33, Working: 44}, a)
	assert.Equal(t, Seconds(77), a.Busy())
}

// Whatever the calls, the servers' time is shared out among the tasks: what the
// accounts say of walking and working is what the servers were busy.
func TestAccountsBalance(t *testing.T) {
	shops := interference(6, 2, made(NewGamma(0.3, 1)), 3)
	for _, s := range shops {
		assert.InDelta(t, 6, s.running+s.waiting+s.busy, 1e-9)
		assert.LessOrEqual(t, s.busy, 2.0)
		assert.Greater(t, s.busy, 0.5)
	}
}

func TestPoolReset(t *testing.T) {
	c := newCrew(1)
	a, b := c.task("a", 1, 5), c.task("b", 1, 1)
	a.Call(0, 0)
	b.Call(0, 0)
	c.run(3)
	c.shop.Reset()
	c.pool.Reset(2)
	assert.Equal(t, []Account{{}, {}}, []Account{a.Account(), b.Account()})
	assert.Equal(t, Seconds(math.Inf(1)), a.Arrival(), "nothing of the last run is left")
	c.run(20)
	c.want(t, "")
	a.Call(0, 0)
	b.Call(0, 0)
	c.run(40)
	c.want(t, "22 b, 26 a")
}

func TestPoolRefuses(t *testing.T) {
	c := newCrew(1)
	a, b := c.task("a", 1, 1), c.task("b", 1, 1)
	a.Call(0, 0)
	assert.Panics(t, func() { a.Call(0, 0) }, "in hand")
	b.Call(0, 0)
	assert.Panics(t, func() { b.Call(0, 0) }, "waiting")
	assert.Panics(t, func() { b.Hasten(0, math.NaN()) }, "a deadline of NaN")
	assert.Panics(t, func() { newCrew(1).task("nan", 0, Seconds(math.NaN())).Call(0, 0) }, "work of NaN")
	assert.Panics(t, func() { newCrew(1).task("past", 0, -1).Call(0, 0) }, "work below 0")
}

func TestPoolAllocatesNothing(t *testing.T) {
	q := newQueue(200, 1.25, made(NewExponential(1)))
	q.start(0, math.MaxInt)
	q.run(1000)
	assert.Zero(t, testing.AllocsPerRun(10, func() { q.run(q.shop.Now() + 1000) }))
	assert.Zero(t, testing.AllocsPerRun(10, func() { q.start(1, math.MaxInt) }))
}

// A call that is taken back is served by nobody, and whoever was at it is free at once.
func TestTaskIsDropped(t *testing.T) {
	c := newCrew(1)
	a, b, d := c.task("a", 1, 5), c.task("b", 1, 1), c.task("d", 1, 1)
	a.Call(0, 0)
	b.Call(0, 0)
	d.Call(0, 0)
	c.run(3)
	b.Drop()
	a.Drop()
	c.pool.Dispatch()
	c.run(20)
	c.want(t, "5 d")
	assert.Equal(t, Account{}, a.Account())
	a.Drop()
	a.Call(0, 0)
	c.run(40)
	c.want(t, "5 d, 26 a")
}
