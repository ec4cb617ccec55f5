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

// Clearings notes a missing clearing time: a station whose faults do not all have one of their
// own needs a usual one.
func (c *Checks) Clearings(usual sim.Duration, own *Clearings, faults []FaultRate) {
	if !own.all(faults) {
		c.Clear(usual)
	}
}

// realigned notes that nobody knows how long it takes to put the stream in step.
func (c *Checks) realigned(s Stream, usual sim.Duration) {
	c.Require(s.Name == "" || usual != nil || s.Realign != nil, "stream.realign", "all faults have a clearing time of their own, and there is none to put the stream in step: want realign, or a usual clearing time")
}

// usually returns the usual clearing time of a station whose faults may all have one of their own.
func usually(clear sim.Duration) sim.Duration {
	if clear == nil {
		return sim.Constant(0)
	}
	return clear
}
