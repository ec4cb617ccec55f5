package stoplog

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"netrate/model"
	"netrate/scenarios"
	"netrate/sim"
)

// Mapping says what a file does not say itself. The zero Mapping reads files with usual
// headings.
type Mapping struct {
	File      string            // name of the file, for messages
	Columns   map[Column]string // heading of a column, or its number from 1; by usual words where not given
	Headless  bool              // the first row is not a header; Columns then gives numbers
	Delimiter byte              // comma, semicolon, tab or bar; 0: the one that the first row has most of
	Decimal   byte              // comma or point; 0: a point where fields are separated by commas, else the first one met
	Thousands byte              // mark of thousands in feeds and speeds: point, comma or apostrophe; 0: there is none
	Times     Times             // how moments are written, where the first one leaves that open
	Zone      *time.Location    // of moments written without their zone; nil: UTC
	Start     time.Time         // moment from which seconds from the start count
	Unit      Unit              // of durations; "": the heading says it
	Causes    map[string]Cause  // the user's own words for causes
	Line      string            // only rows of this line are taken; "": all, which must then be of one
	SkipBad   bool              // rows that cannot be read are no error
	Keep      int               // problems kept for the report; 0: 50
}

// usualKeep is how many problems are kept if the user does not say.
const usualKeep = 50

// Unit is what a duration is counted in.
type Unit string

// The units.
const (
	Seconds Unit = "seconds"
	Minutes Unit = "minutes"
	Hours   Unit = "hours"
)

var unitSizes = map[Unit]sim.Seconds{Seconds: 1, Minutes: 60, Hours: 3600}

// check says what in the mapping cannot be.
func (m *Mapping) check(kinds []kind) (ps scenarios.Problems) {
	note := func(format string, args ...any) {
		ps = append(ps, scenarios.Problem{File: m.File, Text: fmt.Sprintf(format, args...)})
	}
	names := columnNames(kinds)
	for _, c := range sortedKeys(m.Columns) {
		if !slices.Contains(names, string(c)) {
			note("a column is to be read as %q: %s", c, meant(string(c), names))
		}
	}
	if m.Delimiter != 0 && strings.IndexByte(delimiters, m.Delimiter) < 0 {
		note("the delimiter is %q, want a comma, a semicolon, a tab or a bar", m.Delimiter)
	}
	if m.Decimal != 0 && m.Decimal != '.' && m.Decimal != ',' {
		note("the decimal mark is %q, want a comma or a point", m.Decimal)
	}
	if m.Thousands != 0 && strings.IndexByte(".,'", m.Thousands) < 0 {
		note("the mark of thousands is %q, want a point, a comma or an apostrophe", m.Thousands)
	}
	if m.Times != "" && !slices.Contains(allTimes, m.Times) {
		note("times are %q, want one of %q", m.Times, allTimes)
	}
	if m.Unit != "" && unitSizes[m.Unit] == 0 {
		note("the unit is %q, want seconds, minutes or hours", m.Unit)
	}
	if m.Keep < 0 {
		note("%d problems are to be kept, want 0 or more", m.Keep)
	}
	return ps
}

func sortedKeys[K ~string, V any](m map[K]V) []K { return slices.Sorted(maps.Keys(m)) }

// meant returns a hint at the name that was meant, or else all of them.
func meant(word string, names []string) string {
	if near := scenarios.Nearest(word, names); near != "" {
		return "did you mean " + near + "?"
	}
	return "want " + model.OneOf(names)
}
