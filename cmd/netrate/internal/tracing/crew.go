package tracing

import (
	"io"
	"strconv"
	"time"

	"netrate/model"
	"netrate/model/trace"
	"netrate/sim"
)

// crewHeadings are the columns of what the crew did.
var crewHeadings = []string{"Shift", "Station", "Work", "Called", "Waited (s)", "Operator", "Set off", "Arrived", "Walked (s)", "Finished", "Worked (s)", "Done", "Helper", "Helped (s)"}

// writeCrew writes each task of the crew, in the order of the calls.
func (o *traceFlags) writeCrew(to io.Writer, all []*trace.Shift) error {
	begins := o.start.begins(all)
	return writeRows(to, crewHeadings, all, func(w *rows, k int) {
		for i := range all[k].Tasks {
			w.add(crewRow(all[k], begins[k], &all[k].Tasks[i])...)
		}
	})
}

// crewRow returns the row of a task.
func crewRow(s *trace.Shift, begins time.Time, x *trace.Task) []string {
	at := func(t sim.Seconds) string { return clock(begins, thousandths(t)) }
	row := []string{strconv.Itoa(s.Replication), s.Name(x.Station), x.Work.String(), at(x.Called)}
	if !x.Taken {
		return append(row, seconds(x.Called, s.Lasts()), "", "", "", "", "", "", "no", "", "")
	}
	done := "yes"
	if !x.Done {
		done = "no"
	}
	helper, helped := "", ""
	if x.Helped {
		helper, helped = strconv.Itoa(x.Helper+1), seconds(x.HelpArrives, x.To)
	}
	return append(row, seconds(x.Called, x.From), who(x), at(x.From), at(x.Arrives),
		seconds(x.From, x.Arrives), at(x.To), seconds(x.Arrives, x.To), done, helper, helped)
}

// who returns the number of who did a task: of an operator 2, of a technician T2.
func who(x *trace.Task) string {
	n := strconv.Itoa(x.Operator + 1)
	if x.Work == model.Repair {
		return "T" + n
	}
	return n
}

// seconds returns how long it is from one moment to another, in thousandths.
func seconds(from, to sim.Seconds) string {
	return strconv.FormatFloat(float64(thousandths(to)-thousandths(from))/1000, 'f', 3, 64)
}
