package study

import (
	"slices"

	"netrate/model"
)

// LogKind is a kind of station as far as the faults go that a log tells of it. Each kind says
// that itself: see [LogKindsOf].
type LogKind struct {
	Name   string     // as a scenario has it; "" if it is not known
	Faults []LogCause // that it can have
	Rates  []string   // what a scenario calls the probability of each; "" where it is no number of the station
	Clears []string   // what a scenario calls the clearing time of each; "" where it has none of its own
	Grows  bool       // its faults can grow with the speed
	Lots   bool       // its pieces can come in lots
	Role   model.Role

	telling []LogCause // those of the faults that no other kind is said to have
}

// LogKindsOf returns the kinds of some stations, one of each kind, whose rates can be learnt
// from a log: those with a fault whose probability in each attempt is a number of theirs. A
// document channel is none of them: its rates are those of sheets, and counts are of documents.
// Where a log speaks for several kinds, the first of them is taken.
func LogKindsOf(stations ...model.Station) (kinds []LogKind) {
	for _, s := range stations {
		if k := logKindOf(s); len(k.Faults) > 0 {
			kinds = append(kinds, k)
		}
	}
	for i := range kinds {
		k := &kinds[i]
		for _, c := range k.Faults {
			if !slices.ContainsFunc(kinds[:i], hasFault(c)) && !slices.ContainsFunc(kinds[i+1:], func(other LogKind) bool {
				return hasFault(c)(other) && !slices.Equal(other.Faults, k.Faults)
			}) {
				k.telling = append(k.telling, c)
			}
		}
	}
	return kinds
}

// logKindOf returns the kind of a station; without faults if it has no rate that can be learnt.
func logKindOf(s model.Station) LogKind {
	rates := model.FaultRates(s)
	k := LogKind{Name: s.Kind().Name, Role: s.Kind().Role, Grows: model.HasNumber(s, "growth"), Lots: model.LotsOf(s) != nil}
	if len(rates) == 0 {
		return k
	}
	for _, f := range s.Counts() {
		c := LogCause(f)
		if _, is := c.Fault(); !is { // a log calls it by another name
			continue
		}
		name := ""
		if i := slices.IndexFunc(rates, func(r model.FaultRate) bool { return r.Fault == f }); i >= 0 {
			name = rates[i].Name
		}
		clears := ""
		own := model.ClearedByFault(s)
		if i := slices.IndexFunc(own, func(r model.FaultRate) bool { return r.Fault == f }); i >= 0 {
			clears = own[i].Name
		}
		k.Faults, k.Rates, k.Clears = append(k.Faults, c), append(k.Rates, name), append(k.Clears, clears)
	}
	return k
}

// hasFault returns whether a kind can have a fault of this name, in the words of those who write logs.
func hasFault(c LogCause) func(LogKind) bool {
	return func(k LogKind) bool {
		_, is := k.Fault(c)
		return is
	}
}

// Fault returns the fault of this kind that a cause is; false if it is none.
func (k LogKind) Fault(c LogCause) (LogCause, bool) {
	if other, is := logSame[c]; is && !slices.Contains(k.Faults, c) {
		c = other
	}
	return c, slices.Contains(k.Faults, c)
}

// KindNamed returns the kind of a name; false if there is none whose rates can be learnt.
func (l *Log) KindNamed(name string) (LogKind, bool) {
	for _, k := range l.Kinds {
		if k.Name == name {
			return k, true
		}
	}
	return LogKind{}, false
}

// KindOf returns what a station is: as declared, or the kind that most of its stops speak for.
// What is a fault of several kinds in the words of those who write logs speaks for none; if
// there is nothing else the station is of the first kind. Where it has no stop either, the name
// of the kind is empty.
func (l *Log) KindOf(s *LogStation) LogKind {
	if k, is := l.KindNamed(s.Kind); is {
		return k
	}
	if s.taken != nil {
		return *s.taken
	}
	var best LogKind
	most := 0
	for _, k := range l.Kinds {
		if n := s.count(k.telling); n > most {
			best, most = k, n
		}
	}
	if most == 0 && len(l.Kinds) > 0 && s.count(l.Kinds[0].Faults) > 0 {
		return l.Kinds[0]
	}
	return best
}

// faultStops returns the stops of a station for faults of a kind, called as the kind has
// them, and the number of all others.
func (s *LogStation) faultStops(k LogKind) (stops []LogStop, others int) {
	for _, stop := range s.Stops {
		c, is := k.Fault(stop.Cause)
		if !is {
			others++
			continue
		}
		stop.Cause = c
		stops = append(stops, stop)
	}
	return stops, others
}
