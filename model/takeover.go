package model

// kept is what a line that does jobs one after the other leaves in its hoppers, where the next pass
// begins with it.
type kept struct {
	s     *Sim
	left  []int64 // of each stock; 0 where it begins as always
	taken bool    // from another job, for the one that is next
}

// TakeOver has the next job begin with what the last job on a line has left in its hoppers: of each
// station of this line the station whose pieces stay in, -1 for none. The line before may be this one,
// or the same machine set up for something else. Without it a job begins with full hoppers.
//
// It panics unless the line works for jobs and keeps what is left, see [Begins].
func (s *Sim) TakeOver(before *Sim, of []int) {
	if s.jobs == nil || !s.line.Begins.Kept || len(of) != len(s.units) {
		panic("model: a job takes over on a line that does not keep what is left")
	}
	k := &s.jobs.kept
	for i, x := range s.stocks {
		left := int64(0)
		if from := of[x.empty.station]; from >= 0 && s.stays(x.empty.station) {
			left = before.jobs.kept.of(from)
		}
		k.left[i] = left
	}
	for _, f := range s.factors {
		if from := of[f.station]; from >= 0 && f.lots != nil && s.stays(f.station) {
			f.lots.takeOver(before.lotAt(from))
		}
	}
	k.taken = true
}

// stays reports whether what is in the hopper of a station may stay there for the next pass.
func (s *Sim) stays(station int) bool {
	x := s.line.Stations[station]
	return x.Stocked().Pieces && StreamOf(x).Name == ""
}

func newKept(s *Sim) kept { return kept{s: s, left: make([]int64, len(s.stocks))} }

// opens is when a job is put before the line.
func (k *kept) opens() {
	if !k.taken {
		clear(k.left)
	}
	k.taken = false
}

// begins has the stocks of a pass begin with what was left, once they have begun as always.
func (k *kept) begins() {
	if !k.s.line.Begins.Kept {
		return
	}
	for i, x := range k.s.stocks {
		if k.left[i] > 0 {
			x.beginWith(k.left[i])
		}
	}
	if k.s.observer != nil {
		k.s.tellLevels()
	}
}

// ends notes what is left at the end of a pass.
func (k *kept) ends() {
	if !k.s.line.Begins.Kept {
		return
	}
	cycle := k.s.clocks.Cycle()
	for i, x := range k.s.stocks {
		if k.left[i] = 0; k.s.stays(x.empty.station) {
			k.left[i] = max(0, x.left(cycle))
		}
	}
}

// of returns what was left at a station.
func (k *kept) of(station int) int64 {
	for i, x := range k.s.stocks {
		if x.empty.station == station {
			return k.left[i]
		}
	}
	return 0
}

// lotAt returns the lot that is open at a station; nil for none.
func (s *Sim) lotAt(station int) *openLot {
	for _, f := range s.factors {
		if f.station == station {
			return f.lots
		}
	}
	return nil
}

// takeOver has the next pass go on with the lot that another has left.
func (x *openLot) takeOver(from *openLot) {
	if from != nil && from.opened {
		x.factor, x.kept, x.opened, x.taken = from.factor, from.kept, true, true
	}
}
