package page

import (
	"io"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/runs"
	"netrate/plots"
)

// Shown is an answer in every form in which it is shown.
type Shown interface {
	Text() string                           // on a terminal
	Document(version string) any            // as JSON
	Report(version string) (*Report, error) // as a page, a workbook and pictures
}

// Rowed is an answer with rows for other programs, which --csv writes.
type Rowed interface{ Rows() plots.Table }

// Drawn is an answer that draws of what is uncertain may lead, of which --csv has no rows.
type Drawn interface{ RowsNote() string }

// RowsAtNominal says that rows are of replications at nominal values alone; "" where nothing was drawn.
func RowsAtNominal(nominal *runs.Study, drawn bool) string {
	if !drawn {
		return ""
	}
	return "\n" + say.Wrapped("The rows are of the "+Sample(nominal)+" at nominal values; the draws of the uncertain inputs, which lead, are not among them.", say.Screen())
}

// Tell writes an answer in the forms that are asked for.
func Tell(e desk.Env, o *desk.Outputs, x Shown) error {
	if e.Answered != nil {
		e.Answered(x)
	}
	a := Delivered(x)
	if x, is := x.(Drawn); is && o.Data != "" {
		a.Said = x.RowsNote
	}
	return o.Deliver(e, a)
}

// Delivered returns an answer as it is delivered.
func Delivered(x Shown) desk.Answer {
	a := desk.Answer{
		Text:     desk.Text(x.Text),
		Document: func(to io.Writer) error { return WriteDocument(to, x.Document(desk.Version())) },
		Page: func() (desk.Page, error) {
			r, err := x.Report(desk.Version())
			if err != nil {
				return desk.Page{}, err
			}
			return desk.Page{Report: r.Page, Tables: r.Tables, Figures: r.Figures, Sums: r.Sums, Undrawn: r.undrawn}, nil
		},
	}
	if x, is := x.(Rowed); is {
		a.Data = func(to io.Writer) error {
			t := x.Rows()
			return t.WriteCSV(to)
		}
	}
	return a
}
