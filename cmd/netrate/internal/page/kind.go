package page

import (
	"slices"
	"strings"

	"netrate/model"
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
func HasChannel(l *model.Line) bool {
	return slices.ContainsFunc(l.Stations, func(s model.Station) bool {
		_, ok := s.(*model.Channel)
		return ok
	})
}

// FiguresOf returns the figures of a shift that tell something of any of the lines.
func FiguresOf(lines ...*model.Line) []model.Figure {
	return slices.DeleteFunc(model.Figures(), func(f model.Figure) bool {
		return !slices.ContainsFunc(lines, func(l *model.Line) bool { return tells(l, f) })
	})
}

// tells reports whether a figure is not 0 of every line of this sort.
func tells(l *model.Line, f model.Figure) bool {
	switch f.Name {
	case "starved":
		return HasChannel(l)
	case "remakes":
		return l.Personalised()
	case "finish":
		return l.Job.Sets > 0
	}
	return true
}

// Column returns the name of a figure's column, which ends with its unit: running_s,
// good_sets, net_rate_envelopes_per_h.
func Column(f model.Figure) string {
	unit := strings.NewReplacer("/", "_per_", " ", "_").Replace(f.Unit)
	if strings.HasSuffix(f.Name, unit) {
		return f.Name
	}
	return f.Name + "_" + unit
}
