package setup

import (
	"slices"

	"netrate/model"
)

// Stays returns which pieces stay in their hoppers when a line set up for one product is set up for
// another: for each station of the line to be, the station of the line as it was that holds the same
// ones, -1 for none. Those of a feeder are the same if the insert is, envelopes if the envelope is, and what
// a device uses up, whatever the product. It says nothing of streams. From nil is a line set up for nothing.
func Stays(from, to *Setup) []int {
	was, is := from.settings(), to.settings()
	stay := make([]int, len(to.Line.Stations))
	for i, s := range to.Line.Stations {
		name := s.Where().Name
		if stay[i] = -1; from == nil {
			continue
		}
		insert, fed := is.inserts[name]
		same := true
		switch {
		case fed:
			old, loaded := was.inserts[name]
			same = loaded && old == insert
		case s.Setting().Feeds != nil: // of envelopes
			same = from.Product.Envelope == to.Product.Envelope
		}
		if same {
			stay[i] = slices.IndexFunc(from.Line.Stations, func(x model.Station) bool { return x.Where().Name == name })
		}
	}
	return stay
}
