package money

import "fmt"

// largest bounds every sum put in: up to here a float64 still tells hundredths.
const largest = 1e13

// mostPeriods bounds every number of periods: a century of months.
const mostPeriods = 1200

// mostRate bounds every rate; with it no product of a sum and a factor overflows.
const mostRate = 1e6

// checkSum returns what is wrong with a sum that must be from low up.
func checkSum(what string, x, low float64) error {
	if !(x >= low && x <= largest) {
		return fmt.Errorf("%s is %g, want from %g to %g", what, x, low, largest)
	}
	return nil
}

func checkRate(rate float64) error {
	if !(rate > -1 && rate <= mostRate) {
		return fmt.Errorf("rate is %g, want a share above -1, up to %g (0.08 is 8 %%)", rate, mostRate)
	}
	return nil
}

func checkPeriods(what string, n int) error {
	if n < 1 || n > mostPeriods {
		return fmt.Errorf("%s is %d, want from 1 to %d", what, n, mostPeriods)
	}
	return nil
}
