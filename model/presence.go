package model

import (
	"math"
	"slices"

	"netrate/sim"
)

// Presence is how many operators there are from a moment of the shift on, until the next.
type Presence struct {
	After     sim.Seconds // from the start of the shift
	Operators int
	Part      float64 // share of the time for which there is one more, from 0 to below 1
}

// Break is a break without relief: operators leave, and what calls for one waits.
type Break struct {
	After  sim.Seconds // from the start of the shift
	Length sim.Seconds
	Remain int  // operators who stay
	Stands bool // the line stands for it; else it runs on until something stops it
}

// End returns when the break is over.
func (b Break) End() sim.Seconds { return b.After + b.Length }

// Varies reports whether the number of operators changes while the line works.
func (c *Crew) Varies() bool { return c.Part > 0 || len(c.Later) > 0 || len(c.Breaks) > 0 }

// Stages returns how many operators there are over the shift, breaks left out: at least one, the
// first from its start.
func (c *Crew) Stages() []Presence {
	return append([]Presence{{Operators: c.Operators, Part: c.Part}}, c.Later...)
}

// AtLeastOne returns how many operators there are at the start, parts left out, and at least one: those
// who change a line over.
func (c *Crew) AtLeastOne() int { return max(1, c.Operators) }

// Changers returns how many operators change a line over, where it is not looked at who is at what: of those who
// are there at the start, parts left out, who may do so at any of its stations, and at least one.
func (c *Crew) Changers(line string) int {
	if c.People == nil {
		return c.AtLeastOne()
	}
	n := 0
	for _, number := range c.Able(line, Need{Does: Changing}) {
		if number < c.Operators {
			n++
		}
	}
	return max(1, n)
}

// Most returns the largest number of operators that are there at a time.
func (c *Crew) Most() int {
	most := 0
	for _, p := range c.Stages() {
		n := p.Operators
		if p.Part > 0 {
			n++
		}
		most = max(most, n)
	}
	return most
}

// Mean returns how many operators are paid in the mean of a stretch from the start of the shift.
func (c *Crew) Mean(length sim.Seconds) float64 { return c.mean(length, c.Paid) }

// Attending returns how many are there in the mean: less those on a break.
func (c *Crew) Attending(length sim.Seconds) float64 { return c.mean(length, c.There) }

func (c *Crew) mean(length sim.Seconds, of func(sim.Seconds) sim.Seconds) float64 {
	if !c.Varies() || !(length > 0) { // without a length: of a job
		return float64(c.Operators) + c.Part
	}
	return float64(of(length) / length)
}

// StandsForBreaks reports whether the line stands for a break.
func (c *Crew) StandsForBreaks() bool {
	return slices.ContainsFunc(c.Breaks, func(b Break) bool { return b.Stands })
}

// Paid returns the time of all operators together in a stretch from the start of the shift, in
// seconds: their breaks count, and of a part its share.
func (c *Crew) Paid(length sim.Seconds) sim.Seconds {
	return c.sum(length, func(p Presence, from, to sim.Seconds) sim.Seconds { return p.mean() * (to - from) })
}

// There returns the same without the breaks.
func (c *Crew) There(length sim.Seconds) sim.Seconds {
	return c.sum(length, func(p Presence, from, to sim.Seconds) sim.Seconds {
		sum := p.mean() * (to - from)
		for _, b := range c.Breaks {
			in := max(min(to, b.End())-max(from, b.After), 0)
			sum -= sim.Seconds(in * (p.mean() - p.least(b.Remain)))
		}
		return sum
	})
}

// mean returns how many there are in the mean.
func (p Presence) mean() sim.Seconds { return sim.Seconds(p.Operators) + sim.Seconds(p.Part) }

// least returns how many there are in the mean if only so many may remain.
func (p Presence) least(remain int) sim.Seconds {
	if remain > p.Operators {
		return p.mean()
	}
	return sim.Seconds(remain)
}

// sum adds up something over the stages of a stretch.
func (c *Crew) sum(length sim.Seconds, of func(p Presence, from, to sim.Seconds) sim.Seconds) sim.Seconds {
	sum, stages := sim.Seconds(0), c.Stages()
	for i, p := range stages {
		to := length
		if i+1 < len(stages) {
			to = min(to, stages[i+1].After)
		}
		if to > p.After {
			sum += of(p, p.After, to)
		}
	}
	return sum
}

// checkCrew notes what is wrong with the people.
func (l *Line) checkCrew(c *Checks) {
	x := &l.Crew
	c.Require(x.Operators >= 1 || x.Operators == 0 && x.Part > 0, "crew.operators", "the crew has %d operators, want at least 1", x.Operators)
	c.Require(x.Walk != nil, "crew.walk", "the crew has no walk time: give 0 s if it has none")
	c.Probability(x.WrongRepair, "crew.wrong_repair")
	c.Probability(x.WrongRealign, "crew.wrong_realign")
	c.Require(known(x.Order, orderNames[:]), "crew.order", "there is no order %d", int(x.Order))
	c.Require(known(x.Exhausted, exhaustedNames[:]), "crew.exhausted", "there is no place %d of stocks that are used up", int(x.Exhausted))
	c.Require(x.Technicians >= 0, "crew.technicians", "there are %d technicians, want at least 1", x.Technicians)
	before, parts := sim.Seconds(0), false
	for i, p := range x.Stages() {
		c.Require(i == 0 || p.Operators >= 0, "crew.later", "there are %d operators from a time on, want at least 0", p.Operators)
		c.Require(p.Part >= 0 && p.Part < 1, "crew.operators", "an operator is there for %v of the time, want from 0 to below 1", p.Part)
		c.Require(i == 0 || p.After > before, "crew.later", "the crew changes after %v s, want a time after the start of the shift and after the change before", float64(p.After))
		before, parts = p.After, parts || p.Part > 0
	}
	c.Require(!parts || x.Block > 0 && !math.IsInf(float64(x.Block), 0), "crew.blocks", "an operator is there for part of the time: give the length of the blocks of which it is part")
	l.checkPeople(c, c.lines)
	over := sim.Seconds(0)
	for _, b := range x.Breaks {
		c.Require(b.Length > 0 && b.After >= over && b.After > 0, "crew.breaks", "a break comes after %v s and lasts %v s, want one after the start of the shift, when the one before it is over", float64(b.After), float64(b.Length))
		c.Require(b.Remain >= 0, "crew.breaks", "%d operators remain in a break, want at least 0", b.Remain)
		over = b.End()
	}
	c.Require(l.Job.Sets == 0 || len(x.Later) == 0 && len(x.Breaks) == 0, "crew", "the crew changes by the time of a shift, or has breaks in it, and the work is a job: a job does not know when it is done")
}
