package scenarios

import (
	"errors"
	"strings"

	"netrate/model"
)

// check notes what the model has against the line, each at its place in the file. A
// station or a value about which something was noted is not looked at again: what the
// model would say of it follows from that. So does what it would say of who works where, if of all
// lines that share the crew fewer are there.
func (r *reader) check(t track, all []*model.Line, there int) {
	l, tree := t.Line, t.tree
	stations, _ := find(tree, "line.stations")
	known := stationsOf(tree) == nil || r.streamsKnown(stations)
	attributes, listed := find(tree, "line.attributes")
	half := listed && r.spoilt(attributes) // what the model would say of them follows from that
	var found []finding
	for _, err := range l.CheckAmong(all) {
		var p *model.Problem
		if !errors.As(err, &p) {
			panic("scenarios: the model's check returned " + err.Error())
		}
		if p.Station < 0 {
			at, stated := t.said[p.Field]
			if !stated {
				at, _ = find(tree, p.Field)
			}
			follows := p.Field == "line.speed" && r.spoilt(stations) || p.Field == "work.shift" && r.spoilt(at) ||
				half && strings.HasPrefix(p.Field, "line.attributes") || p.Field == "crew.people" && there < len(all)
			if !follows && !r.bad[at] {
				found = append(found, finding{at: at, text: p.Text})
			}
			continue
		}
		if half && p.Field == "only" {
			continue
		}
		if own := stations.Content[p.Station]; !r.spoilt(own) && (known || !namesStreams(p)) {
			found = append(found, blame(l, p, tree, own))
		}
	}
	for _, f := range gathered(found) { // only now: a note at one would hide the next
		r.note(f.at, "%s", f.said())
	}
}

// blame finds what brought about a problem of a station. A response may come from the
// station's own policy, from the line's recovery of what is matched, or from the line's
// policy; a rate may come from a preset.
func blame(l *model.Line, p *model.Problem, tree, own *node) finding {
	field := strings.ReplaceAll(p.Field, " ", "_")
	at, exact := find(own, field)
	if exact {
		return finding{at: at, text: p.Text}
	}
	if strings.HasPrefix(field, "policy.") {
		if match, given := find(tree, "policy.match"); given && recovers(l.Stations[p.Station], field) {
			return noRecovery(l, p, match)
		}
		if n, given := find(tree, field); given {
			return refused(l, p, n)
		}
	}
	if preset := child(own, "preset"); at == own && preset != nil && givenByPreset(field) {
		return finding{at: preset, text: p.Text + presetHint(preset)}
	}
	return finding{at: at, text: p.Text}
}
