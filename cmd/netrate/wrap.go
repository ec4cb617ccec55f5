package main

import (
	"strings"
	"unicode/utf8"
)

// wrapped returns a text in lines of so many characters at most, broken between words.
// A word that is longer has a line of its own.
func wrapped(text string, width int) string {
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

// right returns a text flush right.
func right(text string, width int) string {
	return strings.Repeat(" ", max(0, width-utf8.RuneCountInString(text))) + text
}
