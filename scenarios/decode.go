package scenarios

import (
	"errors"
	"strings"

	"netrate/model"
	"netrate/sim"
)

// maxStations is how many stations are looked at: the model takes no more.
const maxStations = 64

// decode returns the scenario that a tree says, and notes what is wrong with it. With a
// problem noted the scenario is good for nothing.
func (r *reader) decode(tree *node) *Scenario {
	s, whole := r.scenario(tree)
	if whole && tree.Kind == mappingNode {
		r.check(s.Line, tree)
	}
	return s
}

// scenario returns what a tree says, whether its line can be or not, and whether the line
// is all there.
func (r *reader) scenario(tree *node) (s *Scenario, whole bool) {
	var f file
	r.inside(tree, "the scenario", &f)
	s = &Scenario{
		Name:     string(or(f.Name, "")),
		Question: string(or(f.Question, "")),
		Run:      r.settings(or(f.Run, run{}), child(tree, "run")),
	}
	s.Line = f.build(s.Name)
	if n := len(s.Line.Stations); n > maxStations {
		at, _ := find(tree, "line.stations")
		r.note(at, "the line has %d stations, want at most %d", n, maxStations)
		return s, false
	}
	for _, st := range or(f.Line, line{}).Stations {
		if st.machine == nil {
			return s, false // noted; the line without it would be another one
		}
		if head := st.common(); head.Source != nil {
			s.Sources = append(s.Sources, Source{string(or(head.Name, "")), string(*head.Source)})
		}
	}
	return s, true
}

// build returns the line of the model; what could not be read is zero.
func (f *file) build(name string) *model.Line {
	track, people := or(f.Line, line{}), or(f.Crew, crew{})
	l := &model.Line{
		Name:    name,
		Speed:   float64(or(track.Speed, 0)),
		Shift:   sim.Seconds(or(or(f.Work, work{}).Shift, 0)),
		Restart: track.Restart.time(),
		Crew: model.Crew{
			Operators: int(or(people.Operators, 0)),
			Walk:      people.Walk.time(),
			Order:     model.Order(or(people.Attends, 0)),
		},
	}
	for _, s := range track.Stations {
		if s.machine != nil {
			l.Stations = append(l.Stations, s.build(or(f.Policy, linePolicy{})))
		}
	}
	return l
}

// Default settings of a run.
var defaults = Settings{Seed: 1, Precision: 0.005, Min: 1000, Max: 20_000}

// widest is the least precision that can be asked for.
const widest = 0.5

func (r *reader) settings(given run, n *node) Settings {
	s := Settings{
		Seed:      uint64(or(given.Seed, seed(defaults.Seed))),
		Precision: float64(or(given.Precision, probability(defaults.Precision))),
		Min:       int(or(given.Min, replications(defaults.Min))),
		Max:       int(or(given.Max, replications(defaults.Max))),
	}
	if n == nil || r.spoilt(n) {
		return s
	}
	if !(s.Precision > 0 && s.Precision <= widest) {
		at := child(n, "precision")
		r.note(at, "precision is %s, want more than 0 and at most %v%%", shown(at), 100*widest)
	}
	switch {
	case s.Min <= s.Max:
	case given.Max == nil:
		r.note(child(n, "min"), "min is %d, more than max, which is %d where it is not given: give a max too", s.Min, s.Max)
	case given.Min == nil:
		r.note(child(n, "max"), "max is %d, less than min, which is %d where it is not given: give a min too", s.Max, s.Min)
	default:
		r.note(child(n, "max"), "max is %d, want at least min, which is %d", s.Max, s.Min)
	}
	return s
}

// check notes what the model has against the line, each at its place in the file. A
// station or a value about which something was noted is not looked at again: what the
// model would say of it follows from that.
func (r *reader) check(l *model.Line, tree *node) {
	stations, _ := find(tree, "line.stations")
	type finding struct {
		at   *node
		text string
	}
	var found []finding
	for _, err := range l.Check() {
		var p *model.Problem
		if !errors.As(err, &p) {
			panic("scenarios: the model's check returned " + err.Error())
		}
		at, exact := find(tree, strings.ReplaceAll(p.Field, " ", "_"))
		if p.Station < 0 {
			if !r.bad[at] && !(p.Field == "line.speed" && r.spoilt(stations)) {
				found = append(found, finding{at, p.Text})
			}
			continue
		}
		own := stations.Content[p.Station]
		if r.spoilt(own) {
			continue
		}
		text := p.Text
		if n, ok := find(own, strings.ReplaceAll(p.Field, " ", "_")); ok || !exact || !strings.HasPrefix(p.Field, "policy.") {
			if preset := child(own, "preset"); n == own && preset != nil && givenByPreset(p.Field) {
				n, text = preset, text+presetHint(preset)
			}
			at = n
		}
		found = append(found, finding{at, text})
	}
	for _, f := range found { // only now: a note at one would hide the next
		r.note(f.at, "%s", f.text)
	}
}
