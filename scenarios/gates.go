package scenarios

import "netrate/model"

// outlet is what stations have at which sets leave.
type outlet struct {
	stationHead
	Rated *speed `yaml:"rated,omitempty" jsonschema_description:"rated speed; no limit of its own if not given"`
}

// trackGate is a track gate as it is written.
type trackGate struct {
	outlet
	Bin *trackBin `yaml:"bin,omitempty" jsonschema_description:"where the sets go; never full if not given"`
}

func (s *trackGate) Build(Policy) model.Station {
	return &model.TrackGate{Place: s.place(s.Rated), Bin: s.Bin.stock()}
}

// exitGate is an exit gate as it is written.
type exitGate struct {
	outlet
	Bin *exitBin `yaml:"bin,omitempty" jsonschema_description:"where the envelopes go; never full if not given"`
}

func (s *exitGate) Build(Policy) model.Station {
	return &model.ExitGate{Place: s.place(s.Rated), Bin: s.Bin.stock()}
}

// delivery is the delivery as it is written.
type delivery struct {
	outlet
	Belt *belt `yaml:"belt,omitempty" jsonschema_description:"where the envelopes go; never full if not given"`
}

func (s *delivery) Build(Policy) model.Station {
	return &model.Delivery{Place: s.place(s.Rated), Belt: s.Belt.stock()}
}
