package model

import "netrate/sim"

// handCase is a line in which nothing is left to chance, and what an hour or less of it
// comes to, worked out by hand from the rules of the package.
type handCase struct {
	name string
	line *Line
	want func() *Outcome
}

// The stations of the line of every handCase, and, as it happens, their pitches.
const (
	handA = iota
	handB
	handGate
	handInserter
	handExit
	handDelivery
)

// handLine returns a line of one cycle a second, with an operator who walks for 10.25 s
// and works for 20.25 s (30.25 s at the faults of B and of the inserter), and a restart
// delay of 4.25 s: quarters, so that nothing an operator does ends with a cycle.
func handLine(shift sim.Seconds, change func(l *Line, a, b *Feeder)) *Line {
	hopper := Stock{Capacity: 10_000, Work: sim.Constant(20.25)}
	feeder := func(name string, at int, clear sim.Duration) *Feeder {
		return &Feeder{
			Unwatched: true,
			Place:     Place{Name: name, At: at, Rated: 3600}, Hopper: hopper,
			Material: 1, Noticed: 1, Share: 1, Clear: clear,
		}
	}
	a, b := feeder("A", handA, sim.Constant(20.25)), feeder("B", handB, sim.Constant(30.25))
	l := &Line{
		Name: "worked out by hand", Speed: 3600, Shift: shift, Restart: sim.Constant(4.25),
		Stations: []Station{
			a, b,
			&TrackGate{Place: Place{Name: "gate", At: handGate}},
			&Inserter{
				Place:  Place{Name: "inserter", At: handInserter, Rated: 3600},
				Hopper: hopper, Clear: sim.Constant(30.25),
			},
			&ExitGate{Place: Place{Name: "exit", At: handExit}},
			&Delivery{Place: Place{Name: "delivery", At: handDelivery}},
		},
		Crew: Crew{Operators: 1, Walk: sim.Constant(10.25)},
	}
	change(l, a, b)
	return l
}

// handOutcome returns an outcome of a handLine with its time filled in.
func handOutcome(shift, running sim.Seconds) *Outcome {
	return &Outcome{
		Time:     Time{Shift: shift, Running: running},
		Stations: make([]StationOutcome, handDelivery+1),
	}
}

// fed fills in attempts and pieces: what was loaded and left follows from a hopper of
// 10,000 that is never refilled.
func (o *StationOutcome) fed(attempts int64, p Pieces) {
	p.Loaded = 10_000
	p.Left = p.Loaded - p.Good - p.Defective - p.Diverted - p.Outsorted - p.Spoiled - p.OnLine
	o.Attempts, o.Pieces = attempts, p
}

// bad fills in sets delivered defective that were lost to a fault, in a number of runs.
func (o *Outcome) bad(station int, f Fault, sets, runs, longest int64) {
	o.Sets.Defective, o.LongestRun = sets, longest
	o.Stations[station].Defective[f], o.Stations[station].Runs[f] = sets, runs
}

func handCases() []handCase {
	var all []handCase
	for _, some := range [][]handCase{
		handDelivered(), handDiverted(), handOutsorted(),
		handPutRight(), handTwoStops(), handOneCycle(), handOneStation(), handStanding(),
		handRefills(), handUsedUp(), handStreams(), handErrors(), handBeginnings(), handPaces(), handAttributes(),
	} {
		all = append(all, some...)
	}
	return all
}
