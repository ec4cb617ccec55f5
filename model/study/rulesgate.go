package study

import (
	"slices"

	"netrate/model"
)

// RulesGate is where a set that is wrong can leave, while the line runs, at a track gate alone.
type RulesGate struct {
	Needs   []string `json:"needed_by"` // stations; none if a track gate only saves the envelope
	All     bool     `json:"by_all"`    // by all stations whose sets a track gate could take off
	Reasons []string `json:"reasons"`   // why they cannot leave in their envelopes
	Has     []string `json:"has"`       // the track gates of the line
}

// rulesGate compares the line without track gates to the line with one before its inserter.
func rulesGate(l *model.Line) RulesGate {
	bare, gated := withoutTrackGates(l), withTrackGate(l)
	g, spared := RulesGate{}, false
	for k, s := range gated.Stations {
		i := slices.Index(bare.Stations, s)
		if i < 0 {
			continue
		}
		need, spare := false, false
		for _, f := range bare.Faults(i) {
			why := bare.Refusal(i, f, model.Outsort)
			diverts := gated.Refusal(k, f, model.Divert) == ""
			spare = spare || diverts && why == ""
			if !diverts || why == "" {
				continue
			}
			need = true
			if !slices.Contains(g.Reasons, why) {
				g.Reasons = append(g.Reasons, why)
			}
		}
		if need {
			g.Needs = append(g.Needs, s.Where().Name)
		} else {
			spared = spared || spare
		}
	}
	g.All = g.Needs != nil && !spared
	for _, s := range l.Stations {
		if isTrackGate(s) {
			g.Has = append(g.Has, s.Where().Name)
		}
	}
	return g
}

func withoutTrackGates(l *model.Line) *model.Line {
	bare := *l
	bare.Stations = slices.DeleteFunc(slices.Clone(l.Stations), isTrackGate)
	return &bare
}

// withTrackGate returns the line with a track gate right before the inserter.
func withTrackGate(l *model.Line) *model.Line {
	gated := *l
	gated.Stations = slices.Insert(slices.Clone(l.Stations), max(0, l.First(model.Inserts)), model.Station(&model.TrackGate{}))
	return &gated
}

func isTrackGate(s model.Station) bool { return s.Kind().Role == model.Diverts }
