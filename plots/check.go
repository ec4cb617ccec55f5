package plots

import (
	"errors"
	"fmt"
	"math"

	"netrate/sim"
)

// A check collects what is wrong with the data of a chart.
type check struct{ errs []error }

// Numbers that can be drawn: sums of money, too. Longer ones have no room on an axis; smaller ones are
// drawn at zero.
const (
	largest  = 1e13
	smallest = 1e-9
)

// ErrTooLarge is in the error of a figure whose numbers have no room on an axis.
var ErrTooLarge = errors.New("want a number up to 10¹³")

// number notes x if it is NaN or too large. where names it, as for Sprintf.
func (c *check) number(x float64, where string, args ...any) {
	if !(math.Abs(x) <= largest) {
		c.note("%s is %v, %w", fmt.Sprintf(where, args...), x, ErrTooLarge)
	}
}

// rising notes numbers that cannot be drawn or fall from one to the next.
func (c *check) rising(xs []float64, where string, args ...any) {
	for i, x := range xs {
		c.number(x, where, args...)
		if i > 0 && x < xs[i-1] {
			c.note("%s falls from %v to %v, want it rising", fmt.Sprintf(where, args...), xs[i-1], x)
		}
	}
}

// estimate notes an estimate that cannot be drawn. An unknown half-width, +Inf, can.
func (c *check) estimate(e sim.Estimate, where string, args ...any) {
	c.number(e.Mean, where, args...)
	if !math.IsInf(e.Half, 1) && !(e.Half >= 0 && e.Half <= largest) {
		c.note("%s: half-width is %v, want a number of 0 or more", fmt.Sprintf(where, args...), e.Half)
	}
}

func (c *check) note(format string, args ...any) {
	c.errs = append(c.errs, fmt.Errorf("plots: "+format, args...))
}

// err returns the first few errors found, nil if none.
func (c *check) err() error {
	const shown = 10
	if n := len(c.errs); n > shown {
		return errors.Join(append(c.errs[:shown:shown], fmt.Errorf("plots: and %d more", n-shown))...)
	}
	return errors.Join(c.errs...)
}
