package stoplog

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"go.yaml.in/yaml/v4"

	"netrate/model"
	"netrate/model/study"
	"netrate/scenarios"
)

// Target is a scenario that what is learnt is to be written into. It need not be complete
// before: what it lacks may be what is learnt.
type Target struct {
	File     string
	Stations []TargetStation // in the order of the file
	Jobs     []string        // the names of its jobs
	Variant  string          // into which of its variants; "" for the file itself

	text []byte
}

// TargetStation is a station as far as it says what it is.
type TargetStation struct {
	Kind, Name string
	Rated      string // "" if the station does not say it by itself
	Source     string // where its numbers come from; "" if the station does not say
	Clear      any    // its clearing time as it is written
	Lots       struct{ Of any }
}

// ByFault reports whether the station has clearing times by fault.
func (s TargetStation) ByFault() bool { return scenarios.ByFault(s.Clear) }

// ErrSeveralLines is why nothing can be written into a scenario of several lines.
var ErrSeveralLines = errors.New("it has several lines")

// ReadTarget reads a scenario so far as it says which stations there are; for one of its variants,
// if that is named, with the stations that it adds. An error is of type [scenarios.Problems] where
// the file cannot be loaded.
func ReadTarget(file string, text []byte, variant string) (*Target, error) {
	var written struct {
		Line     struct{ Stations []TargetStation }
		Lines    any
		Jobs     []struct{ Name string }
		Variants []targetVariant
	}
	err := yaml.Unmarshal(text, &written)
	switch {
	case err == nil && written.Lines != nil:
		return nil, ErrSeveralLines
	case err == nil && len(written.Line.Stations) == 0:
		err = errors.New("it has no stations")
	}
	if err != nil {
		if _, why := scenarios.Load(file, text); why != nil { // with places
			err = why
		}
		return nil, err
	}
	t := &Target{File: file, Stations: written.Line.Stations, Variant: variant, text: text}
	if variant != "" {
		added, err := addedBy(written.Variants, variant)
		if err != nil {
			return nil, err
		}
		t.Stations = append(t.Stations, added...)
	}
	for _, j := range written.Jobs {
		t.Jobs = append(t.Jobs, j.Name)
	}
	return t, nil
}

// targetVariant is a variant as far as it says which stations it adds.
type targetVariant struct {
	Name     string
	BuildsOn string `yaml:"builds_on"`
	Changes  []struct{ Add TargetStation }
}

// addedBy returns the stations that a variant adds, and those that it builds on.
func addedBy(all []targetVariant, name string) (added []TargetStation, err error) {
	var names []string
	for _, v := range all {
		names = append(names, v.Name)
	}
	for range all { // as often as one can build on another
		i := slices.Index(names, name)
		if i < 0 {
			break
		}
		for _, c := range all[i].Changes {
			if c.Add.Name != "" {
				added = append(added, c.Add)
			}
		}
		if name = all[i].BuildsOn; name == "" {
			return added, nil
		}
	}
	if len(names) == 0 {
		return nil, fmt.Errorf("it has no variants, and none is named %q", name)
	}
	return nil, fmt.Errorf("it has no variant %q: %s", name, meant(name, names))
}

// KindOf returns the kind of a station as the scenario has it; "" if it has none of that name.
func (t *Target) KindOf(name string) string {
	for _, s := range t.Stations {
		if s.Name == name {
			return s.Kind
		}
	}
	return ""
}

// ByFault reports whether a station of the scenario has clearing times by fault, which one time for
// all faults does not replace.
func (t *Target) ByFault(name string) bool {
	return slices.ContainsFunc(t.Stations, func(s TargetStation) bool { return s.Name == name && s.ByFault() })
}

// Names returns the names of the stations.
func (t *Target) Names() (all []string) {
	for _, s := range t.Stations {
		all = append(all, s.Name)
	}
	return all
}

// OtherKind is the error of a station that is of one kind for the log and of another in the
// scenario.
type OtherKind struct{ Station, Told, Written string }

// Error names both kinds.
func (e OtherKind) Error() string {
	return fmt.Sprintf("%s is said to be of the kind %s, and the scenario has %s", e.Station, e.Told, e.Written)
}

