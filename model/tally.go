package model

import "encoding/binary"

// tally counts something at each station. To count it at many stations costs no more than at one:
// eight are counted at a time.
type tally struct {
	lately [maxStations]uint8
	words  int                // of lately that count, of eight bytes each
	adds   int                // to these bytes, which hold 255
	before [maxStations]int64 // what was counted before
}

func newTally(stations int) tally { return tally{words: (stations + 7) / 8} }

func (t *tally) begin() {
	*t = tally{words: t.words}
}

// add counts one at each station of a mask.
func (t *tally) add(stations uint64) {
	if t.adds == 255 {
		t.carry()
	}
	t.adds++
	for k := range t.words {
		word := t.lately[8*k:]
		binary.LittleEndian.PutUint64(word, binary.LittleEndian.Uint64(word)+bytesOf[uint8(stations)])
		stations >>= 8
	}
}

// carry makes room in the bytes.
func (t *tally) carry() {
	for i := range t.before {
		t.before[i] = t.of(i)
	}
	t.lately, t.adds = [maxStations]uint8{}, 0
}

// of returns what was counted at a station.
func (t *tally) of(i int) int64 {
	return t.before[uint(i)%maxStations] + int64(t.lately[uint(i)%maxStations])
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
