package sim

import "fmt"

// TooMany is the error of work whose results could not all be kept in memory. It is found before
// the work begins.
type TooMany struct {
	Parts int    // number of parts, each with Each results; 1 of a whole
	Part  string // what a part is, in the singular: "line"
	Each  int    // results
	What  string // a result is, in the singular: "replication"
	Most  int    // in all
}

// Error returns how many results that would be, and how many may be.
func (e *TooMany) Error() string {
	if e.Parts == 1 {
		return fmt.Sprintf("%d %ss, want at most %d", e.Each, e.What, e.Most)
	}
	return fmt.Sprintf("%d %ss with %d %ss each come to %d, want at most %d", e.Parts, e.Part, e.Each, e.What, e.Parts*e.Each, e.Most)
}

// AtMostKept returns a [TooMany] error if parts with each results each have more than most of
// them together.
func AtMostKept(most, parts int, part string, each int, what string) error {
	if parts == 0 || each <= most/parts {
		return nil
	}
	return &TooMany{parts, part, each, what, most}
}
