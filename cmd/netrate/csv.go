package main

import (
	"encoding/csv"
	"io"
	"strconv"
	"strings"

	"netrate/model"
)

// createRows begins the file of the shifts, so that a run does not end with the news that
// it cannot be written. It returns nil if none is asked for, or if they are to be printed.
func createRows(path string) (*outFile, error) {
	if path == "" || path == "-" {
		return nil, nil
	}
	return create(path)
}

// writeCSV writes a row for each shift: the number of its replication, and its figures
// with all their digits.
func writeCSV(to io.Writer, s *model.Study) error {
	w, figures := csv.NewWriter(to), figuresOf(s.Line)
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

// writeAllCSV writes a row for each shift of each entrant, those on the same luck together.
func writeAllCSV(to io.Writer, f *field) error {
	w, figures := csv.NewWriter(to), figuresOf(f.lines()...)
	if err := w.Write(shiftColumns(figures, "replication", "line")); err != nil {
		return err
	}
	for i, some := 0, true; some; i++ {
		some = false
		for _, x := range f.entrants {
			if i >= len(x.study.Shifts) {
				continue
			}
			some = true
			if err := w.Write(shiftRow(figures, &x.study.Shifts[i], strconv.Itoa(i), safe(x.name))); err != nil {
				return err
			}
		}
	}
	w.Flush()
	return w.Error()
}

// shiftColumns returns the headings: those given, then those of the figures of a shift.
func shiftColumns(figures []model.Figure, first ...string) []string {
	for _, f := range figures {
		first = append(first, column(f))
	}
	return first
}

// shiftRow returns a row: what is given, then the figures of a shift.
func shiftRow(figures []model.Figure, s *model.Shift, first ...string) []string {
	for _, f := range figures {
		first = append(first, strconv.FormatFloat(f.Of(s), 'f', -1, 64))
	}
	return first
}

// safe returns a name that no spreadsheet takes for a formula.
func safe(name string) string {
	if strings.ContainsAny(name[:min(1, len(name))], "=+-@") {
		return "'" + name
	}
	return name
}

// column returns the name of a figure's column, which ends with its unit: running_s,
// good_sets, net_rate_envelopes_per_h.
func column(f model.Figure) string {
	unit := strings.NewReplacer("/", "_per_", " ", "_").Replace(f.Unit)
	if strings.HasSuffix(f.Name, unit) {
		return f.Name
	}
	return f.Name + "_" + unit
}
