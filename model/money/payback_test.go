package money

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// paid returns the years of a payback that must be there.
func paid(years float64, ok bool, err error) float64 {
	if !ok || err != nil {
		return math.NaN()
	}
	return years
}

// Source: Brigham and Ehrhardt, Financial Management: 2.33, 3.33, discounted 2.95, 3.88
// (from memory); the digits computed.
func TestPaybackOfPrint(t *testing.T) {
	for _, c := range []struct {
		name              string
		flows             Flows
		years, discounted float64
	}{
		{"project S", projectS, 2.333333, 2.953333},
		{"project L", projectL, 3.333333, 3.88},
	} {
		t.Run(c.name, func(t *testing.T) {
			years, discounted := paid(c.flows.Payback()), paid(c.flows.DiscountedPayback(0.10))
			assert.True(t, near(years, c.years, 2e-7), "%.8g", years)
			assert.True(t, near(discounted, c.discounted, 2e-7), "%.8g", discounted)
			assert.False(t, near(math.Ceil(years), c.years, 0.1), "whole years go unseen")
			assert.False(t, near(years, c.discounted, 0.1), "leaving the rate out goes unseen")
		})
	}
}

func TestPaybackCases(t *testing.T) {
	for _, c := range []struct {
		name  string
		flows Flows
		years float64
		ok    bool
	}{
		{"at the end of a year", Flows{-100, 50, 50, 50}, 2, true},
		{"within the first year", Flows{-100, 400}, 0.25, true},
		{"at the very end, by tenths that are no binary fractions", Flows{-0.8, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1}, 8, true},
		{"never", Flows{-100, 50, 49}, 0, false},
		{"never, there is only a price", Flows{-100}, 0, false},
		{"nothing to pay back", Flows{0, 5}, 0, true},
		{"paid beforehand", Flows{10, -20, 5}, 0, true},
		{"a year of nothing", Flows{-100, 0, 0, 200}, 2.5, true},
		{"the first time counts, a later loss does not", Flows{-100, 200, -500}, 0.5, true},
		{"a loss before", Flows{-100, -100, 400}, 1.5, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			years, ok, err := c.flows.Payback()
			require.NoError(t, err)
			assert.Equal(t, c.ok, ok)
			assert.InDelta(t, c.years, years, 1e-12)
		})
	}
}

// A dearer machine pays back later, or never; with a rate, so does any.
func TestPaybackGrowsWithThePrice(t *testing.T) {
	later := func(t *rapid.T, a float64, aok bool, b float64, bok bool) {
		if bok {
			require.True(t, aok)
			require.LessOrEqual(t, a, b+1e-9)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		price := rapid.Float64Range(0, 1e6).Draw(t, "price")
		more := rapid.Float64Range(0, 1e6).Draw(t, "more")
		savings := rapid.SliceOfN(rapid.Float64Range(0, 3e5), 1, 15).Draw(t, "savings")
		rate := rapid.Float64Range(0, 0.5).Draw(t, "rate")
		cheap, dear := append(Flows{-price}, savings...), append(Flows{-price - more}, savings...)

		cheapYears, cheapOK, err := cheap.Payback()
		require.NoError(t, err)
		dearYears, dearOK, _ := dear.Payback()
		later(t, cheapYears, cheapOK, dearYears, dearOK)

		cheapAtRate, cheapAtRateOK, err := cheap.DiscountedPayback(rate)
		require.NoError(t, err)
		dearAtRate, dearAtRateOK, _ := dear.DiscountedPayback(rate)
		later(t, cheapAtRate, cheapAtRateOK, dearAtRate, dearAtRateOK)
		later(t, cheapYears, cheapOK, cheapAtRate, cheapAtRateOK)
	})
}
