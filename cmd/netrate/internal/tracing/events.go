package tracing

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"math"

	"netrate/model"
	"netrate/model/trace"
	"netrate/sim"
)

// viewEvent is one event of the Trace Event Format: times in µs from the start of the shift.
type viewEvent struct {
	Name     string         `json:"name"`
	Category string         `json:"cat,omitempty"`
	Phase    string         `json:"ph"` // X a stretch, i a moment, b and e the ends of a wait, C a level, M a name
	At       int64          `json:"ts"`
	Lasts    *int64         `json:"dur,omitempty"`
	Process  int            `json:"pid"`
	Thread   int            `json:"tid"`
	Scope    string         `json:"s,omitempty"`
	Number   string         `json:"id,omitempty"`
	Args     map[string]any `json:"args,omitempty"`
}

// The groups of lanes.
const (
	lineLanes = iota + 1
	crewLanes // operators, then technicians
	stationLanes
	stockLanes
	groups = iota // of a line
)

// writeEvents writes the one replication for trace viewers.
func (o *traceFlags) writeEvents(to io.Writer, all []*trace.Shift) error {
	w := &viewWriter{to: bufio.NewWriter(to)}
	for i, s := range all {
		w.shift, w.lanes = s, 0
		if s.Pass == 0 {
			w.lanes = i * groups
		}
		if s.Pass <= 1 {
			w.names()
		}
		w.line()
		w.crew()
		w.stations()
		w.stocks()
	}
	return w.end()
}

// viewWriter writes events, one a line.
type viewWriter struct {
	to      *bufio.Writer
	shift   *trace.Shift
	lanes   int // of the lines before
	written int
	err     error
}

func micros(at sim.Seconds) int64 { return int64(math.Round(float64(at * 1e6))) }

// put puts an event of the shift: the crew has lanes once, whatever the number of its lines.
func (w *viewWriter) put(e viewEvent) {
	if e.Process != crewLanes {
		e.Process += w.lanes
	}
	if e.Phase != "M" {
		e.At += micros(w.shift.Begins)
	}
	if e.Number != "" && (w.lanes > 0 || w.shift.Pass > 1) {
		e.Number = fmt.Sprintf("%d.%d.%s", w.lanes, w.shift.Pass, e.Number)
	}
	before := ",\n"
	if w.written == 0 {
		before = `{"displayTimeUnit":"ms","traceEvents":[` + "\n"
	}
	w.written++
	text, err := json.Marshal(e)
	if w.err == nil {
		w.err = err
	}
	_, _ = w.to.WriteString(before) // Flush says it
	_, _ = w.to.Write(text)
}

func (w *viewWriter) end() error {
	_, _ = w.to.WriteString("\n]}\n")
	if w.err != nil {
		return w.err
	}
	return w.to.Flush()
}

// stretch puts something that lasts.
func (w *viewWriter) stretch(lanes, lane int, name, category string, from, to sim.Seconds) {
	at := micros(from)
	lasts := micros(to) - at
	w.put(viewEvent{Name: name, Category: category, Phase: "X", At: at, Lasts: &lasts, Process: lanes, Thread: lane})
}

// names puts the names of the lanes.
func (w *viewWriter) names() {
	name := func(what string, lanes, lane int, text string) {
		w.put(viewEvent{Name: what, Phase: "M", Process: lanes, Thread: lane, Args: map[string]any{"name": text}})
	}
	for i, text := range []string{"line", "crew", "stations", "stocks"} {
		if w.lanes > 0 && i+1 == crewLanes {
			continue
		}
		name("process_name", i+1, 0, text)
		w.put(viewEvent{Name: "process_sort_index", Phase: "M", Process: i + 1, Args: map[string]any{"sort_index": i}})
	}
	name("thread_name", lineLanes, 1, w.shift.Line.Name)
	for i := range w.shift.Line.Crew.Most() {
		name("thread_name", crewLanes, i+1, operatorName(&w.shift.Line.Crew, i))
	}
	for i := range w.shift.Technicians() {
		name("thread_name", crewLanes, w.shift.Line.Crew.Most()+i+1, fmt.Sprintf("technician %d", i+1))
	}
	for i := range w.shift.Line.Stations {
		name("thread_name", stationLanes, i+1, w.shift.Name(i))
	}
}

