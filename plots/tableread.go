package plots

import (
	"math"
	"strings"
)

// read returns the table as people read it: without the columns that are for programs.
func (t *Table) read() *Table {
	read := *t
	read.Columns, read.Rows, read.Bars = nil, make([][]Entry, len(t.Rows)), 0
	for k, c := range t.Columns {
		if c.Data {
			if k < t.Names {
				read.Names--
			}
			continue
		}
		read.Columns = append(read.Columns, c)
		if k+1 == t.Bars {
			read.Bars = len(read.Columns)
		}
		for i, entries := range t.Rows {
			read.Rows[i] = append(read.Rows[i], entries[k])
		}
	}
	return &read
}

// The least and the most room for bars, in characters.
const (
	leastBar = 8
	mostBar  = 24
)

// bars returns a bar for each row, or nil if there is no room for them.
func (t *Table) bars(room int) []string {
	if t.Bars == 0 || room < leastBar {
		return nil
	}
	most := 0.0
	for _, entries := range t.Rows {
		most = max(most, entries[t.Bars-1].Number)
	}
	var all []string
	for _, entries := range t.Rows {
		all = append(all, bar(entries[t.Bars-1].Number, most, min(room, mostBar)))
	}
	return all
}

// bar returns a bar from 0 to x, as wide as room for most.
func bar(x, most float64, room int) string {
	if !(most > 0 && x > 0) {
		return ""
	}
	eighths := int(math.Round(8 * float64(room) * x / most))
	whole := strings.Repeat("█", eighths/8)
	if rest := eighths % 8; rest > 0 {
		whole += string([]rune("▏▎▍▌▋▊▉")[rest-1])
	}
	return whole
}
