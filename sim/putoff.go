package sim

import "math/bits"

// Together puts a timer that was never set among those that [Agenda.PutOff] puts off, by the number
// of its bit in a mask. It panics if that is taken, or if the timer or one without a number took its
// place first.
func (s *Slot) Together(bit int) {
	a := s.agenda
	if s.number >= 0 || bit < len(a.tasks) && a.tasks[bit] != nil {
		panic("sim: a timer is put off with others, and was set before, or another has its bit")
	}
	s.enterAt(bit)
	a.row |= 1 << bit
}

// PutOff sets a cycle later those timers of the mask that are set for a cycle after the given one.
// Where one then comes among the timers of its cycle is not said.
//
// All that are put off together are looked at, so that the processor need not guess how many are in
// the mask; of those not set, a cycle more changes nothing.
func (a *Agenda) PutOff(mask uint64, after Cycles) {
	from := int64(after+1) << cycleAt
	mask &= a.row
	keys := a.keys[:bits.Len64(a.row)]
	for i, key := range keys {
		if key >= from {
			keys[i] = key + int64(mask&1)<<cycleAt
		}
		mask >>= 1
	}
}

// PutOff sets the timer so many cycles later, or sooner if by is below 0, if it is set for a cycle
// after the given one, and reports whether it is. Where it then comes among the timers of its cycle
// is not said.
func (s *Slot) PutOff(by, after Cycles) bool {
	at, set := s.At()
	if !set || at <= after {
		return false
	}
	s.agenda.keys[s.number] += int64(by) << cycleAt
	return true
}
