package sim

import (
	"math"
	"testing"
)

// The calendar, the streams and the pool together, as a queue with one server.

// queue is one server with work of its own and customers that arrive at random.
type queue struct {
	shop          Alarms
	pool          *Pool
	random, spans *Stream
	next          *Alarm
	interarrival  Seconds
	arrivals      int // still to come
	customers     []*Task
	idle          []*Task // customers to come or come again
}

// newQueue returns a queue for at most the given number of customers at a time.
func newQueue(customers int, interarrival Seconds, service Duration) *queue {
	q := &queue{random: NewStream("queue", "arrivals"), spans: NewStream("queue", "services"), interarrival: interarrival}
	q.pool = NewPool(&q.shop)
	q.next = q.shop.Timer(q.arrive)
	for range customers {
		var c *Task
		c = q.pool.NewTask(
			func() (walk, work Seconds) { return 0, service.Draw(q.spans) },
			func() { q.idle = append(q.idle, c) })
		q.customers = append(q.customers, c)
	}
	return q
}

// start empties the queue for another replication.
func (q *queue) start(replication, arrivals int) {
	q.random.Seed(1, replication)
	q.spans.Seed(1, replication)
	q.shop.Reset()
	q.pool.Reset(1)
	q.idle = append(q.idle[:0], q.customers...)
	q.arrivals = arrivals
	q.await()
}

func (q *queue) await() {
	if q.arrivals > 0 {
		q.arrivals--
		q.next.Set(q.shop.Now() + q.interarrival*Seconds(q.random.Exponential()))
	}
}

func (q *queue) arrive() {
	last := len(q.idle) - 1
	customer := q.idle[last]
	q.idle = q.idle[:last]
	customer.Call(0, 0)
	q.await()
}

// run runs the queue until the given time; +Inf means until it is empty for good.
func (q *queue) run(until Seconds) {
	for at, ok := q.shop.Next(); ok && at <= until; at, ok = q.shop.Next() {
		q.shop.Step()
	}
	if !math.IsInf(float64(until), 1) {
		q.shop.AdvanceTo(until)
	}
}

// waited returns the seconds that all customers together have waited by now.
func (q *queue) waited() (sum Seconds) {
	for _, c := range q.customers {
		sum += c.Account().Waiting
	}
	return sum
}

// Mean delay of the first n customers of M/M/1 that starts empty and idle, exact: no
// warm-up, many short replications. Source of the value for ρ 0.9, n 25: Law,
// Simulation Modeling and Analysis, ch. 9 (2.12; from memory); the others computed
// from the exact distribution at arrivals, no print found.
func TestFirstDelays(t *testing.T) {
	cases := []struct {
		name                  string
		interarrival, service Seconds
		n, replications       int
		delay                 float64
	}{
		{"rho .9, 10 customers", 1, .9, 10, 10_000, 1.180087},
		{"rho .9, 25 customers", 1, .9, 25, 10_000, 2.124489},
		{"rho .9, 100 customers", 1, .9, 100, 5_000, 4.134185},
		{"rho .8, 25 customers", 1.25, 1, 25, 10_000, 1.919005},
		{"rho .8, 100 customers", 1.25, 1, 100, 5_000, 3.100054},
		{"rho .5, 25 customers", 1, .5, 25, 10_000, 0.420813},
		{"rho .5, 100 customers", 1, .5, 100, 5_000, 0.480000},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			q := newQueue(c.n, c.interarrival, made(NewExponential(c.service)))
			delays := make(Sample, c.replications)
			for i := range delays {
				q.start(i, c.n)
				q.run(Seconds(math.Inf(1)))
				delays[i] = float64(q.waited()) / float64(c.n)
			}
			sees(t, delays, c.delay, 0.12, len(cases))
		})
	}
}

// Customers waiting in the long run, Lq = λ·Wq with Wq = λE[S²]/(2(1−ρ)), the formula
// of Pollaczek and Khinchine in every text. The first row: Kelton, Sadowski and
// Zupick, Simulation with Arena, problem 2.6.1. The last two: Banks, Carson, Nelson
// and Nicol, Discrete-Event System Simulation, ch. 6, two mechanics (from memory).
func TestLongRunQueue(t *testing.T) {
	cases := []struct {
		name         string
		interarrival Seconds
		service      Duration
		waiting      float64
	}{
		{"M/M/1, rho .8", 1.25, made(NewExponential(1)), 3.2},
		{"M/M/1, rho .5", 2, made(NewExponential(1)), 0.5},
		{"M/D/1, rho .8", 1.25, Constant(1), 1.6},
		{"M/D/1, rho .5", 2, Constant(1), 0.25},
		{"M/E2/1, rho .8", 1.25, made(NewGamma(1, math.Sqrt(.5))), 2.4},
		{"M/lognormal/1, rho .8", 1.25, made(NewLognormal(1, .8)), 2.624},
		{"M/lognormal/1, rho .5", 2, made(NewLognormal(1, .8)), 0.41},
		{"first mechanic", 30, made(NewGamma(24, 20./24)), 2.7111111},
		{"second mechanic", 30, made(NewGamma(25, 2./25)), 2.0966667},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			const warmUp, window = 2000, 20_000 // mean services
			q := newQueue(400, c.interarrival, c.service)
			service := c.service.Mean()
			waiting := make(Sample, 40)
			for i := range waiting {
				q.start(i, math.MaxInt)
				q.run(warmUp * service)
				before := q.waited()
				q.run((warmUp + window) * service)
				waiting[i] = float64((q.waited() - before) / (window * service))
			}
			sees(t, waiting, c.waiting, 0.15, len(cases))
		})
	}
}
