package worth

import (
	"math"

	"netrate/model/money"
	"netrate/sim"
)

// Lines that are offered are weighed over their life by the equivalent annual cost: the one that is
// cheapest by it is cheapest in present value, whatever it is set against.

// AllInPerThousand returns what a thousand good envelopes cost with the price in it: the equivalent
// annual cost of a line for each thousand.
func (w *Worth) AllInPerThousand(line int) sim.Sample {
	sample := make(sim.Sample, w.Draws)
	for k, x := range w.Lines[line].Annual {
		sample[k] = 1000 * x / w.Volume[k]
	}
	return sample
}

// Cheaper returns by how much the equivalent annual cost of a line is below that of another.
func (w *Worth) Cheaper(line, other int) sim.Sample {
	sample := make(sim.Sample, w.Draws)
	for k, x := range w.Lines[line].Annual {
		sample[k] = w.Lines[other].Annual[k] - x
	}
	return sample
}

// Cheapest returns the probability that a line is cheaper than all others over the life. Lines that
// cost the same to the last digit are none of them the cheapest. Of a single line it is 1.
func (w *Worth) Cheapest(line int) money.Probability {
	ahead := make(sim.Sample, w.Draws)
	for k := range ahead {
		ahead[k] = math.Inf(1)
		for other := range w.Lines {
			if other != line {
				ahead[k] = min(ahead[k], w.Lines[other].Annual[k]-w.Lines[line].Annual[k])
			}
		}
	}
	return money.ChanceOfGain(ahead, chanceLevel)
}

// BreakEvenPrice returns the price at which a line would cost over its life what another does, all
// else as it is: its own price and the present value of what it is cheaper by. It is below 0 where
// the line would be too dear as a gift.
func (w *Worth) BreakEvenPrice(line, other int) sim.Sample {
	factors, err := money.NewFactors(w.Rate, w.Life)
	if err != nil {
		panic("worth: weighed at no rate and life: " + err.Error())
	}
	sample := w.Cheaper(line, other)
	for k, x := range sample {
		sample[k] = w.Lines[line].Price[k] + x/factors.AP
	}
	return sample
}
