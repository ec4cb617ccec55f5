package present

import (
	"fmt"

	"netrate/model/study"
	"netrate/plots"
)

// money returns what the season of each plan costs, and of what that is the sum; none where it has no
// prices.
func (s Plans) money() []plots.Table {
	var all []costed
	for i := range s.Plans {
		all = append(all, costed{s.Plans[i].Name, s.Plans[i].Costs})
	}
	return moneyTables("Plan", " with all that is done later than its last week", all)
}

// costs says what the season of a plan costs; nothing where it has no prices.
func (s Plans) costs(x *study.PlansPlan) string {
	c := x.Costs
	if c == nil {
		return ""
	}
	return fmt.Sprintf(" The season costs %s %s in the mean%s, which is %s %s for a thousand good envelopes.",
		upToSpread(float64(c.All.Mean), c.Sums), c.Currency, costsRange(c), upToSpread(float64(c.Thousand.Mean), c.Thousands), c.Currency)
}

// costsNote says what is in the costs of a season of several lines, and what is not; nothing where it has
// no prices.
func costsNote(x *study.PlansPlan) string {
	if x.Costs == nil {
		return ""
	}
	return " The costs of the season are those of its hours and of what it uses: operators for the working time of all weeks and, where the work takes longer, until the last job is finished, at usual pay; " +
		"each line for its changeovers and jobs; pieces, also of sets that are lost; technicians, remakes, spoiled sets and defective envelopes. " +
		"Each replication draws prices from their ranges. The price of the lines and their upkeep are not in them, nor is what a late job costs; the volume of a year does not count. An estimate, not financial advice."
}
