package present

import (
	"fmt"
	"slices"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// money returns what each plan costs, and of what that is the sum; none where the file has no prices.
func (s Plans) money() []plots.Table {
	var all []costed
	for i := range s.Plans {
		x := &s.Plans[i]
		sums := map[string]string{study.ChoicesPart: chosenSum(x), study.LatenessPart: meanSum(float64(x.LateCost))}
		all = append(all, costed{s.name(x), x.Costs, sums})
	}
	if len(s.shown().Weeks) > 0 {
		return moneyTables("Plan", "the season", " with all that is done later than its last week", "seasons", all)
	}
	return moneyTables("Plan", "each plan", ", what is chosen and lateness with it", "replications", all)
}

// Costs says what a plan costs, or why that is not said; nothing where the file has no prices.
func (s Plans) Costs(x *study.PlansPlan) string {
	if !slices.ContainsFunc(s.Plans, func(x study.PlansPlan) bool { return x.Costs != nil }) {
		if s.Origin.Scenario.Prices != nil && x.Unfinished() {
			return " What it costs is not said, as not all jobs are ever finished."
		}
		return ""
	}
	c := x.Costs
	if c == nil {
		return " What it costs is not said, as not all jobs are ever finished."
	}
	what, of := "The plan", "replications"
	if len(x.Weeks) > 0 {
		what, of = "The season", "seasons"
	}
	text := fmt.Sprintf(" %s costs %s %s in the mean%s, which is %s %s for a thousand good envelopes.",
		what, upToSpread(float64(c.All.Mean), c.Sums), c.Currency, costsRange(c, of), upToSpread(float64(c.Thousand.Mean), c.Thousands), c.Currency)
	if s.Service > 0 {
		text += " “Cheapest” is said of what is chosen and of lateness alone."
	}
	if len(c.Unpriced) > 0 {
		text += " That is without what has no price in this file: " + say.List(c.Unpriced) + "."
	}
	return text
}

// costsNote says what is in the costs of some lines, and what is not; nothing where there are none.
func costsNote(x *study.PlansPlan) string {
	if x.Costs == nil {
		return ""
	}
	text := " The costs of the season are those of its hours and of what it uses: operators for the working time of all weeks and, where the work takes longer, for the shifts that begin before the last job is finished, at usual pay; "
	end := "nor is what a late job costs; the volume of a year does not count"
	if len(x.Weeks) == 0 {
		text = " The costs of a plan are those of its hours, of what it uses, of what is chosen and of lateness: operators for the shifts that begin before the last date and, where the work takes longer, before the last job is finished, each to its end; " +
			"what is chosen at its own cost or, if it has none, by the hours that it brings, at the pay of overtime where nobody would be there without it; "
		end = "and the volume of a year does not count"
	}
	return text + "each line for its changeovers and jobs; pieces, also of sets that are lost; technicians, remakes, spoiled sets and defective envelopes. " +
		"Each replication draws prices from their ranges. The price of the lines and their upkeep are not in them, " + end + ". An estimate, not financial advice."
}
