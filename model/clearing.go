package model

import (
	"slices"
	"strings"

	"netrate/sim"
)

// Clearings are an operator's work, after the walk, at the stops for those faults of a station
// that have a time of their own; nil for the others, which take the usual one.
type Clearings [faults]sim.Duration

// Of returns the work at a stop for a fault, where usual is that of faults without a time of
// their own.
func (c *Clearings) Of(f Fault, usual sim.Duration) sim.Duration {
	if own := c[f]; own != nil {
		return own
	}
	return usual
}

// all reports whether all of some faults have a time of their own.
func (c *Clearings) all(faults []FaultRate) bool {
	for _, f := range faults {
		if c[f.Fault] == nil {
			return false
		}
	}
	return true
}

// clears returns the fault whose clearing time a stop for the cause takes.
func (c Cause) clears() Fault {
	if c == CauseStreak {
		return Misfeed
	}
	return Fault(c)
}

// The faults of the kinds of stations, with their names in a scenario file.
var (
	feedingClears   = []FaultRate{{Misfeed, "misfeed"}, {Double, "double"}, {Jam, "jam"}}
	insertingClears = []FaultRate{{EnvelopeMisfeed, "envelope_misfeed"}, {Flap, "flap"}, {InsertionJam, "jam"}}
	readingClears   = []FaultRate{{NoRead, "no_read"}, {Mismatch, "mismatch"}, {FalseAlarm, "false_alarm"}}
)

// IsClearing reports whether a name is that of a clearing time, in the words of a scenario file:
// clear, the usual one, or one such as clear.jam.
func IsClearing(name string) bool {
	word, _, _ := strings.Cut(name, ".")
	return word == "clear"
}

// ClearedByFault returns the faults of a station that may have a clearing time of their own, with
// their names in a scenario file; none for a station of one clearing time.
func ClearedByFault(s Station) []FaultRate {
	if own, may := s.(interface{ clears() []FaultRate }); may {
		return own.clears()
	}
	return nil
}

func (*Feeder) clears() []FaultRate   { return feedingClears }
func (*Channel) clears() []FaultRate  { return feedingClears }
func (*Inserter) clears() []FaultRate { return insertingClears }
func (*Reader) clears() []FaultRate   { return readingClears }

// ClearedAs returns the faults that have a clearing time of a name such as clear.jam.
func ClearedAs(name string) (faults []Fault) {
	for _, f := range slices.Concat(feedingClears, insertingClears, readingClears) {
		if "clear."+f.Name == name {
			faults = append(faults, f.Fault)
		}
	}
	return faults
}

// Clear adds the clearing times of a station: the usual one, and those of single faults.
func (v *Parameters) Clear(usual *sim.Duration, own *Clearings, faults []FaultRate) {
	v.Duration("clear", usual)
	for _, f := range faults {
		v.Duration("clear."+f.Name, &own[f.Fault])
	}
}

// Clearings notes a missing clearing time: a station needs a usual one if a fault that may stop the
// line has none of its own.
func (c *Checks) Clearings(usual sim.Duration, own *Clearings, faults []FaultRate) {
	if !own.all(faults) {
		c.Clear(usual)
	}
}

// realigned notes that nobody knows how long it takes to put the stream in step.
func (c *Checks) realigned(s Stream, usual sim.Duration) {
	c.Require(s.Name == "" || usual != nil || s.Realign != nil, "stream.realign", "all faults have a clearing time of their own, and there is none to put the stream in step: want realign, or a usual clearing time")
}

// stopping is a station of which it is known which faults never stop the line.
type stopping interface {
	mayStop(l *Line, f Fault) bool
	clearing(f Fault) sim.Duration // nil if nobody knows how long it takes
}

// stoppers returns those of some faults that may stop the line, so that how long it takes to clear
// them must be known.
func stoppers(l *Line, s stopping, faults []FaultRate) (some []FaultRate) {
	for _, f := range faults {
		if s.mayStop(l, f.Fault) {
			some = append(some, f)
		}
	}
	return some
}

// clearable reports whether it is known how long it takes to clear a fault of a station. What is not
// cannot be answered by a stop.
func (l *Line) clearable(station int, f Fault) bool {
	s, asked := l.Stations[station].(stopping)
	return !asked || s.clearing(f) != nil
}

func (f *Feeder) clearing(fault Fault) sim.Duration   { return f.Clearings.Of(fault, f.Clear) }
func (n *Inserter) clearing(fault Fault) sim.Duration { return n.Clearings.Of(fault, n.Clear) }

// mayStop reports whether a fault may stop the line. In a stream any may, and so may one whose rate
// is not known for certain, or that comes with a wrong stock.
func (f *Feeder) mayStop(l *Line, fault Fault) bool {
	if f.Stream.Name != "" || f.WrongStock.Chance > 0 || l.uncertainAt(f.Name) {
		return true
	}
	switch fault {
	case Misfeed:
		return f.Misfeed > 0 && (f.OnMisfeed == Stop || f.Streak.StopAfter > 0)
	case Double:
		return (f.Double > 0 || f.FalseCalls > 0) && f.OnDouble == Stop
	default:
		return f.Jam > 0
	}
}

// mayStop reports whether a fault may stop the line.
func (n *Inserter) mayStop(l *Line, fault Fault) bool {
	if l.envelopeFeeder() >= 0 || l.uncertainAt(n.Name) {
		return true
	}
	switch fault {
	case EnvelopeMisfeed:
		return n.EnvelopeMisfeed > 0
	case Flap:
		return n.Flap > 0 && n.OnFlap == Stop
	default:
		return n.Jam > 0
	}
}

// uncertainAt reports whether anything of a station is not known for certain.
func (l *Line) uncertainAt(station string) bool {
	return slices.ContainsFunc(l.UncertainInputs, func(d UncertainInput) bool { return d.Station == station })
}

// usually returns the usual clearing time of a station whose faults may all have one of their own.
func usually(clear sim.Duration) sim.Duration {
	if clear == nil {
		return sim.Constant(0)
	}
	return clear
}
