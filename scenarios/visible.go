package scenarios

import (
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Normal returns a text in the composed form of Unicode (NFC). Two texts that look alike
// because one writes é as a letter and the other as a letter and an accent are then alike.
func Normal(text string) string { return norm.NFC.String(text) }

// Unseen returns the first character of a text that leaves no trace on a screen and is no
// space, such as U+3164: two names that differ by it look alike. Those that are not to be
// printed at all, which [unicode.IsPrint] knows, are not looked for.
//
// Source: Unicode Standard Annex #44, property Default_Ignorable_Code_Point, of which
// [unicode.IsPrint] lets pass what is listed here; U+2800, the Braille pattern without
// dots, has no property.
func Unseen(text string) (c rune, found bool) {
	for _, c := range text {
		if c == '\u2800' || unicode.In(c, unicode.Other_Default_Ignorable_Code_Point, unicode.Variation_Selector) {
			return c, true
		}
	}
	return 0, false
}
