package tracing

import (
	"io"
	"slices"
	"strconv"

	"netrate/model/trace"
	"netrate/plots"
)

// rows are the rows of a file, all of them text, as other programs read it.
type rows struct {
	plots.Table
	last string // in the last column of every row, of files of several lines or passes
}

// add adds a row.
func (r *rows) add(cells ...string) {
	row := make([]plots.Entry, len(r.Columns))
	for i, text := range cells {
		row[i].Text = text
	}
	if r.last != "" {
		row[len(row)-1].Text = r.last
	}
	r.Rows = append(r.Rows, row)
}

// writeRows writes a file of rows, shift by shift: each adds those of one, by its place. Where there
// are passes or several lines, a last column says which.
func writeRows(to io.Writer, headings []string, all []*trace.Shift, each func(w *rows, k int)) error {
	w := &rows{Table: plots.Table{Name: "rows", Unmarked: true}}
	title, which := parted(all)
	if title != "" {
		headings = append(slices.Clone(headings), title)
	}
	for _, heading := range headings {
		w.Columns = append(w.Columns, plots.Column{Title: heading})
	}
	write := w.WriteCSV // with the headings
	for k := range all {
		w.last = which(all[k])
		each(w, k)
		if err := write(to); err != nil {
			return err
		}
		w.Rows, write = w.Rows[:0], w.WriteCSVRows
	}
	return nil
}

// parted returns what the parts are called that a replication has, and which of them a shift is; ""
// where it has none.
func parted(all []*trace.Shift) (title string, which func(*trace.Shift) string) {
	switch {
	case all[0].Pass > 0:
		return "Pass", func(s *trace.Shift) string { return strconv.Itoa(s.Pass) }
	case len(all) > 1 && all[1].Replication == all[0].Replication:
		return "Line", func(s *trace.Shift) string { return s.Line.Name }
	}
	return "", func(*trace.Shift) string { return "" }
}
