package accept

import "netrate/sim"

// Lengths is which of some lengths of a test holds the risks, by their numbers, the shortest first; -1
// where none is known to.
type Lengths struct {
	Shortest  int // of those that may be, at which simulated tests come to no more than the risks
	Low, High int // the shortest length that holds them is not shorter, and not longer, than these
}

// Lengthen finds how long a test must be of a sum of which more is better. good and bad have what
// simulated tests of the two lines come to by each length, none of them empty; a test of each length
// passes at the limit of [Separate].
//
// Shortest is the first length that may be, such as one of whole shifts, at which neither risk is more than
// it may be. At Low, of all lengths, for the first time, neither is shown to be more than it may be, and at
// High both are shown to be less: by exact intervals of this level, each by itself. Since both risks must be
// off to one side at once the two miss the shortest length that holds the risks less often than that.
func Lengthen(good, bad []sim.Sample, r Risks, level float64, may func(number int) bool) Lengths {
	x := Lengths{-1, -1, -1}
	for k := range good {
		l := Separate(good[k], bad[k], r)
		sellerLow, sellerHigh := l.Seller.Interval(level)
		buyerLow, buyerHigh := l.Buyer.Interval(level)
		first := func(number *int, holds bool) {
			if *number < 0 && holds {
				*number = k
			}
		}
		first(&x.Shortest, may(k) && l.Holds(r))
		first(&x.Low, sellerLow <= r.Seller && buyerLow <= r.Buyer)
		first(&x.High, sellerHigh <= r.Seller && buyerHigh <= r.Buyer)
	}
	return x
}
