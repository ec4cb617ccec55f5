package model

import (
	"math"

	"netrate/sim"
	"netrate/sim/portable"
)

// Lots is how the pieces of a station come in lots, of which some are worse than others. Each
// lot has a factor on the faults of the station, drawn anew: gamma with a coefficient of
// variation, of two kinds, or one of a list. The mean of the factors is 1 whichever it is, so
// that the rates of the station are the means over all lots. The zero Lots is none.
type Lots struct {
	Of      float64   // pieces of a lot, to the next whole number; 0 for none
	CV      float64   // of gamma factors; 0 for none
	Bad     float64   // share of the lots that are bad
	Times   float64   // how many times as often pieces of a bad lot fail as those of a good one
	Factors []float64 // each equally likely; taken in proportion to their mean
}

// lotted are the stations whose pieces may come in lots.
type lotted interface{ InLots() *Lots }

// LotsOf returns where a station keeps the lots that its pieces come in; nil for a kind that has
// none.
func LotsOf(s Station) *Lots {
	if s, is := s.(lotted); is {
		return s.InLots()
	}
	return nil
}

// InLots returns the lots of its pieces.
func (f *Feeder) InLots() *Lots { return &f.Lots }

// InLots returns the lots of its sheets.
func (h *Channel) InLots() *Lots { return &h.Lots }

// InLots returns the lots of its envelopes.
func (n *Inserter) InLots() *Lots { return &n.Lots }

// size returns how many pieces a lot has.
func (x *Lots) size() int64 { return max(1, int64(math.Round(x.Of))) }

// Given reports whether there are lots.
func (x *Lots) Given() bool { return x.Of > 0 }

// Spread returns the coefficient of variation of the factors.
func (x *Lots) Spread() float64 {
	switch {
	case x.CV > 0:
		return x.CV
	case x.Bad > 0:
		good := x.good()
		return math.Sqrt(float64(x.Bad*(1-x.Bad))) * good * math.Abs(x.Times-1)
	case len(x.Factors) > 0:
		mean, variance := portable.Variance(x.Factors)
		n := float64(len(x.Factors))
		return math.Sqrt(variance*(n-1)/n) / mean
	}
	return 0
}

// good returns the factor of a lot that is not bad.
func (x *Lots) good() float64 { return 1 / (1 - x.Bad + float64(x.Bad*x.Times)) }

// draw returns the factor of a lot.
func (x *Lots) draw(s *sim.Stream) float64 {
	switch {
	case x.CV > 0:
		return gammaFactor(s, x.CV)
	case x.Bad > 0:
		if s.Chance(x.Bad) {
			return x.good() * x.Times
		}
		return x.good()
	case len(x.Factors) > 0:
		return x.Factors[int(s.Uniform()*float64(len(x.Factors)))] / portable.Mean(x.Factors)
	}
	return 1
}

// gammaFactor returns a gamma number with mean 1.
func gammaFactor(s *sim.Stream, cv float64) float64 {
	shape := 1 / (cv * cv)
	return s.Gamma(shape) / shape
}

// The limits of what lots and days can be.
const (
	MostLot    = 1e9  // pieces
	LeastCV    = 1e-3 // of factors that are not all the same
	MostCV     = 10
	MostFactor = 1000
)

// lots notes what cannot be of the lots of a station.
func (c *Checks) lots(x *Lots) {
	if !x.Given() {
		none := x.Of == 0 && x.CV == 0 && x.Bad == 0 && x.Times == 0 && x.Factors == nil
		c.Require(none, "lots.of", "the lots hold %v pieces, want at least 1", x.Of)
		return
	}
	c.Require(x.Of >= 1 && x.Of <= MostLot, "lots.of", "the lots hold %v pieces, want from 1 to %d", x.Of, int64(MostLot))
	ways := 0
	for _, is := range []bool{x.CV != 0, x.Bad != 0 || x.Times != 0, x.Factors != nil} {
		if is {
			ways++
		}
	}
	c.Require(ways > 0, "lots", "it is said how large lots are, and not what they differ by: give cv, bad and times, or factors")
	c.Require(ways < 2, "lots", "what lots differ by is said in %d ways, want one: cv, bad and times, or factors", ways)
	c.factorCV(x.CV, "lots.cv")
	c.Require(x.Bad >= 0 && x.Bad < 1, "lots.bad", "bad is %v, want a share of the lots below 1", x.Bad)
	c.Require(x.Bad == 0 && x.Times == 0 || x.Bad > 0 && x.Times > 0 && x.Times <= MostFactor, "lots.times", "bad lots are %v times as bad, want a factor above 0, at most %d, and the share of bad lots", x.Times, MostFactor)
	sum := 0.0
	for _, f := range x.Factors {
		sum += f
		c.Require(f >= 0 && f <= MostFactor, "lots.factors", "a factor is %v, want from 0 to %d", f, MostFactor)
	}
	c.Require(x.Factors == nil || len(x.Factors) > 0 && sum > 0, "lots.factors", "the factors come to nothing, want at least one above 0")
}

// factorCV notes a cv that factors cannot have.
func (c *Checks) factorCV(cv float64, field string) {
	c.Require(cv == 0 || cv >= LeastCV && cv <= MostCV, field, "cv is %v, want from %v to %v", cv, LeastCV, MostCV)
}

// lotNumbers lists the numbers of lots.
func (v *Parameters) lotNumbers(x *Lots) {
	if !x.Given() {
		return
	}
	v.number("lots.of", &x.Of, "%.0f pieces")
	v.number("lots.cv", &x.CV, "%.3g")
	if x.Bad > 0 {
		v.Rate("lots.bad", &x.Bad)
	}
	v.number("lots.times", &x.Times, "%.3g times")
}
