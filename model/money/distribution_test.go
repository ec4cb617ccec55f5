package money

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim"
)

// An invented machine.
var machine = Uncertain{
	Price:    Value{90_000, 100_000, 130_000},
	Life:     8,
	Residual: Value{0, 5_000, 20_000},
	Rate:     0.08,
	Saving:   Value{10_000, 22_000, 30_000},
	Upkeep:   Value{1_000, 2_000, 4_000},
}

// The net present value is linear in the figures, so its mean is that of the mean figures:
// exact, computed by the factors. Likely figures instead of mean ones must be seen.
func TestNPVsMean(t *testing.T) {
	f := must(NewFactors(machine.Rate, machine.Life))
	npv := func(of func(Value) float64) float64 {
		return -of(machine.Price) + (of(machine.Saving)-of(machine.Upkeep))*f.PA + of(machine.Residual)*f.PF
	}
	sample := must(machine.NPVs(20_000, 1))
	mean, likely := npv(Value.Mean), npv(func(v Value) float64 { return v.Likely })
	assert.True(t, agrees(sample, mean, 1), "%v, want %v", sample.Mean(), mean)
	assert.False(t, agrees(sample, likely, 1), "figures taken at their likeliest go unseen")
	assert.False(t, agrees(sample, mean+0.02*machine.Price.Likely, 1), "a bias of 2 %% of the price goes unseen")
}

// With one uncertain figure the probability of a gain is the share of the triangle above
// the break-even saving: exact, computed. An even spread from low to high must be seen.
func TestChanceOfGain(t *testing.T) {
	one := Uncertain{Price: Fixed(100_000), Life: 8, Rate: 0.08, Saving: Value{10_000, 22_000, 30_000}}
	saving := must(Investment{Price: 100_000, Life: 8, Rate: 0.08}.AnnualCost())
	want := 1 - one.Saving.cdf(saving)
	even := (one.Saving.High - saving) / (one.Saving.High - one.Saving.Low)

	p := ChanceOfGain(must(one.NPVs(20_000, 1)), 0.999)
	assert.True(t, p.Low <= want && want <= p.High, "%+v, want %v", p, want)
	assert.False(t, p.Low <= even && even <= p.High, "an even spread goes unseen: %+v, %v", p, even)
	assert.Equal(t, 20_000, p.N)
	assert.Equal(t, 0.999, p.Level)
}

// 15 of 148 and none of 20: Newcombe, Statistics in Medicine 17 (1998) 857–872, Table I,
// .0578 to .1617 and 0 to .1684. A value of 0 is no gain.
func TestChanceOfGainCounts(t *testing.T) {
	sample := make(sim.Sample, 148)
	for i := range 15 {
		sample[i] = 1
	}
	p := ChanceOfGain(sample, 0.95)
	assert.Equal(t, 15.0/148, p.Share)
	assert.True(t, prints(p.Low, ".0578") && prints(p.High, ".1617"), "%+v", p)

	p = ChanceOfGain(make(sim.Sample, 20), 0.95)
	assert.Zero(t, p.Share)
	assert.Zero(t, p.Low)
	assert.True(t, prints(p.High, ".1684"), "%+v", p)

	assert.Panics(t, func() { ChanceOfGain(nil, 0.95) })
	assert.Panics(t, func() { ChanceOfGain(sim.Sample{1, math.NaN()}, 0.95) })
	assert.Panics(t, func() { ChanceOfGain(sim.Sample{1}, 95) })
}

// Each draw has its own luck, and nothing but the seed and its number decides it.
func TestDistributionRepeats(t *testing.T) {
	all := must(machine.NPVs(50, 7))
	assert.Equal(t, all[:20], must(machine.NPVs(20, 7)))
	assert.NotEqual(t, all, must(machine.NPVs(50, 8)))
	assert.NotEqual(t, all[0], all[1])
}

// The same luck for two alternatives: a machine dearer by a fixed sum loses just that sum
// in every draw, although its price is fixed in one and a range in the other.
func TestDistributionSharesLuck(t *testing.T) {
	cheap, dear := machine, machine
	cheap.Price, dear.Price = Fixed(100_000), Fixed(107_000)
	a, b := must(cheap.NPVs(200, 3)), must(dear.NPVs(200, 3))
	dear.Price = Value{107_000, 107_000, 108_000}
	c := must(dear.NPVs(200, 3))
	for i := range a {
		require.InDelta(t, 7000, a[i]-b[i], 1e-6)
		require.True(t, b[i]-c[i] >= -1e-6 && b[i]-c[i] <= 1000, "draw %d: %v", i+1, b[i]-c[i])
	}
}

func TestDistributionRefuses(t *testing.T) {
	one := func(*sim.Stream) (float64, error) { return 1, nil }
	for _, n := range []int{0, -1, mostDraws + 1} {
		_, err := Distribution(n, 1, one)
		assert.ErrorContains(t, err, "want from 1 to 10000000", "%d", n)
	}
	fault := errors.New("no such machine")
	calls := 0
	_, err := Distribution(5, 1, func(*sim.Stream) (float64, error) {
		if calls++; calls == 3 {
			return 0, fault
		}
		return 1, nil
	})
	assert.ErrorIs(t, err, fault)
	assert.EqualError(t, err, "draw 3: no such machine")
	assert.Equal(t, 3, calls)
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		_, err := Distribution(5, 1, func(*sim.Stream) (float64, error) { return x, nil })
		assert.ErrorContains(t, err, "draw 1: the figure is")
	}
}

func TestUncertainRefuses(t *testing.T) {
	for name, wrong := range map[string]struct {
		change func(*Uncertain)
		want   string
	}{
		"range turned about": {func(u *Uncertain) { u.Price = Value{3, 2, 1} }, "price: low, likely and high are 3, 2 and 1, want -1e+13 ≤ low ≤ likely ≤ high ≤ 1e+13"},
		"NaN":                {func(u *Uncertain) { u.Saving.Likely = math.NaN() }, "saving: low, likely and high are 10000, NaN and 30000, want -1e+13 ≤ low ≤ likely ≤ high ≤ 1e+13"},
		"price below 0":      {func(u *Uncertain) { u.Price.Low = -1 }, "price is -1, want from 0 to 1e+13"},
		"upkeep below 0":     {func(u *Uncertain) { u.Upkeep.Low = -1 }, "upkeep is -1, want from 0 to 1e+13"},
		"no life":            {func(u *Uncertain) { u.Life = 0 }, "life is 0, want from 1 to 1200"},
		"rate in percent":    {func(u *Uncertain) { u.Rate = 8 }, "rate is 8, want a share above -1 and below 2 (0.08 is 8 %)"},
	} {
		t.Run(name, func(t *testing.T) {
			u := machine
			wrong.change(&u)
			assert.EqualError(t, u.Check(), wrong.want)
			_, err := u.NPVs(10, 1)
			assert.EqualError(t, err, wrong.want)
		})
	}
	assert.NoError(t, machine.Check())
}
