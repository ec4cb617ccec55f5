package worth

import (
	"fmt"
	"maps"
	"strings"

	"netrate/model/runs"
)

// Aside is why lines are not weighed against each other, though each could be by itself. Lines
// count from 0.
type Aside struct {
	Why        AsideReason `json:"why"`
	Lines      []int       `json:"lines,omitempty"`      // of which it is so
	Currencies []string    `json:"currencies,omitempty"` // of the first line and of another, and so are the next two
	Lives      []int       `json:"lives_years,omitempty"`
	Rates      []float64   `json:"rates,omitempty"` // a year, as shares
}

// AsideReason is a reason why lines are not weighed.
type AsideReason string

// The reasons.
const (
	CostsOfSome      AsideReason = "costs_of_some_lines_only"
	CurrenciesDiffer AsideReason = "currencies_differ"
	LivesDiffer      AsideReason = "lives_differ"
	RatesDiffer      AsideReason = "rates_differ"
	VolumesDiffer    AsideReason = "yearly_volumes_differ"
	ShiftsTooFew     AsideReason = "fewer_than_2_shifts"
	ShiftsDiffer     AsideReason = "numbers_of_shifts_differ"
	ShiftWithoutGood AsideReason = "a_shift_without_good_envelopes" // in which a thousand of them have no cost
	SumsTooLarge     AsideReason = "sums_above_1e13_a_year"         // of which cents are not known
)

// Error returns the reason and what it is about, for programs that say no more of it.
func (a *Aside) Error() string {
	text := "costs are not evaluated: " + strings.ReplaceAll(string(a.Why), "_", " ")
	switch {
	case a.Lines != nil:
		text += fmt.Sprintf(", lines %v", a.Lines)
	case a.Currencies != nil:
		text += fmt.Sprintf(", %q", a.Currencies)
	case a.Lives != nil:
		text += fmt.Sprintf(", %v years", a.Lives)
	case a.Rates != nil:
		text += fmt.Sprintf(", %v a year", a.Rates)
	}
	return text
}

// Comparable returns why savings cannot be stated between lines with these costs: they must be
// in one currency, over the same years, at one rate, for the same volume. It returns nil if they
// can.
func Comparable(all []*Costs) *Aside {
	var without []int
	for i, c := range all {
		if c == nil {
			without = append(without, i)
		}
	}
	if without != nil {
		return &Aside{Why: CostsOfSome, Lines: without}
	}
	for _, c := range all {
		a := all[0]
		switch {
		case c.Currency != a.Currency:
			return &Aside{Why: CurrenciesDiffer, Currencies: []string{a.Currency, c.Currency}}
		case c.Life != a.Life:
			return &Aside{Why: LivesDiffer, Lives: []int{a.Life, c.Life}}
		case c.Rate != a.Rate:
			return &Aside{Why: RatesDiffer, Rates: []float64{a.Rate, c.Rate}}
		case c.Volume != a.Volume || !maps.Equal(c.Volumes, a.Volumes):
			return &Aside{Why: VolumesDiffer}
		}
	}
	return nil
}

// sampled returns why the shifts of some studies say nothing of a year; nil if they do. Of lines that
// share a crew one may deliver nothing in a shift, unless it has a volume of its own.
func sampled(studies []*runs.Study, costs []*Costs) *Aside {
	lines := map[AsideReason][]int{}
	for i, s := range studies {
		n, good := len(s.Shifts), true
		for k := range s.Shifts {
			good = good && s.Shifts[k].NetRate > 0
			for _, of := range made(s, costs[i]) {
				good = good && of.Shifts[k].NetRate > 0
			}
		}
		switch {
		case n < 2:
			lines[ShiftsTooFew] = append(lines[ShiftsTooFew], i)
		case n != len(studies[0].Shifts):
			lines[ShiftsDiffer] = append(lines[ShiftsDiffer], i)
		case !good:
			lines[ShiftWithoutGood] = append(lines[ShiftWithoutGood], i)
		}
	}
	for _, why := range []AsideReason{ShiftsTooFew, ShiftsDiffer, ShiftWithoutGood} {
		if of := lines[why]; of != nil {
			return &Aside{Why: why, Lines: of}
		}
	}
	return nil
}
