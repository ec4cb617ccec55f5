package plots

import (
	"math"
	"strings"
	"unicode"
)

// A Table is figures in rows: plain data, to be written as CSV, as a sheet of a
// workbook (WriteXLSX), as HTML, as text or, where a screen has room for little, as text
// in brief. All but the last show the unit of a column in
// its heading. The texts of a table are one line each: control characters and line
// breaks in them become spaces. Where people read it, as HTML or as text, a table that
// says nothing but zero of its rows is its caption and the words “all zero”.
type Table struct {
	Name    string // short; the sheet of a workbook is called so
	Caption string // what the table shows
	Columns []Column
	Names   int       // the first columns that name a row; 0 for as many as make rows distinct
	Rows    [][]Entry // an entry for each column

	// Form has the empty places of a page drawn as boxes, wide and high enough to be filled in by hand.
	Form bool

	Unmarked bool // its CSV has no byte order mark: for programs, some of which know none

	// Bars is the column, counted from 1, of which the text shows bars beside the rows, from 0
	// to its largest number, where there is room; 0 for none.
	Bars int

	// Most is the most rows that stand in a page, which then says how many more there are; 0 for all.
	// The workbook has all of them.
	Most int

	// Roles are those of the rows, whose bars in a page have their colours; nil for none. The row
	// of what is recommended is bold.
	Roles []Role
}

// A Column is the heading of a column, and how its entries are written.
type Column struct {
	Title    string
	Unit     string // of a number; of a share, the whole it is a share of, as in "of the shift"
	Kind     Kind
	Decimals int // shown, from 0 to 9; of a share, those of its percentage

	// Joined keeps the column beside the one before it if the table is parted. Those
	// called “±”, “from” or “to”, or by a number, such as “90 %”, stay there unasked.
	Joined bool

	// Bar shows a bar below each number of the column in a page, from zero on, all on one scale.
	Bar bool

	// Data keeps the column out of what people read: CSV and the workbook have it.
	Data bool

	// Brief is the heading of the column where the table is written in brief, which leaves
	// out the columns that have none. That of the first column says what the table shows.
	Brief string
}

// A Kind tells what stands in a column.
type Kind int

// The kinds of columns.
const (
	Text   Kind = iota
	Number      // with thousands separators where people read it
	Share       // from 0 to 1 in the data, shown in percent
)

// An Entry is what stands in one place of a table. In a column of numbers or shares
// the text, if there is one, takes the place of the number ("not known"), and NaN
// leaves the place empty.
type Entry struct {
	Text   string
	Number float64
	Shown  string // the number as people read it; "" for one with the decimals of its column
}

// check notes what keeps the table from being written.
func (t *Table) check() error {
	var c check
	if len(t.Columns) == 0 {
		c.note("table %q has no columns", t.Name)
	}
	if t.Bars < 0 || t.Bars > len(t.Columns) {
		c.note("table %q: bars of column %d, want from 0 to %d", t.Name, t.Bars, len(t.Columns))
	}
	if t.Roles != nil && len(t.Roles) != len(t.Rows) {
		c.note("table %q: %d roles for %d rows", t.Name, len(t.Roles), len(t.Rows))
	}
	if t.Names < 0 || t.Names > len(t.Columns) {
		c.note("table %q: %d columns name a row, want from 0 to %d", t.Name, t.Names, len(t.Columns))
	}
	for _, col := range t.Columns {
		if col.Kind < Text || col.Kind > Share {
			c.note("table %q, column %q: no kind %d", t.Name, col.Title, col.Kind)
		}
		if col.Decimals < 0 || col.Decimals > 9 {
			c.note("table %q, column %q: %d decimals, want from 0 to 9", t.Name, col.Title, col.Decimals)
		}
	}
	for i, entries := range t.Rows {
		if len(entries) != len(t.Columns) {
			c.note("table %q, row %d: %d entries, want %d", t.Name, i+1, len(entries), len(t.Columns))
			continue
		}
		for k, e := range entries {
			if t.Columns[k].numeric(e) && math.IsInf(e.Number, 0) {
				c.note("table %q, row %d, column %q: %v, want a number", t.Name, i+1, t.Columns[k].Title, e.Number)
			}
		}
	}
	return c.err()
}

// counts reports whether numbers stand in the column.
func (c Column) counts() bool { return c.Kind != Text }

// numeric reports whether the entry is a number there, and not words or nothing.
func (c Column) numeric(e Entry) bool {
	return c.counts() && e.Text == "" && !math.IsNaN(e.Number)
}

// unit returns what the numbers of the column are counted in.
func (c Column) unit() string { return oneLine(c.Unit) }

// heading returns the title with its unit, in brackets.
func (c Column) heading() string {
	return strings.TrimSpace(oneLine(c.Title) + " " + bracketed(c.unit()))
}

// bracketed returns s in brackets, and nothing of nothing.
func bracketed(s string) string {
	if s == "" {
		return ""
	}
	return "(" + s + ")"
}

// shown returns the entry as people read it.
func (c Column) shown(e Entry) string {
	switch {
	case !c.numeric(e):
		return oneLine(e.Text)
	case e.Shown != "":
		return oneLine(e.Shown)
	case c.Kind == Share:
		return number(100*e.Number, c.Decimals) + " %"
	}
	return number(e.Number, c.Decimals)
}

// oneLine returns s on one line and in valid UTF-8, without white space around it.
func oneLine(s string) string {
	s = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || r == '\u2028' || r == '\u2029' {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(s, "\uFFFD"))
	return strings.TrimSpace(s)
}
