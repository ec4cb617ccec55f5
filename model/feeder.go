package model

import (
	"slices"

	"netrate/sim"
)

// Feeder puts one insert into each set that passes. Its probabilities are those at its
// rated speed.
type Feeder struct {
	Place
	Hopper Stock

	Misfeed    float64 // probability of each attempt
	Double     float64
	Jam        float64
	Growth     float64 // exponent of the growth of these three with speed; 0 for none
	Material   float64 // factor of the insert on these three, above 0; 1 for the material they were measured with
	Noticed    float64 // probability that a misfeed is noticed; 1 as a rule
	Caught     float64 // probability that a double is noticed; 1 as a rule
	Unwatched  bool    // a 0 of these two is meant: else Check takes it for forgotten
	FalseCalls float64 // probability that a good feed is taken for a double
	Streak     Streak
	Share      float64 // share of the sets it feeds, in (0, 1]; 1 as a rule
	Only       string  // the attribute of the sets that it feeds; "" if it is for all sets
	Stream     Stream  // what it carries if its pieces are personalised
	Envelopes  bool    // its pieces are the personalised envelopes of the sets
	Lots       Lots    // what lots they come in
	WrongStock Mixup
	Takes      Takes   // what can be put into it
	Stack      float64 // mm of pieces that the hopper holds; 0 if only their number is known

	OnMisfeed Response
	OnDouble  Response
	Clear     sim.Duration // an operator's work at a stop for a fault, after the walk; nil if all faults have a time of their own
	Clearings Clearings    // of faults that have a time of their own
}

// Streak is how misfeeds of one feeder come in a row.
type Streak struct {
	Given     bool    // whether Again is given; if not, misfeeds are independent
	Again     float64 // probability of a misfeed right after a misfeed, at any speed and material
	StopAfter int     // this many in a row stop the line; 0 for never
}

// Parameters lists its rates and times.
func (f *Feeder) Parameters(all *Parameters) {
	all.Fed(Misfeed, "misfeed", &f.Misfeed, f.Material)
	all.Fed(Double, "double", &f.Double, f.Material)
	all.Fed(Jam, "jam", &f.Jam, f.Material)
	all.Rate("false_calls", &f.FalseCalls)
	all.Rate("streak.again", &f.Streak.Again)
	all.Clear(&f.Clear, &f.Clearings, feedingClears)
	all.Duration("stream.realign", &f.Stream.Realign)
	all.Stock("hopper.refill", &f.Hopper)
	all.WrongStock(&f.WrongStock, &f.Clearings)
	all.Beside("noticed", &f.Noticed, true)
	all.Beside("caught", &f.Caught, true)
	all.Beside("growth", &f.Growth, false)
	all.Beside("material", &f.Material, false)
}

// Clone returns a copy.
func (f *Feeder) Clone() Station {
	c := *f
	c.Lots.Factors = slices.Clone(f.Lots.Factors)
	return &c
}

// Check notes what cannot be of the feeder.
func (f *Feeder) Check(l *Line, c *Checks) {
	c.Before(l, "feeders and track gates")
	factor := f.Material * l.Growth(f.Rated, f.Growth)
	c.Faults([]string{"misfeed", "double", "jam"}, []float64{f.Misfeed, f.Double, f.Jam}, factor)
	c.Growth(f.Place, f.Growth)
	c.Require(f.Material > 0 && f.Material <= 1000, "material", "material is %v, want a factor above 0, at most 1000", f.Material)
	c.noticing(f.Misfeed, f.Noticed, f.Double, f.Caught, f.Unwatched)
	c.Probability(f.FalseCalls, "false_calls")
	c.Probability(f.Streak.Again, "streak.again")
	c.Require(f.Streak.Given || f.Streak.Again == 0, "streak.again", "streak.again is %v, and Given is not set, so that misfeeds would be independent", f.Streak.Again)
	if f.Streak.Given {
		c.Require(f.Streak.Again+float64((f.Double+f.Jam)*factor) <= 1, "streak.again", "again, double and jam come to more than 1")
	}
	c.lots(&f.Lots)
	c.Require(f.Streak.StopAfter >= 0, "streak.stop_after", "stop_after is %d, want 1 or more", f.Streak.StopAfter)
	c.Require(f.Share > 0 && f.Share <= 1, "share", "share is %v, want a share above 0, at most 1", f.Share)
	f.checkOnly(l, c)
	l.checkStream(c, f.Stream)
	c.Require(f.Stream.Name == "" || f.Only != "" || f.Share == 1, "share", "%s carries a stream and feeds a share of the sets: say by only which sets have a piece of it, with an attribute of the line", f.Name)
	c.Require(!f.Envelopes || f.Stream.Name != "", "stream", "%s feeds personalised envelopes and names no stream", f.Name)
	c.Stock(f.Hopper, "hopper", false)
	c.Require(f.WrongStock.Chance == 0 || f.Stream.Name == "", "wrong_stock", "%s carries a stream: each piece is for one set, so that a wrong tray is wrong from the first set on, as a reader that matches sees at once", f.Name)
	f.loading().check(l, c)
	c.Clearings(f.Clear, &f.Clearings, stoppers(l, f, feedingClears))
	c.realigned(f.Stream, f.Clear)
	c.Response(l, Misfeed, f.OnMisfeed)
	c.Response(l, Double, f.OnDouble)
}

// feeding is what one attempt of a feeder comes to.
type feeding int

const (
	fedGood feeding = iota
	fedNothing
	fedTwo
	fedJam
	calledFalsely
)

// feedingOdds are the probabilities of what is not a plain good feed, one after the
// other: each entry is the sum of those before it and its own.
type feedingOdds [calledFalsely + 1]float64

// odds returns the probabilities of an attempt at the speed the line runs at; after says
// whether it comes right after a misfeed.
func (f *Feeder) odds(l *Line, after bool) feedingOdds {
	return f.oddsTimes(f.Material*l.Growth(f.Rated, f.Growth), after)
}

// oddsTimes returns them where a factor multiplies the rates as they are given.
func (f *Feeder) oddsTimes(factor float64, after bool) feedingOdds {
	misfeed := float64(f.Misfeed * factor)
	if after && f.Streak.Given {
		misfeed = f.Streak.Again
	}
	var o feedingOdds
	o[fedNothing] = misfeed
	o[fedTwo] = o[fedNothing] + float64(f.Double*factor)
	o[fedJam] = o[fedTwo] + float64(f.Jam*factor)
	o[calledFalsely] = o[fedJam] + float64((1-min(1, o[fedJam]))*f.FalseCalls)
	return o
}

// pick returns what an attempt comes to for a number u, uniform on [0, 1).
func (o *feedingOdds) pick(u float64) feeding {
	for k := fedNothing; k <= calledFalsely; k++ {
		if u < o[k] {
			return k
		}
	}
	return fedGood
}
