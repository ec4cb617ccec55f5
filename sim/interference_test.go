package sim

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Machine interference: n machines that run for an exponential time and then wait
// for one of a few operators.

// shop is what n machines did in one replication after the warm-up.
type shop struct {
	running, waiting, busy float64 // machines running, machines waiting, operators at work: means
	rate                   float64 // calls a second
	delayed                float64 // share of the calls that found all operators busy
}

// interference runs machines whose running time has mean 1, for the given service,
// and returns one figure of each replication.
func interference(n, operators int, service Duration, replications int) []shop {
	const warmUp, window = 40, 1500 // mean running times
	var calendar Alarms
	pool := NewPool(&calendar)
	random := NewStream("machines", "luck")
	measuring, calls, delayed := false, 0, 0
	tasks, stops := make([]*Task, n), make([]*Alarm, n)
	run := func(i int) { stops[i].Set(calendar.Now() + Seconds(random.Exponential())) }
	for i := range tasks {
		tasks[i] = pool.NewTask(
			func() (walk, work Seconds) { return 0, service.Draw(random) },
			func() { run(i) })
		stops[i] = calendar.Timer(func() {
			tasks[i].Call(0, 0)
			if measuring {
				calls++
				if tasks[i].Arrival() > calendar.Now() {
					delayed++
				}
			}
		})
	}
	advance := func(until Seconds) (waiting, working Seconds) {
		for at, ok := calendar.Next(); ok && at <= until; at, ok = calendar.Next() {
			calendar.Step()
		}
		calendar.AdvanceTo(until)
		for _, t := range tasks {
			a := t.Account()
			waiting, working = waiting+a.Waiting, working+a.Working
		}
		return waiting, working
	}
	results := make([]shop, replications)
	for r := range results {
		random.Seed(1, r)
		calendar.Reset()
		pool.Reset(operators)
		for i := range tasks {
			run(i)
		}
		measuring, calls, delayed = false, 0, 0
		waited, worked := advance(warmUp)
		measuring = true
		waiting, working := advance(warmUp + window)
		waiting, working = (waiting-waited)/window, (working-worked)/window
		results[r] = shop{
			running: float64(n) - float64(waiting+working), waiting: float64(waiting), busy: float64(working),
			rate: float64(calls) / window, delayed: float64(delayed) / float64(calls),
		}
	}
	return results
}

func figure(shops []shop, pick func(shop) float64) Sample {
	s := make(Sample, len(shops))
	for i, x := range shops {
		s[i] = pick(x)
	}
	return s
}

// M/M/c//N. The times are in units of the mean running time U. Sources: 5 machines,
// U 20 h, T 2 h: Heizer and Render, Operations Management, module D. 10, U 20 min,
// T 5 min: Banks, Carson, Nelson and Nicol, ch. 6 (from memory). 22, U 2 h, T 12 min:
// Taha, Operations Research (from memory). 5, U 30 d, T 3 d: Winston, Operations
// Research (from memory; the same ratio as the first). The long digits are
// computed from the birth–death equations.
func TestMachineInterference(t *testing.T) {
	cases := []struct {
		n, operators           int
		service                Seconds // over the mean running time
		running, waiting, busy float64
	}{
		{5, 1, 0.1, 4.360478, 0.639522 - 0.436048, 0.436048},
		{5, 2, 0.1, 4.535206, 0.464794 - 0.4535206, 0.4535206}, // a server is idle 0.773240 of the time
		{10, 2, 0.25, 6.834130, 1.457338, 1.708532},
		{22, 1, 0.1, 9.995960, 11.004444, 0.999596},
		{22, 2, 0.1, 17.632226, 2.604551, 1.763223},
		{22, 3, 0.1, 19.533920, 0.512688, 1.953392},
		{22, 4, 0.1, 19.899804, 0.110217, 1.989980},
	}
	for _, c := range cases {
		t.Run(fmt.Sprintf("%d machines, %d operators", c.n, c.operators), func(t *testing.T) {
			shops := interference(c.n, c.operators, made(NewExponential(c.service)), 30)
			checks := 4 * len(cases)
			sees(t, figure(shops, func(s shop) float64 { return s.running }), c.running, 0.04, checks)
			sees(t, figure(shops, func(s shop) float64 { return s.waiting }), c.waiting, 0.4, checks)
			sees(t, figure(shops, func(s shop) float64 { return s.busy }), c.busy, 0.04, checks)
			sees(t, figure(shops, func(s shop) float64 { return s.rate }), c.running, 0.04, checks)
		})
	}
}

// The share of calls that find all operators busy. Source: Peck and Hazelwood, Finite
// Queuing Tables (1958), population 5, column D, as excerpted in Heizer and Render,
// module D. The print has three digits: the tolerance is the 99.9 % interval and half
// a unit of the last digit.
func TestFiniteQueuingTable(t *testing.T) {
	cases := []struct {
		factor    float64 // T/(T+U)
		operators int
		delayed   float64
	}{
		{.012, 1, .048},
		{.025, 1, .100},
		{.050, 1, .198},
		{.060, 1, .237},
		{.060, 2, .020},
		{.070, 1, .275},
		{.070, 2, .027},
		{.080, 1, .313},
		{.080, 2, .035},
		{.090, 1, .350},
		{.090, 2, .044},
		{.100, 1, .386},
		{.100, 2, .054},
	}
	for _, c := range cases {
		t.Run(fmt.Sprintf("X %v, M %d", c.factor, c.operators), func(t *testing.T) {
			service := made(NewExponential(Seconds(c.factor / (1 - c.factor))))
			shops := interference(5, c.operators, service, 15)
			e := figure(shops, func(s shop) float64 { return s.delayed }).Interval(1 - 0.001/float64(len(cases)))
			assert.InDelta(t, c.delayed, e.Mean, e.Half+0.0005)
			assert.Less(t, e.Half+0.0005, 0.25*c.delayed, "a bias of a quarter would go unseen")
		})
	}
}

// One operator, any service. Formula: Palm 1947, Ashcroft 1950, Takács 1962 (from
// memory); values computed with it, no print found.
func TestServiceNotExponential(t *testing.T) {
	gamma := func(mean Seconds) Duration { return made(NewGamma(mean, .8)) }
	constant := func(mean Seconds) Duration { return Constant(mean) }
	exponential := func(mean Seconds) Duration { return made(NewExponential(mean)) }
	laws := map[string]func(Seconds) Duration{"constant": constant, "gamma": gamma, "exponential": exponential}
	cases := []struct {
		n       int
		service Seconds // over the mean running time
		running map[string]float64
	}{
		{5, 0.1, map[string]float64{"exponential": 4.360478, "constant": 4.439791, "gamma": 4.386851}},
		{5, 1. / 7, map[string]float64{"exponential": 4.026964, "constant": 4.158279, "gamma": 4.068745}},
		{10, 0.1, map[string]float64{"exponential": 7.854177, "constant": 8.210033, "gamma": 7.963152}},
		{2, 0.2, map[string]float64{"exponential": 1.621622, "constant": 1.641052, "gamma": 1.628066}},
	}
	for _, c := range cases {
		for law, running := range c.running {
			t.Run(fmt.Sprintf("%d machines, service %.3g, %s", c.n, float64(c.service), law), func(t *testing.T) {
				shops := interference(c.n, 1, laws[law](c.service), 30)
				sees(t, figure(shops, func(s shop) float64 { return s.running }), running, 0.02, 12)
			})
		}
	}
}
