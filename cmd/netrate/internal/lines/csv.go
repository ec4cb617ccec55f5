package lines

import (
	"context"
	"encoding/csv"
	"io"
	"strconv"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/runs"
	"netrate/model/study"
)

// shiftRows is a table with a row for each shift of each line, those with the same random events
// together: the number of the replication, and the figures with all their digits.
type shiftRows struct {
	*csv.Writer
	names   []string      // of the lines; nil of a single one, which is not named
	figures []runs.Figure // nil before the first row
}

// writeLines writes all shifts of some lines.
func writeLines(to io.Writer, all []study.LineAnswer) error {
	var names []string
	var studies []*runs.Study
	for i := range all {
		names, studies = append(names, all[i].Name), append(studies, all[i].Nominal)
	}
	return writeShifts(to, names, studies)
}

// writeShifts writes all shifts of some lines, whose names are nil of a single one.
func writeShifts(to io.Writer, names []string, studies []*runs.Study) error {
	rows, most := &shiftRows{Writer: csv.NewWriter(to), names: names}, 0
	for _, s := range studies {
		most = max(most, len(s.Shifts))
	}
	for replication := range most {
		var last []*runs.Study
		for _, s := range studies {
			last = append(last, s.Only(replication))
		}
		if err := rows.add(replication, last); err != nil {
			return err
		}
	}
	return nil
}

// add writes the rows of one replication, of which there are studies; at the first time also
// the headings.
func (r *shiftRows) add(replication int, studies []*runs.Study) error {
	if r.figures == nil {
		var lines []*model.Line
		for _, s := range studies {
			lines = append(lines, s.Line)
		}
		r.figures = study.FiguresOf(lines...)
		first := []string{"replication", "line"}
		if r.names == nil {
			first = first[:1]
		}
		_ = r.Write(shiftColumns(r.figures, first...)) // Flush says it
	}
	for k, s := range studies {
		for i := range s.Shifts {
			first := []string{strconv.Itoa(replication)}
			if r.names != nil {
				first = append(first, say.Safe(r.names[k]))
			}
			_ = r.Write(shiftRow(r.figures, &s.Shifts[i], first...))
		}
	}
	r.Flush()
	return r.Error()
}

// rowByRow returns a question that writes the rows of each replication as soon as it is done, if
// a file of them is wanted.
func rowByRow[A any](o *desk.Outputs, names []string, ask asks[A]) asks[A] {
	to := o.Rows()
	if to == nil {
		return ask
	}
	rows := &shiftRows{Writer: csv.NewWriter(to), names: names}
	return func(ctx context.Context, told func(study.Sofar[A])) (*A, error) {
		return ask(ctx, func(s study.Sofar[A]) {
			if s.Replication != nil {
				_ = rows.add(s.Done-1, s.Replication()) // delivering says it: the run goes on for its answer
			}
			if told != nil {
				told(s)
			}
		})
	}
}

// asks is how a question is asked.
type asks[A any] = func(ctx context.Context, told func(study.Sofar[A])) (*A, error)

// shiftColumns returns the headings: those given, then those of the figures of a shift.
func shiftColumns(figures []runs.Figure, first ...string) []string {
	for _, f := range figures {
		first = append(first, study.Column(f))
	}
	return first
}

// shiftRow returns a row: what is given, then the figures of a shift.
func shiftRow(figures []runs.Figure, s *runs.Shift, first ...string) []string {
	for _, f := range figures {
		first = append(first, strconv.FormatFloat(f.Of(s), 'f', -1, 64))
	}
	return first
}
