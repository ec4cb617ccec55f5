package study

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim"
)

// Of designs with as many operators the cheapest that is enough is found, however much more others deliver:
// nothing cheaper reaches the target in clearly more shifts than are asked for. By the first shifts alone,
// in which those that deliver less are dropped, it would be passed over in some problems.
func TestDesignFindsTheCheapestThatIsEnough(t *testing.T) {
	dear, dearFirst := 0, 0
	for n := range uint64(10) {
		d := newKnownDesign(200 + n)
		rates := sim.Sample{}
		for _, x := range everyChoice(d.Options) {
			rates = append(rates, d.rate(x))
		}
		d.Goal, d.Share, d.Target = DesignOperators, 0.8, rates.Quantile(0.4)-200
		a, err := d.Ask(t.Context(), nil)
		require.NoError(t, err)

		s := &designSearch{Design: &d.Design}
		require.NoError(t, s.combine(t.Context()))
		require.NoError(t, s.onPaper(t.Context()))
		first, cheapest := Number(math.Inf(1)), Number(math.Inf(1))
		look := func(shifts int, share float64, price *Number) {
			for _, c := range pointers(s.all) {
				c.figures = designSums{}
			}
			require.NoError(t, s.search(t.Context(), pointers(s.all), 0, shifts, func(int, sim.Sample) {}))
			for _, c := range s.all {
				if c.figures.hits >= share*c.figures.shifts {
					*price = min(*price, Number(c.price))
				}
			}
		}
		look(designFirst, d.Share, &first)
		look(400, d.Share+0.04, &cheapest)
		if cheapest < a.Finalists[a.Advice].Price {
			dear++
		}
		if cheapest < first {
			dearFirst++
		}
	}
	assert.Zero(t, dear)
	assert.Positive(t, dearFirst, "this test cannot fail")
}
