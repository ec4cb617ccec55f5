package main

import (
	"strings"
	"unicode/utf8"
)

// grid returns rows of cells as a table of columns that are so many characters wide, flush
// left, with two blanks between them. What is wider than its column goes on below.
func grid(rows [][]string, widths []int) string {
	var b strings.Builder
	for _, row := range rows {
		cells, high := make([][]string, len(row)), 0
		for k, cell := range row {
			for line := range strings.SplitSeq(cell, "\n") {
				cells[k] = append(cells[k], strings.Split(strings.TrimSuffix(wrapped(line, widths[k]), "\n"), "\n")...)
			}
			high = max(high, len(cells[k]))
		}
		for n := range high {
			text := ""
			for k, lines := range cells {
				if n < len(lines) {
					text += lines[n]
				}
				text += strings.Repeat(" ", max(0, sum(widths[:k+1])+2*(k+1)-utf8.RuneCountInString(text)))
			}
			b.WriteString(strings.TrimRight(text, " ") + "\n")
		}
	}
	return b.String()
}

func sum(numbers []int) (all int) {
	for _, n := range numbers {
		all += n
	}
	return all
}
