package formats

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Envelopes by the limits of the Domestic Mail Manual 101.1.1 (text of 2023-07-09) and of
// Business Mail 101: computed by hand from sizes in inches, no print found.
func TestUSPostalOfEnvelopes(t *testing.T) {
	table := map[string][]string{
		Letter: {
			"#6¾", "#7", "#7¾", "#8⅝", "#9", "#10", "#11", "#12", "#14", "6 × 9",
			"DL", "C6", "C6/C5", "B6",
		},
		Flat:    {"6½ × 9½", "9 × 12", "10 × 13", "C5", "B5", "C4", "B4"},
		Neither: {"E4", "C3", "C7", "C7/6"}, // the first two too large, the others under 3½ in high
	}
	rows := 0
	for want, names := range table {
		for _, name := range names {
			rows++
			t.Run(name, func(t *testing.T) {
				e, ok := Named(name)
				require.True(t, ok)
				got := USPostal(e.Height, e.Length, 1, 1)
				assert.Equal(t, want, got.Name)
				assert.Equal(t, want == Letter, len(got.Reasons) == 0, "%v", got.Reasons)
			})
		}
	}
	assert.Len(t, Envelopes(), rows)
}

// Each limit itself, and a thousandth of an inch or an ounce beyond it. Limits of letters:
// Domestic Mail Manual 101.1.1, and 101.1.2 for the ratio (text of 2023-07-09); of flats:
// Business Mail 101; what an overweight letter pays: Domestic Mail Manual 101.1.1 (text of
// 2010-01-04).
func TestUSPostalLimits(t *testing.T) {
	for _, c := range []struct {
		name                              string
		height, length, thickness, ounces float64 // inches, ounces
		want                              string
	}{
		{"plain", 4, 8, 0.02, 1, Letter},
		{"least height", 3.5, 8, 0.02, 1, Letter},
		{"under least height", 3.499, 8, 0.02, 1, Neither},
		{"most height", 6.125, 9, 0.02, 1, Letter},
		{"over most height", 6.126, 9, 0.02, 1, Flat},
		{"least length", 3.5, 5, 0.02, 1, Letter},
		{"under least length", 3.5, 4.999, 0.02, 1, Neither},
		{"most length", 5, 11.5, 0.02, 1, Letter},
		{"over most length", 5, 11.501, 0.02, 1, Flat},
		{"least thickness", 4, 6, 0.007, 1, Letter},
		{"under least thickness", 4, 6, 0.0069, 1, Neither},
		{"a flat too thin", 9, 12, 0.0069, 1, Neither},
		{"most thickness", 4, 8, 0.25, 1, Letter},
		{"over most thickness", 4, 8, 0.251, 1, Flat},
		{"most weight", 4, 8, 0.02, 3.5, Letter},
		{"over most weight", 4, 8, 0.02, 3.501, Flat},

		{"least ratio", 5, 6.5, 0.02, 1, Letter},
		{"under least ratio", 5, 6.495, 0.02, 1, Nonmachinable},
		{"square", 5, 5, 0.02, 1, Nonmachinable},
		{"most ratio", 4, 10, 0.02, 1, Letter},
		{"over most ratio", 4, 10.01, 0.02, 1, Nonmachinable},
		{"most ratio, odd sizes", 3.6, 9, 0.02, 1, Letter},
		{"ratio of a flat", 3.6, 14, 0.02, 1, Flat},

		{"thin and long", 4, 6.001, 0.0089, 1, Nonmachinable},
		{"thin, not long", 4, 6, 0.0089, 1, Letter},
		{"thin and high", 4.251, 6, 0.0089, 1, Nonmachinable},
		{"thin, not high", 4.25, 6, 0.0089, 1, Letter},
		{"long, not thin", 4, 8, 0.009, 1, Letter},

		{"largest flat", 12, 15, 0.75, 1, Flat},
		{"over flat in height", 12.001, 15, 0.75, 1, Neither},
		{"over flat in length", 12, 15.001, 0.75, 1, Neither},
		{"over flat in thickness", 12, 15, 0.751, 1, Neither},

		{"#10 addressed across", 9.5, 4.125, 0.02, 1, Nonmachinable},
		{"9 × 12 addressed across", 12, 9, 0.02, 1, Flat},
		{"10 × 13 addressed across", 13, 10, 0.02, 1, Flat},
		{"small but thick", 3, 4, 0.251, 1, Flat},
		{"small and not thick enough", 3, 4, 0.25, 1, Neither},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := USPostal(c.height*25.4, c.length*25.4, c.thickness*25.4, c.ounces)
			assert.Equal(t, c.want, got.Name, "%v", got.Reasons)
			assert.Equal(t, c.want == Letter, len(got.Reasons) == 0)
		})
	}
}

