package formats

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The sizes as other documents have them: self-describing names of PWG 5101.1 where it
// has the size.
var mediaNames = map[string]string{
	"C7":    "iso_c7_81x114mm",
	"C7/6":  "iso_c7c6_81x162mm",
	"C6":    "iso_c6_114x162mm",
	"DL":    "iso_dl_110x220mm",
	"C6/C5": "iso_c6c5_114x229mm",
	"B6":    "iso_b6_125x176mm",
	"C5":    "iso_c5_162x229mm",
	"B5":    "iso_b5_176x250mm",
	"C4":    "iso_c4_229x324mm",
	"B4":    "iso_b4_250x353mm",
	"C3":    "iso_c3_324x458mm",

	"#6¾":     "na_personal_3.625x6.5in",
	"#7¾":     "na_monarch_3.875x7.5in",
	"#9":      "na_number-9_3.875x8.875in",
	"#10":     "na_number-10_4.125x9.5in",
	"#11":     "na_number-11_4.5x10.375in",
	"#12":     "na_number-12_4.75x11in",
	"#14":     "na_number-14_5x11.5in",
	"6 × 9":   "na_6x9_6x9in",
	"6½ × 9½": "na_c5_6.5x9.5in",
	"10 × 13": "na_10x13_10x13in",

	// Written like the names of PWG 5101.1, which has none of these.
	"E4":     "din-678-1_280x400mm",
	"#7":     "trade-chart_3.75x6.75in", // a single chart
	"#8⅝":    "trade-chart_3.625x8.625in",
	"9 × 12": "trade-chart_9x12in",
}

func TestEnvelopeSizes(t *testing.T) {
	require.Len(t, Envelopes(), len(mediaNames))
	for _, e := range Envelopes() {
		t.Run(e.Name, func(t *testing.T) {
			height, length := mediaSize(t, mediaNames[e.Name])
			assert.InDelta(t, height, e.Height, 1e-9)
			assert.InDelta(t, length, e.Length, 1e-9)
		})
	}
}

// Where PWG 5101.1 has a size, the row of an inch size says which; where only charts of
// the trade have it, the row does not claim more.
func TestEnvelopeSources(t *testing.T) {
	for _, e := range Envelopes() {
		t.Run(e.Name, func(t *testing.T) {
			want := mediaNames[e.Name]
			switch {
			case strings.HasPrefix(want, "iso_"):
				want = "ISO 269:1985"
			case strings.HasPrefix(want, "din-"):
				want = "DIN 678-1"
			case strings.HasPrefix(want, "trade-"):
				want = "trade chart, no governing standard"
			default:
				want = "PWG 5101.1, " + want
			}
			assert.Equal(t, want, e.Source)
		})
	}
}

// Inches by 25.4, to the decimals given: computed by hand.
func TestInchEnvelopesInMillimetres(t *testing.T) {
	for _, c := range []struct {
		name           string
		height, length float64
	}{
		{"#6¾", 92.1, 165.1},
		{"#7", 95.25, 171.45},
		{"#7¾", 98.4, 190.5},
		{"#9", 98.4, 225.4},
		{"#10", 104.8, 241.3},
		{"#11", 114.3, 263.5},
		{"#12", 120.65, 279.4},
		{"#14", 127.0, 292.1},
		{"6 × 9", 152.4, 228.6},
		{"6½ × 9½", 165.1, 241.3},
		{"9 × 12", 228.6, 304.8},
		{"10 × 13", 254.0, 330.2},
	} {
		t.Run(c.name, func(t *testing.T) {
			e, ok := Named(c.name)
			require.True(t, ok)
			assert.InDelta(t, c.height, e.Height, 0.05)
			assert.InDelta(t, c.length, e.Length, 0.05)
		})
	}
}

