package plots

// Runs are the words for what was simulated over and over; those of shifts if they are
// left out.
type Runs struct {
	One  string // such as "season"
	Many string // such as "seasons"
}

// words returns the words, in the singular and in the plural.
func (r Runs) words() (one, many string) {
	if r.One == "" || r.Many == "" {
		return "shift", "shifts"
	}
	return r.One, r.Many
}
