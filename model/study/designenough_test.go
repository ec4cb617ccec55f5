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

// Where no shift of any design reaches the target, what delivers most comes nearest.
func TestNearestWhereNoneReaches(t *testing.T) {
	a := &DesignAnswer{
		Finalists:  []DesignOne{{Name: "base", Within: true, Reaches: &Proportion{}}, {Name: "A", Within: true, Price: 900, Reaches: &Proportion{}}, {Name: "B", Within: true, Price: 100, Reaches: &Proportion{}}},
		Comparison: &ComparisonAnswer{Lines: []LineAnswer{{NetRate: NetRate{Mean: 5270}}, {NetRate: NetRate{Mean: 10990}}, {NetRate: NetRate{Mean: 10700}}}},
	}
	a.fewest(0.9)
	assert.Equal(t, 1, a.Best)
	assert.False(t, a.Reached)
	a.Finalists[2].Reaches = &Proportion{Share: 0.01}
	a.fewest(0.9)
	assert.Equal(t, 2, a.Best, "some of its shifts do")
}
