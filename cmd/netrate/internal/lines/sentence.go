package lines

import (
	"netrate/cmd/netrate/internal/present"
	"netrate/model/study"
)

// sentence returns the answer in words. What qualifies it is a paragraph of its own.
func (c *contest) sentence() string { return present.ComparisonFinding(c.ComparisonAnswer) }

// atOnce says that intervals are right together, where there are several.
func (c *contest) atOnce() string {
	if len(c.entrants) == 2 {
		return ""
	}
	return ", all comparisons at once"
}

// bestWord returns what the one with the largest mean is called in a table.
func (c *contest) bestWord() string { return present.ComparisonLeader(c.ComparisonAnswer) }

// rateOf returns the net rate of an entrant in words.
func (c *contest) rateOf(i int) string {
	return present.NetRateWords(study.NetRateOf(c.entrants[i].study))
}
