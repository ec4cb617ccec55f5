package workbench

import (
	"sync"

	"netrate/sim"
)

// room is the net rates for which the axis of the shifts has room. It stays as it is while an answer
// gets sharper and while the line is changed a little, so that a figure moves because the line does.
type room struct{ low, high float64 }

// axis is the room of all answers, of which two may be written at once.
type axis struct {
	mu sync.Mutex
	room
}

func (x *axis) of(rates sim.Sample) []float64 {
	x.mu.Lock()
	defer x.mu.Unlock()
	return x.room.of(rates)
}

// reach is how many standard deviations from the mean there is to be room for. Of normal shifts hardly
// any is further away; bad ones reach further than good ones, and sixteen tell little of how they vary.
const reach = 5

// roomiest is how many times as wide as it would be made anew the room may be.
const roomiest = 2

// of returns the ends of the room after an answer with some net rates of shifts; nil for fewer than two.
func (r *room) of(rates sim.Sample) []float64 {
	if len(rates) < 2 {
		return nil
	}
	mean, sd := rates.Mean(), rates.SD()
	least, most := rates.Quantile(0), rates.Quantile(1)
	anew := room{max(0, min(mean-float64(reach*sd), least)), max(mean+float64(reach*sd), most)}
	both := room{min(r.low, anew.low), max(r.high, anew.high)}
	switch widest := roomiest * anew.width(); {
	case r.low <= least && most <= r.high && r.width() <= widest:
	case r.low <= mean && mean <= r.high && both.width() <= widest:
		*r = both
	default:
		*r = anew
	}
	return []float64{r.low, r.high}
}

func (r room) width() float64 { return r.high - r.low }
