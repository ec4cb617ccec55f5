package page

import (
	"io"

	"netrate/cmd/netrate/internal/desk"
	"netrate/plots"
)

// Shown is an answer in every form in which it is shown.
type Shown interface {
	Text() string                           // on a terminal
	Document(version string) any            // as JSON
	Report(version string) (*Report, error) // as a page, a workbook and pictures
}

// Tell writes an answer in the forms that are asked for. rows writes what the file of --csv holds;
// it is nil where there is no such flag.
func Tell(e desk.Env, o *desk.Outputs, x Shown, rows func(io.Writer) error) error {
	return o.Deliver(e, Delivered(x, rows))
}

// Delivered returns an answer as it is delivered.
func Delivered(x Shown, rows func(io.Writer) error) desk.Answer {
	return desk.Answer{
		Text:     desk.Text(x.Text),
		Document: func(to io.Writer) error { return WriteDocument(to, x.Document(desk.Version())) },
		Data:     rows,
		Page: func() (desk.Page, error) {
			r, err := x.Report(desk.Version())
			if err != nil {
				return desk.Page{}, err
			}
			return desk.Page{Report: r.Page, Tables: r.Tables, Figures: r.Figures}, nil
		},
	}
}

// CSV returns how a table is written for other programs. It is made when it is written.
func CSV(rows func() plots.Table) func(io.Writer) error {
	return func(to io.Writer) error {
		t := rows()
		return t.WriteCSV(to)
	}
}
