package stoplog

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"netrate/scenarios"
)

// Names are kept so that one text serves all rows that have it; and only this many, so
// that a file full of different names does not fill the memory.
const (
	maxName  = 120  // characters
	maxNames = 4096 // names kept
)

// names holds the texts met so far.
type names map[string]string

// of returns the text of a cell, or why it is no name.
func (n names) of(cell []byte) (name, why string) {
	if s, met := n[string(cell)]; met { // this conversion allocates nothing
		return s, ""
	}
	s := unguarded(scenarios.Normal(string(cell)))
	unseen, hidden := scenarios.Unseen(s)
	switch {
	case !utf8.ValidString(s):
		return "", "characters in UTF-8: save the file anew as CSV UTF-8"
	case utf8.RuneCountInString(s) > maxName:
		return "", "at most 120 characters"
	case strings.ContainsFunc(s, func(r rune) bool { return !unicode.IsPrint(r) }):
		return "", "one line of characters that can be printed"
	case hidden:
		return "", fmt.Sprintf("none of the character %U, which nobody sees", unseen)
	}
	if len(n) < maxNames {
		n[string(cell)] = s
	}
	return s, ""
}

// unguarded returns a text without the ' that programs write before what a spreadsheet
// could take for a formula, and before a ' of its own.
func unguarded(s string) string {
	if rest, guarded := strings.CutPrefix(s, "'"); guarded && rest != "" {
		if first, _ := utf8.DecodeRuneInString(rest); strings.ContainsRune("=+-@＝＋－＠'", first) {
			return rest
		}
	}
	return s
}
