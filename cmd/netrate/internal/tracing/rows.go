package tracing

import (
	"io"

	"netrate/model/trace"
	"netrate/plots"
)

// rows are the rows of a file, all of them text, as other programs read it.
type rows struct{ plots.Table }

// add adds a row.
func (r *rows) add(cells ...string) {
	row := make([]plots.Entry, len(r.Columns))
	for i, text := range cells {
		row[i].Text = text
	}
	r.Rows = append(r.Rows, row)
}

// writeRows writes a file of rows, shift by shift: each adds those of one, by its place.
func writeRows(to io.Writer, headings []string, all []*trace.Shift, each func(w *rows, k int)) error {
	w := &rows{plots.Table{Name: "rows", Unmarked: true}}
	for _, heading := range headings {
		w.Columns = append(w.Columns, plots.Column{Title: heading})
	}
	write := w.WriteCSV // with the headings
	for k := range all {
		each(w, k)
		if err := write(to); err != nil {
			return err
		}
		w.Rows, write = w.Rows[:0], w.WriteCSVRows
	}
	return nil
}
