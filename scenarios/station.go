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

// kinds lists the kinds of stations. A new kind is one struct and one line here.
var kinds = []struct {
	name  string
	about string
	blank func() machine
}{
	{"feeder", "puts one insert into each set that passes", func() machine { return new(feeder) }},
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
	Name   *name     `yaml:"name" jsonschema_description:"unique; it is used in messages and names the station's luck"`
	At     *pitch    `yaml:"at" jsonschema_description:"place on the track in pitches, rising from station to station"`
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

// feeder is a feeder as it is written.
type feeder struct {
	stationHead
	Preset *presetName `yaml:"preset,omitempty" jsonschema_description:"a usual feeder to begin with; what the station itself says wins"`
	feederRates
	Hopper     *hopper       `yaml:"hopper" jsonschema_description:"its inserts"`
	Material   *factor       `yaml:"material,omitempty" jsonschema_description:"factor of the insert on misfeed, double and jam; 1 if not given"`
	Caught     *probability  `yaml:"caught,omitempty" jsonschema_description:"share of the doubles that are noticed; 100% if not given"`
	FalseCalls *probability  `yaml:"false_calls,omitempty" jsonschema_description:"share of the good feeds that are taken for doubles; 0 if not given"`
	Streak     *streak       `yaml:"streak,omitempty" jsonschema_description:"misfeeds in a row"`
	Share      *probability  `yaml:"share,omitempty" jsonschema_description:"share of the sets that it feeds; 100% if not given"`
	Policy     *feederPolicy `yaml:"policy,omitempty" jsonschema_description:"responses to its faults, instead of those of the line"`
}

// feederRates is what a preset gives.
type feederRates struct {
	Rated   *speed       `yaml:"rated" jsonschema_description:"rated speed, at which its faults were counted"`
	Misfeed *probability `yaml:"misfeed" jsonschema_description:"probability that a feed brings nothing"`
	Double  *probability `yaml:"double" jsonschema_description:"probability that a feed brings two pieces"`
	Jam     *probability `yaml:"jam" jsonschema_description:"probability that a feed jams"`
	Growth  *factor      `yaml:"growth,omitempty" jsonschema_description:"faults grow with (speed/rated) to this power; 0 if not given"`
	Clear   *duration    `yaml:"clear" jsonschema_description:"an operator's time for clearing a fault, after the walk"`
}

type streak struct {
	Again     *probability `yaml:"again,omitempty" jsonschema_description:"probability of a misfeed right after a misfeed; as always if not given"`
	StopAfter *count       `yaml:"stop_after,omitempty" jsonschema_description:"so many misfeeds in a row stop the line; 0 or not given: never"`
}

// decode reads a feeder over its preset.
func (f *feeder) decode(r *reader, n *node, key string) {
	if preset := child(n, "preset"); preset != nil {
		f.feederRates = ratesOf(preset.Value)
	}
	r.inside(n, key, f)
}

func (f *feeder) build(policy linePolicy) model.Station {
	own := or(f.Policy, feederPolicy{})
	streak := or(f.Streak, streak{})
	return &model.Feeder{
		Place:      f.place(f.Rated),
		Hopper:     f.Hopper.filled(),
		Misfeed:    float64(or(f.Misfeed, 0)),
		Double:     float64(or(f.Double, 0)),
		Jam:        float64(or(f.Jam, 0)),
		Growth:     float64(or(f.Growth, 0)),
		Material:   float64(or(f.Material, 1)),
		Caught:     float64(or(f.Caught, 1)),
		FalseCalls: float64(or(f.FalseCalls, 0)),
		Streak:     model.Streak{Given: streak.Again != nil, Again: float64(or(streak.Again, 0)), StopAfter: int(or(streak.StopAfter, 0))},
		Share:      float64(or(f.Share, 1)),
		OnMisfeed:  first(own.Misfeed, policy.Misfeed),
		OnDouble:   first(own.Double, policy.Double),
		Clear:      f.Clear.time(),
	}
}

// first returns the first response that is given, or else stop.
func first(answers ...*answer) model.Response {
	for _, a := range answers {
		if a != nil {
			return model.Response(*a)
		}
	}
	return model.Stop
}

// inserter is an inserter as it is written.
type inserter struct {
	stationHead
	Rated           *speed          `yaml:"rated" jsonschema_description:"rated speed, at which its faults were counted"`
	Hopper          *hopper         `yaml:"hopper" jsonschema_description:"its envelopes"`
	EnvelopeMisfeed *probability    `yaml:"envelope_misfeed" jsonschema_description:"probability that no envelope comes"`
	Flap            *probability    `yaml:"flap" jsonschema_description:"probability that the envelope's flap stays shut"`
	Jam             *probability    `yaml:"jam" jsonschema_description:"probability that set and envelope jam"`
	Growth          *factor         `yaml:"growth,omitempty" jsonschema_description:"faults grow with (speed/rated) to this power; 0 if not given"`
	Clear           *duration       `yaml:"clear" jsonschema_description:"an operator's time for clearing a fault, after the walk"`
	Policy          *inserterPolicy `yaml:"policy,omitempty" jsonschema_description:"responses to its faults, instead of those of the line"`
}

func (s *inserter) build(policy linePolicy) model.Station {
	return &model.Inserter{
		Place:           s.place(s.Rated),
		Hopper:          s.Hopper.filled(),
		EnvelopeMisfeed: float64(or(s.EnvelopeMisfeed, 0)),
		Flap:            float64(or(s.Flap, 0)),
		Jam:             float64(or(s.Jam, 0)),
		Growth:          float64(or(s.Growth, 0)),
		OnFlap:          first(or(s.Policy, inserterPolicy{}).Flap, policy.Flap),
		Clear:           s.Clear.time(),
	}
}

// trackGate is a track gate as it is written.
type trackGate struct {
	stationHead
	Rated *speed    `yaml:"rated,omitempty" jsonschema_description:"rated speed; no limit of its own if not given"`
	Bin   *trackBin `yaml:"bin,omitempty" jsonschema_description:"where the sets go; never full if not given"`
}

func (s *trackGate) build(linePolicy) model.Station {
	g := &model.TrackGate{Place: s.place(s.Rated)}
	if b := s.Bin; b != nil {
		g.Bin = room(b.Sets, b.Warn, b.Empty)
	}
	return g
}

// exitGate is an exit gate as it is written.
type exitGate struct {
	stationHead
	Rated *speed   `yaml:"rated,omitempty" jsonschema_description:"rated speed; no limit of its own if not given"`
	Bin   *exitBin `yaml:"bin,omitempty" jsonschema_description:"where the envelopes go; never full if not given"`
}

func (s *exitGate) build(linePolicy) model.Station {
	g := &model.ExitGate{Place: s.place(s.Rated)}
	if b := s.Bin; b != nil {
		g.Bin = room(b.Envelopes, b.Warn, b.Empty)
	}
	return g
}

// delivery is the delivery as it is written.
type delivery struct {
	stationHead
	Rated *speed `yaml:"rated,omitempty" jsonschema_description:"rated speed; no limit of its own if not given"`
	Belt  *belt  `yaml:"belt,omitempty" jsonschema_description:"where the envelopes go; never full if not given"`
}

func (s *delivery) build(linePolicy) model.Station {
	d := &model.Delivery{Place: s.place(s.Rated)}
	if b := s.Belt; b != nil {
		d.Belt = room(b.Envelopes, b.Warn, b.Sweep)
	}
	return d
}
