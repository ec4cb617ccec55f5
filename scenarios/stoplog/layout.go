package stoplog

import (
	"fmt"
	"strings"
)

// Layout says what was read as what in a file.
type Layout struct {
	Delimiter byte      // between fields
	Decimal   byte      // decimal mark; 0 if no number had one
	Times     Times     // how moments are written; "" if none was read
	Unit      Unit      // of durations; "" if none was needed
	Columns   []Reading // in the order of the file
	Unread    []string  // headings of the columns that are not read
	Remarks   int       // lines before the header that are not read: # and sep=
}

// Reading is one column of the file and what it was read as.
type Reading struct {
	Column  Column
	Number  int    // from 1
	Heading string // "" of a file without a header
	Given   bool   // the mapping said so; else the heading is usual for it
}

// String returns the layout as lines of text for the user.
func (l Layout) String() string {
	var b strings.Builder
	fmt.Fprintf(&b, "fields are separated by %s", signs[l.Delimiter])
	if l.Decimal != 0 {
		fmt.Fprintf(&b, ", decimals by %s", signs[l.Decimal])
	}
	for _, c := range l.Columns {
		fmt.Fprintf(&b, "\ncolumn %d", c.Number)
		if c.Heading != "" {
			fmt.Fprintf(&b, " %q", c.Heading)
		}
		fmt.Fprintf(&b, " is %s", c.Column)
		switch {
		case c.Column == When && l.Times != "":
			fmt.Fprintf(&b, ", written like %s", l.Times)
		case c.Column == Length && l.Unit != "":
			fmt.Fprintf(&b, ", counted in %s", l.Unit)
		}
		if c.Given {
			b.WriteString(", as specified")
		}
	}
	if len(l.Unread) > 0 {
		fmt.Fprintf(&b, "\nnot read: %s", strings.Join(l.Unread, ", "))
	}
	return b.String()
}

var signs = map[byte]string{',': "commas", ';': "semicolons", '\t': "tabs", '|': "bars", '.': "points"}
