package study

import (
	"encoding/json"

	"netrate/model"
	"netrate/model/trace"
	"netrate/sim"
)

// The document of a trace: names in the place of numbers of stations, seconds from the start of the
// shift or of the pass.

type shiftJSON struct {
	Shift  int         `json:"shift"`          // number of the replication
	Pass   int         `json:"pass,omitempty"` // of a job, from 1
	Line   string      `json:"line"`
	Seed   uint64      `json:"seed"`
	Begins Number      `json:"begins_s"` // from the start of the first pass
	Lasts  Number      `json:"lasts_s"`
	Sets   setsJSON    `json:"sets"`
	Runs   []runJSON   `json:"runs"`
	Stood  []stoodJSON `json:"stood"`
	Stops  []stopJSON  `json:"stops"`
	Faults []faultJSON `json:"faults"`
	Trail  []setJSON   `json:"trail"`
	Tasks  []taskJSON  `json:"tasks"`
	Breaks []breakJSON `json:"breaks"` // for which the line stands

	Present []presentJSON `json:"present"` // of a crew that changes
	Levels  []levelJSON   `json:"levels"`
}

type setsJSON struct {
	Started   int64 `json:"started"`
	Good      int64 `json:"good"`
	Defective int64 `json:"defective"`
	Diverted  int64 `json:"diverted"`
	Outsorted int64 `json:"outsorted"`
	Spoiled   int64 `json:"spoiled"`
	OnLine    int64 `json:"on_line"`
}

type runJSON struct {
	From  Number     `json:"from_s"`
	To    Number     `json:"to_s"`
	Cycle sim.Cycles `json:"cycle"` // completed before it
}

type breakJSON struct {
	From Number `json:"from_s"`
	To   Number `json:"to_s"`
}

type presentJSON struct {
	At        Number `json:"at_s"`
	Operators int    `json:"operators"` // from then on
}

type stoodJSON struct {
	From    Number `json:"from_s"`
	To      Number `json:"to_s"`
	Station string `json:"station"`
	Cause   string `json:"cause"`
	Phase   string `json:"phase"`
}

type stopJSON struct {
	From    Number     `json:"from_s"`
	To      Number     `json:"to_s"`
	Station string     `json:"station"`
	Cause   string     `json:"cause"`
	Cycle   sim.Cycles `json:"cycle"`
	Arrives *Number    `json:"arrives_s"` // null if nobody came
	Over    bool       `json:"over"`      // before the end
}

type faultJSON struct {
	At      Number     `json:"at_s"`
	Station string     `json:"station"`
	Fault   string     `json:"fault"`
	False   bool       `json:"false_call"`
	Seen    bool       `json:"seen"`
	Stopped bool       `json:"stopped"`
	Set     sim.Cycles `json:"set"`
	Cycle   sim.Cycles `json:"cycle"`
}

type setJSON struct {
	Set      sim.Cycles     `json:"set"`
	Fate     string         `json:"fate"`
	Station  string         `json:"station,omitempty"` // where it left, or was last
	Cycle    sim.Cycles     `json:"cycle,omitempty"`
	Blamed   string         `json:"lost_to_station,omitempty"`
	Fault    string         `json:"lost_to_fault,omitempty"`
	Remakes  int64          `json:"remakes"`
	Happened []happenedJSON `json:"happened"`
	Pieces   []pieceJSON    `json:"pieces"`
}

type happenedJSON struct {
	What    string     `json:"what"`
	Station string     `json:"station"`
	Cycle   sim.Cycles `json:"cycle"`
	Fault   string     `json:"fault,omitempty"`
	Seen    bool       `json:"seen"`
	Gate    string     `json:"gate,omitempty"`
}

type pieceJSON struct {
	Station string `json:"station"`
	Pieces  int64  `json:"pieces"`
	First   int64  `json:"first,omitempty"` // of a stream, its number
	Mixed   bool   `json:"mixed,omitempty"` // sheets of another document
}

type taskJSON struct {
	Station  string  `json:"station"`
	Work     string  `json:"work"`
	Called   Number  `json:"called_s"`
	Operator *int    `json:"operator"` // from 1; null if nobody came
	From     *Number `json:"sets_off_s"`
	Arrives  *Number `json:"arrives_s"`
	To       *Number `json:"to_s"`
	Done     bool    `json:"done"`
}

type levelJSON struct {
	At      Number     `json:"at_s"`
	Station string     `json:"station"`
	Cycle   sim.Cycles `json:"cycle"`
	Left    int64      `json:"left"`
	Filled  int64      `json:"filled"` // since the level before
}

