package sim_test

import (
	"context"
	"fmt"

	"netrate/sim"
)

// A lamp that blinks three times.
func ExampleAlarms() {
	var alarms sim.Alarms
	blinks := 0
	var lamp *sim.Alarm
	lamp = alarms.Timer(func() {
		blinks++
		fmt.Printf("%g s: blink %d\n", float64(alarms.Now()), blinks)
		if blinks < 3 {
			lamp.Set(alarms.Now() + 1.5)
		}
	})
	lamp.Set(2)
	for _, ok := alarms.Next(); ok; _, ok = alarms.Next() {
		alarms.Step()
	}
	// Output:
	// 2 s: blink 1
	// 3.5 s: blink 2
	// 5 s: blink 3
}

// A machine with cycles of half a second that stops for 10 s in its fourth cycle.
// The timer of the seventh cycle waits with it.
func ExampleClocks() {
	var clocks sim.Clocks
	clocks.Reset(0.5)
	say := func(what string) {
		fmt.Printf("%g s, %d cycles: %s\n", float64(clocks.Shop.Now()), clocks.Cycle(), what)
	}
	restart := clocks.Shop.Timer(func() {
		say("restart")
		clocks.Start()
	})
	fault := clocks.Track.Timer(func() {
		say("fault")
		clocks.Halt()
		restart.Set(clocks.Shop.Now() + 10)
	})
	last := clocks.Track.Timer(func() { say("last piece") })

	fault.Set(4)
	last.Set(7)
	clocks.Start()
	clocks.Run(20)
	fmt.Printf("ran %g s of %g s\n", float64(clocks.Ran()), float64(clocks.Shop.Now()))
	// Output:
	// 2 s, 4 cycles: fault
	// 12 s, 4 cycles: restart
	// 13.5 s, 7 cycles: last piece
	// ran 10 s of 20 s
}

// One server, two tasks: the more urgent one goes first although it was called last.
func ExamplePool() {
	var alarms sim.Alarms
	pool := sim.NewPool(&alarms)
	task := func(name string) *sim.Task {
		return pool.NewTask(
			func() (walk, work sim.Seconds) { return 5, 20 },
			func() { fmt.Printf("%g s: %s done\n", float64(alarms.Now()), name) })
	}
	refill, jam, wipe := task("refill"), task("jam"), task("wipe")
	pool.Reset(1)
	wipe.Call(3, 0)
	refill.Call(2, 0)
	jam.Call(1, 0)
	for _, ok := alarms.Next(); ok; _, ok = alarms.Next() {
		alarms.Step()
	}
	a := refill.Account()
	fmt.Printf("refill: waited %g s, walk %g s, work %g s\n", float64(a.Waiting), float64(a.Walking), float64(a.Working))
	// Output:
	// 25 s: wipe done
	// 50 s: jam done
	// 75 s: refill done
	// refill: waited 50 s, walk 5 s, work 20 s
}

// How long do 20 tasks take, one after the other, if each takes 30 s on average with a
// cv of 0.8? Replications run until the mean is known within 1 %.
func ExampleReplicate() {
	plan := sim.Plan{Seed: 1, Min: 10, Max: 10_000, Precision: 0.01}
	clearing, err := sim.NewLognormal(30, 0.8)
	if err != nil {
		fmt.Println(err)
		return
	}
	newWorker := func() (func(int, *float64) error, error) {
		random := sim.NewStream("tasks", "clearing times") // each worker has its own
		return func(replication int, total *float64) error {
			random.Seed(plan.Seed, replication)
			*total = 0
			for range 20 {
				*total += float64(clearing.Draw(random))
			}
			return nil
		}, nil
	}
	var totals sim.Sample
	_, ending, err := sim.Replicate(context.Background(), plan, newWorker, func(_ int, total *float64) float64 {
		totals = append(totals, *total)
		return *total
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	e := totals.Interval(0.95)
	fmt.Printf("%s: %.0f ± %.1f s, %d replications\n", ending, e.Mean, e.Half, e.N)
	// Output:
	// precise enough: 600 ± 5.8 s, 1280 replications
}
