package money

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestIRROfPrint(t *testing.T) {
	const sheet = "documentation example of a common spreadsheet, seen; the digits computed"
	const book = "Brigham and Ehrhardt, Financial Management (from memory); the digits computed"
	flows := Flows{-70000, 12000, 15000, 18000, 21000, 26000}
	for _, c := range []struct {
		name    string
		flows   Flows
		want    float64
		digits  float64 // absolute tolerance: the digits given
		percent string
		source  string
	}{
		{"five years", flows, 0.0866309480, 6e-11, "8.7", sheet},
		{"four years", flows[:5], -0.0212448483, 6e-11, "-2.1", sheet},
		{"two years", flows[:3], -0.4435069413, 6e-11, "-44.4", sheet},
		{"project S", projectS, 0.14489, 6e-6, "14.5", book},
		{"project L", projectL, 0.11791, 6e-6, "11.8", book},
	} {
		t.Run(c.name, func(t *testing.T) {
			rate, ok, err := c.flows.IRR()
			require.NoError(t, err)
			require.True(t, ok)
			assert.InDelta(t, c.want, rate, c.digits, c.source)
			assert.True(t, prints(100*rate, c.percent), "%.10g, %s prints %s %%", rate, c.source, c.percent)

			last := len(c.flows) - 1
			late := append(append(Flows{}, c.flows[:last]...), 0, c.flows[last])
			wrong, _, _ := late.IRR()
			assert.Greater(t, math.Abs(c.want-wrong), 0.001, "the last flow a year late goes unseen")
		})
	}
}

// The rule for more than one change of sign. −100 230 −132 is 0 at 10 % and at 20 %, so
// neither is the rate: (1.1·1.2 = 1.32, 1.1 + 1.2 = 2.3).
func TestIRRRule(t *testing.T) {
	two := Flows{-100, 230, -132}
	assert.InDelta(t, 0, must(two.NPV(0.10)), 1e-12)
	assert.InDelta(t, 0, must(two.NPV(0.20)), 1e-12)
	for _, c := range []struct {
		name    string
		flows   Flows
		changes int
		rate    float64
		ok      bool
	}{
		{"two rates", two, 2, 0, false},
		{"three rates: 0, 100 and 200 %", Flows{-1, 6, -11, 6}, 3, 0, false},
		{"a late loss after nothing", Flows{-100, 100, 0, -7}, 2, 0, false},
		{"only costs", Flows{-100, -5}, 0, 0, false},
		{"only gains", Flows{0, 5}, 0, 0, false},
		{"nothing at all", Flows{0, 0, 0}, 0, 0, false},
		{"one flow", Flows{-100}, 0, 0, false},
		{"a year", Flows{-100, 110}, 1, 0.10, true},
		{"a loan", Flows{100, -110}, 1, 0.10, true},
		{"money back, nothing more", Flows{-100, 50, 50}, 1, 0, true},
		{"a year of nothing", Flows{-100, 0, 121}, 1, 0.10, true},
		{"zeros at both ends", Flows{0, 0, -100, 0, 121, 0, 0}, 1, 0.10, true},
		{"a loan later", Flows{0, 100, -110}, 1, 0.10, true},
		{"a loss, then nothing", Flows{-100, 90, 0, 0}, 1, -0.10, true},
		{"nearly all lost", Flows{-1e12, 0.001}, 1, 1e-15 - 1, true},
		{"as good as all lost", Flows{-1e13, 1e-6}, 1, 0, false},
		{"a huge rate", Flows{-1, 1e6}, 1, 999_999, true},
		{"too huge", Flows{-1, 2e6}, 1, 0, false},
		{"beyond all numbers", Flows{-5e-324, 1e13}, 1, 0, false},
		{"lost beyond all numbers", Flows{-1e13, 5e-324}, 1, 0, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.changes, c.flows.SignChanges())
			rate, ok, err := c.flows.IRR()
			require.NoError(t, err)
			assert.Equal(t, c.ok, ok)
			assert.InDelta(t, c.rate, rate, 1e-14*max(1, math.Abs(c.rate)))
		})
	}
}

// Costs in the first years and savings in the later ones: the net present value is 0 at the
// rate, and at a rate a thousandth off it is not. The sums differ by a factor of a thousand
// at most: nearer to −1 a rate has no digits left for what is kept of the money.
func TestNPVIsZeroAtIRR(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sum := rapid.Float64Range(1e3, 1e6)
		costs := rapid.SliceOfN(sum, 1, 4).Draw(t, "costs")
		savings := rapid.SliceOfN(sum, 1, 15).Draw(t, "savings")
		flows := append(Flows(costs), savings...)
		for k := range costs {
			flows[k] = -flows[k]
		}
		rate, ok, err := flows.IRR()
		require.NoError(t, err)
		require.True(t, ok)
		around := scale(flows, rate)
		require.InDelta(t, 0, must(flows.NPV(rate)), 1e-11*around, "at %v", rate)
		off := must(flows.NPV(rate - 1e-3*(1+rate)))
		require.Greater(t, math.Abs(off), 1e-5*around, "a rate that is off goes unseen")
	})
}
