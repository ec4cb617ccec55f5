package model

import (
	"netrate/sim"
	"netrate/sim/tape"
)

// Values names all that an outcome holds, as a tape records it: see [tape.Recorded].
func (o *Outcome) Values(v *tape.Values) {
	v.Int(&o.Cycles)
	v.Int(&o.LongestRun)
	s, t := &o.Sets, &o.Time
	for _, n := range [...]*int64{&s.Started, &s.Good, &s.Defective, &s.Diverted, &s.Outsorted, &s.Spoiled, &s.OnLine} {
		v.Int(n)
	}
	seconds(v, &t.Shift, &t.Running, &t.Slow.Starting, &t.Slow.AfterJam, &t.Slow.Repeated, &t.Breaks, &o.LeftOver.Work, &o.LeftOver.Restart)
	v.Int(&o.Job.Passes)
	v.Int(&o.Job.ByHand)
	seconds(v, &o.Job.Setup, &o.Job.Hand, &o.Job.Finish)
	tape.Slice(v, &o.Stations, func(s *StationOutcome) { s.values(v) })
}

func (o *StationOutcome) values(v *tape.Values) {
	v.Text(&o.Name)
	p := &o.Pieces
	for _, n := range [...]*int64{
		&o.Attempts, &o.Missed, &o.Unnoticed, &o.FalseCalls, &o.Removed,
		&p.Loaded, &p.Good, &p.Defective, &p.Diverted, &p.Outsorted, &p.Spoiled, &p.OnLine, &p.Left,
	} {
		v.Int(n)
	}
	for _, each := range [...]*[faults]int64{&o.Faults, &o.Lost, &o.Remakes, &o.Defective, &o.Runs} {
		v.Ints(each[:])
	}
	for i := range o.Stops {
		t := &o.Stops[i]
		v.Int(&t.Count)
		seconds(v, &t.Waiting, &t.Working, &t.Restarting, &t.Starved)
	}
	for _, a := range [...]*sim.Account{&o.Stock, &o.Clearing, &o.Repair} {
		v.Int(&a.Calls)
		v.Int(&a.Done)
		seconds(v, &a.Waiting, &a.Walking, &a.Working)
	}
}

func seconds(v *tape.Values, all ...*sim.Seconds) {
	for _, x := range all {
		v.Float((*float64)(x))
	}
}
