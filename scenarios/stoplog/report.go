package stoplog

import (
	"bytes"
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"netrate/scenarios"
)

// maxOthers is how many names of causes that are not known are counted one by one.
const maxOthers = 1000

// Report is what became of the rows of a file: Rows = Used + Skipped, always.
type Report struct {
	Layout    Layout
	Rows      int64 // rows with something in them, besides the header
	Used      int64 // handed over
	Skipped   int64 // not read, for the reasons in Problems
	Blank     int64 // lines with nothing in them, which are no rows
	Elsewhere int64 // rows of other lines than the one asked for, which are none of these
	Midnights int64 // stops that ended on the day after that of their row

	Causes     [causes]int64      // stops used, by cause
	Others     map[string]int64   // those of Other by their own names, for the first 1000 of these
	OthersMore int64              // those with other names
	Problems   scenarios.Problems // in the order of the file, as many as were to be kept
}

// countCause counts a stop that is used.
func (r *Report) countCause(s *Stop) {
	r.Causes[s.Cause]++
	if s.Cause != Other {
		return
	}
	if _, met := r.Others[s.Called]; !met && len(r.Others) == maxOthers {
		r.OthersMore++
		return
	}
	if r.Others == nil {
		r.Others = map[string]int64{}
	}
	r.Others[s.Called]++
}

// BadRows is the error of a file some rows of which cannot be read. It unwraps to its
// problems.
type BadRows struct {
	Problems scenarios.Problems // the first of them
	Skipped  int64              // rows that cannot be read
	Rows     int64              // rows of the file
	Alike    int64              // rows whose problem is reported once, for another row
}

// Error returns the text to print: the problems that were kept, and the number of bad rows.
func (b BadRows) Error() string {
	var text strings.Builder
	for _, p := range b.Problems {
		text.WriteString(p.Error())
		text.WriteByte('\n')
	}
	fmt.Fprintf(&text, "%d of %d rows cannot be read", b.Skipped, b.Rows)
	if n := int64(len(b.Problems)); n+b.Alike < b.Skipped {
		fmt.Fprintf(&text, "; the problems shown are the first %d", n)
	}
	return text.String()
}

// Unwrap returns the problems.
func (b BadRows) Unwrap() error { return b.Problems }

// note writes down what is wrong with the row at hand, at a place in it.
func (f *reading) note(at int, format string, args ...any) {
	f.bad = true
	if len(f.report.Problems) >= f.Keep {
		return
	}
	at = min(at, len(f.raw))
	start := bytes.LastIndexByte(f.raw[:at], '\n') + 1
	line := bytes.TrimRight(firstLine(f.raw[start:]), "\r\n")
	text, caret := excerpt(line, at-start)
	f.report.Problems = append(f.report.Problems, scenarios.Problem{
		File: f.File, Line: f.line + bytes.Count(f.raw[:at], newline),
		Column: utf8.RuneCount(f.raw[start:at]) + 1,
		Text:   fmt.Sprintf(format, args...), Excerpt: text, Caret: caret,
	})
}

// sortByPlace puts the problems of a row in the order of the file.
func sortByPlace(ps scenarios.Problems) {
	slices.SortStableFunc(ps, func(a, b scenarios.Problem) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
}

// noteHeading notes what is wrong with a heading, by its number from 0.
func (f *reading) noteHeading(i int, format string, args ...any) {
	at := 0
	if i < len(f.cells) {
		at = f.cells[i].at
	}
	f.note(at, format, args...)
}

// want notes what is wanted in place of a cell, if anything is.
func (f *reading) want(c Column, in cell, why string) {
	switch {
	case why == "":
	case why == unitWanted && f.noUnit:
		f.bad = true
	case f.again(c, why):
		f.bad = true
	case len(in.text) == 0:
		f.note(in.at, "%s is empty, want %s", c, why)
	default:
		f.note(in.at, "%s is %s, want %s", c, quote(in.text), why)
	}
	f.noUnit = f.noUnit || why == unitWanted
}

// shownAlike is how many rows of one problem are shown one by one.
const shownAlike = 8

// alike is a problem that several rows have: the same is wanted in the same column.
type alike struct {
	column Column
	why    string
}

// again counts the rows of a problem, and reports whether it has been shown often enough.
func (f *reading) again(c Column, why string) bool {
	if f.often == nil {
		f.often, f.oftenIn = map[alike]int{}, map[alike]int{}
	}
	a := alike{c, why}
	if f.oftenIn[a] == f.line { // in another cell of this row
		return true
	}
	f.often[a]++
	f.oftenIn[a] = f.line
	return f.often[a] > shownAlike
}

// sumUp makes one problem of those that many rows have, and returns the number of the others.
func (f *reading) sumUp() (alikeRows int64) {
	shown := map[alike]bool{}
	f.report.Problems = slices.DeleteFunc(f.report.Problems, func(p scenarios.Problem) bool {
		for a, n := range f.often {
			if n > shownAlike && strings.HasPrefix(p.Text, string(a.column)+" is ") && strings.HasSuffix(p.Text, "want "+a.why) {
				if shown[a] {
					return true
				}
				shown[a] = true
			}
		}
		return false
	})
	for i := range f.report.Problems {
		p := &f.report.Problems[i]
		for a, n := range f.often {
			if n > shownAlike && strings.HasPrefix(p.Text, string(a.column)+" is ") && strings.HasSuffix(p.Text, "want "+a.why) {
				alikeRows += int64(n - 1)
				p.Text += fmt.Sprintf("; so in %s rows", thousands(int64(n)))
				break
			}
		}
	}
	return alikeRows
}

// quote returns a text in quotes, and no more of it than is of use.
func quote(text []byte) string {
	if runes := bytes.Runes(text[:min(len(text), 200)]); len(runes) > 40 {
		return fmt.Sprintf("%q", string(runes[:39])+"…")
	}
	return fmt.Sprintf("%q", text)
}

// excerptWidth is how much of a line is shown around a problem, in characters.
const excerptWidth = 96

// excerpt returns the part of a line around a byte of it, and where that is in the part, in
// characters. What a terminal could take for a command is blotted out.
func excerpt(line []byte, at int) (string, int) {
	runes, caret := bytes.Runes(line), utf8.RuneCount(line[:min(at, len(line))])
	for i, r := range runes {
		if r == '\t' {
			runes[i] = ' '
		} else if !unicode.IsPrint(r) {
			runes[i] = utf8.RuneError
		}
	}
	from := max(min(caret-excerptWidth/2, len(runes)-excerptWidth), 0)
	to := min(from+excerptWidth, len(runes))
	if to < len(runes) {
		runes[to-1] = '…'
	}
	if from > 0 {
		runes[from] = '…'
	}
	return string(runes[from:to]), caret - from
}
