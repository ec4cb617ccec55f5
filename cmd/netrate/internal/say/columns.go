package say

import (
	"slices"
	"strings"
	"unicode/utf8"
)

// LeastName is how narrow a column of names can become.
const LeastName = 12

// Columns returns rows of the same number of cells as a table that fits the screen: names
// on the left, over several lines if they must, and all else flush right.
func Columns(rows [][]string) string {
	widths := make([]int, len(rows[0]))
	for _, row := range rows {
		for k, cell := range row {
			widths[k] = max(widths[k], utf8.RuneCountInString(cell))
		}
	}
	between, rest := 2, len(widths)-1
	for _, width := range widths[1:] {
		rest += width
	}
	if widths[0]+rest+len(widths)-1 > Screen {
		between = 1
	}
	widths[0] = max(LeastName, min(widths[0], Screen-rest))
	var b strings.Builder
	for _, row := range rows {
		names := slices.Collect(strings.Lines(Wrapped(row[0], widths[0])))
		line := strings.TrimSuffix(names[0], "\n")
		line += strings.Repeat(" ", max(0, widths[0]-utf8.RuneCountInString(line)))
		for k, cell := range row[1:] {
			line += Right(cell, between+widths[k+1])
		}
		b.WriteString(strings.TrimRight(line, " ") + "\n")
		for _, more := range names[1:] {
			b.WriteString("  " + more)
		}
	}
	return b.String()
}

// Screen is how many characters wide an answer is.
const Screen = 80

// ScreenLines is how many lines an answer has at most, where that is possible.
const ScreenLines = 24
