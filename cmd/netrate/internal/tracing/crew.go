package tracing

import (
	"encoding/csv"
	"io"
	"strconv"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/trace"
	"netrate/sim"
)

// writeCrew writes each task of the crew, in the order of the calls.
func (o *traceFlags) writeCrew(to io.Writer, all []*trace.Shift) error {
	w := csv.NewWriter(to)
	_ = w.Write([]string{"Shift", "Station", "Work", "Called", "Waited (s)", "Operator", "Set off", "Arrived", "Walked (s)", "Finished", "Worked (s)", "Done"})
	for k, begins := range o.start.begins(all) {
		s := all[k]
		for i := range s.Tasks {
			x := &s.Tasks[i]
			row := []string{strconv.Itoa(s.Replication), say.Safe(s.Name(x.Station)), x.Work.String(), clock(begins, thousandths(x.Called))}
			if !x.Taken {
				row = append(row, seconds(x.Called, s.Line.Shift), "", "", "", "", "", "", "no")
				_ = w.Write(row)
				continue
			}
			done := "yes"
			if !x.Done {
				done = "no"
			}
			_ = w.Write(append(row, seconds(x.Called, x.From), strconv.Itoa(x.Operator+1), clock(begins, thousandths(x.From)),
				clock(begins, thousandths(x.Arrives)), seconds(x.From, x.Arrives), clock(begins, thousandths(x.To)), seconds(x.Arrives, x.To), done))
		}
	}
	w.Flush()
	return w.Error()
}

// seconds returns how long it is from one moment to another, in thousandths.
func seconds(from, to sim.Seconds) string {
	return strconv.FormatFloat(float64(thousandths(to)-thousandths(from))/1000, 'f', 3, 64)
}
