package formats

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Sizes of paper from the self-describing names of PWG 5101.1.
func TestSheetSizes(t *testing.T) {
	names := map[string]string{
		"A3":     "iso_a3_297x420mm",
		"A4":     "iso_a4_210x297mm",
		"A5":     "iso_a5_148x210mm",
		"A6":     "iso_a6_105x148mm",
		"Letter": "na_letter_8.5x11in",
		"Legal":  "na_legal_8.5x14in",
	}
	require.Len(t, Sheets(), len(names))
	for _, s := range Sheets() {
		t.Run(s.Name, func(t *testing.T) {
			width, height := mediaSize(t, names[s.Name])
			assert.InDelta(t, width, s.Width, 1e-9)
			assert.InDelta(t, height, s.Height, 1e-9)
			assert.NotEmpty(t, s.Source)
		})
	}
	got, ok := SheetNamed(" a4")
	assert.True(t, ok)
	assert.Equal(t, "A4", got.Name)
	_, ok = SheetNamed("A2")
	assert.False(t, ok)
}

// Pounds × 453.59237 g by the area of 500 sheets of the basic size: computed.
func TestGrammageOfOnePound(t *testing.T) {
	for basis, want := range map[Basis]float64{
		Bond:  3.75973,
		Text:  1.48015,
		Cover: 2.70411,
		Index: 1.80796,
		Tag:   1.62748,
	} {
		t.Run(basis.String(), func(t *testing.T) {
			assert.True(t, near(basis.Grammage(1), want, 1e-5), "%.6g, want %.6g", basis.Grammage(1), want)
		})
	}
	assert.False(t, near(1.001*Bond.Grammage(1), 3.75973, 1e-4),
		"a factor 0.1 % high, as some tables of the trade have it, passes: this test cannot fail")
}

// Computed with the exact factors.
func TestGrammage(t *testing.T) {
	for basis, rows := range map[Basis]map[float64]float64{
		Bond: {16: 60.16, 20: 75.19, 24: 90.23, 28: 105.27, 32: 120.31},
		Text: {50: 74.01, 60: 88.81, 70: 103.61, 80: 118.41},
	} {
		for pounds, want := range rows {
			t.Run(basis.String()+" "+short(pounds, 0), func(t *testing.T) {
				got := basis.Grammage(pounds)
				assert.True(t, near(got, want, 1e-4), "%.6g, want %.6g", got, want)
			})
		}
	}
}

func TestNoBasis(t *testing.T) {
	assert.PanicsWithValue(t, "formats: Basis(9) is none of the grades of paper", func() { Basis(9).Grammage(20) })
	assert.Equal(t, "cover", Cover.String())
}

// Calipers of bond paper in inches, from a paper merchant's table that calls itself "a
// guide only". Their bulk is 1.28 to 1.40, and the typical bulk is within 8 % of each.
func TestCaliperOfBond(t *testing.T) {
	for pounds, caliper := range map[float64]float64{16: 0.0032, 18: 0.0036, 20: 0.0038, 24: 0.0048, 28: 0.0058} {
		t.Run(short(pounds, 0), func(t *testing.T) {
			grammage, caliper := Bond.Grammage(pounds), caliper*25.4
			bulk := caliper * 1000 / grammage
			assert.GreaterOrEqual(t, bulk, 1.275)
			assert.LessOrEqual(t, bulk, 1.405)
			assert.InEpsilon(t, caliper, Caliper(grammage, bulk), 1e-12)
			assert.InEpsilon(t, caliper, Caliper(grammage, TypicalBulk), 0.08)
		})
	}
}

// 80 g/m² of bulk 1.3 is 104 µm; ISO 534: bulk is thickness by grammage. Common practice,
// no source, has it at 100 to 106 µm.
func TestCaliper(t *testing.T) {
	assert.InDelta(t, 0.104, Caliper(80, 1.3), 1e-12)
	assert.True(t, math.IsNaN(Caliper(math.NaN(), 1.3)))
}

// An ounce is 28.349523125 g: international yard and pound agreement, by 16.
func TestOunces(t *testing.T) {
	assert.InEpsilon(t, 1.0, Ounces(28.349523125), 1e-12)
}
