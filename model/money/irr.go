package money

import "netrate/sim/portable"

// SignChanges returns how often the flows turn from going out to coming in or back, zeros
// left out. It is once for a machine that costs first and saves afterwards.
func (f Flows) SignChanges() int {
	changes, last := 0, 0.0
	for _, x := range f {
		if x == 0 {
			continue
		}
		if last != 0 && (x > 0) != (last > 0) {
			changes++
		}
		last = x
	}
	return changes
}

// IRR returns the internal rate of return: the rate at which the net present value is 0.
//
// The rule: there is one only if the flows change sign exactly once; else ok is false. With
// one change there is exactly one such rate above −1 (Descartes' rule of signs in
// 1/(1 + rate)); with more there may be several, and none of them says what the money
// earns. ok is false, too, for a rate that rounds to −1 or is above 10⁶.
//
// Flows that come in first and go out later are a loan, and the rate is what it costs.
func (f Flows) IRR() (rate float64, ok bool, err error) {
	if err := f.Check(); err != nil {
		return 0, false, err
	}
	if f.SignChanges() != 1 {
		return 0, false, nil
	}
	f = f.trimmed()
	// The search is for log(1 + rate). At its upper end nothing counts but the first flow,
	// at its lower end nothing but the last. Eighty halvings are past the last bit.
	low, high := -1024.0, 1024.0
	for range 80 {
		middle := (low + high) / 2
		if (f.balance(middle) > 0) == (f[0] > 0) {
			high = middle
		} else {
			low = middle
		}
	}
	if rate = portable.Expm1(high); checkRate(rate) != nil {
		return 0, false, nil
	}
	return rate, true, nil
}

// trimmed returns the flows without the zeros at both ends, which no root depends on.
func (f Flows) trimmed() Flows {
	for f[0] == 0 {
		f = f[1:]
	}
	for f[len(f)-1] == 0 {
		f = f[:len(f)-1]
	}
	return f
}

// balance returns a sum that has the sign of the net present value at the rate eʸ − 1: the
// worth now for y ≥ 0, the worth at the end for others, so that nothing overflows.
func (f Flows) balance(y float64) float64 {
	at := 0
	if y < 0 {
		at = len(f) - 1
	}
	sum := 0.0
	for year, x := range f {
		sum += float64(x * portable.Exp(y*float64(at-year)))
	}
	return sum
}