// MarshalJSON returns the shifts, all of them whole.
func (a *TraceAnswer) MarshalJSON() ([]byte, error) {
	shifts := []shiftJSON{}
	for _, s := range a.Shifts() {
		shifts = append(shifts, shiftOf(s))
	}
	return json.Marshal(struct {
		Shifts []shiftJSON `json:"shifts"`
	}{shifts})
}

func shiftOf(s *trace.Shift) shiftJSON {
	o := &s.Outcome.Sets
	x := shiftJSON{
		Shift: s.Replication, Pass: s.Pass, Line: s.Line.Name, Seed: s.Seed, Begins: Number(s.Begins), Lasts: Number(s.Lasts()),
		Sets: setsJSON{o.Started, o.Good, o.Defective, o.Diverted, o.Outsorted, o.Spoiled, o.OnLine},
		Runs: []runJSON{}, Stood: []stoodJSON{}, Stops: []stopJSON{}, Faults: []faultJSON{}, Trail: []setJSON{}, Tasks: []taskJSON{},
		Breaks: []breakJSON{}, Present: []presentJSON{}, Levels: []levelJSON{},
	}
	for _, r := range s.Runs {
		x.Runs = append(x.Runs, runJSON{Number(r.From), Number(r.To), r.Cycle})
	}
	for _, r := range s.Stood {
		x.Stood = append(x.Stood, stoodJSON{Number(r.From), Number(r.To), s.Name(r.Station), s.Cause(r.Station, r.Cause), r.Phase.String()})
	}
	for _, r := range s.Stops {
		x.Stops = append(x.Stops, stopJSON{Number(r.From), Number(r.To), s.Name(r.Station), s.Cause(r.Station, r.Cause), r.Cycle, numberIf(r.Attended, r.Arrives), r.Over})
	}
	for _, r := range s.Faults {
		x.Faults = append(x.Faults, faultJSON{Number(r.At), s.Name(r.Station), r.Fault.String(), r.FalseCall, r.Seen, r.Stopped, r.Set, r.Cycle})
	}
	for i := range s.Sets {
		x.Trail = append(x.Trail, trailOf(s, &s.Sets[i]))
	}
	for i := range s.Tasks {
		x.Tasks = append(x.Tasks, taskOf(s, &s.Tasks[i]))
	}
	for _, r := range s.Breaks {
		x.Breaks = append(x.Breaks, breakJSON{Number(r.From), Number(r.To)})
	}
	for _, r := range s.Present {
		x.Present = append(x.Present, presentJSON{Number(r.At), r.Operators})
	}
	for _, r := range s.Levels {
		x.Levels = append(x.Levels, levelJSON{Number(r.At), s.Name(r.Station), r.Cycle, r.Left, r.Filled})
	}
	return x
}

func numberIf(there bool, at sim.Seconds) *Number {
	if !there {
		return nil
	}
	n := Number(at)
	return &n
}

func taskOf(s *trace.Shift, t *trace.Task) taskJSON {
	x := taskJSON{
		Station: s.Name(t.Station), Work: t.Work.String(), Called: Number(t.Called), Done: t.Done,
		From: numberIf(t.Taken, t.From), Arrives: numberIf(t.Taken, t.Arrives), To: numberIf(t.Taken, t.To),
	}
	if t.Taken {
		operator := t.Operator + 1
		x.Operator = &operator
	}
	return x
}

// trailOf returns a set with which something happened.
func trailOf(s *trace.Shift, t *trace.Set) setJSON {
	x := setJSON{Set: t.Number, Fate: "good", Remakes: t.Remakes, Happened: []happenedJSON{}, Pieces: []pieceJSON{}}
	if !t.Good {
		x.Fate, x.Station, x.Cycle = t.Fate.String(), s.Name(t.Station), t.Cycle
		if t.Blamed >= 0 && t.Fate != model.OnLine {
			x.Blamed, x.Fault = s.Name(t.Blamed), t.Fault.String()
		}
	}
	for _, w := range t.Happened {
		h := happenedJSON{What: w.What.String(), Station: s.Name(w.Station), Cycle: w.Cycle, Seen: w.Seen}
		if w.What != trace.TakenOut {
			h.Fault = w.Fault.String()
		}
		if w.What == trace.Condemned {
			h.Gate = s.Name(w.Gate)
		}
		x.Happened = append(x.Happened, h)
	}
	for _, p := range t.Pieces {
		x.Pieces = append(x.Pieces, pieceJSON{s.Name(p.Station), p.N, p.First, p.Mixed})
	}
	return x
}
