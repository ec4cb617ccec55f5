package study_test

import (
	"context"
	"fmt"
	"strings"

	"netrate/model/runs"
	"netrate/model/study"
	"netrate/scenarios"
	"netrate/scenarios/stoplog"
	"netrate/sim"
)

// invented is a log of two days and its counts; no line has written it.
const (
	inventedStops = `Start,Station,Cause,Duration (s)
2026-03-02 06:10:00,letter,misfeed,41
2026-03-02 06:32:00,letter,double,30
2026-03-02 07:05:00,letter,misfeed,75
2026-03-02 07:44:00,inserter,flap,52
2026-03-02 08:20:00,letter,misfeed,28
2026-03-02 08:51:00,letter,jam,96
2026-03-03 06:20:00,letter,misfeed,33
2026-03-03 06:58:00,letter,double,47
2026-03-03 07:25:00,letter,misfeed,61
2026-03-03 07:40:00,inserter,flap,40
2026-03-03 08:02:00,letter,misfeed,25
2026-03-03 08:30:00,letter,double,38
`
	inventedCounts = `Day,Station,Feeds
2026-03-02,letter,2400
2026-03-03,letter,2100
2026-03-02,card,2400
2026-03-03,card,2100
2026-03-02,inserter,2400
2026-03-03,inserter,2100
`
)

// readInvented reads both.
func readInvented() (*study.Log, error) {
	log := &study.Log{}
	if _, err := stoplog.AddCounts(log, strings.NewReader(inventedCounts), stoplog.Mapping{}); err != nil {
		return nil, err
	}
	_, err := stoplog.AddStops(log, strings.NewReader(inventedStops), stoplog.Mapping{})
	return log, err
}

// What a log says of its stations: how often each fault comes, and for how long they stop the
// line.
func ExampleFit() {
	log, err := readInvented()
	if err != nil {
		panic(err)
	}
	answer, err := study.Fit{Log: log, Seed: 1}.Ask(context.Background(), nil)
	if err != nil {
		panic(err)
	}
	for _, s := range answer.Stations {
		for _, f := range s.Faults {
			fmt.Printf("%s, %s: %d in %d feeds, at most one in %.0f\n", s.Name, f.Called, f.Rate.Faults, f.Rate.Feeds, 1/f.Rate.AtMost)
		}
		if c := s.Clearing.Chosen; c != nil {
			fmt.Printf("%s: cleared in %.0f ± %.0f s, spread like the %s\n", s.Name, c.Mean(), c.MeanSE(), c.Kind)
		}
	}
	// Output:
	// letter, misfeed: 6 in 4500 feeds, at most one in 380
	// letter, double: 3 in 4500 feeds, at most one in 581
	// letter, jam: 1 in 4500 feeds, at most one in 949
	// letter: cleared in 47 ± 7 s, spread like the lognormal
	// card, any fault: 0 in 4500 feeds, at most one in 1503
	// inserter, envelope misfeed: 0 in 4500 feeds, at most one in 1503
	// inserter, flap: 2 in 4500 feeds, at most one in 715
	// inserter, insertion jam: 0 in 4500 feeds, at most one in 1503
}

// Whether a line reproduces a log: the work of the log is simulated, and the log is set among
// these records. This line fails far more often than the log has it.
func ExampleReplay() {
	log, err := readInvented()
	if err != nil {
		panic(err)
	}
	scenario, err := scenarios.Load("plain.yaml", []byte(plainText))
	if err != nil {
		panic(err)
	}
	question := study.Replay{Line: scenario.Line, Log: log, Plan: sim.Plan{Seed: 1, Min: 1, Max: 399}}
	answer, err := question.Ask(context.Background(), nil)
	if err != nil {
		panic(err)
	}
	stops := answer.Tests[runs.AllStops]
	low, high := study.ReplayMiddle(stops.Simulated)
	fmt.Printf("%d sets in %d %ss\n", answer.Sets(), len(answer.Periods), answer.Period)
	fmt.Printf("stops: %.0f in the log, %.0f to %.0f simulated, P = %.3f\n", stops.Log, low, high, stops.P)
	fmt.Println("contradicted:", len(answer.Contradicted()) > 0)
	// Output:
	// 4500 sets in 2 days
	// stops: 12 in the log, 51 to 83 simulated, P = 0.005
	// contradicted: true
}
