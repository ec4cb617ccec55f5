package present

import (
	"fmt"
	"math"
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
)

// acceptanceLimits says how well the limits are known that were chosen and, of those that a contract has,
// whether they are the same.
func acceptanceLimits(a *study.AcceptanceAnswer) (notes []string) {
	if a.Result != nil && a.Result.Cut != nil { // they are for information
		return nil
	}
	var known, other, near []string
	signed := 0
	for i := range a.Clauses {
		c := &a.Clauses[i]
		if c.Chosen == nil || c.Of == study.AcceptanceRate && a.Stages != nil && a.Result != nil { // it decides nothing
			continue
		}
		if !c.Asked && (c.Of != study.AcceptanceRate || !a.Asked) {
			if c.Chosen.Within > 0 {
				known = append(known, acceptanceWithin(c))
			}
			continue
		}
		signed++
		switch off := math.Abs(float64(c.Chosen.Limit - c.Limit)); {
		case off == 0:
		case off <= 2*float64(c.Chosen.Within):
			near = append(near, acceptanceInstead(c))
		default:
			other = append(other, acceptanceInstead(c))
		}
	}
	if known != nil {
		notes = append(notes, fmt.Sprintf("The limits are rounded up, and the risks are those of the rounded limits. Where the limits lie is known within chance: by other random events they may differ by %s (95 %%). What is signed decides.", say.List(known)), acceptanceKnown(a))
	}
	switch {
	case signed == 0:
	case near == nil && other == nil:
		notes = append(notes, "The limits of the contract are the very ones that this file, these options and this seed come to.")
	}
	if near != nil {
		notes = append(notes, fmt.Sprintf("By this file, these options and this seed the plan would have %s: as near to what is signed as other random events bring it. What is signed decides.", strings.Join(near, ", ")))
	}
	if other != nil {
		notes = append(notes, fmt.Sprintf("By this file, these options and this seed the plan would have %s. That is further from what is signed than the chance in %s tests brings it: either the contract was agreed otherwise or planned with fewer tests, or the file or the options are not those of the plan. What is signed decides.", strings.Join(other, ", "), say.Thousands(a.Settings.Reps)))
	}
	return notes
}

// acceptanceKnown says between what the risks of the net rate’s clause are known to lie.
func acceptanceKnown(a *study.AcceptanceAnswer) string {
	between := func(p study.Proportion) string {
		switch p.Share {
		case 0:
			return "is less than " + say.AtMost(float64(p.High))
		case 1:
			return "is more than " + say.AtLeast(float64(p.Low))
		}
		return "lies between " + acceptanceEnd(p.Low, math.Floor).Shown + " and " + acceptanceEnd(p.High, math.Ceil).Shown
	}
	c := &a.Clauses[0]
	return fmt.Sprintf("By %s tests of each line the seller’s risk from the clause of the net rate %s, and the buyer’s %s (%s).",
		say.Thousands(a.Settings.Reps), between(c.Seller), between(c.Buyer), acceptanceAsked(c.Seller.Level))
}

// acceptanceWithin says within what a limit is known.
func acceptanceWithin(c *study.AcceptanceClause) string {
	within := float64(c.Chosen.Within)
	if c.Of == study.AcceptanceRate {
		return fmt.Sprintf("%s good envelopes", say.TwoDigits(math.Max(1, within)))
	}
	return fmt.Sprintf("%s for the %s", say.TwoDigits(within), acceptanceName(c))
}

// acceptanceInstead says what limit would have been chosen.
func acceptanceInstead(c *study.AcceptanceClause) string {
	chosen := acceptanceLimitOf(c, c.Chosen.Limit)
	if c.Of == study.AcceptanceRate {
		return fmt.Sprintf("%s good envelopes and not %s", chosen, acceptanceLimit(c))
	}
	return fmt.Sprintf("%s for the %s and not %s", chosen, acceptanceName(c), acceptanceLimit(c))
}
