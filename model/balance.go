package model

import (
	"fmt"
	"math"

	"netrate/sim"
)

// Balance returns an error that names the first ledger that does not balance: sets,
// time, or the pieces of a hopper. Sets and pieces balance exactly, time to a millionth
// of the shift.
func (o *Outcome) Balance() error {
	s := o.Sets
	if sum := s.Good + s.Defective + s.Diverted + s.Outsorted + s.Spoiled + s.OnLine; sum != s.Started {
		return fmt.Errorf("the ledger of sets does not balance: %d started, %d accounted for (%+v)", s.Started, sum, s)
	}
	if s.Good < 0 {
		return fmt.Errorf("the ledger of sets has %d good sets", s.Good)
	}
	lost, bad := int64(0), int64(0)
	for i := range o.Stations {
		for f, n := range o.Stations[i].Lost {
			lost += n
			bad += o.Stations[i].Defective[f]
		}
	}
	if bad != s.Defective {
		return fmt.Errorf("the ledger of defective sets does not balance: %d by cause, %d delivered", bad, s.Defective)
	}
	if sum := s.Defective + s.Diverted + s.Outsorted + s.Spoiled; lost != sum {
		return fmt.Errorf("the ledger of sets lost does not balance: %d by cause, %d by fate", lost, sum)
	}
	stopped := o.stood()
	if gap := math.Abs(float64(o.Time.Shift - o.Time.Running - o.Time.Breaks - stopped)); !(gap <= 1e-6*float64(o.Time.Shift)) {
		return fmt.Errorf("the ledger of time does not balance: shift %v s, running %v s, breaks %v s, stopped %v s", o.Time.Shift, o.Time.Running, o.Time.Breaks, stopped)
	}
	for i := range o.Stations {
		p := o.Stations[i].Pieces
		if sum := p.Good + p.Defective + p.Diverted + p.Outsorted + p.Spoiled + p.OnLine + p.Left; sum != p.Loaded {
			return fmt.Errorf("the ledger of pieces of %s does not balance: %d loaded, %d accounted for (%+v)", o.Stations[i].Name, p.Loaded, sum, p)
		}
	}
	return nil
}

// stood returns how long the line stood for stops.
func (o *Outcome) stood() (all sim.Seconds) {
	for i := range o.Stations {
		stops := &o.Stations[i].Stops
		for k := range stops {
			all += stops[k].Total()
		}
	}
	return all
}
