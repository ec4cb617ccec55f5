package say

import (
	"strings"
	"unicode/utf8"
)

// Grid returns rows of cells as a table of columns that are so many characters wide, flush
// left, with two blanks between them. What is wider than its column goes on below.
func Grid(rows [][]string, widths []int) string {
	var b strings.Builder
	for _, row := range rows {
		cells, high := make([][]string, len(row)), 0
		for k, cell := range row {
			for line := range strings.SplitSeq(cell, "\n") {
				cells[k] = append(cells[k], strings.Split(strings.TrimSuffix(Wrapped(line, widths[k]), "\n"), "\n")...)
			}
			high = max(high, len(cells[k]))
		}
		for n := range high {
			var line strings.Builder
			for k, lines := range cells {
				cell := ""
				if n < len(lines) {
					cell = lines[n]
				}
				line.WriteString(cell + strings.Repeat(" ", 2+max(0, widths[k]-utf8.RuneCountInString(cell))))
			}
			b.WriteString(strings.TrimRight(line.String(), " ") + "\n")
		}
	}
	return b.String()
}
