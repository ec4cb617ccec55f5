package formats

import (
	"slices"
	"strings"
)

// Sheet is a size of cut paper, upright.
type Sheet struct {
	Name   string
	Width  float64 // mm
	Height float64 // mm
	Source string
}

const iso216 = "ISO 216"

var sheets = []Sheet{
	{"A3", 297, 420, iso216},
	{"A4", 210, 297, iso216},
	{"A5", 148, 210, iso216},
	{"A6", 105, 148, iso216},
	{"Letter", 8.5 * inch, 11 * inch, pwg + "na_letter_8.5x11in"},
	{"Legal", 8.5 * inch, 14 * inch, pwg + "na_legal_8.5x14in"},
}

// Sheets returns the sizes of paper, the international ones first.
func Sheets() []Sheet { return slices.Clone(sheets) }

// SheetNamed returns the sheet of that name, and whether there is one; case and spaces do
// not matter.
func SheetNamed(name string) (Sheet, bool) {
	word := strings.ReplaceAll(name, " ", "")
	for _, s := range sheets {
		if strings.EqualFold(s.Name, word) {
			return s, true
		}
	}
	return Sheet{}, false
}
