package study

import (
	"reflect"
	"slices"

	"netrate/model"
)

// RulesAnswer is what the stations of a line can answer to their faults, and why not.
type RulesAnswer struct {
	Responses []string     `json:"responses"` // that there are, in order
	Entries   []RulesEntry `json:"stations"`
	Reasons   []string     `json:"reasons"` // why something is impossible, each once
	Gate      RulesGate    `json:"track_gate"`
	Streams   []RulesLane  `json:"streams"`      // that can come out of step
	Readers   bool         `json:"has_a_reader"` // a false alarm of it gets the answer to a mismatch
}

// RulesEntry is stations of one kind that are alike in what they can answer.
type RulesEntry struct {
	Kind     string       `json:"kind"`
	Stations []string     `json:"stations"`
	Faults   []RulesFault `json:"faults"`
}

// RulesFault is what can be answered to a fault.
type RulesFault struct {
	Fault   string       `json:"fault"`
	Answers []RulesReply `json:"answers"` // one for each response
}

// RulesReply is whether a response is possible. A response may be chosen and impossible: then
// the line is refused.
type RulesReply struct {
	Possible bool `json:"possible"`
	Only     bool `json:"only"` // it is the one that is possible
	Chosen   bool `json:"chosen"`
	Reason   int  `json:"reason"` // why it is not, from 1; 0 if it is
}

// RulesLane is how a stream is put in step again.
type RulesLane struct {
	Stream  string `json:"stream"`
	Station string `json:"station"` // that carries it
	InLine  bool   `json:"in_line"` // while the line runs; else by hand, at a stop
}

// Rules returns what the stations of a line can answer to their faults. The line need not pass
// its Check: what it has chosen and cannot have is said.
func Rules(l *model.Line) *RulesAnswer {
	a := &RulesAnswer{Responses: model.Responses(), Gate: rulesGate(l), Readers: l.First(model.Reads) >= 0}
	for i, s := range l.Stations {
		var faults []RulesFault
		for _, f := range l.Faults(i) {
			faults = append(faults, a.fault(l, i, f))
		}
		if faults != nil {
			a.add(RulesEntry{s.Kind().Name, []string{s.Where().Name}, faults})
		}
		if stream := s.Carries(); stream != nil && stream.Name != "" {
			a.Streams = append(a.Streams, RulesLane{stream.Name, s.Where().Name, recoversInLine(s)})
		}
	}
	return a
}

// add adds an entry, or its station to one that is alike.
func (a *RulesAnswer) add(x RulesEntry) {
	for i := range a.Entries {
		if old := &a.Entries[i]; old.Kind == x.Kind && reflect.DeepEqual(old.Faults, x.Faults) {
			old.Stations = append(old.Stations, x.Stations...)
			return
		}
	}
	a.Entries = append(a.Entries, x)
}

// fault returns what station i can answer to a fault.
func (a *RulesAnswer) fault(l *model.Line, i int, f model.Fault) RulesFault {
	x, possible := RulesFault{Fault: f.String()}, 0
	for r := range a.Responses {
		response := model.Response(r)
		why := l.Refusal(i, f, response)
		reply := RulesReply{Possible: why == "", Chosen: l.Answer(i, f) == response}
		if reply.Possible {
			possible++
		} else {
			reply.Reason = a.reason(why)
		}
		x.Answers = append(x.Answers, reply)
	}
	for r := range x.Answers {
		x.Answers[r].Only = x.Answers[r].Possible && possible == 1
	}
	return x
}

// reason returns the number of a reason, from 1.
func (a *RulesAnswer) reason(why string) int {
	at := slices.Index(a.Reasons, why)
	if at < 0 {
		at = len(a.Reasons)
		a.Reasons = append(a.Reasons, why)
	}
	return at + 1
}

// recoversInLine reports whether a station answers a misfeed or a double of its stream otherwise
// than with a stop.
func recoversInLine(s model.Station) bool {
	return slices.ContainsFunc([]model.Fault{model.Misfeed, model.Double}, func(f model.Fault) bool {
		answer := s.Answer(f)
		return answer != nil && *answer != model.Stop
	})
}
