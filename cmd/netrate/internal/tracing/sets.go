package tracing

import (
	"fmt"
	"io"
	"strconv"
	"strings"
	"time"

	"netrate/cmd/netrate/internal/present"
	"netrate/model"
	"netrate/model/trace"
	"netrate/sim"
)

// setHeadings are the columns of the trail. Sets is how many are in the row: their sum, fate by
// fate, is the ledger.
var setHeadings = []string{
	"Shift", "First", "Last", "Sets", "Fate", "Left at", "Left in cycle", "Left", "Lost to station", "Lost to fault",
	"Found by", "Remakes", "Pieces", "What happened",
}

// writeSets writes the trail of each set: good ones with which nothing happened together, unless
// all are asked for one by one.
func (o *traceFlags) writeSets(to io.Writer, all []*trace.Shift) error {
	begins := o.start.begins(all)
	return writeRows(to, setHeadings, all, func(w *rows, k int) {
		s := all[k]
		next := sim.Cycles(1)
		for i := range s.Sets {
			x := &s.Sets[i]
			o.addGood(w, s, begins[k], next, x.Number-1)
			w.add(setRow(s, begins[k], x)...)
			next = x.Number + 1
		}
		o.addGood(w, s, begins[k], next, sim.Cycles(s.Outcome.Sets.Started))
	})
}

// addGood adds good sets in a row, if there are any.
func (o *traceFlags) addGood(w *rows, s *trace.Shift, begins time.Time, first, last sim.Cycles) {
	step := last - first + 1
	if o.all {
		step = 1
	}
	for ; first <= last; first += step {
		to := min(last, first+step-1)
		row := make([]string, len(setHeadings))
		row[0], row[1], row[2], row[3] = strconv.Itoa(s.Replication), number(first), number(to), number(to-first+1)
		row[4] = "good"
		left(row, s, begins, len(s.Line.Stations)-1, s.Delivered(to))
		w.add(row...)
	}
}

func number[T ~int64](n T) string { return strconv.FormatInt(int64(n), 10) }

// left writes where and when a set left; of several, the last of them.
func left(row []string, s *trace.Shift, begins time.Time, station int, cycle sim.Cycles) {
	row[5], row[6] = s.Name(station), number(cycle)
	row[7] = clock(begins, thousandths(s.Moment(cycle)))
}

// setRow returns the row of a set with which something happened.
func setRow(s *trace.Shift, begins time.Time, x *trace.Set) []string {
	row := make([]string, len(setHeadings))
	row[0], row[1], row[2], row[3] = strconv.Itoa(s.Replication), number(x.Number), number(x.Number), "1"
	switch {
	case x.Good:
		row[4] = "good"
		left(row, s, begins, len(s.Line.Stations)-1, s.Delivered(x.Number))
	case x.Fate == model.OnLine:
		row[4], row[5] = x.Fate.String(), s.Name(x.Station)
	default:
		row[4] = x.Fate.String()
		left(row, s, begins, x.Station, x.Cycle)
		row[8], row[9] = s.Name(x.Blamed), x.Fault.String()
		row[11] = number(x.Remakes)
	}
	if found := x.FoundBy(); found >= 0 {
		row[10] = s.Name(found)
	} else if !x.Good && x.Fate == model.Defective {
		row[10] = "nobody"
	}
	row[12], row[13] = piecesOf(s, x), happenings(s, x)
	return row
}

// piecesOf returns what a set held when it left: of a stream with the numbers of the pieces, which
// are those of the sets that they are for.
func piecesOf(s *trace.Shift, x *trace.Set) string {
	var all []string
	for _, p := range x.Pieces {
		text := s.Name(p.Station)
		switch {
		case p.Mixed:
			text += " with sheets of another document"
		case p.First != 0 && p.N > 1:
			text += fmt.Sprintf(" %d to %d", p.First, p.First+p.N-1)
		case p.First != 0:
			text += fmt.Sprintf(" %d", p.First)
		case p.N > 1:
			text += fmt.Sprintf(" ×%d", p.N)
		}
		all = append(all, text)
	}
	return strings.Join(all, "; ")
}

// happenings returns what happened with a set, in order.
func happenings(s *trace.Shift, x *trace.Set) string {
	var all []string
	for _, w := range x.Happened {
		all = append(all, fmt.Sprintf("cycle %d, %s: %s", w.Cycle, s.Name(w.Station), present.Happening(s, &w)))
	}
	return strings.Join(all, "; ")
}
