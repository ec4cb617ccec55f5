package page

import (
	"io"

	"netrate/cmd/netrate/internal/desk"
	"netrate/plots"
)

// Findings is what a verb about one line has found, in every form in which it is told.
type Findings interface {
	Answer() string
	Document() any
	Table() plots.Table
	Report() (*Report, error)
}

// Tell writes what was found in the forms that are asked for.
func Tell(e desk.Env, o *desk.LineFlags, f Findings) error {
	table := f.Table()
	if o.Rows != nil {
		if err := desk.Fill(o.Rows, table.WriteCSV); err != nil {
			return err
		}
	}
	says := e.Out
	switch {
	case o.JSON:
		says = e.Err
		if err := WriteDocument(e.Out, f.Document()); err != nil {
			return err
		}
	case o.CSV == "-":
		says = e.Err
		if err := table.WriteCSV(e.Out); err != nil {
			return err
		}
	default:
		if _, err := io.WriteString(e.Out, f.Answer()); err != nil {
			return err
		}
	}
	if !o.Wanted() {
		return nil
	}
	r, err := f.Report()
	if err != nil {
		return err
	}
	return o.Write(says, r.Page, []plots.Table{table}, r.Figures)
}
