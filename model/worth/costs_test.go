package worth

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/model/money"
)

// prices are invented.
func prices() *Costs {
	return &Costs{
		Currency: "EUR", Life: 5, Rate: 0.10, Upkeep: money.Fixed(1500),
		LineHour: money.Fixed(50), OperatorHour: money.Fixed(30), Overtime: Overtime{Beyond: 700, Factor: 1.5},
		Insert: money.Fixed(0.01), Envelope: money.Fixed(0.02), Pieces: map[string]money.Value{"card": money.Fixed(0.05)},
		Remake: money.Fixed(1.25), Spoiled: money.Fixed(0.5), Defective: money.Fixed(20), Volume: money.Fixed(8_000_000),
	}
}

func TestCostsCheck(t *testing.T) {
	assert.NoError(t, prices().Check())
	for name, c := range map[string]struct {
		spoil func(*Costs)
		want  string
	}{
		"no currency":        {func(c *Costs) { c.Currency = "" }, "there is no currency"},
		"no life":            {func(c *Costs) { c.Life = 0 }, "life is 0 years, want from 1 to 100"},
		"rate in percent":    {func(c *Costs) { c.Rate = 8 }, "rate is 8, want a share from 0 to 1"},
		"rate NaN":           {func(c *Costs) { c.Rate = math.NaN() }, "rate is NaN, want a share from 0 to 1"},
		"price below 0":      {func(c *Costs) { c.Price.Low = -1 }, "price is from -1 to 0, want from 0 to 1e+09"},
		"price too large":    {func(c *Costs) { c.Price.High = 2e9 }, "price is from 0 to 2e+09, want from 0 to 1e+09"},
		"range turned about": {func(c *Costs) { c.Remake.Low = 2 }, "remake: low, likely and high are 2, 1.25 and 1.25, want -1e+13 ≤ low ≤ likely ≤ high ≤ 1e+13"},
		"piece NaN":          {func(c *Costs) { c.Pieces["card"] = money.Fixed(math.NaN()) }, "pieces.card: low, likely and high are NaN, NaN and NaN, want -1e+13 ≤ low ≤ likely ≤ high ≤ 1e+13"},
		"no volume":          {func(c *Costs) { c.Volume.Low = 0 }, "volume is 0 at least, want 1 or more"},
		"both volumes":       {func(c *Costs) { c.Volumes = map[string]money.Value{"letters": money.Fixed(5)} }, "there is a volume as well as volumes of jobs"},
		"a job of nothing": {func(c *Costs) {
			c.Volume, c.Volumes = money.Value{}, map[string]money.Value{"letters": {Likely: 1, High: 2}}
		}, "volumes.letters is 0 at least, want 1 or more"},
		"overtime for less":   {func(c *Costs) { c.Overtime.Factor = 0.5 }, "overtime is 0.5 times the pay beyond 700 hours, want 1 or more beyond 0 or more"},
		"overtime beyond NaN": {func(c *Costs) { c.Overtime.Beyond = math.NaN() }, "overtime is 1.5 times the pay beyond NaN hours, want 1 or more beyond 0 or more"},
	} {
		t.Run(name, func(t *testing.T) {
			wrong := prices()
			c.spoil(wrong)
			assert.EqualError(t, wrong.Check(), c.want)
		})
	}
}

// Each value has random streams of its own: a change of one leaves all others as they were, and the
// same value of two lines is as high in its range.
func TestCostsDraw(t *testing.T) {
	wide := func(scale float64) money.Value { return money.Value{Low: scale, Likely: 2 * scale, High: 4 * scale} }
	a, b := prices(), prices()
	a.Price, a.Remake = wide(1), wide(1)
	b.Price, b.Remake, b.Upkeep = wide(10), wide(1), wide(5)
	for k := range 20 {
		x, y := a.draw(1, k), b.draw(1, k)
		assert.InDelta(t, 10*x["price"], y["price"], 1e-9)
		assert.Equal(t, x["remake"], y["remake"])
		assert.NotEqual(t, x["price"], x["remake"])
		assert.Equal(t, 0.05, x["pieces.card"])
		assert.NotEqual(t, x["price"], a.draw(2, k)["price"])
	}
}

func TestShares(t *testing.T) {
	c := pricesOfBoth()
	c.Volumes["adverts"] = money.Value{Low: 1_000_000, Likely: 5_000_000, High: 9_000_000}
	jobs, shares := c.Shares()
	assert.Equal(t, []string{"adverts", "cards", "letters"}, jobs)
	assert.InDeltaSlice(t, []float64{0.5, 0.1, 0.4}, shares, 1e-12)
	var names []string
	for _, x := range c.Values() {
		names = append(names, x.Name)
	}
	assert.Subset(t, names, []string{"volumes.adverts", "volumes.cards", "volumes.letters"})
	assert.NotContains(t, names, "volume")
	jobs, _ = prices().Shares()
	assert.Empty(t, jobs)
}
