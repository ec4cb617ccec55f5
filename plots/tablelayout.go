package plots

import (
	"strings"
	"unicode/utf8"
)

// How the columns of a table find room: on a screen, or on a sheet of paper.

const (
	narrowText = 14 // a column of text is broken down to this width, if need be
	wideText   = 28 // widest column of text in blocks
	wideNumber = 32 // widest column of numbers
)

// A paperSize is how much stands side by side, in characters.
type paperSize struct{ wide, gap int }

// A textColumn is a column with its entries as people read them.
type textColumn struct {
	Column
	entries []string
	width   int // characters
}

// textColumns returns the columns, as wide as what stands in them, up to a limit.
func (t *Table) textColumns() []textColumn {
	var columns []textColumn
	for k, c := range t.Columns {
		col := textColumn{Column: c}
		for _, entries := range t.Rows {
			col.entries = append(col.entries, c.shown(entries[k]))
		}
		unit := bracketed(c.unit())
		col.width = max(longest(col.entries...), longest(strings.Fields(c.heading())...),
			min(longest(oneLine(c.Title)), 10), min(longest(unit), narrowText))
		if c.counts() {
			col.width = min(col.width, wideNumber)
		}
		columns = append(columns, col)
	}
	return columns
}

// fit makes the columns of text narrower, the widest first, until all columns fit
// side by side. If they cannot, it makes them fit for blocks.
func (p paperSize) fit(columns []textColumn) []textColumn {
	least, spare := -p.gap, p.wide+p.gap
	for _, c := range columns {
		spare -= p.gap + c.width
		least += p.gap + c.narrowed(narrowText)
	}
	limit := wideText
	if least <= p.wide {
		limit = p.wide
		for ; spare < 0; spare++ {
			widestText(columns).width--
		}
	}
	for k, c := range columns {
		columns[k].width = c.narrowed(limit)
	}
	return columns
}

// narrowed returns the width of the column if one of text may be no wider than most.
func (c textColumn) narrowed(most int) int {
	if c.counts() {
		return c.width
	}
	return min(c.width, most)
}

// widestText returns the widest column of text.
func widestText(columns []textColumn) (widest *textColumn) {
	for k := range columns {
		if !columns[k].counts() && (widest == nil || columns[k].width > widest.width) {
			widest = &columns[k]
		}
	}
	return widest
}

// longest returns the characters of the longest of the texts.
func longest(texts ...string) (n int) {
	for _, s := range texts {
		n = max(n, utf8.RuneCountInString(s))
	}
	return n
}

// A textBlock is columns side by side.
type textBlock []textColumn

// blocks returns the columns in groups that fit on the paper, each of which begins
// with the first column.
func (t *Table) blocks(p paperSize) (all []textBlock) {
	columns := p.fit(t.textColumns())
	first := columns[0]
	block, used := textBlock{first}, first.width
	for _, c := range columns[1:] {
		if used+p.gap+c.width > p.wide && len(block) > 1 {
			all = append(all, block)
			block, used = textBlock{first}, first.width
		}
		block = append(block, c)
		used += p.gap + c.width
	}
	return append(all, block)
}
