package study

import (
	"slices"
	"strings"
)

// DesignLimits are what every design keeps to; nil where there is no limit.
type DesignLimits struct {
	Price     *float64 `json:"price,omitempty"`     // of all that is chosen together
	Defective *float64 `json:"defective,omitempty"` // share of the envelopes delivered, on paper
	Pitches   *int     `json:"pitches,omitempty"`   // from the first station to the last
	Operators *int     `json:"operators,omitempty"`
}

// DesignLimit is a limit by the name that it has in [DesignLimits]: any but that of the price, which no line
// need be made for.
type DesignLimit string

// The limits.
const (
	DesignPitches   DesignLimit = "pitches"
	DesignCrew      DesignLimit = "operators"
	DesignDefective DesignLimit = "defective"
)

// designLimits are the limits in the order in which they are told.
var designLimits = []DesignLimit{DesignPitches, DesignCrew, DesignDefective}

// words returns what a design has that is outside the limit.
func (l DesignLimit) words() string {
	return map[DesignLimit]string{
		DesignPitches: "too many pitches", DesignCrew: "too many operators", DesignDefective: "too many defective envelopes on paper",
	}[l]
}

// hasTooMany returns what a design has that is outside some limits.
func hasTooMany(broken []DesignLimit) string {
	var all []string
	for _, l := range broken {
		all = append(all, l.words())
	}
	return strings.Join(all, " and ")
}

// broken returns which limits a line is outside of, in their order; nil if it keeps to all.
func (l *DesignLimits) broken(pitches, operators int, defective float64) (all []DesignLimit) {
	outside := map[DesignLimit]bool{
		DesignPitches: above(l.Pitches, pitches), DesignCrew: above(l.Operators, operators), DesignDefective: above(l.Defective, defective),
	}
	for _, limit := range designLimits {
		if outside[limit] {
			all = append(all, limit)
		}
	}
	return all
}

func above[T int | float64](limit *T, x T) bool { return limit != nil && x > *limit }

// DesignOutside is how many combinations are outside a limit.
type DesignOutside struct {
	Limit        DesignLimit `json:"limit"`
	Combinations int         `json:"combinations"`
	Alone        int         `json:"outside_no_other"` // of these, what a wider limit would let in
}

// outside counts a combination that is outside some limits, under each of them.
func (c *DesignCounts) outside(broken []DesignLimit) {
	c.Limits++
	for _, l := range broken {
		i := slices.IndexFunc(c.Outside, func(x DesignOutside) bool { return x.Limit == l })
		if i < 0 {
			i = len(c.Outside)
			c.Outside = append(c.Outside, DesignOutside{Limit: l})
		}
		if c.Outside[i].Combinations++; len(broken) == 1 {
			c.Outside[i].Alone++
		}
	}
}
