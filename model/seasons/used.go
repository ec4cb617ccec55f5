package seasons

import (
	"slices"

	"netrate/model"
	"netrate/sim"
	"netrate/sim/tape"
)

// Used is what some work came to that costs something by the piece. It is kept of a season whose Priced
// says which pieces are which.
type Used struct {
	Good      int64 // envelopes, with those made by hand
	Defective int64 // delivered, but not as they should be
	Spoiled   int64
	Remakes   int64
	Calls     int64       // for a technician
	Repairs   sim.Seconds // of technicians, from when they set off
	Pieces    []float64   // of each number that Priced gives; those in sets made by hand are as many as good sets have
}

// add adds a job of a line.
func (u *Used) add(line *model.Line, o *model.Outcome, priced func(model.Station) int) {
	u.Good += o.Sets.Good + o.Job.ByHand
	u.Defective += o.Sets.Defective
	u.Spoiled += o.Sets.Spoiled
	u.Remakes += o.Remakes()
	for i, station := range line.Stations {
		repair := &o.Stations[i].Repair
		u.Calls += repair.Calls
		u.Repairs += repair.Busy()
		k := priced(station)
		if k < 0 {
			continue
		}
		for len(u.Pieces) <= k {
			u.Pieces = append(u.Pieces, 0)
		}
		p := &o.Stations[i].Pieces
		u.Pieces[k] += float64(p.Good + p.Defective + p.Diverted + p.Outsorted + p.Spoiled)
		if o.Sets.Good > 0 {
			u.Pieces[k] += float64(float64(p.Good)*float64(o.Job.ByHand)) / float64(o.Sets.Good)
		}
	}
}

// Add adds what other work used.
func (u *Used) Add(b *Used) {
	u.Good, u.Defective, u.Spoiled, u.Remakes = u.Good+b.Good, u.Defective+b.Defective, u.Spoiled+b.Spoiled, u.Remakes+b.Remakes
	u.Calls, u.Repairs = u.Calls+b.Calls, u.Repairs+b.Repairs
	for k, n := range b.Pieces {
		if k == len(u.Pieces) {
			u.Pieces = append(u.Pieces, 0)
		}
		u.Pieces[k] += n
	}
}

// clear forgets all, and keeps the room for pieces.
func (u *Used) clear() {
	clear(u.Pieces)
	*u = Used{Pieces: u.Pieces}
}

// kept returns a copy.
func (u *Used) kept() Used {
	own := *u
	own.Pieces = slices.Clone(u.Pieces)
	return own
}

// Values names what is recorded of it: see [tape.Recorded].
func (u *Used) Values(v *tape.Values) {
	for _, n := range [...]*int64{&u.Good, &u.Defective, &u.Spoiled, &u.Remakes, &u.Calls} {
		v.Int(n)
	}
	v.Float((*float64)(&u.Repairs))
	tape.Slice(v, &u.Pieces, v.Float)
}
