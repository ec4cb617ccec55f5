package accept

import (
	"fmt"
	"math"

	"netrate/sim/portable"
)

// Sequential is a sequential probability ratio test: after a length n of test the sum of what was
// seen lies between two parallel lines, or the test is over. A line is accepted once the sum is at
// most Slope × n − Accept, and rejected once it is at least Slope × n + Reject.
//
// Source: Wald, Sequential Analysis (1947), with his lines at ln((1 − β)/α) and ln(β/(1 − α)) (from
// memory).
type Sequential struct {
	Slope  float64 // by which both lines rise per unit of length
	Accept float64 // above 0: how far the lower line lies below Slope × n
	Reject float64 // above 0: how far the upper line lies above it
}

// SequentialEvents returns the test of a rate; the sum is that of the events.
func SequentialEvents(good, bad float64, r Risks) Sequential {
	levels(good, bad, r)
	step := portable.Log(bad / good)
	return wald(r, step, (bad-good)/step)
}

// SequentialShare returns the test of a share; the sum is that of the defective pieces, and the
// length is in pieces.
func SequentialShare(good, bad float64, r Risks) Sequential {
	levels(good, bad, r)
	sound := portable.Log1p(-good) - portable.Log1p(-bad)
	step := portable.Log(bad/good) + sound
	return wald(r, step, sound/step)
}

// SequentialTimes returns the test of the mean of lognormal times with the coefficient of variation
// cv; the sum is that of their natural logarithms, and the length is the number of times.
func SequentialTimes(good, bad, cv float64, r Risks) Sequential {
	levels(good, bad, r)
	variance := portable.Log1p(float64(cv * cv))
	half := float64(variance / 2)
	return SequentialNormal(portable.Log(good)-half, portable.Log(bad)-half, math.Sqrt(variance), r)
}

// SequentialNormal returns the test of the mean of normal numbers with a known standard deviation;
// good must be below bad. The sum is that of the numbers, and the length is how many they are.
func SequentialNormal(good, bad, sd float64, r Risks) Sequential {
	if err := r.Check(); err != nil {
		panic("accept: " + err.Error())
	}
	if !(good < bad && sd > 0) {
		panic(fmt.Sprintf("accept: means of %g and %g with a standard deviation of %g", good, bad, sd))
	}
	return wald(r, (bad-good)/float64(sd*sd), (good+bad)/2)
}

// wald returns the test in which the logarithm of the likelihood ratio rises by step for each unit of
// the sum above the slope.
func wald(r Risks, step, slope float64) Sequential {
	return Sequential{
		Slope:  slope,
		Accept: portable.Log((1-r.Seller)/r.Buyer) / step,
		Reject: portable.Log((1-r.Buyer)/r.Seller) / step,
	}
}

// Expected returns Wald’s approximation of the mean length of the test, for a line of which mean is
// seen per unit of length and which passes with the probability passes. It leaves out by how far the
// sum is beyond a line when it crosses it. The mean must not be Slope.
func (s Sequential) Expected(mean, passes float64) float64 {
	return (float64((1-passes)*s.Reject) - float64(passes*s.Accept)) / (mean - s.Slope)
}
