package model

// handFate returns a case of 100 cycles and no stop: where the sets go, and the pieces.
func handFate(name string, change func(l *Line, a, b *Feeder), want func(o *Outcome)) handCase {
	return handCase{name, handLine(100.5, change), func() *Outcome {
		o := handOutcome(100.5, 100.5)
		o.Cycles, o.Sets.Started = 100, 100
		want(o)
		return o
	}}
}

// handDelivered are cases in which every set comes to the delivery.
func handDelivered() []handCase {
	// delivered fills in 95 sets delivered and 5 on the line, with a pieces of A in each.
	delivered := func(o *Outcome, good, a int64) {
		allGood(o, 100)
		o.Sets.Good, o.Sets.Defective = good, 95-good
		for _, at := range []int{handA, handB, handInserter} {
			p := &o.Stations[at].Pieces
			p.Good, p.Defective = good, 95-good
		}
		o.Stations[handA].fed(100, Pieces{Good: a * good, Defective: a * (95 - good), OnLine: a * 5})
	}
	return []handCase{
		handFate("nothing goes wrong", func(*Line, *Feeder, *Feeder) {}, func(o *Outcome) {
			delivered(o, 95, 1)
		}),
		handFate("misfeeds shipped", func(_ *Line, a, _ *Feeder) {
			a.Misfeed, a.OnMisfeed = 1, Ship
		}, func(o *Outcome) {
			delivered(o, 0, 0)
			o.Stations[handA].Faults[Misfeed], o.Stations[handA].Lost[Misfeed] = 100, 95
			o.bad(handA, Misfeed, 95, 1, 95)
		}),
		handFate("doubles unnoticed", func(_ *Line, a, _ *Feeder) {
			a.Double, a.OnDouble = 1, Divert
		}, func(o *Outcome) {
			delivered(o, 0, 2)
			o.Stations[handA].Faults[Double], o.Stations[handA].Missed = 100, 100
			o.Stations[handA].Lost[Double] = 95
			o.bad(handA, Double, 95, 1, 95)
		}),
		handFate("doubles shipped", func(_ *Line, a, _ *Feeder) {
			a.Double, a.Caught, a.OnDouble = 1, 1, Ship
		}, func(o *Outcome) {
			delivered(o, 0, 2)
			o.Stations[handA].Faults[Double], o.Stations[handA].Lost[Double] = 100, 95
			o.bad(handA, Double, 95, 1, 95)
		}),
		handFate("false calls shipped", func(_ *Line, a, _ *Feeder) {
			a.FalseCalls, a.OnDouble = 1, Ship
		}, func(o *Outcome) {
			delivered(o, 95, 1)
			o.Stations[handA].FalseCalls = 100
		}),
	}
}

// handDiverted are cases in which every set leaves at the track gate.
func handDiverted() []handCase {
	// diverted fills in 98 sets diverted and 2 on the line, with a pieces of A in each.
	diverted := func(o *Outcome, a int64) {
		o.Sets.Diverted, o.Sets.OnLine = 98, 2
		o.Stations[handA].fed(100, Pieces{Diverted: 98 * a, OnLine: 2 * a})
		o.Stations[handB].fed(0, Pieces{})
		o.Stations[handInserter].fed(0, Pieces{})
		o.Stations[handGate].Removed = 98
	}
	return []handCase{
		handFate("misfeeds diverted", func(_ *Line, a, _ *Feeder) {
			a.Misfeed, a.OnMisfeed = 1, Divert
		}, func(o *Outcome) {
			diverted(o, 0)
			o.Stations[handA].Faults[Misfeed], o.Stations[handA].Lost[Misfeed] = 100, 98
		}),
		handFate("doubles diverted", func(_ *Line, a, _ *Feeder) {
			a.Double, a.Caught, a.OnDouble = 1, 1, Divert
		}, func(o *Outcome) {
			diverted(o, 2)
			o.Stations[handA].Faults[Double], o.Stations[handA].Lost[Double] = 100, 98
		}),
		handFate("defective, then condemned", func(_ *Line, a, b *Feeder) {
			a.Double = 1
			b.Misfeed, b.OnMisfeed = 1, Divert
		}, func(o *Outcome) {
			diverted(o, 2)
			o.Stations[handA].Faults[Double], o.Stations[handA].Missed = 100, 100
			o.Stations[handA].Lost[Double] = 98 // the first fault counts
			o.Stations[handB].Attempts, o.Stations[handB].Faults[Misfeed] = 99, 99
		}),
	}
}

// handOutsorted are cases in which every set leaves at the exit gate.
func handOutsorted() []handCase {
	// outsorted fills in 96 sets outsorted and 4 on the line, with a pieces of A in each.
	outsorted := func(o *Outcome, a int64) {
		o.Sets.Outsorted, o.Sets.OnLine = 96, 4
		o.Stations[handA].fed(100, Pieces{Outsorted: 96 * a, OnLine: 4 * a})
		o.Stations[handB].fed(0, Pieces{})
		o.Stations[handInserter].fed(97, Pieces{Outsorted: 96, OnLine: 1})
		o.Stations[handExit].Removed = 96
	}
	return []handCase{
		handFate("condemned twice: misfeeds outsorted, and every flap shut", func(l *Line, a, _ *Feeder) {
			a.Misfeed, a.OnMisfeed = 1, Outsort
			in := firstOf[*Inserter](l)
			in.Flap, in.OnFlap = 1, Outsort
		}, func(o *Outcome) {
			outsorted(o, 0)
			o.Stations[handA].Faults[Misfeed], o.Stations[handA].Lost[Misfeed] = 100, 96
			o.Stations[handInserter].Faults[Flap] = 97
		}),
		handFate("false calls outsorted", func(_ *Line, a, _ *Feeder) {
			a.FalseCalls, a.OnDouble = 1, Outsort
		}, func(o *Outcome) {
			outsorted(o, 1)
			o.Stations[handA].FalseCalls, o.Stations[handA].Lost[Double] = 100, 96
		}),
	}
}
