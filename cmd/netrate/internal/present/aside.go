package present

import (
	"fmt"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/worth"
)

// aside says why costs are left aside.
func (c Comparison) aside() string {
	if c.Selection != nil {
		return "--best runs some lines for fewer shifts than others; without it compare evaluates what they are worth"
	}
	var names []string
	for _, i := range c.Aside.Lines {
		names = append(names, c.called(i))
	}
	return AsideWords(c.Aside, names)
}

// AsideWords says why costs are left aside, of lines that are called so.
func AsideWords(a *worth.Aside, lines []string) string {
	has := " has "
	if len(lines) > 1 {
		has = " have "
	}
	switch of := say.List(lines); a.Why {
	case worth.CostsOfSome:
		return of + has + "no costs"
	case worth.CurrenciesDiffer:
		return fmt.Sprintf("one has its costs in %s and another in %s", a.Currencies[0], a.Currencies[1])
	case worth.LivesDiffer:
		return fmt.Sprintf("one has a life of %d years and another of %d", a.Lives[0], a.Lives[1])
	case worth.RatesDiffer:
		return fmt.Sprintf("one has a rate of %g %% and another of %g %%", 100*a.Rates[0], 100*a.Rates[1])
	case worth.VolumesDiffer:
		return "one has another yearly volume than another"
	case worth.ShiftsTooFew:
		return "one shift alone does not say what a line is worth"
	case worth.ShiftsDiffer:
		return of + has + "other numbers of shifts"
	case worth.ShiftWithoutGood:
		return of + has + "a shift without good envelopes"
	case worth.SumsTooLarge:
		return of + has + "costs or savings of more than 10 trillion a year"
	}
	panic("present: costs are left aside for another reason: " + string(a.Why))
}