// line puts when the line ran and why it stood.
func (w *viewWriter) line() {
	s := w.shift
	for _, r := range s.Runs {
		if r.To > r.From {
			w.stretch(lineLanes, 1, w.runs(r), "running", r.From, r.To)
		}
	}
	for _, x := range s.Breaks {
		w.stretch(lineLanes, 1, "break", "break", x.From, x.To)
	}
	for _, x := range s.Stood {
		name := fmt.Sprintf("%s, %s: %s", s.Name(x.Station), x.Cause.Name(s.Line.Stations[x.Station]), x.Phase)
		w.stretch(lineLanes, 1, name, x.Phase.String(), x.From, x.To)
	}
}

// runs says how the line runs in a stretch.
func (w *viewWriter) runs(r trace.Run) string {
	if full := sim.Seconds(3600 / w.shift.Line.RunSpeed()); r.Each > full {
		return fmt.Sprintf("running at %.0f %% of its speed", float64(100*full/r.Each))
	}
	return "running"
}

// operatorName returns what an operator is called.
func operatorName(c *model.Crew, i int) string {
	if name := c.Named(i); name != "" {
		return fmt.Sprintf("operator %d, %s", i+1, name)
	}
	return fmt.Sprintf("operator %d", i+1)
}

// lane returns the lane of who did a task.
func (w *viewWriter) lane(x *trace.Task) int {
	if x.Work == model.Repair {
		return w.shift.Line.Crew.Most() + x.Operator + 1
	}
	return x.Operator + 1
}

// crew puts what operators and technicians did, and what waited for them.
func (w *viewWriter) crew() {
	s := w.shift
	for i := range s.Tasks {
		x := &s.Tasks[i]
		what := fmt.Sprintf("%s, %s", s.Name(x.Station), x.Work)
		ends := s.Lasts()
		if x.Taken {
			ends = x.From
			w.stretch(crewLanes, w.lane(x), "walks to "+what, "walk", x.From, x.Arrives)
			w.stretch(crewLanes, w.lane(x), what, "work", x.Arrives, x.To)
		}
		if x.Helped {
			w.stretch(crewLanes, x.Helper+1, "walks to help with "+what, "walk", x.HelpFrom, x.HelpArrives)
			w.stretch(crewLanes, x.Helper+1, "helps with "+what, "work", x.HelpArrives, x.To)
		}
		if ends > x.Called {
			wait := viewEvent{Name: what + " waits", Category: "wait", Phase: "b", At: micros(x.Called), Process: crewLanes, Number: fmt.Sprint(i)}
			w.put(wait)
			wait.Phase, wait.At = "e", micros(ends)
			w.put(wait)
		}
	}
}

// stations puts faults and sets that left.
func (w *viewWriter) stations() {
	s := w.shift
	moment := func(station int, at sim.Seconds, name, category string, set sim.Cycles) {
		w.put(viewEvent{
			Name: name, Category: category, Phase: "i", At: micros(at), Process: stationLanes, Thread: station + 1, Scope: "t",
			Args: map[string]any{"set": set},
		})
	}
	for i := range s.Faults {
		x := &s.Faults[i]
		name := x.Fault.String()
		switch {
		case x.FalseCall:
			name = "false call"
		case !x.Seen:
			name += ", not noticed"
		}
		moment(x.Station, x.At, name, "fault", x.Set)
	}
	for i := range s.Sets {
		if x := &s.Sets[i]; !x.Good && x.Fate != model.OnLine {
			moment(x.Station, s.Moment(x.Cycle), x.Fate.String(), "set", x.Number)
		}
	}
}

// stocks puts what was left in each stock when it was looked at, and how many operators there were.
func (w *viewWriter) stocks() {
	for _, x := range w.shift.Levels {
		w.put(viewEvent{Name: w.shift.Name(x.Station), Phase: "C", At: micros(x.At), Process: stockLanes, Args: map[string]any{"left": x.Left}})
	}
	for _, x := range w.shift.Present {
		w.put(viewEvent{Name: "operators there", Phase: "C", At: micros(x.At), Process: crewLanes, Args: map[string]any{"there": x.Operators}})
	}
}
