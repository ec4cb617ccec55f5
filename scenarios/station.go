package scenarios

import (
	"reflect"
	"slices"

	"netrate/model"
)

// Machine is a station of one kind, as it is written: a pointer to a struct that embeds [Head]
// and whose other fields are the keys of the kind. Each is a pointer to one of the types of
// this package, with the tags
//
//	yaml:"jam" or, where it may be left out, yaml:"jam,omitempty"
//	jsonschema_description:"what it is"
//
// by which the file is read, strictly and with places, and the schema is made.
type Machine interface {
	// Build returns the station of the model, given the line's responses to faults. What could
	// not be read is nil, and need not make sense: it has been noted.
	Build(policy Policy) model.Station
	// headed is what only a struct has that embeds Head.
	headed()
}

// neighbour is a Machine that depends on others of its line.
type neighbour interface {
	// among notes what the station, written at a node, lacks or names wrongly, given the
	// line and the list of all stations.
	among(r *reader, own, stations *node, l *model.Line)
}

// kind is a kind of station.
type kind struct {
	name  string
	about string
	blank func() Machine
}

// kinds lists the kinds of stations. A new kind is one struct and one line here, or a call of
// [AddKind].
var kinds = []kind{
	{"feeder", "puts one insert into each set that passes", func() Machine { return new(feeder) }},
	{"document channel", "gathers the sheets of one person and puts them, as a document, into each set", func() Machine { return new(channel) }},
	{"envelope feeder", "feeds personalised envelopes to the inserter, one for each set", func() Machine { return new(envelopeFeeder) }},
	{"reader", "reads the pieces of one stream in every set that passes", func() Machine { return new(trackReader) }},
	{"track gate", "takes condemned sets off the track, before insertion", func() Machine { return new(trackGate) }},
	{"device", "does one thing to each set on the track or, behind the inserter, in its envelope", func() Machine { return new(device) }},
	{"inserter", "puts each set into an envelope", func() Machine { return new(inserter) }},
	{"exit gate", "takes finished envelopes out, after insertion", func() Machine { return new(exitGate) }},
	{"delivery", "takes the finished envelopes onto its belt; the last station", func() Machine { return new(delivery) }},
}

// AddKind adds a kind of station, by the name of its [model.Kind], with what it does, to follow
// "a station that", and a function that returns a blank one. It is to be called before any
// scenario is read, as from an init; it panics if there is a kind of that name.
func AddKind(name, about string, blank func() Machine) {
	if slices.Contains(kindNames(), name) {
		panic("scenarios: a second kind of station is named " + name)
	}
	kinds = append(kinds, kind{name, about, blank})
}

// Kinds returns a station of each kind, of which nothing is given.
func Kinds() (all []model.Station) {
	for _, k := range kinds {
		all = append(all, k.blank().Build(Policy{}))
	}
	return all
}

func kindNames() []string {
	var names []string
	for _, k := range kinds {
		names = append(names, k.name)
	}
	return names
}

// station is a Machine of the kind that its mapping names; nil if it names none.
type station struct{ Machine }

func (s *station) decode(r *reader, n *node, _ string) {
	kind := child(n, "kind")
	switch {
	case n.Kind != mappingNode:
		r.note(n, "a station is %s, want a mapping with kind, name and at", shown(n))
		return
	case kind == nil:
		r.note(n, "a station has no kind: want %s", model.OneOf(kindNames()))
		return
	}
	name := r.kind(kind)
	for _, k := range kinds {
		if k.name == name {
			s.Machine = k.blank()
			r.read(n, k.name, reflect.ValueOf(s.Machine).Elem())
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
		r.note(n, "kind has no value, want %s", model.OneOf(names))
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
	Kind       *kindName   `yaml:"kind" jsonschema_description:"what the station is"`
	Name       *name       `yaml:"name" jsonschema_description:"unique; it is used in messages and names the station's random streams"`
	At         *pitch      `yaml:"at" jsonschema_description:"place on the track in pitches, rising from station to station; a reader may stand where the station before it does"`
	Source     *sentence   `yaml:"source,omitempty" jsonschema_description:"where the numbers of this station come from"`
	Breakdowns *breakdowns `yaml:"breakdowns,omitempty" jsonschema_description:"long stops, for a technician who has to come; none if not given"`
}

func (*stationHead) headed() {}

// place returns the station's place, with its rated speed if it has one.
func (h *stationHead) place(rated *speed) model.Place {
	return model.Place{Name: string(or(h.Name, "")), At: int(or(h.At, 0)), Rated: float64(or(rated, 0)), Breakdowns: h.Breakdowns.model()}
}

// kindName is read by station.
type kindName string

func (*kindName) decode(*reader, *node, string) {}
