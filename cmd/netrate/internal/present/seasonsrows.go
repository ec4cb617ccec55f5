package present

import (
	"netrate/cmd/netrate/internal/page"
	"netrate/model/study"
	"netrate/plots"
)

// SeasonsRows returns a row for each season and week of each configuration, under the names that
// programs know.
func SeasonsRows(a *study.SeasonsAnswer) plots.Table {
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
	for n := range a.Lines {
		x := &a.Lines[n]
		for r := range x.Study.Done {
			for i := range x.Weeks {
				week := &x.Study.Weeks[i]
				t.Rows = append(t.Rows, []plots.Entry{
					page.Words(x.Name), page.Value(float64(r)), page.Value(float64(i + 1)), page.Words(x.Weeks[i].Name), page.Value(float64(x.Weeks[i].Sets)),
					page.Value(week.Work[r]), page.Value(x.Changed(i, r)), page.Value(week.Overtime[r]), page.Value(week.Backlog[r]),
				})
			}
		}
	}
	return t
}
