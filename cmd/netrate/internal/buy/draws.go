package buy

import (
	"fmt"
	"strconv"

	"netrate/model/study"
)

// draws is a flag that says how often what is uncertain is drawn: 0, or enough to say something.
type draws int

// mostDraws bounds them.
const mostDraws = 100_000

// Set reads a number of draws.
func (n *draws) Set(text string) error {
	x, err := strconv.Atoi(text)
	if err != nil || x != 0 && (x < study.UncertaintyLeast || x > mostDraws) {
		return fmt.Errorf("want 0 or a whole number from %d to 100,000", study.UncertaintyLeast)
	}
	*n = draws(x)
	return nil
}

func (n *draws) String() string { return strconv.Itoa(int(*n)) }

// Type returns what the help calls the value.
func (n *draws) Type() string { return "N" }
