package tracing

import (
	"cmp"
	"encoding/csv"
	"io"
	"math"
	"slices"
	"strconv"
	"time"

	"netrate/cmd/netrate/internal/say"
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

// writeStops writes the list of stops.
func (o *traceFlags) writeStops(to io.Writer, all []*trace.Shift) error {
	w := csv.NewWriter(to)
	_ = w.Write([]string{"Start", "Station", "Cause", "Duration (s)", "Arrival", "Cut off", "Speed"}) // Flush says it
	for k, begins := range o.start.begins(all) {
		speed := strconv.FormatFloat(all[k].Line.RunSpeed(), 'f', -1, 64)
		for _, r := range logRows(all[k], o.seen) {
			arrival, cutOff := "", ""
			if r.attended {
				arrival = clock(begins, r.arrives)
			}
			if r.cutOff {
				cutOff = "yes"
			}
			length := strconv.FormatFloat(float64(r.to-r.from)/1000, 'f', 3, 64)
			_ = w.Write([]string{clock(begins, r.from), say.Safe(r.station), r.cause, length, arrival, cutOff, speed})
		}
	}
	w.Flush()
	return w.Error()
}

// writeCounts writes how much each station fed in each shift.
func (o *traceFlags) writeCounts(to io.Writer, all []*trace.Shift) error {
	w := csv.NewWriter(to)
	_ = w.Write([]string{"Date", "Shift", "Station", "Speed", "Feeds"})
	for k, begins := range o.start.begins(all) {
		s := all[k]
		for i := range s.Outcome.Stations {
			x := &s.Outcome.Stations[i]
			if x.Attempts == 0 {
				continue
			}
			_ = w.Write([]string{
				begins.Format("2006-01-02 15:04"), strconv.Itoa(s.Replication), say.Safe(x.Name),
				strconv.FormatFloat(s.Line.RunSpeed(), 'f', -1, 64), strconv.FormatInt(x.Attempts, 10),
			})
		}
	}
	w.Flush()
	return w.Error()
}
