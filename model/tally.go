package model

// tally counts something at each station. To count it at many stations costs no more than at one:
// eight are counted at a time.
type tally struct {
	lately []uint64 // a byte for each station, in order
	adds   int      // to these bytes, which hold 255
	before []int64  // what was counted before
}

func newTally(stations int) tally {
	words := (stations + 7) / 8
	return tally{lately: make([]uint64, words), before: make([]int64, 8*words)}
}

func (t *tally) begin() {
	clear(t.lately)
	clear(t.before)
	t.adds = 0
}

// add counts one at each station of a mask.
func (t *tally) add(stations uint64) {
	if t.adds == 255 {
		t.carry()
	}
	t.adds++
	for k := range t.lately {
		t.lately[k] += bytesOf[uint8(stations)]
		stations >>= 8
	}
}

// carry makes room in the bytes.
func (t *tally) carry() {
	for i := range t.before {
		t.before[i] = t.of(i)
	}
	clear(t.lately)
	t.adds = 0
}

// of returns what was counted at a station.
func (t *tally) of(i int) int64 {
	return t.before[i] + int64(uint8(t.lately[i>>3]>>(8*uint(i&7))))
}

// bytesOf has for each mask of eight stations a byte of 1 for each that is in it.
var bytesOf = func() (b [256]uint64) {
	for mask := range b {
		for i := range 8 {
			b[mask] |= uint64(mask>>i&1) << (8 * i)
		}
	}
	return b
}()
