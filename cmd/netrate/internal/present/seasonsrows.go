package present

import (
	"math"
	"slices"

	"netrate/cmd/netrate/internal/page"
	"netrate/model/study"
	"netrate/plots"
)

// SeasonsRows returns a row for each season and week of each configuration, under the names that
// programs know.
func SeasonsRows(rows []study.SeasonsRow) plots.Table {
	t := plots.Table{Name: "Seasons", Columns: []plots.Column{
		{Title: "line"},
		{Title: "replication", Kind: plots.Number},
		{Title: "week", Kind: plots.Number},
		{Title: "name"},
		{Title: "sets", Kind: plots.Number},
		{Title: "work_h", Kind: plots.Number},
		{Title: "changeover_h", Kind: plots.Number},
		{Title: "overtime_h", Kind: plots.Number},
		{Title: "backlog_sets", Kind: plots.Number},
	}}
	priced := slices.ContainsFunc(rows, func(x study.SeasonsRow) bool { return x.Cost != nil })
	if priced {
		t.Columns = append(t.Columns, plots.Column{Title: "cost", Kind: plots.Number})
	}
	for _, x := range rows {
		row := []plots.Entry{
			page.Words(x.Line), page.Value(float64(x.Replication)), page.Value(float64(x.Week)), page.Words(x.Name), page.Value(float64(x.Sets)),
			page.Value(x.Work), page.Value(x.Changeover), page.Value(x.Overtime), page.Value(x.Backlog),
		}
		switch {
		case priced && x.Cost != nil:
			row = append(row, page.Value(*x.Cost))
		case priced:
			row = append(row, plots.Entry{Number: math.NaN()})
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}