func TestNamed(t *testing.T) {
	for want, names := range map[string][]string{
		"C5":      {"C5", "c5", " c 5 ", "ISO C5", "DIN C5", "C5 envelope"},
		"C6/C5":   {"C6/C5", "C6/5", "c5/6", "C5/C6", "C65", "C6C5"},
		"C7/6":    {"C7/6", "c7/c6", "C76"},
		"DL":      {"DL", "dl", "DIN lang"},
		"#10":     {"#10", "10", "No. 10", "no10", "No.10", "number 10", "# 10", "NO 10 ENVELOPE"},
		"#6¾":     {"#6¾", "6-3/4", "#6 3/4", "no6¾", "No. 6.75"},
		"#7¾":     {"#7¾", "Monarch", "7.75"},
		"#8⅝":     {"#8⅝", "8-5/8", "8.625"},
		"6 × 9":   {"6 × 9", "6x9", "6 X 9 in", `6" x 9"`, "6 by 9", "booklet #6½", "Catalog 1", "catalogue no. 1"},
		"6½ × 9½": {"6½ × 9½", "6.5x9.5", "6 1/2 x 9 1/2", "6.50 × 9.50 in", "catalog #1¾"},
		"9 × 12":  {"9x12", "booklet 9-1/2", "catalog #10½"},
		"10 × 13": {"10x13in", "10 × 13 inches", "booklet #13", "catalog #13.5"},
	} {
		for _, name := range names {
			t.Run(name, func(t *testing.T) {
				e, ok := Named(name)
				assert.True(t, ok)
				assert.Equal(t, want, e.Name)
			})
		}
	}
	for _, name := range []string{"", " ", "#", "no", "in", "C8", "C", "5", "#105", "6x", "x9", "A4", "10x14"} {
		t.Run("unknown "+name, func(t *testing.T) {
			e, ok := Named(name)
			assert.False(t, ok)
			assert.Zero(t, e)
		})
	}
}

// Every name leads back to its own row, so no two rows have names that look alike; and
// what else the trade calls a size leads to a row there is.
func TestNamesAreUnique(t *testing.T) {
	for _, e := range Envelopes() {
		for _, name := range []string{
			e.Name, strings.ToUpper(e.Name), strings.ToLower(e.Name), strings.ReplaceAll(e.Name, " ", ""),
		} {
			got, ok := Named(name)
			assert.True(t, ok, name)
			assert.Equal(t, e, got, name)
		}
		assert.NotContains(t, otherNames, plain(e.Name))
	}
	for other, name := range otherNames {
		got, _ := Named(other)
		assert.Equal(t, name, got.Name, other)
	}
}

func TestEnvelopesAreCopied(t *testing.T) {
	Envelopes()[0].Height = 1
	assert.Equal(t, 81.0, Envelopes()[0].Height)
}

func TestEnvelopeString(t *testing.T) {
	for _, c := range []struct {
		e    Envelope
		want string
	}{
		{Envelope{Name: "own", Height: 120.5, Length: 235}, "own, 120.5 × 235 mm"},
		{Envelope{Height: 120, Length: 235}, "120 × 235 mm"},
		{Envelope{Name: "own", Height: 3.3125 * 25.4, Length: 5.0625 * 25.4}, "own, 3 5/16 × 5 1/16 in (84.1 × 128.6 mm)"},
		{Envelope{Name: "small", Height: 0.5 * 25.4, Length: 0.1875 * 25.4}, "small, ½ × 3/16 in (12.7 × 4.8 mm)"},
		{Envelope{Name: "nothing"}, "nothing, 0 × 0 mm"},
		{Envelope{Name: "one side whole", Height: 254, Length: 330}, "one side whole, 254 × 330 mm"},
	} {
		t.Run(c.want, func(t *testing.T) { assert.Equal(t, c.want, c.e.String()) })
	}
	for _, e := range Envelopes() {
		inInches := strings.Contains(e.String(), " in (")
		assert.Equal(t, strings.HasSuffix(mediaNames[e.Name], "in"), inInches, e.Name)
	}
}
