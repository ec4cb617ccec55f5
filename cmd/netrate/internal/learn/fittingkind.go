package learn

import (
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/say"
	"netrate/scenarios/stoplog"
)

// stationKind is a kind of station as far as its faults go.
type stationKind struct {
	name    string // as a scenario has it; "" if it is not known
	faults  []stoplog.Cause
	telling []stoplog.Cause                 // those of them that no other kind is said to have
	keys    []string                        // of the faults in a scenario; "" for what is no rate there
	same    map[stoplog.Cause]stoplog.Cause // what people also call the faults
}

// stationKinds are the kinds whose rates can be learnt. A document channel is none of them: its
// rates are those of sheets, and counts are of documents.
var stationKinds = []stationKind{
	{
		name: "feeder", faults: []stoplog.Cause{stoplog.Misfeed, stoplog.Double, stoplog.Jam},
		telling: []stoplog.Cause{stoplog.Double},
		keys:    []string{"misfeed", "double", "jam"},
	},
	{
		name: "inserter", faults: []stoplog.Cause{stoplog.EnvelopeMisfeed, stoplog.Flap, stoplog.InsertionJam},
		telling: []stoplog.Cause{stoplog.EnvelopeMisfeed, stoplog.Flap, stoplog.InsertionJam},
		keys:    []string{"envelope_misfeed", "flap", "jam"},
		same:    map[stoplog.Cause]stoplog.Cause{stoplog.Misfeed: stoplog.EnvelopeMisfeed, stoplog.Jam: stoplog.InsertionJam},
	},
	{
		name: "reader", faults: []stoplog.Cause{stoplog.NoRead, stoplog.Mismatch},
		telling: []stoplog.Cause{stoplog.NoRead, stoplog.Mismatch},
		keys:    []string{"no_read", ""},
	},
	{
		name: "envelope feeder", faults: []stoplog.Cause{stoplog.Misfeed, stoplog.Double, stoplog.Jam},
		keys: []string{"misfeed", "double", "jam"},
	},
}

func stationKindNamed(name string) (stationKind, error) {
	var names []string
	for _, k := range stationKinds {
		if k.name == name {
			return k, nil
		}
		names = append(names, k.name)
	}
	return stationKind{}, desk.Wrong("%q is no kind whose rates can be learnt%s; want %s", name, desk.Meant(name, names, ""), strings.Join(names, ", "))
}

// kindOf returns what a station is: as told, or the kind that most of its stops speak for.
// What is a fault of several kinds in the words of those who write logs speaks for none; if
// there is nothing else the station is a feeder.
func (r *records) kindOf(s *stationRecord) stationKind {
	if k, told := r.kinds[s.name]; told {
		return k
	}
	if s.kind != nil {
		return *s.kind
	}
	var best stationKind
	most := 0
	for _, k := range stationKinds {
		if n := s.count(k.telling); n > most {
			best, most = k, n
		}
	}
	if feeder := stationKinds[0]; most == 0 && s.count(feeder.faults) > 0 {
		return feeder
	}
	return best
}

// count returns how many stops are for one of the causes.
func (s *stationRecord) count(causes []stoplog.Cause) int {
	n := 0
	for _, stop := range s.stops {
		if slices.Contains(causes, stop.Cause) {
			n++
		}
	}
	return n
}

// taken says what the stations were taken for that nobody has told.
func (x *fitting) taken() string {
	var parts []string
	for _, k := range stationKinds {
		var names []string
		for _, l := range x.learnt {
			if _, told := x.kinds[l.name]; !told && l.kind.name == k.name {
				names = append(names, l.name)
			}
		}
		if len(names) > 0 {
			parts = append(parts, "for "+k.name+"s: "+say.List(names))
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return "Taken, by their stops, " + strings.Join(parts, "; ") + ". Where that is wrong --kind says what they are."
}

// fault returns the fault of this kind that a cause is; false if it is none.
func (k stationKind) fault(c stoplog.Cause) (stoplog.Cause, bool) {
	if other, is := k.same[c]; is {
		c = other
	}
	return c, slices.Contains(k.faults, c)
}

// faultStops returns the stops for faults of a station, and the number of all others.
func (l *learnt) faultStops() (stops []stoplog.Stop, others int) {
	for _, s := range l.stops {
		if c, is := l.kind.fault(s.Cause); is {
			s.Cause = c
			stops = append(stops, s)
		} else {
			others++
		}
	}
	return stops, others
}
