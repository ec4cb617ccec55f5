package present

import (
	"fmt"

	"netrate/cmd/netrate/internal/page"
	"netrate/model/study"
	"netrate/plots"
)

// SeasonsNotes says what the figures of a season are and are not.
const SeasonsNotes = "Hours are working time: breaks without relief, nights and maintenance are not simulated but taken out. " +
	"A job begun in one week goes on in the next, and what is left of a week is done first in the next. " +
	"Hoppers start each job full. No overtime is worked in the figures of what is left and when jobs are finished: " +
	"it is what would have to be added for each week to end with its own work done."

// SeasonsOperators says what the operators of a season are.
const SeasonsOperators = "The crew is the operators of each shift; paid hours are crew × hours of working time a week."

// SeasonsOverview returns a row for each configuration.
func SeasonsOverview(a *study.SeasonsAnswer) plots.Table {
	t := plots.Table{
		Name: "Configurations", Caption: "Each configuration: how often all weeks are done in time, with 95 % intervals, and the overtime that all weeks together need. " + SeasonsOperators,
		Columns: []plots.Column{
			{Title: "Line"},
			{Title: "Crew", Unit: "operators", Kind: plots.Number},
			{Title: "Working time", Unit: "h a week", Kind: plots.Number, Decimals: 1},
			{Title: "Paid hours", Unit: "h a week", Kind: plots.Number, Decimals: 1},
			{Title: "Work", Unit: "h", Kind: plots.Number, Decimals: 1},
			{Title: "±", Unit: "h", Kind: plots.Number, Decimals: 1},
			{Title: "All in time", Unit: "of seasons", Kind: plots.Share, Decimals: 1},
			{Title: "from", Kind: plots.Share, Decimals: 1},
			{Title: "to", Kind: plots.Share, Decimals: 1},
			{Title: "Overtime, 50 %", Unit: "h", Kind: plots.Number, Decimals: 1},
			{Title: "90 %", Unit: "h", Kind: plots.Number, Decimals: 1},
			{Title: "99 %", Unit: "h", Kind: plots.Number, Decimals: 1},
			{Title: "Changeovers", Unit: "h a week", Kind: plots.Number, Decimals: 2},
		},
	}
	for i := range a.Lines {
		x := &a.Lines[i]
		work := page.MeanAndHalf(x.Work.Estimate())
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(x.Name), page.Value(float64(x.Operators)), value(x.Hours), page.Value(x.Paid), work[0], work[1],
			value(x.InTime.Share), value(x.InTime.Low), value(x.InTime.High),
			value(x.Overtime.P50), value(x.Overtime.P90), value(x.Overtime.P99), page.Value(x.Changing),
		})
	}
	return t
}

// SeasonsWeeks returns a row for each week of each configuration.
func SeasonsWeeks(a *study.SeasonsAnswer) plots.Table {
	t := plots.Table{
		Name: "Weeks", Caption: "The weeks of each configuration: work with 95 % intervals, overtime needed, and what is left at the end without it",
		Columns: []plots.Column{
			{Title: "Line"},
			{Title: "Week"},
			{Title: "Sets", Kind: plots.Number},
			{Title: "Work", Unit: "h", Kind: plots.Number, Decimals: 1},
			{Title: "±", Unit: "h", Kind: plots.Number, Decimals: 1},
			{Title: "In time", Unit: "of seasons", Kind: plots.Share, Decimals: 1},
			{Title: "Overtime, 50 %", Unit: "h", Kind: plots.Number, Decimals: 1},
			{Title: "90 %", Unit: "h", Kind: plots.Number, Decimals: 1},
			{Title: "99 %", Unit: "h", Kind: plots.Number, Decimals: 1},
			{Title: "Left, 50 %", Unit: "sets", Kind: plots.Number},
			{Title: "90 %", Unit: "sets", Kind: plots.Number},
		},
	}
	for n := range a.Lines {
		x := &a.Lines[n]
		for i := range x.Weeks {
			w := &x.Weeks[i]
			t.Rows = append(t.Rows, []plots.Entry{
				page.Words(x.Name), page.Words(SeasonsWeek(x, i)), page.Value(float64(w.Sets)), value(w.Work.Mean), page.Doubt(float64(w.Work.Half)), value(w.InTime),
				value(w.Overtime.P50), value(w.Overtime.P90), value(w.Overtime.P99),
				value(w.Backlog.P50), value(w.Backlog.P90),
			})
		}
	}
	return t
}

// SeasonsJobs returns a row for each job of a configuration.
func SeasonsJobs(x *study.SeasonsLine) plots.Table {
	t := plots.Table{
		Name: "Jobs " + x.Name, Caption: fmt.Sprintf("The jobs of the season in the order in which they are done, without overtime: %s", x.Name),
		Columns: []plots.Column{
			{Title: "Week", Kind: plots.Number},
			{Title: "Job"},
			{Title: "Sets", Kind: plots.Number},
			{Title: "Changeover", Unit: "h", Kind: plots.Number, Decimals: 2},
			{Title: "Run", Unit: "h", Kind: plots.Number, Decimals: 1},
			{Title: "In time", Unit: "of seasons", Kind: plots.Share, Decimals: 1},
			{Title: "Finished, median"},
			{Title: "9 times in 10 by"},
		},
	}
	for _, j := range x.Jobs {
		t.Rows = append(t.Rows, []plots.Entry{
			page.Value(float64(j.Week)), page.Words(j.Name), page.Value(float64(j.Sets)),
			value(j.Change.Mean), value(j.Run.Mean), page.Value(j.InTime),
			page.Words(j.Median.String()), page.Words(j.P90.String()),
		})
	}
	return t
}

// value returns a figure as an entry of a table.
func value(x study.Number) plots.Entry { return page.Value(float64(x)) }
