package lines

import (
	"encoding/csv"
	"io"
	"strconv"

	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/runs"
	"netrate/model/study"
)

// writeCSV writes a row for each shift: the number of its replication, and its figures
// with all their digits.
func writeCSV(to io.Writer, s *runs.Study) error {
	w, figures := csv.NewWriter(to), study.FiguresOf(s.Line)
	if err := w.Write(shiftColumns(figures, "replication")); err != nil {
		return err
	}
	for i := range s.Shifts {
		if err := w.Write(shiftRow(figures, &s.Shifts[i], strconv.Itoa(i))); err != nil {
			return err
		}
	}
	w.Flush()
	return w.Error()
}

// writeAllCSV writes a row for each shift of each line, those with the same random events
// together.
func writeAllCSV(to io.Writer, all []study.LineAnswer) error {
	var lines []*model.Line
	for i := range all {
		lines = append(lines, all[i].Study.Line)
	}
	w, figures := csv.NewWriter(to), study.FiguresOf(lines...)
	if err := w.Write(shiftColumns(figures, "replication", "line")); err != nil {
		return err
	}
	for i, some := 0, true; some; i++ {
		some = false
		for k := range all {
			x := &all[k]
			if i >= len(x.Study.Shifts) {
				continue
			}
			some = true
			if err := w.Write(shiftRow(figures, &x.Study.Shifts[i], strconv.Itoa(i), say.Safe(x.Name))); err != nil {
				return err
			}
		}
	}
	w.Flush()
	return w.Error()
}

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
