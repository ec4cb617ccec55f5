package study_test

import (
	"fmt"

	"netrate/model"
	"netrate/model/study"
)

// What an answer about two lines rests on: what was stated, what it comes to, what is taken where
// nothing was said; of the second line only what is not as in the first. The figures are invented.
func ExampleAssumptions() {
	first, second := twoInserts(), twoInserts()
	second.Crew.Operators = 2
	stated := func(operators string) []study.AssumptionStatement {
		return []study.AssumptionStatement{
			{Key: "crew.operators", Value: operators, Source: "the shift plan"},
			{Station: "card", Key: "misfeed", Value: "1/1000", Source: "a log"},
			{Station: "card", Key: "share", Value: "100%"},
			{Station: "letter", Key: "share", Value: "100%"},
		}
	}
	for _, a := range study.Assumptions(
		study.AssumptionBasis{Name: "now", Lines: []*model.Line{first}, Stated: stated("1")},
		study.AssumptionBasis{Name: "two", Lines: []*model.Line{second}, Stated: stated("2")},
	) {
		switch a.Kind {
		case study.AssumptionStated:
			fmt.Printf("%q %s %s: %s (%s), at the rated speed: %t\n", a.Alternative, a.Stations, a.Key, a.Text, a.Source, a.Rated)
		case study.AssumptionSpeed:
			fmt.Println("runs at", a.Number, "as", a.LimitedBy, "allows")
		default: // the rest of the list
		}
	}
	// Output:
	// "" [] crew.operators: 1 (the shift plan), at the rated speed: false
	// "" [card] misfeed: 1/1000 (a log), at the rated speed: true
	// "" [card letter] share: 100% (), at the rated speed: false
	// runs at 10000 as [inserter] allows
	// "two" [] crew.operators: 2 (the shift plan), at the rated speed: false
}
