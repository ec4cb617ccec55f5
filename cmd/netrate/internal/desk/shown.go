package desk

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"netrate/scenarios"
)

// Shown returns a name, or any text that others wrote, as a message shows it: as it is, or
// quoted where it holds what a terminal would obey or nobody would see.
func Shown(name string) string {
	_, hidden := scenarios.Unseen(name)
	if name == "" || !utf8.ValidString(name) || strings.ContainsFunc(name, func(c rune) bool { return !unicode.IsPrint(c) }) {
		return strconv.Quote(name)
	}
	if hidden {
		return strconv.QuoteToASCII(name)
	}
	return name
}
