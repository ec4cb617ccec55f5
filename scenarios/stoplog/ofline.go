package stoplog

import (
	"fmt"
	"slices"
	"strings"

	"netrate/scenarios"
)

// mostLines is how many names of lines are kept, for messages.
const mostLines = 8

// elsewhere says whether the row at hand is of another line than the one that is asked for. A row
// that names no line is taken, whichever it is.
func (f *reading) elsewhere() bool {
	name := string(f.field(OfLine).text)
	if name == "" {
		return false
	}
	if !slices.Contains(f.lines, name) && len(f.lines) < mostLines {
		f.lines = append(f.lines, name)
	}
	return f.Line != "" && name != f.Line
}

// ofOneLine returns what is wrong with a file whose rows are not those of one line: stations of one
// name on two lines are two.
func (f *reading) ofOneLine() error {
	only := f.Line
	wrong := func(format string, args ...any) error {
		return scenarios.Problems{{File: f.File, Text: fmt.Sprintf(format, args...)}}
	}
	switch {
	case only == "" && len(f.lines) > 1:
		return wrong("the rows are of several lines, %s: take those of one, such as the line %s", strings.Join(f.lines, ", "), f.lines[0])
	case only != "" && !f.has(OfLine):
		return wrong("no column says which line a row is of: name the column that is \"line\", or head it line")
	case only != "" && !slices.Contains(f.lines, only):
		return wrong("no row is of the line %q: %s", only, meant(only, f.lines))
	}
	return nil
}
