package present

import (
	"netrate/cmd/netrate/internal/page"
	"netrate/model"
	"netrate/model/runs"
	"netrate/model/study"
	"netrate/plots"
)

// ShiftRows returns a row for each shift of each line, those with the same random events together:
// the number of the replication, which is first of the first, and the figures, under the names
// that programs know. The names of the lines are nil of a single one, which is not named.
func ShiftRows(names []string, studies []*runs.Study, first int) plots.Table {
	t := plots.Table{Name: "Shifts", Unmarked: true, Columns: []plots.Column{{Title: "replication", Kind: plots.Number}}}
	if names != nil {
		t.Columns = append(t.Columns, plots.Column{Title: "line"})
	}
	var lines []*model.Line
	most := 0
	for _, s := range studies {
		lines, most = append(lines, s.Line), max(most, len(s.Shifts))
	}
	figures := study.FiguresOf(lines...)
	for _, f := range figures {
		t.Columns = append(t.Columns, plots.Column{Title: study.Column(f), Kind: plots.Number})
	}
	for k := range most {
		for i, s := range studies {
			if k >= len(s.Shifts) {
				continue
			}
			row := []plots.Entry{page.Value(float64(first + k))}
			if names != nil {
				row = append(row, page.Words(names[i]))
			}
			for _, f := range figures {
				row = append(row, page.Value(f.Of(&s.Shifts[k])))
			}
			t.Rows = append(t.Rows, row)
		}
	}
	return t
}

// shiftRowsOf returns the rows of some lines at nominal values.
func shiftRowsOf(all []study.LineAnswer) plots.Table {
	var names []string
	var studies []*runs.Study
	for i := range all {
		names, studies = append(names, all[i].Name), append(studies, all[i].Nominal)
	}
	return ShiftRows(names, studies, 0)
}
