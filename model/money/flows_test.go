package money

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The two projects of Brigham and Ehrhardt, Financial Management (from memory, recomputed).
var (
	projectS = Flows{-1000, 500, 400, 300, 100}
	projectL = Flows{-1000, 100, 300, 400, 600}
)

func TestNPVOfPrint(t *testing.T) {
	const book = "Brigham and Ehrhardt, Financial Management (from memory); the digits computed"
	const sheet = "documentation example of a common spreadsheet (from memory, recomputed)"
	for _, c := range []struct {
		name   string
		flows  Flows
		rate   float64
		want   float64
		digits float64 // relative tolerance: the digits given
		print  string
		source string
	}{
		{"project S", projectS, 0.10, 78.819753, 1e-8, "78.82", book},
		{"project L", projectL, 0.10, 49.176969, 1e-8, "49.18", book},
		{"price in year 0", Flows{-40000, 8000, 9200, 10000, 12000, 14500}, 0.08, 1922.06, 3e-6, "1922.06", sheet},
		{"and a loss in year 6", Flows{-40000, 8000, 9200, 10000, 12000, 14500, -9000}, 0.08, -3749.47, 2e-6, "-3749.47", sheet},
	} {
		t.Run(c.name, func(t *testing.T) {
			npv := must(c.flows.NPV(c.rate))
			assert.True(t, near(npv, c.want, c.digits) && prints(npv, c.print), "%.10g, %s prints %s", npv, c.source, c.print)
			late := must(append(Flows{0}, c.flows...).NPV(c.rate))
			assert.False(t, near(late, c.want, 1e-3), "discounting year 0 goes unseen")
		})
	}
}

// Spreadsheets put the first value at the end of year 1. Source: documentation example of a common
// spreadsheet, seen in the test suites of several programs.
func TestSpreadsheetNPV(t *testing.T) {
	values := []float64{-10000, 3000, 4200, 6800}
	npv := must(append(Flows{0}, values...).NPV(0.10))
	assert.True(t, near(npv, 1188.443412335, 1e-12), "%.13g", npv)
	assert.True(t, prints(npv, "1188.44"))
	assert.Equal(t, []float64{-10000, 3000, 4200, 6800}, values, "the values are left as they are")

	textbook := must(Flows(values).NPV(0.10))
	assert.False(t, near(textbook, 1188.443412335, 0.05), "the textbook convention goes unseen")
	assert.True(t, near(textbook, 1188.443412335*1.10, 1e-12), "%.13g", textbook)
}

// anyFlows draws flows of a few years with no rule to them.
func anyFlows(years int) *rapid.Generator[[]float64] {
	return rapid.SliceOfN(rapid.Float64Range(-1e6, 1e6), years+1, years+1)
}

var anyRate = rapid.Float64Range(-0.2, 1)

// scale returns the worth now of the flows, all taken as positive: what rounding is
// measured by.
func scale(f Flows, rate float64) float64 {
	sum := 0.0
	for _, x := range must(f.Discounted(rate)) {
		sum += math.Abs(x)
	}
	return sum
}

func TestNPVIsLinear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		years := rapid.IntRange(0, 20).Draw(t, "years")
		a, b := Flows(anyFlows(years).Draw(t, "a")), Flows(anyFlows(years).Draw(t, "b"))
		rate, times := anyRate.Draw(t, "rate"), rapid.Float64Range(-3, 3).Draw(t, "times")
		both := make(Flows, len(a))
		for k := range both {
			both[k] = a[k] + times*b[k]
		}
		want := must(a.NPV(rate)) + times*must(b.NPV(rate))
		require.InDelta(t, want, must(both.NPV(rate)), 1e-12*(scale(a, rate)+3*scale(b, rate))+1e-9)
	})
}

func TestFlowsRefuse(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for name, wrong := range map[string]struct {
		flows Flows
		rate  float64
		want  string
	}{
		"none":           {nil, 0.1, "there are 0 flows, want from 1 to 1201"},
		"too many":       {make(Flows, 1202), 0.1, "there are 1202 flows, want from 1 to 1201"},
		"NaN":            {Flows{-1, nan}, 0.1, "flow of year 1 is NaN, want from -1e+13 to 1e+13"},
		"infinite":       {Flows{-inf, 1}, 0.1, "flow of year 0 is -Inf, want from -1e+13 to 1e+13"},
		"all lost":       {Flows{-1, 2}, -1, "rate is -1, want a share above -1, up to 1e+06 (0.08 is 8 %)"},
		"more than all":  {Flows{-1, 2}, -1.5, "rate is -1.5, want a share above -1, up to 1e+06 (0.08 is 8 %)"},
		"rate NaN":       {Flows{-1, 2}, nan, "rate is NaN, want a share above -1, up to 1e+06 (0.08 is 8 %)"},
		"rate infinite":  {Flows{-1, 2}, inf, "rate is +Inf, want a share above -1, up to 1e+06 (0.08 is 8 %)"},
		"past a number":  {append(make(Flows, 1200), 1), -0.9, "at rate -0.9 the flows are worth more now than a number can hold"},
		"zero past that": {make(Flows, 1201), -0.9, "at rate -0.9 the flows are worth more now than a number can hold"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := wrong.flows.NPV(wrong.rate)
			assert.EqualError(t, err, wrong.want)
			_, ok, err := wrong.flows.DiscountedPayback(wrong.rate)
			assert.EqualError(t, err, wrong.want)
			assert.False(t, ok)
			if wrong.flows.Check() != nil {
				_, ok, err = wrong.flows.Payback()
				assert.EqualError(t, err, wrong.want)
				assert.False(t, ok)
			}
		})
	}
}
