package page

import (
	"io"

	"netrate/cmd/netrate/internal/desk"
	"netrate/plots"
)

// Findings is what a verb about one line has found, in every form in which it is shown.
type Findings interface {
	Answer() string
	Document() any
	Table() plots.Table
	Report() (*Report, error)
}

// Tell writes what was found in the forms that are asked for.
func Tell(e desk.Env, o *desk.LineFlags, f Findings) error {
	table := f.Table()
	return o.Deliver(e, desk.Answer{
		Text:     desk.Text(f.Answer),
		Document: Document(f.Document),
		Data:     table.WriteCSV,
		Page: func() (desk.Page, error) {
			made, err := Made(f.Report)()
			made.Tables = []plots.Table{table}
			return made, err
		},
	})
}

// Document returns how a document is printed as JSON.
func Document(document func() any) func(io.Writer) error {
	return func(to io.Writer) error { return WriteDocument(to, document()) }
}

// Made returns how a report becomes a page.
func Made(report func() (*Report, error)) func() (desk.Page, error) {
	return func() (desk.Page, error) {
		r, err := report()
		if err != nil {
			return desk.Page{}, err
		}
		return desk.Page{Report: r.Page, Tables: r.Tables, Figures: r.Figures}, nil
	}
}
