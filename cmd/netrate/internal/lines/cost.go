package lines

import (
	"errors"
	"strings"

	"netrate/cmd/netrate/internal/present"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
)

// weigh works out what the lines are worth, if there are costs. Where that cannot be told it
// keeps the reason.
func (c *contest) weigh() {
	worth, err := study.Worth{Comparison: c.ComparisonAnswer}.Ask()
	switch {
	case errors.Is(err, study.ErrWorthSelected):
		c.aside = "--best runs some lines for fewer shifts than others; without it compare evaluates what they are worth"
	case err != nil:
		c.aside = strings.ReplaceAll(err.Error(), "\n", "; ")
	case worth != nil:
		worth.Caution = present.WorthCaution(worth)
		c.worth = worth
	}
}

// worthBlock returns what the lines cost and what they are worth, or why that is not told.
func (c *contest) worthBlock() string {
	switch {
	case c.aside != "":
		return "\n" + say.Wrapped("Costs are not evaluated: "+c.aside+".", say.Screen)
	case c.worth == nil:
		return ""
	}
	return "\n" + present.WorthText(c.worth, c.rows())
}
