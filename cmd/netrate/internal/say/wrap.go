package say

import (
	"strings"

	"netrate/plots/terminal"
)

// Indented returns the lines of a text two blanks to the right.
func Indented(text string) string {
	return "  " + strings.ReplaceAll(strings.TrimSuffix(text, "\n"), "\n", "\n  ") + "\n"
}

// Shortened returns the text with an end of … if it is too long.
func Shortened(text string, most int) string {
	if terminal.Width(text) <= most {
		return text
	}
	used := 1 // for the …
	for at, r := range text {
		if used += terminal.Width(string(r)); used > most {
			return text[:at] + "…"
		}
	}
	return text
}

// Wrapped returns a text in lines of width characters at most, broken between words but not
// between a number and its unit. A word that is longer has a line of its own.
func Wrapped(text string, width int) string {
	var b strings.Builder
	used := 0
	for _, word := range terminal.Words(text) {
		size := terminal.Width(word)
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

// Hanging returns a text after a mark, in lines of width characters at most, its further lines
// below its own beginning.
func Hanging(mark, text string, width int) string {
	indent := terminal.Width(strings.TrimLeft(mark, "\n"))
	lines := strings.TrimSuffix(Wrapped(text, width-indent), "\n")
	return mark + strings.ReplaceAll(lines, "\n", "\n"+strings.Repeat(" ", indent))
}
