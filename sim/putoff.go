package sim

// Together puts a timer that was never set among those that [Agenda.PutOff] puts off, by the number
// of its bit in a mask. It panics if that is taken, or if the timer or one without a number took its
// place first.
func (s *Slot) Together(bit int) {
	a := s.agenda
	if s.key != nil || bit < len(a.slots) && a.slots[bit] != nil {
		panic("sim: a timer is put off with others, and was set before, or another has its bit")
	}
	s.enterAt(bit)
	a.row |= 1 << bit
	a.rows = a.keys[:max(len(a.rows), bit/8+1)]
}

// PutOff sets a cycle later those timers of the mask that are set for a cycle after the given one.
// Where one then comes among the timers of its cycle is not said.
//
// All that are put off together are looked at, so that the processor need not guess how many are in
// the mask; of those not set, a cycle more changes nothing.
func (a *Agenda) PutOff(mask uint64, after Cycles) {
	from := int64(after+1) << cycleAt
	mask &= a.row
	for _, k := range a.rows {
		k[0] = later(k[0], from, mask)
		k[1] = later(k[1], from, mask>>1)
		k[2] = later(k[2], from, mask>>2)
		k[3] = later(k[3], from, mask>>3)
		k[4] = later(k[4], from, mask>>4)
		k[5] = later(k[5], from, mask>>5)
		k[6] = later(k[6], from, mask>>6)
		k[7] = later(k[7], from, mask>>7)
		mask >>= 8
	}
}

// later returns a key a cycle later if the first bit of the mask is set, and it is not before the given one.
func later(key, from int64, mask uint64) int64 {
	then := key + int64(mask&1)<<cycleAt
	if key < from {
		then = key
	}
	return then
}

// PutOff sets the timer so many cycles later, or sooner if by is below 0, if it is set for a cycle
// after the given one, and reports whether it is. Where it then comes among the timers of its cycle
// is not said.
func (s *Slot) PutOff(by, after Cycles) bool {
	at, set := s.At()
	if !set || at <= after {
		return false
	}
	*s.key += int64(by) << cycleAt
	s.agenda.lately = min(s.agenda.lately, *s.key)
	return true
}
