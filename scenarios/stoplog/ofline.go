package stoplog

import (
	"fmt"
	"slices"
	"strings"

	"netrate/scenarios"
)

// mostLines is how many names of lines are kept, for messages.
const mostLines = 8

// linesMet is the lines that rows are of, as they were met.
type linesMet struct {
	names []string // the first of them, and the one that is asked for
	more  bool     // there are others
}

// add adds a line; it is kept if it is wanted, however many there are.
func (l *linesMet) add(name string, wanted bool) {
	switch {
	case slices.Contains(l.names, name):
	case len(l.names) < mostLines || wanted:
		l.names = append(l.names, name)
	default:
		l.more = true
	}
}

func (l *linesMet) String() string {
	text := strings.Join(l.names, ", ")
	if l.more {
		text += ", …"
	}
	return text
}

// elsewhere says whether the row at hand is of another line than the one that is asked for. A row
// that names no line is taken, whichever it is.
func (f *reading) elsewhere() bool {
	name := f.name(OfLine, false)
	if name == "" {
		return false
	}
	f.lines.add(name, name == f.Line)
	return f.Line != "" && name != f.Line
}

// asksForLine makes the name of the line that is asked for one like those in the file.
func (f *reading) asksForLine() error {
	name, why := f.names.of([]byte(f.Line))
	if why != "" {
		return f.notOneLine("the line asked for is %q, want %s", f.Line, why)
	}
	f.Line = name
	return nil
}

// ofOneLine returns what is wrong with a file whose rows are not those of one line: stations of one
// name on two lines are two.
func (f *reading) ofOneLine() error {
	switch only := f.Line; {
	case only == "" && len(f.lines.names) > 1:
		return f.notOneLine("the rows are of several lines, %s: take those of one, such as the line %s, or, if that column is something else, give it another heading", &f.lines, f.lines.names[0])
	case only != "" && !f.has(OfLine):
		return f.notOneLine("no column says which line a row is of: name the column that is \"line\", or head it line")
	case only != "" && !slices.Contains(f.lines.names, only):
		hint := "want one of " + f.lines.String()
		if near := scenarios.Nearest(only, f.lines.names); near != "" || !f.lines.more {
			hint = meant(only, f.lines.names)
		}
		return f.notOneLine("no row is of the line %q: %s", only, hint)
	}
	return nil
}

// notOneLine returns why the file cannot be read as that of one line.
func (f *reading) notOneLine(format string, args ...any) error {
	return scenarios.Problems{{File: f.File, Text: fmt.Sprintf(format, args...)}}
}