// Tell tells a log what the stations of the scenario are. An error is an [OtherKind].
func (t *Target) Tell(l *study.Log) error {
	for _, s := range t.Stations {
		_, is := l.KindNamed(s.Kind)
		of := l.Find(s.Name)
		if !is || of == nil {
			continue
		}
		if of.Kind != "" && of.Kind != s.Kind {
			return OtherKind{s.Name, of.Kind, s.Kind}
		}
		of.Kind = s.Kind
	}
	return nil
}

// Take returns the text of the scenario with what was learnt, and the names of the stations that
// it was learnt of: none if there is nothing to be written. An error is of type
// [scenarios.Problems].
func (t *Target) Take(a *study.FitAnswer) (edited []byte, taken []string, err error) {
	var edits []scenarios.Edit
	for i := range a.Stations {
		s := &a.Stations[i]
		if of := t.edits(a, s); len(of) > 0 {
			edits, taken = append(edits, of...), append(taken, s.Name)
		}
	}
	if len(taken) == 0 {
		return nil, nil, nil
	}
	edits = append(edits, dayEdits(a)...)
	if t.Variant != "" {
		edited, err = scenarios.EditedVariant(t.File, t.text, t.Variant, edits)
	} else {
		edited, err = scenarios.Edited(t.File, t.text, edits)
	}
	return edited, taken, err
}

// edits returns what is written of a station: nothing if the scenario does not have it, or if
// nothing but zero is known.
func (t *Target) edits(a *study.FitAnswer, s *study.FitStation) (edits []scenarios.Edit) {
	if s.As.Name == "" || t.KindOf(s.Name) != s.As.Name {
		return nil
	}
	estimates, _ := Rates(a, s)
	estimates = slices.DeleteFunc(estimates, func(e Estimate) bool { return !t.has(s, e.Key) })
	ofJobs := t.jobEdits(a, s, estimates)
	estimates = atSpeed(a, s, estimates, t.rated(s.Name))
	switch written := t.ByFault(s.Name); {
	case s.Clearing.Chosen == nil:
	case written && s.ByFault.Shown(): // the times of other faults stay
		estimates = append(estimates, clearingTimes(s)...)
	case !written:
		estimates = append(estimates, clearingTime(s))
	}
	if lots, shown := lotsOf(a, s); shown && t.takesLots(s) {
		estimates = append(estimates, lots)
	}
	if len(estimates) > 0 {
		of := source(a, s)
		if t.Variant == "" { // a change has a source for itself alone
			of.Value += elsewhere + t.rest(s.Name)
		}
		of.Value = yamlText(of.Value)
		estimates = append(estimates, of)
	}
	for _, e := range estimates {
		edits = append(edits, scenarios.Edit{Path: "stations." + s.Name + "." + e.Key, Value: e.Value, Comment: e.Comment})
	}
	return append(edits, ofJobs...)
}

// elsewhere is what stands between the source of what was learnt of a station and that of its other
// numbers, which do not come from the log.
const elsewhere = "; all else: "

// rest returns where the numbers of a station come from that are not learnt.
func (t *Target) rest(name string) string {
	for _, s := range t.Stations {
		if s.Name == name && s.Source != "" {
			_, rest, again := strings.Cut(s.Source, elsewhere)
			if again {
				return rest
			}
			return s.Source
		}
	}
	return scenarios.NotStated
}

// has reports whether a station can have the fault of a rate in the line of the scenario: where
// an envelope feeder stands, the misfeeds of envelopes are its own.
func (t *Target) has(s *study.FitStation, rate string) bool {
	blank, line := map[string]model.Station{}, &model.Line{}
	for _, b := range scenarios.Kinds() {
		blank[b.Kind().Name] = b
	}
	var faults []model.Fault
	for _, written := range t.Stations {
		if b := blank[written.Kind]; b != nil {
			line.Stations = append(line.Stations, b)
		}
	}
	if b := blank[s.As.Name]; b != nil {
		faults = b.Faults(line)
	}
	i := slices.Index(s.As.Rates, rate)
	return i >= 0 && slices.Contains(faults, model.Fault(s.As.Faults[i]))
}