// The limits given as decimals of a millimetre are the limits too: #14 is 127.0 × 292.1 mm.
func TestUSPostalLimitsInMillimetres(t *testing.T) {
	assert.Equal(t, Letter, USPostal(127.0, 292.1, 6.35, 3.5).Name)
	assert.Equal(t, Letter, USPostal(155.575, 292.1, 0.2286, 3.5).Name)
	assert.Equal(t, Flat, USPostal(127.0, 292.11, 6.35, 3.5).Name)
	assert.Equal(t, Flat, USPostal(304.8, 381, 19.05, 3.5).Name)
}

func TestUSPostalReasons(t *testing.T) {
	for _, c := range []struct {
		name string
		got  Class
		want []string
	}{
		{"C5, heavy", USPostal(162, 229, 1, 4), []string{
			"height 6.378 in, over 6.125 in: Domestic Mail Manual 101.1.1, text of 2023-07-09",
			"weight 4 oz, over 3.5 oz, pays as a flat: Domestic Mail Manual 101.1.1, text of 2010-01-04",
		}},
		{"square and thin", USPostal(127, 127, 0.2, 1), []string{
			"length by height is 1, want 1.3 to 2.5: Domestic Mail Manual 101.1.2, text of 2023-07-09",
			"thickness 0.0079 in, under 0.009 in for a letter over 6 in long or 4.25 in high: Domestic Mail Manual 101.1.1, text of 2023-07-09",
		}},
		{"C7", USPostal(81, 114, 1, 1), []string{
			"height 3.189 in, under 3.5 in: Postal Explorer, Business Mail 101, minimum and maximum sizes",
			"length 4.4882 in, under 5 in: Postal Explorer, Business Mail 101, minimum and maximum sizes",
		}},
		{"C3", USPostal(324, 458, 1, 1), []string{
			"height 12.7559 in, over 12 in: Postal Explorer, Business Mail 101, sizes for flats",
			"length 18.0315 in, over 15 in: Postal Explorer, Business Mail 101, sizes for flats",
		}},
		{"no sizes", USPostal(math.NaN(), 0, math.Inf(1), -1), []string{
			"height is NaN mm, want above 0: Domestic Mail Manual 101.1.1, text of 2023-07-09",
			"length is 0 mm, want above 0: Domestic Mail Manual 101.1.1, text of 2023-07-09",
			"thickness is +Inf mm, want above 0: Domestic Mail Manual 101.1.1, text of 2023-07-09",
			"weight is -1 oz, want above 0: Domestic Mail Manual 101.1.1, text of 2023-07-09",
		}},
	} {
		t.Run(c.name, func(t *testing.T) { assert.Equal(t, c.want, c.got.Reasons) })
	}
}

// Any single number that is none makes the piece neither.
func TestUSPostalOfNothing(t *testing.T) {
	for place, what := range []string{"height", "length", "thickness", "weight"} {
		for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 0, -1} {
			v := []float64{100, 200, 1, 1}
			v[place] = x
			got := USPostal(v[0], v[1], v[2], v[3])
			assert.Equal(t, Neither, got.Name)
			require.Len(t, got.Reasons, 1, "%v", v)
			assert.Contains(t, got.Reasons[0], what)
		}
	}
}
