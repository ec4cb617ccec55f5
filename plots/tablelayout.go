package plots

import (
	"slices"
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
type paperSize struct {
	wide, gap int
	measure   func(string) int // nil: each character counts as one
}

// A textColumn is a column with its entries as people read them.
type textColumn struct {
	Column
	of      int // which column of the table it is, from 0
	entries []string
	width   int // characters
}

// most returns how wide a column may be where columns stand in parts: no wider than two of them
// side by side can be.
func (p paperSize) most(wide int) int { return min(wide, (p.wide-p.gap)/2) }

// columns returns the columns, as wide as what stands in them, up to a limit.
func (p paperSize) columns(t *Table) []textColumn {
	var columns []textColumn
	for k, c := range t.Columns {
		col := textColumn{Column: c, of: k}
		for _, entries := range t.Rows {
			col.entries = append(col.entries, c.shown(entries[k]))
		}
		unit := bracketed(c.unit())
		col.width = max(p.longest(col.entries...), p.longest(strings.Fields(c.heading())...),
			min(p.longest(oneLine(c.Title)), 10), min(p.longest(unit), narrowText))
		if c.counts() {
			col.width = min(col.width, p.most(wideNumber))
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
	limit := p.most(wideText)
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
func (p paperSize) longest(texts ...string) (n int) {
	measure := p.measure
	if measure == nil {
		measure = utf8.RuneCountInString
	}
	for _, s := range texts {
		n = max(n, measure(s))
	}
	return n
}

// A textBlock is columns side by side. The first of them name the rows.
type textBlock struct {
	columns []textColumn
	names   int
}

// blocks returns the columns in groups that fit on the paper, each of which begins
// with the columns that name the rows. Joined columns are parted only if they do not
// fit beside those.
func (p paperSize) blocks(t *Table) (all []textBlock) {
	columns := p.fit(p.columns(t))
	if p.width(columns) <= p.wide {
		return []textBlock{{columns, t.names()}}
	}
	names := p.naming(columns, t.names())
	room := p.wide - p.width(columns[:names])
	var block []textColumn
	put := func(group ...textColumn) {
		if len(block) > 0 && p.gap+p.width(block)+p.gap+p.width(group) > room {
			all = append(all, textBlock{slices.Concat(columns[:names], block), names})
			block = nil
		}
		block = append(block, group...)
	}
	for _, group := range groups(columns[names:]) {
		if p.gap+p.width(group) <= room {
			put(group...)
			continue
		}
		for _, c := range group {
			put(c)
		}
	}
	return append(all, textBlock{slices.Concat(columns[:names], block), names})
}

// naming makes room for the columns that name the rows of each part, so that any other
// column still stands beside them, and returns how many of them there are: fewer if they
// do not fit.
func (p paperSize) naming(columns []textColumn, names int) int {
	most := min(p.wide*6/10, p.wide-p.gap-p.most(wideNumber))
	for ; names > 1 && p.width(columns[:names]) > most; names-- {
		first := slices.Clone(columns[:names])
		for k := range first {
			first[k].width = first[k].narrowed(max(narrowText, most/names-p.gap))
		}
		if p.width(first) <= most {
			copy(columns, first)
			break
		}
	}
	return names
}

// width returns how wide the columns are side by side.
func (p paperSize) width(columns []textColumn) int {
	wide := -p.gap
	for _, c := range columns {
		wide += p.gap + c.width
	}
	return max(0, wide)
}
