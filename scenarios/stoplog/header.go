package stoplog

import (
	"bytes"
	"errors"
	"strings"
	"unicode"
	"unicode/utf8"

	"netrate/scenarios"
)

// delimiters are what may stand between fields.
const delimiters = ",;\t|"

var (
	byteOrderMark = []byte("\uFEFF")
	utf16Marks    = [][]byte{{0xFE, 0xFF}, {0xFF, 0xFE}}
)

// open reads up to the first row of values and settles which column is what. What is wrong
// with the header is noted; the error is one of the reader.
func (f *reading) open() error {
	if err := f.preface(); err != nil {
		return err
	}
	view, err := f.view()
	if err != nil {
		return err
	}
	if f.settleDelimiter(firstLine(view)); len(f.report.Problems) > 0 {
		return nil
	}
	var headings []string
	if !f.Headless {
		if err := f.advance(); err != nil {
			return err
		}
		if f.fault != "" {
			f.note(f.faultAt, "%s", f.fault)
			return nil
		}
		for _, c := range f.cells {
			headings = append(headings, heading(c.text))
		}
		f.width = len(headings)
	}
	f.settleColumns(headings)
	return nil
}

// heading returns a heading as it is shown and compared.
func heading(text []byte) string {
	return strings.Map(func(c rune) rune {
		if !unicode.IsPrint(c) {
			return utf8.RuneError // a terminal could take it for a command
		}
		return c
	}, scenarios.Normal(strings.ToValidUTF8(string(text), string(utf8.RuneError))))
}

// preface passes over what may stand before the header: a byte order mark, empty lines, lines
// that begin with #, and one like sep=;.
func (f *reading) preface() error {
	for first := true; ; first = false {
		view, err := f.view()
		if err != nil {
			return err
		}
		if first {
			for _, mark := range utf16Marks {
				if bytes.HasPrefix(view, mark) {
					return errors.New("the file is UTF-16, want UTF-8: save it anew as CSV UTF-8")
				}
			}
			if bytes.HasPrefix(view, byteOrderMark) {
				f.drop(len(byteOrderMark))
				continue
			}
		}
		line := firstLine(view)
		if len(line) > maxRow || !f.isPreface(bytes.TrimRight(line, "\r\n")) {
			return nil
		}
		f.drop(len(line))
	}
}

// isPreface says whether a line stands before the header. A # that is a heading does not.
func (f *reading) isPreface(line []byte) bool {
	text := bytes.TrimSpace(line)
	switch {
	case len(text) == 0:
		f.blank++
	case text[0] == '#' && (len(text) == 1 || strings.IndexByte(delimiters, text[1]) < 0):
		f.report.Layout.Remarks++
	case len(line) == 5 && bytes.EqualFold(line[:4], []byte("sep=")) && f.Delimiter == 0:
		f.Delimiter = line[4] // some spreadsheets begin a file like this
		f.report.Layout.Remarks++
	default:
		return false
	}
	return true
}

// settleDelimiter takes the delimiter that is given, or the one that the first row has most
// of, outside quotes.
func (f *reading) settleDelimiter(line []byte) {
	f.raw, f.line = line, f.next
	var found [len(delimiters)]int
	for i, part := range bytes.Split(line, []byte{'"'}) {
		for k := range delimiters {
			if i%2 == 0 {
				found[k] += bytes.Count(part, []byte{delimiters[k]})
			}
		}
	}
	best, ties := 0, 0
	for k := range found {
		switch {
		case found[k] > found[best]:
			best, ties = k, 0
		case k > 0 && found[k] == found[best]:
			ties++
		}
	}
	switch {
	case f.Delimiter != 0:
		f.delimiter = f.Delimiter
	case found[best] == 0:
		f.note(0, "the first row has no comma, semicolon, tab or bar: want fields that are separated by one of them")
	case ties > 0:
		f.note(0, "the first row has as many %s as others of , ; tab and |: say which of them separates the fields", signs[delimiters[best]])
	default:
		f.delimiter = delimiters[best]
	}
	l := &f.report.Layout
	l.Delimiter, l.Decimal, l.Times = f.delimiter, f.Decimal, f.Times
	if l.Decimal == 0 && l.Delimiter == ',' {
		l.Decimal = '.'
	}
}
