// Package terminal says how text stands on a terminal: how many columns it takes, and where a line
// of it may end.
package terminal

import (
	"unicode"

	"golang.org/x/text/width"
)

// Width returns how many columns of a terminal a text takes: two for each wide character,
// such as those of Chinese, and none for those that are set on the one before.
//
// Source: Unicode Standard Annex 11, East Asian Width.
func Width(s string) (n int) {
	for _, r := range s {
		n += RuneWidth(r)
	}
	return n
}

// RuneWidth returns how many columns one character takes.
func RuneWidth(r rune) int {
	if r < 0x300 { // which is most, and none of these is wide
		return 1
	}
	if unicode.In(r, unicode.Mn, unicode.Me, unicode.Cf) {
		return 0
	}
	switch width.LookupRune(r).Kind() {
	case width.EastAsianWide, width.EastAsianFullwidth:
		return 2
	case width.Neutral, width.EastAsianAmbiguous, width.EastAsianNarrow, width.EastAsianHalfwidth:
	}
	return 1
}
