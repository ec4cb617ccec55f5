package tracing

import (
	"cmp"
	"io"
	"math"
	"slices"
	"strconv"
	"time"

	"netrate/model"
	"netrate/model/trace"
	"netrate/sim"
)

// The stops and the counts, as netrate fit reads them.

// logRow is a row of the list of stops, in thousandths of a second from the start of the shift.
type logRow struct {
	from, to, arrives int64
	attended, cutOff  bool
	station, cause    string
}

func thousandths(at sim.Seconds) int64 { return int64(math.Round(float64(at * 1000))) }

// logRows returns the stops of a shift and, if they are asked for, the faults that were seen and
// did not stop the line, in the order of time.
func logRows(s *trace.Shift, seen bool) []logRow {
	var rows []logRow
	for i := range s.Stops {
		x := &s.Stops[i]
		cause := x.Cause
		if cause == model.CauseStreak {
			cause = model.CauseMisfeed // that is what the last of them is
		}
		rows = append(rows, logRow{
			thousandths(x.From), thousandths(x.To), thousandths(x.Arrives), x.Attended, !x.Over,
			s.Name(x.Station), cause.Name(s.Line.Stations[x.Station]),
		})
	}
	for i := range s.Faults {
		x := &s.Faults[i]
		if at := thousandths(x.At); seen && x.Seen && !x.Stopped {
			rows = append(rows, logRow{from: at, to: at, station: s.Name(x.Station), cause: model.Cause(x.Fault).Name(s.Line.Stations[x.Station])})
		}
	}
	slices.SortStableFunc(rows, func(a, b logRow) int { return cmp.Compare(a.from, b.from) })
	return rows
}

// clock returns a moment as a clock shows it.
func clock(begins time.Time, thousandths int64) string {
	return begins.Add(time.Duration(thousandths) * time.Millisecond).Format("2006-01-02 15:04:05.000")
}

// stopHeadings are those of the list of stops.
var stopHeadings = []string{"Start", "Station", "Cause", "Duration (s)", "Arrival", "Cut off", "Speed"}

// writeStops writes the list of stops.
func (o *traceFlags) writeStops(to io.Writer, all []*trace.Shift) error {
	begins := o.start.begins(all)
	return writeRows(to, stopHeadings, all, func(w *rows, k int) {
		for _, r := range logRows(all[k], o.seen) {
			arrival, cutOff := "", ""
			if r.attended {
				arrival = clock(begins[k], r.arrives)
			}
			if r.cutOff {
				cutOff = "yes"
			}
			length := strconv.FormatFloat(float64(r.to-r.from)/1000, 'f', 3, 64)
			w.add(clock(begins[k], r.from), r.station, r.cause, length, arrival, cutOff, speed(all[k]))
		}
	})
}

// speed returns the cycles an hour of a shift.
func speed(s *trace.Shift) string { return strconv.FormatFloat(s.Line.RunSpeed(), 'f', -1, 64) }

// countHeadings are those of the counts.
var countHeadings = []string{"Date", "Shift", "Station", "Speed", "Feeds"}

// writeCounts writes how much each station fed in each shift.
func (o *traceFlags) writeCounts(to io.Writer, all []*trace.Shift) error {
	begins := o.start.begins(all)
	return writeRows(to, countHeadings, all, func(w *rows, k int) {
		s := all[k]
		for i := range s.Outcome.Stations {
			if x := &s.Outcome.Stations[i]; x.Attempts > 0 {
				w.add(begins[k].Format("2006-01-02 15:04"), strconv.Itoa(s.Replication), x.Name, speed(s), number(x.Attempts))
			}
		}
	})
}
