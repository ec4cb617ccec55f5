package stoplog

import (
	"io"

	"netrate/model/study"
)

// AddStops reads a stop log as [Read] does and adds its stops to a log.
func AddStops(to *study.Log, r io.Reader, m Mapping) (Report, error) {
	report, err := Read(r, m, func(s Stop) error {
		to.AddStop(s)
		return nil
	})
	to.StopFile = report.file(m.File)
	return report, err
}

// AddCounts reads counts as [ReadCounts] does and adds them to a log. Stations are in the order
// in which they are met: where counts are read first, those that they have come first.
func AddCounts(to *study.Log, r io.Reader, m Mapping) (Report, error) {
	report, err := ReadCounts(r, m, func(c Count) error {
		to.AddCount(c)
		return nil
	})
	to.CountFile = report.file(m.File)
	return report, err
}

// file returns what became of a file, as a log keeps it.
func (r *Report) file(name string) study.LogFile {
	f := study.LogFile{Name: name, Rows: r.Rows, Used: r.Used, Skipped: r.Skipped, Unread: r.Layout.Unread}
	for _, c := range r.Layout.Columns {
		f.Columns = append(f.Columns, string(c.Column))
	}
	return f
}
