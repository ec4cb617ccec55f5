package stoplog

import (
	"cmp"
	"strconv"
)

// settleColumns finds the column of each kind: first those that are given, then by usual
// words among the others.
func (f *reading) settleColumns(headings []string) {
	taken := make(map[int]Column) // by number of the column, from 0
	for _, k := range f.kinds {
		name, given := f.Columns[k.column]
		if !given {
			continue
		}
		if at := f.givenColumn(k.column, name, headings); at >= 0 {
			if before, twice := taken[at]; twice {
				f.noteHeading(at, "column %d is given for both %s and %s", at+1, before, k.column)
			}
			taken[at], f.places[k.column] = k.column, at
		}
	}
	usual := make(map[int]Column)
	for _, k := range f.kinds {
		if _, given := f.Columns[k.column]; !given {
			f.usualColumn(k, headings, taken, usual)
		}
	}
	switch {
	case !f.stopLog:
	case f.has(When): // which says more than an hour or a shift
		delete(f.places, Period)
		delete(f.places, Shift)
	case f.has(Period) || f.has(Shift):
		f.byPeriod = true
	case f.has(Day): // a date with the time in it
		f.places[When] = f.places[Day]
		delete(f.places, Day)
	}
	f.settleWide(headings)
	f.missing()
	f.describe(headings)
}

// givenColumn returns the column with a heading, or with a number, from 0; -1 if there is
// none, which is noted.
func (f *reading) givenColumn(c Column, name string, headings []string) int {
	at, fits := -1, 0
	for i, h := range headings {
		if plain(h) == plain(name) && plain(name) != "" {
			at, fits = i, fits+1
		}
	}
	n, err := strconv.Atoi(name)
	switch {
	case fits > 1:
		f.noteHeading(at, "%d columns are headed %q: give the number of the one that is %s", fits, name, c)
	case fits == 1:
		return at
	case err == nil && n >= 1 && (f.Headless && n <= maxRow || n <= len(headings)):
		return n - 1
	case f.Headless:
		f.note(0, "%s is to be column %q, want a number from 1, as the file has no header", c, name)
	default:
		f.note(0, "%s is to be column %q, which the header does not have: %s", c, name, meant(name, headings))
	}
	return -1
}

// usualColumn finds the column of a kind by the words of its heading.
func (f *reading) usualColumn(k kind, headings []string, taken, usual map[int]Column) {
	for i, h := range headings {
		if _, is := taken[i]; is || !k.isUsual(h) {
			continue
		}
		if first, twice := f.places[k.column]; twice {
			f.noteHeading(i, "%s could be column %q or column %q: say which", k.column, headings[first], h)
			return
		}
		if before, twice := usual[i]; twice {
			f.noteHeading(i, "column %q could be %s or %s: say which", h, before, k.column)
			return
		}
		usual[i], f.places[k.column] = k.column, i
	}
}

// missing notes the columns that must be there and are not.
func (f *reading) missing() {
	if len(f.report.Problems) > 0 || f.wide != nil {
		return
	}
	ask := func(c Column, what, heading string) {
		if !f.has(c) {
			f.note(0, "no column is %s: name the column that is %q, or head it %s", what, string(c), heading)
		}
	}
	if !f.stopLog {
		ask(Station, "the station", "station")
		ask(Feeds, "the feeds", "feeds")
		return
	}
	if !f.byPeriod {
		ask(When, "the moment at which a stop began", "start")
	}
	ask(Station, "the station", "station")
	ask(Reason, "the cause", "cause")
	if !f.has(End) || f.byPeriod {
		ask(Length, "how long a stop lasted, and none when it ended", "seconds, minutes or end")
	}
}

// describe writes down what is read as what.
func (f *reading) describe(headings []string) {
	l := &f.report.Layout
	is := make(map[int]Column, len(f.places))
	last := len(headings)
	for c, at := range f.places {
		is[at] = c
		last = max(last, at+1)
	}
	for i := range last {
		c, read := is[i]
		heading := ""
		if i < len(headings) {
			heading = headings[i]
		}
		if !read {
			if heading != "" {
				l.Unread = append(l.Unread, heading)
			}
			continue
		}
		_, given := f.Columns[c]
		l.Columns = append(l.Columns, Reading{c, i + 1, heading, given})
		f.settleUnits(c, heading)
	}
}

// settleUnits takes the units that the mapping says, or else a heading.
func (f *reading) settleUnits(c Column, heading string) {
	l := &f.report.Layout
	_, unit := splitHeading(heading)
	switch {
	case c == Period:
		f.hourly = plain(heading) == hourWord
	case c == Length:
		l.Unit = cmp.Or(f.Unit, unit)
	case c == When && f.Times == "" && unit == Seconds:
		l.Times = FromStart
	}
}
