package present

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"netrate/cmd/netrate/internal/page"
	"netrate/model/trace"
	"netrate/plots"
	"netrate/sim"
)

// placedStop is a stop of one of several shifts or passes.
type placedStop struct {
	*trace.Stop
	of *trace.Shift
	at sim.Seconds // from the start of the first pass
}

// stopsBetween returns the stops that arose from one moment on, and before another, in order.
func stopsBetween(all []*trace.Shift, from, to sim.Seconds) []placedStop {
	var stops []placedStop
	for _, s := range all {
		for i := range s.Stops {
			if at := s.Begins + s.Stops[i].From; at >= from && at < to {
				stops = append(stops, placedStop{&s.Stops[i], s, at})
			}
		}
	}
	slices.SortStableFunc(stops, func(a, b placedStop) int { return cmp.Compare(a.at, b.at) })
	return stops
}

// hourStops returns the stops that arose in an hour of a shift, of lines that share a crew or of a job,
// or all of them.
func hourStops(all []*trace.Shift, begins time.Time, hour int) plots.Table {
	last := all[len(all)-1]
	from, to, whole := sim.Seconds(0), last.Begins+last.Lasts(), "shift"
	if last.Pass > 0 {
		whole = "job"
	}
	t := plots.Table{Name: "stops", Caption: fmt.Sprintf("The stops of the %s.", whole), Names: 3}
	t.Columns = []plots.Column{
		{Title: "At"},
		{Title: "Station"},
		{Title: "Cause"},
		{Title: "Wait and walk", Unit: "s", Kind: plots.Number},
		{Title: "Work", Unit: "s", Kind: plots.Number},
		{Title: "Operator"},
	}
	part := partOf(all)
	if part != nil {
		t.Columns = slices.Insert(t.Columns, 1, plots.Column{Title: part.title})
		t.Names++
	}
	if hour > 0 {
		from = sim.Seconds(sim.Seconds(hour-1) * hourLength)
		to = min(from+hourLength, to)
		t.Caption = fmt.Sprintf("The stops of hour %d, from %s on; those of another with --hour, all with --hour 0. The line restarts when the last stop that is open is cleared.",
			hour, after(begins, from).Format("15:04"))
	}
	for _, x := range stopsBetween(all, from, to) {
		row := stopRow(x.of, after(begins, x.of.Begins), x.Stop)
		if part != nil {
			row = slices.Insert(row, 1, page.Words(part.of(x.of)))
		}
		t.Rows = append(t.Rows, row)
	}
	if len(t.Rows) == 0 {
		t.Caption = fmt.Sprintf("No stop began in hour %d of the %s.", hour, whole)
		if hour == 0 {
			t.Caption = fmt.Sprintf("No stop began in the %s.", whole)
		}
	}
	return t
}

// part is what a replication has several of: passes, or lines.
type part struct {
	title string
	of    func(*trace.Shift) string
}

// partOf returns what the parts of a replication are, or nil if it has one only.
func partOf(all []*trace.Shift) *part {
	switch {
	case len(all) == 1:
		return nil
	case all[0].Pass > 0:
		return &part{"Pass", func(s *trace.Shift) string { return fmt.Sprint(s.Pass) }}
	}
	return &part{"Line", func(s *trace.Shift) string { return s.Line.Name }}
}

// stopRow returns a stop as a row.
func stopRow(s *trace.Shift, begins time.Time, x *trace.Stop) []plots.Entry {
	waited, worked, who := x.To-x.From, page.Words("–"), "–"
	if x.Attended {
		waited, worked = x.Arrives-x.From, page.Value(float64(x.Worked()))
		for i := range s.Tasks {
			if t := &s.Tasks[i]; t.Taken && t.Station == x.Station && t.To == x.To {
				who = fmt.Sprint(t.Operator + 1)
			}
		}
	}
	return []plots.Entry{
		page.Words(after(begins, x.From).Format("15:04:05")), page.Words(s.Name(x.Station)), page.Words(s.Cause(x.Station, x.Cause)),
		page.Value(float64(waited)), worked, page.Words(who),
	}
}
