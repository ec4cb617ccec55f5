package present

import (
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
	for _, x := range rows {
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(x.Line), page.Value(float64(x.Replication)), page.Value(float64(x.Week)), page.Words(x.Name), page.Value(float64(x.Sets)),
			page.Value(x.Work), page.Value(x.Changeover), page.Value(x.Overtime), page.Value(x.Backlog),
		})
	}
	return t
}
