package say

import (
	"strings"
	"unicode/utf8"
)

// Indented returns the lines of a text two blanks to the right.
func Indented(text string) string {
	return "  " + strings.ReplaceAll(strings.TrimSuffix(text, "\n"), "\n", "\n  ") + "\n"
}

// Shortened returns the text with an end of … if it is too long.
func Shortened(text string, most int) string {
	runes := []rune(text)
	if len(runes) <= most {
		return text
	}
	return string(runes[:most-1]) + "…"
}

// Wrapped returns a text in lines of so many characters at most, broken between words.
// A word that is longer has a line of its own.
func Wrapped(text string, width int) string {
	var b strings.Builder
	used := 0
	for word := range strings.FieldsSeq(text) {
		size := utf8.RuneCountInString(word)
		switch {
		case used == 0:
		case used+1+size > width:
			b.WriteString("\n")
			used = 0
		default:
			b.WriteString(" ")
			used++
		}
		b.WriteString(word)
		used += size
	}
	return b.String() + "\n"
}

// Hanging returns a text after a mark, in lines of so many characters at most, its further lines
// below its own beginning.
func Hanging(mark, text string, width int) string {
	indent := utf8.RuneCountInString(strings.TrimLeft(mark, "\n"))
	lines := strings.TrimSuffix(Wrapped(text, width-indent), "\n")
	return mark + strings.ReplaceAll(lines, "\n", "\n"+strings.Repeat(" ", indent))
}

// Right returns a text flush right.
func Right(text string, width int) string {
	return strings.Repeat(" ", max(0, width-utf8.RuneCountInString(text))) + text
}
