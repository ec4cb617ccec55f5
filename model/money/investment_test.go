package money

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// By the printed factors for 10 % and 5 years, A/P = .26380 and A/F = .16380: a price of
// 10 000 and a residual value of 2 000 come to 2638.0 − 327.6 = 2310.4 a year. The sum is
// computed, no print of it found.
func TestAnnualCost(t *testing.T) {
	v := Investment{Price: 10000, Life: 5, Residual: 2000, Rate: 0.10}
	cost := must(v.AnnualCost())
	assert.InDelta(t, 2310.4, cost, 0.06, "the tables have five decimals")
	assert.Greater(t, math.Abs(cost-(2638.0-2000/5.)), 1.0, "a residual value not discounted goes unseen")

	v.Upkeep = 300
	assert.InDelta(t, 2610.4, must(v.AnnualCost()), 0.06)
	assert.InDelta(t, 130520, must(v.BreakEvenVolume(20)), 3, "2610.4 at 20 a thousand")

	v.Residual = 50000
	assert.Negative(t, must(v.AnnualCost()))
	assert.Zero(t, must(v.BreakEvenVolume(20)), "it pays at any volume")
}

func TestInvestmentFlows(t *testing.T) {
	v := Investment{Price: 900, Life: 3, Residual: 50, Rate: 0.08, Saving: 400, Upkeep: 30}
	assert.Equal(t, Flows{-900, 370, 370, 420}, must(v.Flows()))
	v.Life = 1
	assert.Equal(t, Flows{-900, 420}, must(v.Flows()))
	// The flows of the spreadsheet's payment example: 10 000 for ten payments of 1037.032089
	// at 8 %/12 (documentation of a common spreadsheet, from memory, recomputed).
	loan := Investment{Price: 10000, Life: 10, Rate: 0.08 / 12, Saving: 1037.032089}
	assert.InDelta(t, 0, must(loan.NPV()), 1e-5)
}

// anyInvestment draws an investment, its saving not yet known.
func anyInvestment(t *rapid.T) Investment {
	sum := rapid.Float64Range(0, 1e6)
	return Investment{
		Price:    sum.Draw(t, "price"),
		Life:     rapid.IntRange(1, 20).Draw(t, "life"),
		Residual: rapid.Float64Range(-1e4, 5e4).Draw(t, "residual value"),
		Rate:     rapid.Float64Range(-0.05, 0.5).Draw(t, "rate"),
		Upkeep:   sum.Draw(t, "upkeep"),
	}
}

// With the yearly cost as its saving an investment breaks even: its net present value is 0,
// its rate of return is its rate, and it pays back at the end of its life. The net present
// value comes from the flows, the cost from the factors.
func TestBreakEven(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := anyInvestment(t)
		v.Price += 2e5
		v.Saving = must(v.AnnualCost())
		flows := must(v.Flows())
		around := scale(flows, v.Rate)
		require.InDelta(t, 0, must(v.NPV()), 1e-11*around)
		if flows.SignChanges() == 1 {
			rate, ok, err := flows.IRR()
			require.NoError(t, err)
			require.True(t, ok)
			require.InDelta(t, v.Rate, rate, 1e-8)
			require.InDelta(t, float64(v.Life), paid(flows.DiscountedPayback(v.Rate)), 1e-9)
		}

		perThousand := rapid.Float64Range(0.01, 100).Draw(t, "saving per thousand")
		volume := must(v.BreakEvenVolume(perThousand))
		v.Saving = volume / 1000 * perThousand
		require.InDelta(t, 0, must(v.NPV()), 1e-11*around)
		v.Saving *= 1.001
		require.Greater(t, must(v.NPV()), 1e-5*v.Price, "a thousandth more volume goes unseen")
	})
}

// Price now, saving by P/A, residual value by P/F.
func TestInvestmentNPV(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := anyInvestment(t)
		v.Saving = rapid.Float64Range(-1e6, 1e6).Draw(t, "saving")
		f := must(NewFactors(v.Rate, v.Life))
		want := -v.Price + (v.Saving-v.Upkeep)*f.PA + v.Residual*f.PF
		around := scale(must(v.Flows()), v.Rate) + math.Abs(v.Residual*f.PF)
		require.InDelta(t, want, must(v.NPV()), 1e-12*around+1e-9)
	})
}

func TestInvestmentRefuses(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	good := Investment{Price: 1000, Life: 5, Residual: 100, Rate: 0.08, Saving: 300, Upkeep: 10}
	require.NoError(t, good.Check())
	for name, wrong := range map[string]struct {
		change func(*Investment)
		want   string
	}{
		"price below 0":   {func(v *Investment) { v.Price = -1 }, "price is -1, want from 0 to 1e+13"},
		"price NaN":       {func(v *Investment) { v.Price = nan }, "price is NaN, want from 0 to 1e+13"},
		"price infinite":  {func(v *Investment) { v.Price = inf }, "price is +Inf, want from 0 to 1e+13"},
		"no life":         {func(v *Investment) { v.Life = 0 }, "life is 0, want from 1 to 1200"},
		"too long a life": {func(v *Investment) { v.Life = 1201 }, "life is 1201, want from 1 to 1200"},
		"residual NaN":    {func(v *Investment) { v.Residual = nan }, "residual value is NaN, want from -1e+13 to 1e+13"},
		"all lost":        {func(v *Investment) { v.Rate = -1 }, "rate is -1, want a share above -1 and below 2 (0.08 is 8 %)"},
		"rate in percent": {func(v *Investment) { v.Rate = 8 }, "rate is 8, want a share above -1 and below 2 (0.08 is 8 %)"},
		"rate NaN":        {func(v *Investment) { v.Rate = nan }, "rate is NaN, want a share above -1 and below 2 (0.08 is 8 %)"},
		"saving NaN":      {func(v *Investment) { v.Saving = nan }, "saving is NaN, want from -1e+13 to 1e+13"},
		"upkeep below 0":  {func(v *Investment) { v.Upkeep = -1 }, "upkeep is -1, want from 0 to 1e+13"},
		"two mistakes": {
			func(v *Investment) { v.Price, v.Life = -1, -1 },
			"price is -1, want from 0 to 1e+13\nlife is -1, want from 1 to 1200",
		},
	} {
		t.Run(name, func(t *testing.T) {
			v := good
			wrong.change(&v)
			_, err := v.Flows()
			assert.EqualError(t, err, wrong.want)
			_, err = v.NPV()
			assert.EqualError(t, err, wrong.want)
			_, err = v.AnnualCost()
			assert.EqualError(t, err, wrong.want)
			_, err = v.BreakEvenVolume(20)
			assert.EqualError(t, err, wrong.want)
		})
	}
	for _, perThousand := range []float64{0, -1, nan, inf} {
		_, err := good.BreakEvenVolume(perThousand)
		assert.ErrorContains(t, err, "saving per thousand", "%v", perThousand)
	}
}
