package money

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// all lists the factors in the order of the tables.
func (f Factors) all() [8]float64 {
	return [8]float64{f.FP, f.PF, f.AF, f.FA, f.AP, f.PA, f.PG, f.AG}
}

var names = [8]string{"F/P", "P/F", "A/F", "F/A", "A/P", "P/A", "P/G", "A/G"}

func TestFactorsOfTables(t *testing.T) {
	const seen = "factor tables of a standard engineering-economy text (layout of Blank and Tarquin)"
	const known = "any text of engineering economy (from memory, recomputed)"
	for _, c := range []struct {
		name    string
		rate    float64
		periods int
		table   [8]string // as printed; "" where none is given
		source  string
	}{
		{
			"0.25 %, 12", 0.0025, 12,
			[8]string{"1.0304", ".9705", ".08219", "12.16638", ".08469", "11.8073", "64.5886", "5.4702"},
			seen,
		},
		{
			"0.25 %, 20", 0.0025, 20,
			[8]string{"1.0512", ".9513", ".04882", "20.48220", ".05132", "19.4845", "183.4851", "9.4170"},
			seen,
		},
		{
			"10 %, 5", 0.10, 5,
			[8]string{"1.6105", ".6209", ".16380", "6.1051", ".26380", "3.7908", "6.8618", "1.8101"},
			known,
		},
		{"8 %, 10", 0.08, 10, [8]string{4: ".14903", 5: "6.7101", 6: "25.9768"}, known},
		{"12 %, 7", 0.12, 7, [8]string{4: ".219118"}, known},
		{"15 %, 8", 0.15, 8, [8]string{4: ".222850"}, known},
		{"20 %, 10", 0.20, 10, [8]string{4: ".238523"}, known},
	} {
		t.Run(c.name, func(t *testing.T) {
			right := must(NewFactors(c.rate, c.periods)).all()
			short := must(NewFactors(c.rate, c.periods+1)).all()
			for i, want := range c.table {
				if want == "" {
					continue
				}
				assert.True(t, prints(right[i], want), "%s is %.8g, the table prints %s: %s", names[i], right[i], want, c.source)
				assert.False(t, prints(short[i], want), "one period too many goes unseen in %s", names[i])
			}
		})
	}
}

// Long values: checks of the tables beyond what they print, computed, no print found; the
// payment is the documentation example of a common spreadsheet (from memory, recomputed).
func TestFactorsToManyDigits(t *testing.T) {
	f := must(NewFactors(0.10, 5))
	assert.True(t, near(f.AP, 0.263797481, 2e-9), "%.10g", f.AP)
	assert.True(t, near(f.PA, 3.790786769, 2e-10), "%.10g", f.PA)

	payment := 10000 * must(NewFactors(0.08/12, 10)).AP
	assert.True(t, near(payment, 1037.032089, 1e-9), "%.10g", payment)
	assert.True(t, prints(payment, "1037.03"))
	atStart := payment / (1 + 0.08/12)
	assert.False(t, near(atStart, 1037.032089, 1e-6), "payments at the start of the month go unseen")
}

// At rate 0 money is only counted: n sums, and 0 + 1 + … + (n−1) steps.
func TestFactorsAtRateZero(t *testing.T) {
	for n := 1; n <= 50; n++ {
		m := float64(n)
		want := Factors{1, 1, 1 / m, m, 1 / m, m, m * (m - 1) / 2, (m - 1) / 2}
		assert.Equal(t, want, must(NewFactors(0, n)), "%d periods", n)
		for i, x := range must(NewFactors(1e-12, n)).all() {
			assert.InDelta(t, want.all()[i], x, 1e-7, "%s of %d periods jumps at rate 0", names[i], n)
		}
	}
}

// The identities between the factors, and the closed forms where rounding leaves them
// digits. Source: definitions, as in any text.
func TestFactorsHoldTogether(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rate := rapid.OneOf(rapid.Float64Range(-0.3, -0.01), rapid.Float64Range(0.01, 1)).Draw(t, "rate")
		periods := rapid.IntRange(1, 40).Draw(t, "periods")
		f := must(NewFactors(rate, periods))
		same := func(what string, got, want float64) {
			require.True(t, near(got, want, 1e-8), "%s: %.12g and %.12g", what, got, want)
		}
		same("A/P · P/A", f.AP*f.PA, 1)
		same("F/P · P/F", f.FP*f.PF, 1)
		same("A/F · F/A", f.AF*f.FA, 1)
		same("F/A and P/A · F/P", f.FA, f.PA*f.FP)
		same("A/G · P/A", f.AG*f.PA, f.PG)
		require.InDelta(t, rate, f.AP-f.AF, 1e-10, "A/P − A/F is the rate")

		n := float64(periods)
		same("F/P", f.FP, math.Exp(n*math.Log1p(rate)))
		same("F/A", f.FA, math.Expm1(n*math.Log1p(rate))/rate)
		require.InDelta(t, (f.PA-n*f.PF)/rate, f.PG, 1e-9*n*f.PA/math.Abs(rate), "P/G")
	})
}

func TestFactorsRefuse(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, rate := range []float64{-1, -2, nan, inf, -inf, 2e6} {
		_, err := NewFactors(rate, 5)
		assert.ErrorContains(t, err, "want a share above -1", "rate %v", rate)
	}
	for _, periods := range []int{0, -1, 1201, math.MaxInt} {
		_, err := NewFactors(0.1, periods)
		assert.ErrorContains(t, err, "want from 1 to 1200", "%d periods", periods)
	}
	for _, rate := range []float64{-0.999, 1e3} {
		_, err := NewFactors(rate, 1200)
		assert.ErrorContains(t, err, "too large for a number", "rate %v", rate)
	}
	_, err := NewFactors(-1, 0)
	assert.EqualError(t, err, "rate is -1, want a share above -1, up to 1e+06 (0.08 is 8 %)\nnumber of periods is 0, want from 1 to 1200")
}
