package study

import "math"

// AcceptanceCut is a test that took other hours than those that were signed: it was broken off before them, is not
// over, or ran beyond them. Its demand is of the hours that were signed, and so it is decided only where nothing that
// can come in the hours between, or came in them, makes a difference.
type AcceptanceCut struct {
	Left   Number `json:"hours_left"`   // to those that are signed; below 0 where the test ran beyond them
	Clocks Number `json:"clocks_off_h"` // by which a test may be longer or shorter than its hours and still be judged by its demand
	Speed  Number `json:"speed"`        // of the faster of the two lines, cycles an hour
	Most   Number `json:"cycles_most"`  // in the hours between, these included: no more sets, envelopes or faults can come in them
}

// cutOf returns what is known of a test that took other hours than those that were signed.
func (t *acceptanceTest) cutOf() *AcceptanceCut {
	left := Number(t.Hours - t.Result.Hours)
	x := &AcceptanceCut{Left: left, Clocks: Number(signedWithin(t.Hours)), Speed: Number(max(t.sides[0].line.RunSpeed(), t.sides[1].line.RunSpeed()))}
	between := math.Abs(float64(left)) + float64(x.Clocks) // else a test could be decided here, and otherwise when it has run on
	x.Most = Number(math.Ceil(float64(float64(x.Speed)*between) - 1e-6))
	return x
}

// of returns between what a count was at the hours that are signed, or will be then.
func (x *AcceptanceCut) of(count float64) (fewest, most float64) {
	if x.Left < 0 {
		return math.Max(0, count-float64(x.Most)), count
	}
	return count, count + float64(x.Most)
}

// Settles reports whether a clause is decided whatever came in the hours between, and how: that of the net rate by
// the good envelopes that are demanded, and one on a count by the limit of the contract. One that has none there is
// not; nor is the clearing time, to the mean of which a single fault may add any time.
func (x *AcceptanceCut) Settles(c *AcceptanceClause, r *AcceptanceResult, demand float64) (passes, settled bool) {
	if c.Of == AcceptanceRate {
		fewest, most := x.of(r.Good)
		return fewest >= demand, fewest >= demand || most < demand
	}
	unit := c.Counts()
	if !c.Asked || unit == 0 {
		return false, false
	}
	count, pieces := r.counted(c.Of)
	fewest, most := x.of(count)
	few, many := x.of(pieces)
	passes = few > 0 && c.Passes(unit*most/few)
	return passes, passes || !c.Passes(unit*fewest/many)
}
