package main

import (
	"encoding/csv"
	"io"
	"strconv"
	"strings"

	"netrate/model"
)

// writeCSV writes a row for each shift: the number of its replication, and its figures
// with all their digits.
func writeCSV(to io.Writer, s *model.Study) error {
	w := csv.NewWriter(to)
	figures := model.Figures()
	row := []string{"replication"}
	for _, f := range figures {
		row = append(row, column(f))
	}
	if err := w.Write(row); err != nil {
		return err
	}
	for i := range s.Shifts {
		row = append(row[:0], strconv.Itoa(i))
		for _, f := range figures {
			row = append(row, strconv.FormatFloat(f.Of(&s.Shifts[i]), 'f', -1, 64))
		}
		if err := w.Write(row); err != nil {
			return err
		}
	}
	w.Flush()
	return w.Error()
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
