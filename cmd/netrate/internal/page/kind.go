package page

import (
	"netrate/model"
	"netrate/model/study"
)

// KindOf returns what a station is called, the faults it can have, and whether it has a
// hopper.
func KindOf(s model.Station) (kind string, faults []model.Fault, hopper bool) {
	switch s := s.(type) {
	case *model.Feeder:
		if s.Envelopes {
			return "envelope feeder", feedingFaults(), true
		}
		return "feeder", feedingFaults(), true
	case *model.Channel:
		return "document channel", feedingFaults(), s.Hopper.Capacity > 0
	case *model.Reader:
		return "reader", []model.Fault{model.NoRead, model.Mismatch, model.FalseAlarm}, false
	case *model.TrackGate:
		return "track gate", nil, false
	case *model.Inserter:
		return "inserter", []model.Fault{model.EnvelopeMisfeed, model.Flap, model.InsertionJam}, true
	case *model.ExitGate:
		return "exit gate", nil, false
	case *model.Delivery:
		return "delivery", nil, false
	}
	panic("netrate: a station of an unknown kind")
}

func feedingFaults() []model.Fault { return []model.Fault{model.Misfeed, model.Double, model.Jam} }

// HasChannel reports whether the line can starve.
func HasChannel(l *model.Line) bool { return study.HasChannel(l) }

// FiguresOf returns the figures of a shift that tell something of any of the lines.
func FiguresOf(lines ...*model.Line) []model.Figure { return study.FiguresOf(lines...) }

// Column returns the name of a figure's column, which ends with its unit.
func Column(f model.Figure) string { return study.Column(f) }
