package stoplog

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"netrate/scenarios"
)

// reading is a file that is being read.
type reading struct {
	Mapping
	rows
	kinds   []kind
	stopLog bool           // or else counts
	places  map[Column]int // which cell of a row is what, from 0
	width   int            // cells of the first row, the header if there is one
	report  Report
	bad     bool          // the row at hand has a problem
	noUnit  bool          // that the lengths have no unit has been said
	often   map[alike]int // rows of each problem
	oftenIn map[alike]int // and the line of the last of them

	words       map[string]Cause // what causes are called, made plain
	met         map[string]Cause // and as they were written so far
	names       names
	zone        *time.Location
	dateMet     bool // a date was read: those that follow are written like it
	layoutOf    layoutKey
	layoutIs    string
	decimalLine int          // where the decimal mark was settled; 0 if before the first row
	wide        []wideColumn // of stations; nil where there is one of feeds
	wideSettled bool
	joined      []byte   // a date and a time of day, put together
	byPeriod    bool     // stops name no moment, but a period or a shift
	hourly      bool     // a period is an hour, by its heading
	lines       linesMet // that rows are of
}

// read reads a file and calls take for each of its rows, which notes what is wrong with it
// or uses it.
func read(in io.Reader, m Mapping, kinds []kind, take func(*reading) error) (Report, error) {
	f := &reading{
		Mapping: m, rows: newRows(in), kinds: kinds, stopLog: kinds[0].column == When, places: map[Column]int{},
		names: names{}, met: map[string]Cause{}, zone: cmp.Or(m.Zone, time.UTC),
	}
	f.File = cmp.Or(m.File, "log")
	if ps := f.check(kinds); len(ps) > 0 {
		return f.report, ps
	}
	f.Keep = cmp.Or(f.Keep, usualKeep)
	err := f.asksForLine()
	if err != nil {
		return f.report, err
	}
	if f.words, err = causeWords(m.Causes); err != nil {
		return f.report, fmt.Errorf("%s: %w", f.File, err)
	}
	switch err = f.open(); {
	case errors.Is(err, io.EOF):
		return f.report, f.nothing("the file is empty, want a header and rows")
	case err != nil:
		return f.report, fmt.Errorf("%s: %w", f.File, err)
	case len(f.report.Problems) > 0:
		return f.report, f.report.Problems
	}
	err = f.all(take)
	alike := f.sumUp()
	f.report.Blank = f.blank
	if err == nil {
		err = f.ofOneLine()
	}
	if err == nil && f.report.Rows == 0 {
		return f.report, f.nothing("there are no rows, only what stands above them")
	}
	if err == nil && f.report.Skipped > 0 && !f.SkipBad {
		err = BadRows{f.report.Problems, f.report.Skipped, f.report.Rows, alike}
	}
	return f.report, err
}

// nothing returns what is wrong with a file that ends too early.
func (f *reading) nothing(text string) error {
	return scenarios.Problems{{File: f.File, Line: f.next, Column: 1, Text: text}}
}

// all goes through the rows.
func (f *reading) all(take func(*reading) error) error {
	for {
		switch err := f.advance(); {
		case errors.Is(err, io.EOF):
			return nil
		case err != nil:
			return fmt.Errorf("%s: after line %d: %w", f.File, f.next-1, err)
		}
		f.bad = false
		before := len(f.report.Problems)
		var err error
		if f.sound() { // else the cell of the line may be another
			if f.elsewhere() {
				f.report.Elsewhere++
				continue
			}
			err = take(f)
		}
		f.report.Rows++
		if f.bad {
			f.report.Skipped++
			if sum := f.sum(); sum != nil { // of which all else that is wrong is no matter
				f.report.Problems = f.report.Problems[:before]
				f.note(sum.at, "%s is no row of the log: it sums others up, leave it out", quote(sum.text))
			}
			sortByPlace(f.report.Problems[before:])
		} else {
			f.report.Used++
		}
		if err != nil {
			return fmt.Errorf("%s:%d: %w", f.File, f.line, err)
		}
	}
}

// sum returns the cell that makes the row at hand one of sums, as spreadsheets put them below; nil if there is none.
func (f *reading) sum() *cell {
	for i := range f.cells {
		switch strings.ToLower(strings.TrimRight(string(f.cells[i].text), ": ")) {
		case "sum", "total", "totals", "grand total", "subtotal":
			return &f.cells[i]
		}
	}
	return nil
}

// sound notes what is wrong with the row as a whole. Empty cells at its end may be missing
// or too many.
func (f *reading) sound() bool {
	n := len(f.cells)
	if f.width == 0 && f.fault == "" {
		f.width = n
	}
	for n > f.width && len(f.cells[n-1].text) == 0 {
		n--
	}
	switch {
	case f.fault != "":
		f.note(f.faultAt, "%s", f.fault)
	case n > f.width:
		f.note(f.cells[f.width].at, "the row has %d fields, want at most %d as in the first row%s", n, f.width, commaHint[f.delimiter])
	}
	return !f.bad
}

var commaHint = map[byte]string{',': "; decimals have a point here, and texts with a comma stand in quotes"}

// has says whether the file has a column.
func (f *reading) has(c Column) bool {
	_, is := f.places[c]
	return is
}

// field returns the cell of a column; an empty one if the file or the row has none.
func (f *reading) field(c Column) cell {
	at, is := f.places[c]
	if !is || at >= len(f.cells) {
		return cell{at: len(bytes.TrimRight(f.raw, "\r\n"))}
	}
	return f.cells[at]
}
