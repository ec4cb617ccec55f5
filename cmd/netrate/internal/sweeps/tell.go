package sweeps

import (
	"io"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/plots"
)

// findings is what a verb of this room has found, in every form in which it is shown.
type findings interface {
	Answer() string        // on a terminal
	Document() any         // as JSON
	Tables() []plots.Table // of the report and the workbook; the last is written as CSV
	Report() (*page.Report, error)
}

// tell writes what was found in the forms that are asked for.
func tell(e desk.Env, o *desk.LineFlags, f findings) error {
	return o.Deliver(e, desk.Answer{
		Text:     desk.Text(f.Answer),
		Document: page.Document(f.Document),
		Data: func(to io.Writer) error {
			tables := f.Tables()
			return tables[len(tables)-1].WriteCSV(to)
		},
		Page: page.Made(f.Report),
	})
}
