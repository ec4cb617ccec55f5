package plots

import (
	"encoding/csv"
	"io"
	"strconv"
	"strings"
)

// WriteCSV writes the table for a spreadsheet or a script: UTF-8 with a byte order
// mark, by which spreadsheets know it, unless it is Unmarked, a row of headings, commas between
// columns.
// Numbers have all their digits, a decimal point and no thousands separators; a
// share of 12 % is 0.12. A text that a spreadsheet could take for a formula has an
// apostrophe before it.
func (t *Table) WriteCSV(w io.Writer) error {
	if err := t.check(); err != nil {
		return err
	}
	if !t.Unmarked {
		if _, err := io.WriteString(w, "\uFEFF"); err != nil {
			return err
		}
	}
	out := csv.NewWriter(w)
	var fields []string
	for _, c := range t.Columns {
		fields = append(fields, harmless(c.bareHeading()))
	}
	_ = out.Write(fields) // out keeps the first error for the end
	return t.writeRows(out)
}

// WriteCSVRows writes the rows alone, as WriteCSV does: those that a table has grown by.
func (t *Table) WriteCSVRows(w io.Writer) error {
	if err := t.check(); err != nil {
		return err
	}
	return t.writeRows(csv.NewWriter(w))
}

func (t *Table) writeRows(out *csv.Writer) error {
	fields := make([]string, len(t.Columns))
	for _, entries := range t.Rows {
		for k, c := range t.Columns {
			fields[k] = c.bare(entries[k])
		}
		_ = out.Write(fields)
	}
	out.Flush()
	return out.Error()
}

// bareHeading returns the title with its unit; a share is said to be one, since no
// percent sign stands beside it.
func (c Column) bareHeading() string {
	if c.Kind == Share {
		c.Unit = "share " + c.Unit
	}
	return c.heading()
}

// bare returns the entry as programs read it.
func (c Column) bare(e Entry) string {
	if c.numeric(e) {
		return strconv.FormatFloat(e.Number, 'f', -1, 64)
	}
	return harmless(oneLine(e.Text))
}

// harmless returns a text that no spreadsheet runs as a formula. The full-width
// forms count too, and so does the ' itself, so that all
// texts come back as they were. Source: OWASP, CSV Injection (from memory).
func harmless(s string) string {
	if s != "" && strings.ContainsRune("=+-@＝＋－＠'", []rune(s)[0]) {
		return "'" + s
	}
	return s
}
