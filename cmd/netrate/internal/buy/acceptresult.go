package buy

import (
	"encoding/csv"
	"errors"
	"io"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
)

// resultColumns are the columns of the counts of a test: those of the form in the report. Each row is
// a part of the test, such as a shift. Only the first two must be there.
var resultColumns = []string{"hours", "good", "sets", "stops", "clearing_s", "defective", "diverted"}

// wholeColumns are those of them that are counts.
var wholeColumns = []string{"good", "sets", "stops", "defective", "diverted"}

// untilColumn is a column that says when each row ended, which places the stops of a log in the rows.
const untilColumn = "until"

// readResult reads the counts of a test and adds up its rows.
func readResult(e desk.Env, file string) (*study.AcceptanceResult, error) {
	from, err := e.Open(file)
	if err != nil {
		return nil, err
	}
	defer func() { _ = from.Close() }() // it was only read
	r := csv.NewReader(from)
	r.TrimLeadingSpace = true
	headings, err := r.Read()
	if errors.Is(err, io.EOF) {
		return nil, desk.Wrong("%s is empty: want a row of headings: %s", desk.ShownFile(file), strings.Join(resultColumns, ","))
	}
	if err != nil {
		return nil, desk.Wrong("%s: %v", desk.ShownFile(file), err)
	}
	if sign := otherSeparator(headings); sign != "" {
		return nil, desk.Wrong("%s separates its columns by %s: want commas, and decimals with a point (7.5, not 7,5)", desk.ShownFile(file), sign)
	}
	sums, err := newSums(file, headings)
	if err != nil {
		return nil, err
	}
	for {
		row, err := r.Read()
		if errors.Is(err, io.EOF) {
			return sums.result()
		}
		line, _ := r.FieldPos(0)
		if errors.Is(err, csv.ErrFieldCount) {
			err = desk.Wrong("line %d has %s, and the headings have %d: leave none out, and write no comma into a number", line, say.Plural(len(row), "column"), len(headings))
		}
		if err == nil {
			err = sums.add(line, row)
		}
		if err != nil {
			return nil, desk.Wrong("%s: %v", desk.ShownFile(file), err)
		}
	}
}

// otherSeparator names what separates the columns of a row of headings that has no comma; "" if
// nothing does.
func otherSeparator(headings []string) string {
	if len(headings) == 1 {
		for _, x := range [][2]string{{";", "semicolons"}, {"\t", "tabs"}, {"|", "bars"}} {
			if strings.Contains(headings[0], x[0]) {
				return x[1]
			}
		}
	}
	return ""
}

// sums adds up the columns of counts.
type sums struct {
	file    string
	columns []string // the name of each column of the file
	of      map[string]float64
	filled  map[string]bool          // of each column that has been read, whether its rows have something
	parts   []study.AcceptanceResult // the rows
}

// newSums returns sums of the columns with these headings; others than ours are left out.
func newSums(file string, headings []string) (*sums, error) {
	s := &sums{file: file, of: map[string]float64{}, filled: map[string]bool{}}
	for _, h := range headings {
		name := strings.ToLower(strings.TrimSpace(strings.TrimPrefix(h, "\ufeff")))
		if slices.Contains(s.columns, name) && (name == untilColumn || slices.Contains(resultColumns, name)) {
			return nil, desk.Wrong("%s has the column %s twice", desk.ShownFile(file), name)
		}
		s.columns = append(s.columns, name)
	}
	for _, name := range resultColumns[:2] {
		if !slices.Contains(s.columns, name) {
			return nil, desk.Wrong("%s has no column %s: want hours and good, and what else was counted of %s", desk.ShownFile(file), name, strings.Join(resultColumns[2:], ", "))
		}
	}
	return s, nil
}

// sumWords are how the last row of the form may be called: it is no part of the test.
var sumWords = []string{"sum", "sums", "total", "totals"}

// mostCounted is the most that a row may have of anything.
const mostCounted = 1e12

// sumOff is how far a sum may be off, as a share of it: hours are written with some digits.
const sumOff = 1e-6

// isSum reports whether a row is the sum of those above it, by its name.
func (s *sums) isSum(row []string) bool {
	for i, text := range row {
		if !slices.Contains(resultColumns, s.columns[i]) && isSumWord(text) {
			return true
		}
	}
	return false
}

func isSumWord(text string) bool {
	return slices.Contains(sumWords, strings.ToLower(strings.TrimSpace(text)))
}

// commaSplits reports whether a text is a number with commas between its thousands.
func commaSplits(text string) bool {
	_, err := strconv.ParseFloat(strings.ReplaceAll(strings.TrimSpace(text), ",", ""), 64)
	return err == nil && strings.Contains(text, ",")
}

