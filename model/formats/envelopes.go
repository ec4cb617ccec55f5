package formats

import (
	"slices"
	"strings"
)

// Envelope is the size of a closed envelope.
type Envelope struct {
	Name   string
	Height float64 // mm
	Length float64 // mm; the side parallel to the address
	Source string  // where the size is written down
}

const (
	iso269 = "ISO 269:1985"
	pwg    = "PWG 5101.1, "
	chart  = "trade chart, no governing standard"
)

// The international sizes are whole millimetres, the North American ones inches.
var envelopes = []Envelope{
	{"C7", 81, 114, iso269},
	{"C7/6", 81, 162, iso269},
	{"C6", 114, 162, iso269},
	{"DL", 110, 220, iso269},
	{"C6/C5", 114, 229, iso269},
	{"B6", 125, 176, iso269},
	{"C5", 162, 229, iso269},
	{"B5", 176, 250, iso269},
	{"C4", 229, 324, iso269},
	{"B4", 250, 353, iso269},
	{"E4", 280, 400, "DIN 678-1"},
	{"C3", 324, 458, iso269},

	{"#6¾", 3.625 * inch, 6.5 * inch, pwg + "na_personal_3.625x6.5in"},
	{"#7", 3.75 * inch, 6.75 * inch, chart},
	{"#7¾", 3.875 * inch, 7.5 * inch, pwg + "na_monarch_3.875x7.5in"},
	{"#8⅝", 3.625 * inch, 8.625 * inch, chart},
	{"#9", 3.875 * inch, 8.875 * inch, pwg + "na_number-9_3.875x8.875in"},
	{"#10", 4.125 * inch, 9.5 * inch, pwg + "na_number-10_4.125x9.5in"},
	{"#11", 4.5 * inch, 10.375 * inch, pwg + "na_number-11_4.5x10.375in"},
	{"#12", 4.75 * inch, 11 * inch, pwg + "na_number-12_4.75x11in"},
	{"#14", 5 * inch, 11.5 * inch, pwg + "na_number-14_5x11.5in"},
	{"6 × 9", 6 * inch, 9 * inch, pwg + "na_6x9_6x9in"},
	{"6½ × 9½", 6.5 * inch, 9.5 * inch, pwg + "na_c5_6.5x9.5in"},
	{"9 × 12", 9 * inch, 12 * inch, chart},
	{"10 × 13", 10 * inch, 13 * inch, pwg + "na_10x13_10x13in"},
}

// otherNames are names of the trade for the same sizes, as plain writes them. The booklet
// and catalog numbers are those of trade charts.
var otherNames = map[string]string{
	"lang": "DL", "long": "DL", "designatedlong": "DL",
	"c6/5": "C6/C5", "c5/6": "C6/C5", "c5/c6": "C6/C5", "c65": "C6/C5", "c6c5": "C6/C5",
	"c7/c6": "C7/6", "c6/7": "C7/6", "c6/c7": "C7/6", "c76": "C7/6", "c7c6": "C7/6",
	"personal": "#6¾", "monarch": "#7¾",
	"booklet61/2": "6 × 9", "catalog1": "6 × 9",
	"catalog13/4": "6½ × 9½",
	"booklet91/2": "9 × 12", "catalog101/2": "9 × 12",
	"booklet13": "10 × 13", "catalog131/2": "10 × 13",
}

// Envelopes returns the standard sizes, the international ones first.
func Envelopes() []Envelope { return slices.Clone(envelopes) }

// Named returns the standard envelope of that name, and whether there is one. It takes no
// notice of case and spaces, of "no." or "#" before a number, of how fractions are
// written, and knows the other names of the trade: "#10", "No. 10", "c6/5", "6-3/4",
// "9x12", "Monarch".
func Named(name string) (Envelope, bool) {
	word := plain(name)
	if other, ok := otherNames[word]; ok {
		word = plain(other)
	}
	for _, e := range envelopes {
		if plain(e.Name) == word {
			return e, true
		}
	}
	return Envelope{}, false
}

// At one place the first that matches is taken, so the longer words stand first.
var spelling = strings.NewReplacer(
	"⅛", "1/8", "¼", "1/4", "⅜", "3/8", "½", "1/2", "⅝", "5/8", "¾", "3/4", "⅞", "7/8",
	".625", "5/8", ".75", "3/4", ".50", "1/2", ".5", "1/2",
	"envelope", "", "number", "", "no.", "", "no", "", "iso", "", "din", "",
	"inches", "", "inch", "", "in", "", "catalogue", "catalog",
	"×", "x", "by", "x", "#", "", "-", "", "_", "", " ", "", "\u00a0", "", `"`, "",
)

// plain returns the name without the differences that nobody remembers.
func plain(name string) string { return spelling.Replace(strings.ToLower(name)) }

// String returns the name and the size, in inches too where both sides are whole
// sixteenths of an inch: "C5, 162 × 229 mm", "#10, 4⅛ × 9½ in (104.8 × 241.3 mm)". A name
// that is the size is not said twice.
func (e Envelope) String() string {
	size := short(e.Height, 1) + " × " + short(e.Length, 1) + " mm"
	height, exactHeight := sixteenths(e.Height)
	length, exactLength := sixteenths(e.Length)
	if exactHeight && exactLength {
		size = fraction(height) + " × " + fraction(length) + " in (" + size + ")"
	}
	if e.Name == "" || strings.HasPrefix(size, e.Name+" ") {
		return size
	}
	return e.Name + ", " + size
}
