package model

import (
	"slices"

	"netrate/sim"
)

// selection is which sets a feeder fed, where it feeds only a share of them. Of the sets
// between two moments only their number is drawn, from a binomial distribution; which
// ones they were stays open until somebody asks. That is exact: given the number, all
// choices of that many sets are equally likely.
type selection struct {
	share   float64 // of ordinary sets that were fed: sets at which nothing unusual was drawn
	random  *sim.Stream
	settled int64 // sets handled and decided on
	fed     int64 // of the ordinary ones: sets that were fed
	used    int64 // pieces that left the hopper
	good    int64 // pieces in sets that have left the line as ordinary sets
	batches []batch
}

// batch is some sets in a row of which it is known how many were fed.
type batch struct {
	last sim.Cycles // number of its last set
	sets int64
	fed  int64
}

func (c *selection) begin() {
	c.settled, c.fed, c.used, c.good = 0, 0, 0, 0
	c.batches = c.batches[:0]
}

// settle decides on the sets up to number last that have been handled since it was last
// called. Nobody will ask about sets before oldest any more.
func (c *selection) settle(handled int64, last, oldest sim.Cycles) {
	n := handled - c.settled
	if n <= 0 {
		return
	}
	c.forget(oldest)
	fed := c.random.Binomial(n, c.share)
	c.settled += n
	c.fed += fed
	c.used += fed
	c.batches = append(c.batches, batch{last, n, fed})
}

// single notes a set decided on by itself, and how many pieces it got. Where those are
// on record elsewhere nobody will ask about them here.
func (c *selection) single(set sim.Cycles, pieces int8, recorded bool) {
	c.settled++
	c.used += int64(pieces)
	if !recorded {
		c.batches = append(c.batches, batch{set, 1, int64(pieces)})
	}
}

// reveal decides whether an ordinary set that was handled was fed, and returns how many
// pieces it got. It is asked once for each set.
func (c *selection) reveal(set sim.Cycles) int8 {
	for i := range c.batches {
		b := &c.batches[i]
		if b.last < set {
			continue
		}
		fed := c.random.Chance(float64(b.fed) / float64(b.sets))
		b.sets--
		if !fed {
			return 0
		}
		b.fed--
		return 1
	}
	panic("model: asked about a set that the feeder has not handled")
}

// singleOut decides whether an ordinary set that was handled was fed, and keeps that for when
// somebody asks. Sets are singled out from the last one down.
func (c *selection) singleOut(set sim.Cycles) {
	i := slices.IndexFunc(c.batches, func(b batch) bool { return b.last >= set })
	b := &c.batches[i]
	if b.last == set && b.sets == 1 {
		return
	}
	fed := int64(0)
	if c.random.Chance(float64(b.fed) / float64(b.sets)) {
		fed = 1
	}
	b.last, b.sets, b.fed = set-1, b.sets-1, b.fed-fed
	c.batches = slices.Insert(c.batches, i+1, batch{set, 1, fed})
}

// forget drops the batches whose sets have all left the line. Those of their pieces that
// nobody asked about are in good sets.
func (c *selection) forget(oldest sim.Cycles) {
	n := 0
	for n < len(c.batches) && c.batches[n].last < oldest {
		c.good += c.batches[n].fed
		n++
	}
	if n > 0 {
		c.batches = c.batches[:copy(c.batches, c.batches[n:])]
	}
}

// inGoodSets returns the pieces in good sets, once all other sets have been asked about.
func (c *selection) inGoodSets() int64 {
	n := c.good
	for _, b := range c.batches {
		n += b.fed
	}
	return n
}

// ask returns how many pieces an ordinary set got, of which perhaps nothing is known yet.
func (c *selection) ask(set sim.Cycles) int8 {
	if n := len(c.batches); n > 0 && c.batches[n-1].last >= set {
		return c.reveal(set)
	}
	c.settled++
	if !c.random.Chance(c.share) {
		return 0
	}
	c.fed++
	c.used++
	return 1
}
