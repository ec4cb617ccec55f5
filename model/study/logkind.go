package study

import (
	"slices"

	"netrate/model"
)

// LogKind is a kind of station as far as the faults go that a log tells of it.
type LogKind struct {
	Name   string     // as a scenario has it; "" if it is not known
	Faults []LogCause // that it can have

	telling []LogCause            // those of them that no other kind is said to have
	same    map[LogCause]LogCause // what people also call the faults
}

func logFaults(faults ...model.Fault) (causes []LogCause) {
	for _, f := range faults {
		causes = append(causes, LogCause(f))
	}
	return causes
}

// logKinds are the kinds whose rates can be learnt. A document channel is none of them: its
// rates are those of sheets, and counts are of documents.
var logKinds = []LogKind{
	{
		Name: "feeder", Faults: logFaults(model.Misfeed, model.Double, model.Jam),
		telling: logFaults(model.Double),
	},
	{
		Name: "inserter", Faults: logFaults(model.EnvelopeMisfeed, model.Flap, model.InsertionJam),
		telling: logFaults(model.EnvelopeMisfeed, model.Flap, model.InsertionJam),
		same:    logSame,
	},
	{
		Name: "reader", Faults: logFaults(model.NoRead, model.Mismatch),
		telling: logFaults(model.NoRead, model.Mismatch),
	},
	{Name: "envelope feeder", Faults: logFaults(model.Misfeed, model.Double, model.Jam)},
}

// LogKindNames returns the names of the kinds whose rates can be learnt.
func LogKindNames() (all []string) {
	for _, k := range logKinds {
		all = append(all, k.Name)
	}
	return all
}

// LogKindNamed returns the kind of a name; false if there is none whose rates can be learnt.
func LogKindNamed(name string) (LogKind, bool) {
	for _, k := range logKinds {
		if k.Name == name {
			return k, true
		}
	}
	return LogKind{}, false
}

// Fault returns the fault of this kind that a cause is; false if it is none.
func (k LogKind) Fault(c LogCause) (LogCause, bool) {
	if other, is := k.same[c]; is {
		c = other
	}
	return c, slices.Contains(k.Faults, c)
}

// Taken returns what a station is: as told, or the kind that most of its stops speak for.
// What is a fault of several kinds in the words of those who write logs speaks for none; if
// there is nothing else the station is a feeder. Where it has no stop either, the name of the
// kind is empty.
func (s *LogStation) Taken() LogKind {
	if k, is := LogKindNamed(s.Kind); is {
		return k
	}
	if s.taken != nil {
		return *s.taken
	}
	var best LogKind
	most := 0
	for _, k := range logKinds {
		if n := s.count(k.telling); n > most {
			best, most = k, n
		}
	}
	if feeder := logKinds[0]; most == 0 && s.count(feeder.Faults) > 0 {
		return feeder
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
