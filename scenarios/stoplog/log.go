package stoplog

import (
	"errors"
	"io"

	"netrate/model/study"
	"netrate/scenarios"
)

// mostKept rows of a file are held in memory: some hundreds of megabytes.
const mostKept = 2_000_000

// ErrTooMany is why a file cannot be held in memory.
var ErrTooMany = errors.New("there are more than 2,000,000 rows: take fewer, such as those of a year")

// upTo returns how a number of rows are added, and no more.
func upTo[T any](most int, add func(T)) func(T) error {
	return func(row T) error {
		if most--; most < 0 {
			return ErrTooMany
		}
		add(row)
		return nil
	}
}

// AddStops reads a stop log as [Read] does and adds its stops to a log.
func AddStops(to *study.Log, r io.Reader, m Mapping) (Report, error) {
	to.Kinds = Kinds()
	report, err := Read(r, m, upTo(mostKept, to.AddStop))
	to.StopFile = report.file(m.File)
	return report, err
}

// AddCounts reads counts as [ReadCounts] does and adds them to a log. Stations are in the order
// in which they are met: where counts are read first, those that they have come first.
func AddCounts(to *study.Log, r io.Reader, m Mapping) (Report, error) {
	to.Kinds = Kinds()
	report, err := ReadCounts(r, m, upTo(mostKept, to.AddCount))
	to.CountFile = report.file(m.File)
	return report, err
}

// Kinds returns the kinds of stations whose rates can be learnt from a log: those that a
// scenario can have.
func Kinds() []study.LogKind { return study.LogKindsOf(scenarios.Kinds()...) }

// file returns what became of a file, as a log keeps it.
func (r *Report) file(name string) study.LogFile {
	f := study.LogFile{Name: name, Rows: r.Rows, Used: r.Used, Skipped: r.Skipped, Unread: r.Layout.Unread}
	for _, c := range r.Layout.Columns {
		f.Columns = append(f.Columns, string(c.Column))
	}
	return f
}
