package scenarios

import (
	"reflect"
	"slices"

	"netrate/model"
)

// machine is a station of one kind, as it is written.
type machine interface {
	// build returns the station of the model; what could not be read is zero.
	build(policy linePolicy) model.Station
	// common returns what stations of all kinds have.
	common() *stationHead
}

// neighbour is a machine that depends on others of its line.
type neighbour interface {
	// among notes what the station, written at a node, lacks or names wrongly, given the
	// line and the list of all stations.
	among(r *reader, own, stations *node, l *model.Line)
}

// kinds lists the kinds of stations. A new kind is one struct and one line here.
var kinds = []struct {
	name  string
	about string
	blank func() machine
}{
	{"feeder", "puts one insert into each set that passes", func() machine { return new(feeder) }},
	{"document channel", "gathers the sheets of one person and puts them, as a document, into each set", func() machine { return new(channel) }},
	{"envelope feeder", "feeds personalised envelopes to the inserter, one for each set", func() machine { return new(envelopeFeeder) }},
	{"reader", "reads the pieces of one stream in every set that passes", func() machine { return new(trackReader) }},
	{"track gate", "takes condemned sets off the track, before insertion", func() machine { return new(trackGate) }},
	{"inserter", "puts each set into an envelope", func() machine { return new(inserter) }},
	{"exit gate", "takes finished envelopes out, after insertion", func() machine { return new(exitGate) }},
	{"delivery", "takes the finished envelopes onto its belt; the last station", func() machine { return new(delivery) }},
}

func kindNames() []string {
	var names []string
	for _, k := range kinds {
		names = append(names, k.name)
	}
	return names
}

// station is a machine of the kind that its mapping names; nil if it names none.
type station struct{ machine }

func (s *station) decode(r *reader, n *node, _ string) {
	kind := child(n, "kind")
	switch {
	case n.Kind != mappingNode:
		r.note(n, "a station is %s, want a mapping with kind, name and at", shown(n))
		return
	case kind == nil:
		r.note(n, "a station has no kind: want %s", oneOf(kindNames()))
		return
	}
	name := r.kind(kind)
	for _, k := range kinds {
		if k.name == name {
			s.machine = k.blank()
			r.read(n, k.name, reflect.ValueOf(s.machine).Elem())
		}
	}
}

// kind returns the kind that a node names. It notes an unknown one and returns the
// nearest, so that the rest of the station is looked at too.
func (r *reader) kind(n *node) string {
	names := kindNames()
	switch {
	case n.Kind == aliasNode: // noted by plain
	case isNull(n):
		r.note(n, "kind has no value, want %s", oneOf(names))
	case n.Kind == scalarNode && slices.Contains(names, n.Value):
		return n.Value
	default:
		r.note(n, "unknown kind %s: %s", shown(n), meant(n.Value, names))
		return Nearest(n.Value, names)
	}
	return ""
}

// stationHead is what stations of all kinds have.
type stationHead struct {
	Kind   *kindName `yaml:"kind" jsonschema_description:"what the station is"`
	Name   *name     `yaml:"name" jsonschema_description:"unique; it is used in messages and names the station's random streams"`
	At     *pitch    `yaml:"at" jsonschema_description:"place on the track in pitches, rising from station to station; a reader may stand where the station before it does"`
	Source *sentence `yaml:"source,omitempty" jsonschema_description:"where the numbers of this station come from"`
}

func (h *stationHead) common() *stationHead { return h }

// place returns the station's place, with its rated speed if it has one.
func (h *stationHead) place(rated *speed) model.Place {
	return model.Place{Name: string(or(h.Name, "")), At: int(or(h.At, 0)), Rated: float64(or(rated, 0))}
}

// kindName is read by station.
type kindName string

func (*kindName) decode(*reader, *node, string) {}
