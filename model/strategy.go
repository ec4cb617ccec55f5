package model

import (
	"slices"
	"strings"
)

// Decision is one answer that a strategy must give: to one fault at one station.
type Decision struct {
	Station   int
	Fault     Fault
	Responses []Response // those that are possible, in order; two or more
}

// Strategy is a divert strategy: a response for each decision of a line, in order.
type Strategy []Response

// Decisions returns what a strategy of the line must decide, in order along the track. Where
// only one response is possible there is nothing to decide; and where nobody knows how long it takes
// to clear a fault, a stop is none.
func (l *Line) Decisions() []Decision {
	var all []Decision
	for i := range l.Stations {
		for _, f := range l.Faults(i) {
			d := Decision{Station: i, Fault: f}
			for r := range Response(len(responseNames)) {
				if l.Refusal(i, f, r) == "" && (r != Stop || l.clearable(i, f)) {
					d.Responses = append(d.Responses, r)
				}
			}
			if len(d.Responses) > 1 {
				all = append(all, d)
			}
		}
	}
	return all
}

// GuardedDecisions returns the decisions of a strategy that lets no set go that could not be
// read or matched: of their responses, Ship is left out where a reader finds that, and where a
// stream falls out of step. It stays where the line itself has it, as somebody decided that,
// and where nothing else is possible.
func (l *Line) GuardedDecisions() []Decision {
	all := l.Decisions()
	for k, d := range all {
		guarded := slices.DeleteFunc(slices.Clone(d.Responses), func(r Response) bool { return r == Ship })
		if l.ofOneAddressee(d) && l.Answer(d.Station, d.Fault) != Ship && len(guarded) > 0 {
			all[k].Responses = guarded
		}
	}
	return all
}

// ShipsUnread reports whether a strategy lets sets go that could not be read or matched.
func (l *Line) ShipsUnread(s Strategy) bool {
	for k, d := range l.Decisions() {
		if s[k] == Ship && l.ofOneAddressee(d) {
			return true
		}
	}
	return false
}

// ofOneAddressee reports whether what is decided is whether a set goes of which nobody knows
// that all its pieces are for one addressee.
func (l *Line) ofOneAddressee(d Decision) bool {
	return d.Fault == NoRead || d.Fault == Mismatch || StreamOf(l.Stations[d.Station]).Name != ""
}

// Strategy returns the strategy that the line has.
func (l *Line) Strategy() Strategy {
	decisions := l.Decisions()
	s := make(Strategy, len(decisions))
	for k, d := range decisions {
		s[k] = l.Answer(d.Station, d.Fault)
	}
	return s
}

// Answering returns a copy of the line with another strategy. It panics unless there is a
// response for each of its decisions.
func (l *Line) Answering(s Strategy) *Line {
	decisions := l.Decisions()
	if len(s) != len(decisions) {
		panic("model: a strategy of another line")
	}
	c := l.Clone()
	for k, d := range decisions {
		*c.Stations[d.Station].Answer(d.Fault) = s[k]
	}
	return c
}

// StrategyWords says what a strategy answers otherwise than another one, station by station
// in order along the track: "all feeders: misfeed divert; letter: double stop". Stations that
// answer alike are named together. It returns "" if the two are the same; where the other one
// is nil it says everything.
func (l *Line) StrategyWords(s, other Strategy) string {
	decisions := l.Decisions()
	var answers []answer
	for k, d := range decisions {
		if other != nil && s[k] == other[k] {
			continue
		}
		a := answer{kind: l.Stations[d.Station].Kind().Alike(), fault: d.Fault, response: s[k]}
		n := slices.IndexFunc(answers, a.like)
		if n < 0 {
			n = len(answers)
			answers = append(answers, a)
		}
		answers[n].stations = append(answers[n].stations, d.Station)
	}
	var parts []string
	for len(answers) > 0 {
		first := answers[0].stations
		var words []string
		answers = slices.DeleteFunc(answers, func(a answer) bool {
			if !slices.Equal(a.stations, first) {
				return false
			}
			words = append(words, a.fault.String()+" "+a.response.String())
			return true
		})
		parts = append(parts, l.together(first, decisions)+": "+strings.Join(words, ", "))
	}
	return strings.Join(parts, "; ")
}

// answer is one response to one fault, at stations of one kind.
type answer struct {
	kind     string
	fault    Fault
	response Response
	stations []int
}

func (a answer) like(b answer) bool {
	return a.kind == b.kind && a.fault == b.fault && a.response == b.response
}

// together returns what stations are called together: by their names, or "all feeders".
func (l *Line) together(stations []int, decisions []Decision) string {
	kind := l.Stations[stations[0]].Kind()
	var alike []int // the stations of that kind that decide anything
	for _, d := range decisions {
		if l.Stations[d.Station].Kind().Alike() == kind.Alike() && !slices.Contains(alike, d.Station) {
			alike = append(alike, d.Station)
		}
	}
	if len(stations) > 1 && slices.Equal(stations, alike) {
		return "all " + kind.Several()
	}
	names := make([]string, len(stations))
	for n, i := range stations {
		names[n] = l.Stations[i].Where().Name
	}
	return strings.Join(names, ", ")
}
