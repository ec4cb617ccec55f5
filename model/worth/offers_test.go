package worth

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model/money"
	"netrate/model/runs"
)

// The lines and factors of TestWorthByHand. All in, the gate costs 30 000 · A/P − 5000 · A/F a year
// more than its running: that is 0.88687 a thousand. Its price could be higher by what it
// is worth now.
func TestOffersByHand(t *testing.T) {
	w, err := Weigh([]*runs.Study{slow(), fast()}, []*Costs{prices(), gateCosts()}, 20, 1)
	require.NoError(t, err)
	assert.InDelta(t, 69.5955, steadily(t, w.AllInPerThousand(0)), 0.00005, "it has no price")
	assert.InDelta(t, 68.556+(30_000*0.263797481-5000*0.163797481)/8000, steadily(t, w.AllInPerThousand(1)), 0.00005)
	npv := 8316*3.790786769 - 30_000 + 5000*0.620921323
	assert.InDelta(t, npv*0.263797481, steadily(t, w.Cheaper(1, 0)), 0.005)
	assert.InDelta(t, -npv*0.263797481, steadily(t, w.Cheaper(0, 1)), 0.005)
	assert.InDelta(t, 30_000+npv, steadily(t, w.BreakEvenPrice(1, 0)), 0.005)
	assert.Equal(t, 1.0, w.Cheapest(1).Share)
	assert.Zero(t, w.Cheapest(0).Share)
}

// At the break-even price the line costs what the other does; and of three lines each draw has one
// that is cheapest, though running costs alone make it another.
func TestBreakEvenPriceBreaksEven(t *testing.T) {
	dear := gateCosts()
	w, err := Weigh([]*runs.Study{slow(), fast()}, []*Costs{prices(), dear}, 20, 1)
	require.NoError(t, err)
	dear.Price = money.Fixed(steadily(t, w.BreakEvenPrice(1, 0)))
	w, err = Weigh([]*runs.Study{slow(), fast()}, []*Costs{prices(), dear}, 20, 1)
	require.NoError(t, err)
	assert.InDelta(t, 0, steadily(t, w.Gains[1].NPV), 0.005)

	dear.Price = money.Fixed(2 * dear.Price.Likely)
	w, err = Weigh([]*runs.Study{slow(), fast(), fast()}, []*Costs{prices(), dear, gateCosts()}, 20, 1)
	require.NoError(t, err)
	assert.Less(t, steadily(t, w.Lines[1].PerThousand), steadily(t, w.Lines[0].PerThousand), "what is cheapest to run")
	assert.Greater(t, steadily(t, w.AllInPerThousand(1)), steadily(t, w.AllInPerThousand(0)), "is not what is cheapest to have")
	assert.Equal(t, []float64{0, 0, 1}, []float64{w.Cheapest(0).Share, w.Cheapest(1).Share, w.Cheapest(2).Share})
}
