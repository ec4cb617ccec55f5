package model

import (
	"cmp"
	"slices"

	"netrate/sim"
)

// bench is where remakes are made by hand beside the line. The track books a set that left at a
// gate when it is first asked for it, so that remakes come to be known late and in no order: it is
// noted in which cycle each arose, and when the cycles ended. A nil bench notes nothing.
type bench struct {
	runs    []benchRun
	remakes []benchRemake
	busy    sim.Seconds // until then it is at the remakes of other jobs
}

// benchRun is a stretch of cycles of one length, from the end of a cycle on.
type benchRun struct {
	from sim.Cycles
	pace sim.Pace
}

// benchRemake is some remakes that arose at once: at a known time, or at the end of a cycle.
type benchRemake struct {
	at    sim.Seconds // below 0 if it is the end of the cycle
	cycle sim.Cycles
	n     int64
}

func (b *bench) begin() { b.runs, b.remakes = b.runs[:0], b.remakes[:0] }

// paces notes that cycles end from now on as they do now.
func (b *bench) paces(s *Sim) {
	if b != nil {
		b.runs = append(b.runs, benchRun{s.clocks.Track.Now(), s.clocks.Pace()})
	}
}

// comes notes n remakes that arose at the end of a cycle.
func (b *bench) comes(cycle sim.Cycles, n int64) {
	if b != nil && n > 0 {
		b.remakes = append(b.remakes, benchRemake{-1, cycle, n})
	}
}

// comesNow notes n remakes that arise now.
func (b *bench) comesNow(s *Sim, n int64) {
	if b != nil && n > 0 {
		b.remakes = append(b.remakes, benchRemake{s.clocks.Shop.Now(), 0, n})
	}
}

// done returns when the last remake is made, if each takes so long.
func (b *bench) done(each sim.Seconds) sim.Seconds {
	free := b.busy
	for _, r := range b.came() {
		free = max(free, r.at) + sim.Seconds(sim.Seconds(r.n)*each)
	}
	return free
}

// came returns the remakes in the order in which they came, each with its time.
func (b *bench) came() []benchRemake {
	for i := range b.remakes {
		if r := &b.remakes[i]; r.at < 0 {
			r.at = b.ended(r.cycle)
		}
	}
	slices.SortFunc(b.remakes, func(x, y benchRemake) int { return cmp.Compare(x.at, y.at) })
	return b.remakes
}

// ended returns when a cycle ended: in the last stretch that began before it. One within which
// the line was halted was done over in the next.
func (b *bench) ended(cycle sim.Cycles) sim.Seconds {
	after, _ := slices.BinarySearchFunc(b.runs, cycle, func(r benchRun, c sim.Cycles) int { return cmp.Compare(r.from, c) })
	return b.runs[after-1].pace.Ends(cycle)
}