// leftOut reports whether an entry is empty in a column that may be left out: as the form is printed, with what
// no clause needs. Such a column is empty in all rows or in none.
func (s *sums) leftOut(line int, name, text string) (bool, error) {
	if name != untilColumn && !slices.Contains(resultColumns[2:], name) {
		return false, nil
	}
	filled := strings.TrimSpace(text) != ""
	if before, read := s.filled[name]; read && before != filled {
		return false, desk.Wrong("line %d: %s is %q, and rows above it differ: fill it in all rows or in none", line, name, text)
	}
	s.filled[name] = filled
	return !filled, nil
}

// add adds a row, or looks whether it is the sum of those above it where it says that it is.
func (s *sums) add(line int, row []string) error {
	if s.isSum(row) {
		return s.compare(line, row)
	}
	as := len(s.parts) > 1 // the sum of those above
	before, own := maps.Clone(s.of), map[string]float64{}
	var until time.Time
	for i, text := range row {
		name := s.columns[i]
		if out, err := s.leftOut(line, name, text); err != nil {
			return err
		} else if out {
			continue
		}
		if name == untilColumn {
			var err error
			if until, err = momentOf(text); err != nil {
				return desk.Wrong("line %d: %s is %q, want when the row ended, such as 2026-03-02 14:00", line, name, text)
			}
		}
		if !slices.Contains(resultColumns, name) {
			continue
		}
		x, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
		switch {
		case err != nil && commaSplits(text):
			return desk.Wrong("line %d: %s is %q: a comma splits a number here, want it without", line, name, text)
		case name == resultColumns[0] && isSumWord(text):
			return desk.Wrong("line %d: a row is called %s in a column of its own, such as Shift, and not in that of the hours", line, strings.TrimSpace(text))
		case err != nil || !(x >= 0 && x <= mostCounted):
			return desk.Wrong("line %d: %s is %q, want a number of 0 or more, and at most %g", line, name, text, mostCounted)
		case x != math.Trunc(x) && slices.Contains(wholeColumns, name):
			return desk.Wrong("line %d: %s is %q, want a whole number: it is counted", line, name, text)
		}
		s.of[name] += x
		own[name] = x
		as = as && math.Abs(x-before[name]) <= sumOff*before[name]
	}
	if last := len(s.parts) - 1; last >= 0 && until.Before(s.parts[last].Until) {
		return desk.Wrong("line %d ended before the row above it did", line)
	}
	part := s.resultOf(own)
	part.Until = until
	if s.parts = append(s.parts, part); as && s.of["hours"] > 0 {
		return desk.Wrong("line %d is the sum of the rows above it: leave it out, or call it Sum in a column of its own", line)
	}
	return nil
}

// compare returns an error unless a row has the sums of those above it, as far as it has any.
func (s *sums) compare(line int, row []string) error {
	for i, text := range row {
		name, text := s.columns[i], strings.TrimSpace(text)
		if !slices.Contains(resultColumns, name) || text == "" {
			continue
		}
		x, err := strconv.ParseFloat(text, 64)
		if sum := s.of[name]; err != nil || !(math.Abs(x-sum) <= sumOff*sum) {
			return desk.Wrong("line %d: the sum of %s is %q, and the rows above it come to %s", line, name, text, say.Exact(sum))
		}
	}
	return nil
}

// result returns the sums as the question has them.
func (s *sums) result() (*study.AcceptanceResult, error) {
	if s.parts == nil {
		return nil, desk.Wrong("%s has no row below its headings: nothing was counted", desk.ShownFile(s.file))
	}
	if !(s.of["hours"] > 0) {
		return nil, desk.Wrong("%s: the test took 0 hours", desk.ShownFile(s.file))
	}
	all := s.resultOf(s.of)
	all.Parts = s.parts
	return &all, nil
}

// resultOf returns the counts of some columns.
func (s *sums) resultOf(of map[string]float64) study.AcceptanceResult {
	counted := func(name string) float64 {
		if filled, read := s.filled[name]; !slices.Contains(s.columns, name) || read && !filled {
			return -1
		}
		return of[name]
	}
	return study.AcceptanceResult{
		Hours: counted("hours"), Good: counted("good"), Sets: counted("sets"), Stops: counted("stops"),
		Clearing: counted("clearing_s"), Defective: counted("defective"), TakenOut: counted("diverted"),
	}
}

// moments are how a moment may be written.
var moments = []string{"2006-01-02 15:04:05", "2006-01-02 15:04", "2006-01-02T15:04:05", "2006-01-02T15:04"}

func momentOf(text string) (at time.Time, err error) {
	for _, layout := range moments {
		if at, err = time.Parse(layout, strings.TrimSpace(text)); err == nil {
			return at, nil
		}
	}
	return at, err
}
