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
func (l *Line) Decisions() []Decision { return l.AsItStands().Decisions() }

// GuardedDecisions returns the decisions of a strategy that lets no set go that could not be
// read or matched: of their responses, Ship is left out where a reader finds that, and where a
// stream falls out of step. It stays where the line itself has it, as somebody decided that,
// and where nothing else is possible.
func (l *Line) GuardedDecisions() []Decision { return l.AsItStands().GuardedDecisions() }

// ShipsUnread reports whether a strategy lets sets go that could not be read or matched.
func (l *Line) ShipsUnread(s Strategy) bool { return l.AsItStands().ShipsUnread(s) }

// allows reports whether station i of the line can answer the fault so.
func (l *Line) allows(i int, f Fault, r Response) bool {
	return l.Refusal(i, f, r) == "" && (r != Stop || l.clearable(i, f))
}

// ofOneAddressee reports whether what station i decides of a fault is whether a set goes of which
// nobody knows that all its pieces are for one addressee.
func (l *Line) ofOneAddressee(i int, f Fault) bool {
	return f == NoRead || f == Mismatch || StreamOf(l.Stations[i]).Name != ""
}

// Strategy returns the strategy that the line has.
func (l *Line) Strategy() Strategy { return l.AsItStands().Strategy() }

// Answering returns a copy of the line with another strategy. It panics unless there is a
// response for each of its decisions.
func (l *Line) Answering(s Strategy) *Line { return l.AsItStands().Answering(s)[0] }

// StrategyWords says what a strategy answers otherwise than another one, station by station
// in order along the track: "all feeders: misfeed divert; letter: double stop". Stations that
// answer alike are named together. It returns "" if the two are the same; where the other one
// is nil it says everything.
func (a *AtJobs) StrategyWords(s, other Strategy) string {
	l, decisions := a.Line, a.Decisions()
	var answers []answer
	for k, d := range decisions {
		if other != nil && s[k] == other[k] {
			continue
		}
		one := answer{kind: l.Stations[d.Station].Kind().Alike(), fault: d.Fault, response: s[k]}
		n := slices.IndexFunc(answers, one.like)
		if n < 0 {
			n = len(answers)
			answers = append(answers, one)
		}
		answers[n].stations = append(answers[n].stations, d.Station)
	}
	var parts []string
	for len(answers) > 0 {
		first := answers[0].stations
		var words []string
		answers = slices.DeleteFunc(answers, func(one answer) bool {
			if !slices.Equal(one.stations, first) {
				return false
			}
			words = append(words, one.fault.String()+" "+one.response.String())
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
