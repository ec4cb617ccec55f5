package model

import "netrate/sim"

// Setting is what of a station is set for a job, or asked by it. What a station does not have
// is nil. The pointers lead into the station itself.
type Setting struct {
	Takes  *Takes                   // what can be put into it: pieces or, of an inserter, envelopes and whole sets
	Groups []SizeGroup              // its limits of speed, by the size of the envelope
	Feeds  *Feeds                   // what it feeds from a hopper
	Pages  *sim.IntegerDistribution // sheets of the documents that it gathers
	Reads  *Reader                  // the station itself, if it reads streams
}

// Accepts returns what can be put into the station: anything, where it does not say.
func (s Setting) Accepts() Takes {
	if s.Takes == nil {
		return Takes{}
	}
	return *s.Takes
}

// Feeds is what a job changes of a station with a hopper.
type Feeds struct {
	Hopper   *Stock
	Stack    float64  // mm of pieces that the hopper holds; 0 if only their number is known
	Share    *float64 // of the sets that it feeds; nil where no insert of a job can be put in
	Only     *string  // the attribute of the sets that it feeds, likewise; "" for all sets
	Material *float64 // factor of the insert on its faults, likewise
	Misfeed  *float64 // at its rated speed
	Growth   float64  // exponent of its faults with speed
}

// TakesInserts reports whether an insert of a job can be put into the station.
func TakesInserts(s Station) bool {
	feeds := s.Setting().Feeds
	return feeds != nil && feeds.Share != nil && s.Kind().Role == Works
}
