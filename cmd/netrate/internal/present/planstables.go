package present

import (
	"cmp"
	"math"
	"slices"

	"netrate/cmd/netrate/internal/page"
	"netrate/model/study"
	"netrate/plots"
)

// overview returns a row for each plan.
func (s Plans) overview() plots.Table {
	t := plots.Table{
		Name: "Plans", Caption: "Each plan, with the same random numbers: how often all dates are kept, when the last job ends, in the median, and lateness, hours times priorities, in the mean. The cost is that of the choices and, in the mean, of lateness" + s.unpriced() + s.unchosen(),
		Columns: []plots.Column{
			{Title: "Plan"},
			{Title: "All dates kept", Unit: "of replications", Kind: plots.Share, Decimals: 1},
			{Title: "Lateness", Unit: "h × priority", Kind: plots.Number, Decimals: 1},
			{Title: "Choices", Unit: s.currency(), Kind: plots.Number},
			{Title: "Last ends"},
			{Title: "9 in 10 by"},
			{Title: "Late", Unit: s.currency(), Kind: plots.Number, Data: true},
			{Title: "Cost", Unit: s.currency(), Kind: plots.Number},
		},
	}
	for _, x := range s.choicesFirst() {
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(s.name(x)),
			{Number: float64(x.AllInTime.Share), Shown: plansOften(x.AllInTime)},
			plansHours(x.Late.Mean),
			plansMoney(float64(x.Cost), chosenSum(x)),
			page.Words(s.Moment(x.Last.P50)), page.Words(s.Moment(x.Last.P90)),
			plansMoney(float64(x.LateCost), meanSum(float64(x.LateCost))), s.cost(x),
		})
	}
	return t
}

// choicesFirst returns the plans as tables have them: what has some days of a choice alone was planned last, and stands
// beside the other choices.
func (s Plans) choicesFirst() (all []*study.PlansPlan) {
	for i := range s.Plans {
		all = append(all, &s.Plans[i])
	}
	if s.Days != nil {
		slices.SortStableFunc(all, func(x, y *study.PlansPlan) int { return cmp.Compare(notChoice(x), notChoice(y)) })
	}
	return all
}

func notChoice(x *study.PlansPlan) int { return map[bool]int{true: 0, false: 1}[x.IsChoice()] }

// unchosen says that nothing optional is tried in variants; "" where that is not asked, or there are none.
func (s Plans) unchosen() string {
	if sc := s.Origin.Scenario; s.Service == 0 || sc == nil || len(sc.Variants) == 0 {
		return ""
	}
	return ". Variants are shown with nothing chosen: --variant NAME asks what is best chosen in one"
}

// currency returns that of the file, or "money" if it names none.
func (s Plans) currency() string {
	if x := s.Origin.Scenario; x != nil && x.Prices != nil {
		return cmp.Or(x.Prices.Currency, "money")
	}
	return "money"
}

// unpriced says that lateness has no price in the file, where it has none.
func (s Plans) unpriced() string {
	if s.shown().Made.Plan.Late > 0 {
		return ""
	}
	if s.shown().Made.Plan.Weeks != nil { // a season takes no price of it
		return ", which has no price in a season"
	}
	return ", which has no price in this file: late says one"
}

// plansHours returns hours of lateness; those of what is not finished have no end.
func plansHours(h study.Number) plots.Entry {
	if math.IsInf(float64(h), 1) {
		return page.Words("no end")
	}
	return hours(h)
}

// cost returns what a plan costs; nothing of it has a price where lateness has none and nothing can be chosen.
func (s Plans) cost(x *study.PlansPlan) plots.Entry {
	if math.IsNaN(float64(x.LateCost)) && !slices.ContainsFunc(s.Plans, func(x study.PlansPlan) bool { return len(x.Prices) > 0 }) {
		return plansMoney(math.NaN(), "")
	}
	return plansMoney(x.All(), allSum(x))
}

// plansMoney returns a sum; that of lateness without end has none, nor has one without a price.
func plansMoney(sum float64, shown string) plots.Entry {
	switch {
	case math.IsInf(sum, 1):
		return page.Words("no end")
	case math.IsNaN(sum):
		return page.Words("no price")
	}
	return plots.Entry{Number: sum, Shown: shown}
}

// Jobs returns a row for each job of a plan, line by line.
func (s Plans) Jobs(x *study.PlansPlan) plots.Table {
	t := plots.Table{
		Name: "Jobs " + s.name(x), Names: 2, Caption: "What each line does, in its order: " + s.name(x) + ". When jobs begin and end are medians; start by: if its changeover does not begin before then, and all else is as planned, its own date is still kept 9 times in 10, while jobs behind it may miss theirs; too late where it is kept less often anyway, nothing where it runs already",
		Columns: []plots.Column{
			{Title: "Line"},
			{Title: "Job"},
			{Title: "Kind", Data: true},
			{Title: "Sets", Kind: plots.Number, Data: true},
			{Title: "Begins"},
			{Title: "5 in 100 by", Data: true},
			{Title: "Ends"},
			{Title: "9 in 10 by"},
			{Title: "95 in 100 by", Data: true},
			{Title: "Due"},
			{Title: "Kept", Kind: plots.Share, Decimals: 1},
			{Title: "Start by"},
			{Title: "Late", Unit: "sets", Kind: plots.Number, Data: x.LateSets == 0},
			{Title: "Lost", Unit: "sets", Kind: plots.Number, Data: x.Lacks == 0},
			{Title: "Lateness", Unit: s.currency(), Kind: plots.Number, Data: !(x.LateCost > 0)},
		},
	}
	if x.LateSets > 0 {
		t.Caption += "; late: sets not done at the date, in the mean"
	}
	if x.Lacks > 0 {
		t.Caption += "; lost: sets of which no envelope is delivered, in the mean"
	}
	if x.LateCost > 0 {
		t.Caption += "; lateness: what it costs, in the mean"
	}
	for _, line := range x.Lines {
		for _, j := range line.Jobs {
			row := []plots.Entry{
				page.Words(cmp.Or(line.Name, "the line")), page.Words(j.Name), page.Words(j.Product), page.Value(float64(j.Sets)),
				page.Words(s.Moment(j.Begun.P50)), page.Words(s.Moment(j.Finished.P5)),
				page.Words(s.Moment(j.Finished.P50)), page.Words(s.Moment(j.Finished.P90)), page.Words(s.Moment(j.Finished.P95)),
			}
			switch {
			case j.Due != nil && j.InTime == nil: // on paper
				row = append(row, page.Words(s.Moment(*j.Due)), plots.Entry{Number: math.NaN()}, page.Words(""))
			case j.InTime == nil:
				row = append(row, page.Words("none"), plots.Entry{Number: math.NaN()}, page.Words(""))
			default:
				by := ""
				switch {
				case j.TooLate:
					by = "too late"
				case j.StartBy != nil:
					by = s.Moment(*j.StartBy)
				}
				row = append(row, page.Words(s.Moment(*j.Due)), plots.Entry{Number: float64(j.InTime.Share), Shown: SeasonsOften(j.InTime.Share)}, page.Words(by))
			}
			t.Rows = append(t.Rows, append(row, setsOf(j.LateSets), setsOf(j.Lacks), plansMoney(float64(j.LateCost), meanSum(float64(j.LateCost)))))
		}
	}
	return t
}
