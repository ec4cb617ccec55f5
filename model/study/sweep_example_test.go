package study_test

import (
	"context"
	"fmt"

	"netrate/model"
	"netrate/model/study"
	"netrate/sim"
)

// How many operators a line needs: the answer is given while it is worked out, and at the end.
// The rates of the line are invented.
func ExampleSweep() {
	crew := study.SweepParameter{Path: "crew.operators"}
	var lines []*model.Line
	for operators := 1; operators <= 6; operators++ {
		l := twoInserts()
		l.Crew.Operators = operators
		lines = append(lines, l)
		crew.Values = append(crew.Values, study.SweepValue{Text: fmt.Sprint(operators), Number: study.Number(operators)})
	}
	q := study.Sweep{Vary: []study.SweepParameter{crew}, Lines: lines, Plan: sim.Plan{Seed: 1, Min: 100, Max: 100}}
	a, err := q.Ask(context.Background(), func(so study.Sofar[study.SweepAnswer]) {
		if so.Done == 10 {
			fmt.Printf("after %d of %d shifts %s operators are enough\n", so.Done, so.Most, so.Answer().Points[so.Answer().Enough].Values[0])
		}
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range a.Points {
		fmt.Printf("%s: %.0f ± %.0f good envelopes an hour, not shown worse than the best: %t\n", p.Values[0], p.NetRate.Mean, p.NetRate.Half, p.NotShownWorse)
	}
	fmt.Printf("%s are enough\n", a.Points[a.Enough].Values[0])
	// Output:
	// after 10 of 100 shifts 4 operators are enough
	// 1: 5685 ± 24 good envelopes an hour, not shown worse than the best: false
	// 2: 6329 ± 29 good envelopes an hour, not shown worse than the best: false
	// 3: 6509 ± 29 good envelopes an hour, not shown worse than the best: false
	// 4: 6526 ± 29 good envelopes an hour, not shown worse than the best: false
	// 5: 6527 ± 29 good envelopes an hour, not shown worse than the best: true
	// 6: 6527 ± 29 good envelopes an hour, not shown worse than the best: true
	// 5 are enough
}

// Work that is no longer wanted is cancelled; the answer is that of the shifts up to there.
func ExampleSweep_cancelled() {
	walk := study.SweepParameter{Path: "crew.walk", Unit: "s"}
	var lines []*model.Line
	for _, seconds := range []int{5, 20, 60} {
		l := twoInserts()
		l.Crew.Walk = sim.Constant(seconds)
		lines = append(lines, l)
		walk.Values = append(walk.Values, study.SweepValue{Text: fmt.Sprint(seconds, " s"), Number: study.Number(seconds)})
	}
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	q := study.Sweep{Vary: []study.SweepParameter{walk}, Lines: lines, Plan: sim.Plan{Seed: 1, Min: 100_000, Max: 100_000, Workers: 1}}
	a, err := q.Ask(ctx, func(so study.Sofar[study.SweepAnswer]) {
		if best := so.Answer(); best.Shape != study.SweepUnknown && best.Shape != study.SweepFlat {
			cancel() // a difference is shown
		}
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(a.Points[a.Best].Values[0], "is best; partial:", a.Settings.Partial)
	// Output:
	// 5 s is best; partial: true
}
