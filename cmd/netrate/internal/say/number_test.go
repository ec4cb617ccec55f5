package say

import (
	"math"
	"math/rand/v2"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestGrouped(t *testing.T) {
	for number, want := range map[string]string{
		"0": "0", "12": "12", "999": "999", "1000": "1,000", "12345": "12,345", "123456": "123,456",
		"1234567": "1,234,567", "-1": "-1", "-12": "-12", "-123": "-123", "-1234": "-1,234",
		"-123456": "-123,456", "1234.5678": "1,234.5678", "0.001": "0.001",
	} {
		t.Run(number, func(t *testing.T) { assert.Equal(t, want, Grouped(number)) })
	}
}

func TestMeasured(t *testing.T) {
	for name, c := range map[string]struct {
		mean, half float64
		m, h       string
	}{
		"first digit is 1":         {13352.4, 14.2, "13,352", "14"},
		"first digit is not":       {13352.4, 26.1, "13,350", "30"},
		"hundreds":                 {123759.4, 160.2, "123,760", "160"},
		"decimals":                 {0.0586, 0.0148, "0.059", "0.015"},
		"one decimal":              {204.48, 0.91, "204.5", "0.9"},
		"rounds up to two digits":  {62.13, 0.97, "62.1", "1.0"},
		"nearly 2":                 {62.13, 0.196, "62.1", "0.2"},
		"mean below its half":      {0.2, 3, "0", "3"},
		"wider than a thousand":    {45512, 1284, "45,500", "1,300"},
		"unknown":                  {13352.4, math.Inf(1), "13,352", ""},
		"no uncertainty, large":    {13352, 0, "13,352", ""},
		"no uncertainty, small":    {17.5, 0, "17.5", ""},
		"nothing":                  {0, 0, "0", ""},
		"not a number":             {12, math.NaN(), "12", ""},
		"powers of ten are exact":  {5000, 1000, "5,000", "1,000"},
		"a thousandth is exact":    {5, 0.001, "5.0000", "0.0010"},
		"rounding keeps the sign":  {-51.3, 2.2, "-51", "2"},
		"far below the last digit": {1e-9, 0.02, "0.00", "0.02"},
		"what rounding leaves":     {-1.8e-12, 3.6e-12, "0", ""},
	} {
		t.Run(name, func(t *testing.T) {
			m, h := Measured(c.mean, c.half)
			assert.Equal(t, [2]string{c.m, c.h}, [2]string{m, h})
		})
	}
}

func TestRough(t *testing.T) {
	assert.Equal(t, "13,020", Rough(13023.7, 26))
	assert.Equal(t, "13,024", Rough(13023.7, 3))
	assert.Equal(t, "0.16", Rough(0.16254, 0.0002), "two decimals are enough")
	assert.Equal(t, "0.0008", Rough(0.00084, 0.00016), "but not below 0.1")
	assert.Equal(t, "17.5", Rough(17.5, 0))
	assert.Equal(t, "0", Rough(-4e-17, 3e-16), "what rounding leaves of nothing has no digits")
}

// A job of one set takes no time only where it takes none.
func TestExact(t *testing.T) {
	for want, x := range map[string]float64{"0.0011": 1.0 / 900, "-0.0011": -1.0 / 900, "0.01": 0.0051, "0": 0, "0.25": 0.25, "12,345": 12345.4} {
		assert.Equal(t, want, Exact(x))
	}
	assert.Equal(t, "0", Exact(1e-15), "rounding")
}

func TestPercent(t *testing.T) {
	assert.Equal(t, "76.2 %", Percent(0.76213, 0.0001))
	assert.Equal(t, "76 %", Percent(0.76213, 0.02))
	assert.Equal(t, "80 %", Percent(0.76213, 0.2))
	assert.Equal(t, "76.2 %", Percent(0.76213, math.Inf(1)))
}

func TestOneIn(t *testing.T) {
	for want, p := range map[string]float64{"–": 0, "2,431": 1 / 2431.2, "12.5": 0.08, "1.00": 1} {
		assert.Equal(t, want, OneIn(p))
	}
}

// A bound is rounded away from what is known, and is never 0 % or 100 %.
func TestBounds(t *testing.T) {
	for share, want := range map[float64]string{0.018301: "1.9 %", 0.018: "1.8 %", 0.00460: "0.46 %", 0.000184: "0.019 %", 0.0984: "9.9 %", 0.362: "37 %", 0.995: "99.5 %", 0.9981: "99.9 %", 0.9996: "100 %", 0: "0.001 %", 1e-48: "0.001 %", 1: "100 %"} {
		assert.Equal(t, want, AtMost(share))
	}
	for share, want := range map[float64]string{0.9817: "98.1 %", 0.982: "98.2 %", 0.99539: "99.53 %", 0.999816: "99.981 %", 0.64: "64 %", 0.638: "63 %", 0: "0 %", 1: "99.999 %"} {
		assert.Equal(t, want, AtLeast(share))
	}
}

// Whatever a share is, what is said of it is a number of few digits; it is all or none where the share is, and
// nowhere else.
func TestSharesAreTold(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	share := func() float64 {
		switch x := math.Pow(10, -50*r.Float64()*r.Float64()); r.IntN(4) {
		case 0:
			return r.Float64()
		case 1:
			return 1 - x
		default:
			return x
		}
	}
	shares := []float64{0, 1, 1e-48, 5e-324, math.Nextafter(1, 0), 0.0005, 0.0004999, 0.9995, 0.99949999, 0.00001, 0.99999, 0.02, 0.98, 0.96}
	for range 5000 {
		shares = append(shares, share())
	}
	number := regexp.MustCompile(`^(less than |more than |[<>] )?[0-9]{1,3}(\.[0-9]{1,3})? %$`)
	certain := regexp.MustCompile(`^(0|100)(\.0+)? %$`)
	for _, x := range shares {
		half := []float64{0, r.Float64() / 2, share() / 2, math.Inf(1)}[r.IntN(4)]
		for _, text := range []string{Share(x), ShareOf(x, half, "less than ", "more than "), AtMost(x), AtLeast(x)} {
			if text != "all" && text != "none" {
				assert.Regexp(t, number, text, "%g, half %g", x, half)
			}
		}
		assert.NotRegexp(t, certain, Share(x), "%g", x)
		if x > 0 && x < 1 {
			assert.NotRegexp(t, certain, ShareOf(x, half, "", ""), "%g, half %g", x, half)
			assert.NotContains(t, []string{"all", "none"}, Share(x), "%g", x)
		}
	}
	assert.Equal(t, [2]string{"none", "all"}, [2]string{Share(0), Share(1)})
	assert.Equal(t, "96 %", ShareOf(0.96, 0.1, "", ""), "not rounded to tens, which would be all")
}

// An interval is rounded away from what it holds, and may reach all or none.
func TestBetween(t *testing.T) {
	assert.Equal(t, "98.1 % to 100 %", Between(0.9817, 1))
	assert.Equal(t, "0 % to 0.93 %", Between(0, 0.00921))
	assert.Equal(t, "41 % to 50 %", Between(0.4123, 0.4961))
	assert.Equal(t, "4.9 % to 18 %", Between(0.04901, 0.1762))
	assert.Equal(t, "0 % to 1.4 %", Between(0.00006, 0.0138))
}
