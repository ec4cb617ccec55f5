package learn

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"go.yaml.in/yaml/v4"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/scenarios"
)

// target is a scenario that what is learnt is to be written into. It need not be complete
// before: what it lacks may be what is learnt.
type target struct {
	file     string
	text     []byte
	stations []targetStation // in the order of the file

	edited []byte   // with what was learnt
	said   []string // of what was written and what was not, in sentences
}

type targetStation struct{ Kind, Name string }

// maxTarget is the size of the largest scenario that can be loaded.
const maxTarget = 1 << 20

// readTarget reads a scenario so far as it says which stations there are.
func readTarget(e desk.Env, file string) (*target, error) {
	t := &target{file: file}
	err := fromFile(e, file, func(from io.Reader) (err error) {
		t.text, err = io.ReadAll(io.LimitReader(from, maxTarget+1))
		return err
	})
	if err != nil {
		return nil, err
	}
	if len(t.text) > maxTarget { // and not all was read: it must not be written back
		_, err = scenarios.Load(t.shown(), t.text)
		return nil, t.refused(e, err)
	}
	var written struct {
		Line  struct{ Stations []targetStation }
		Lines any
	}
	err = yaml.Unmarshal(t.text, &written)
	if err == nil && written.Lines != nil {
		return nil, desk.Wrong("%s has several lines, and --into is about one", t.shown())
	}
	if err == nil && len(written.Line.Stations) == 0 {
		err = errors.New("it has no stations")
	}
	if err != nil {
		if _, why := scenarios.Load(t.shown(), t.text); why != nil { // with places
			err = why
		}
		return nil, t.refused(e, err)
	}
	t.stations = written.Line.Stations
	return t, nil
}

func (t *target) shown() string { return desk.ShownFile(t.file) }

// refused writes what is wrong in the scenario and returns it in short.
func (t *target) refused(e desk.Env, err error) error {
	var problems scenarios.Problems
	if !errors.As(err, &problems) {
		return desk.Wrong("%s cannot take the estimates: %v", t.shown(), err)
	}
	fmt.Fprintln(e.Err, problems.Error())
	return desk.Wrong("%s cannot take the estimates: see above", t.shown())
}

// kindOf returns the kind of a station as the scenario has it; "" if it has none of that name.
func (t *target) kindOf(name string) string {
	for _, s := range t.stations {
		if s.Name == name {
			return s.Kind
		}
	}
	return ""
}

// tell tells a log what the stations of the scenario are.
func (t *target) tell(l *study.Log) error {
	for _, s := range t.stations {
		_, is := study.LogKindNamed(s.Kind)
		of := l.Find(s.Name)
		if !is || of == nil {
			continue
		}
		if of.Kind != "" && of.Kind != s.Kind {
			return desk.Wrong("--kind says that %s is %s, and in %s it is %s", s.Name, withArticle(of.Kind), t.shown(), withArticle(s.Kind))
		}
		of.Kind = s.Kind
	}
	return nil
}

// withArticle returns a kind of station as one of them.
func withArticle(kind string) string {
	if strings.ContainsRune("aeiou", rune(kind[0])) {
		return "an " + kind
	}
	return "a " + kind
}

// take writes what was learnt into the scenario.
func (t *target) take(e desk.Env, x *fitting) error {
	if mistaken := x.Log.Mistaken(); mistaken != nil {
		return desk.Wrong("%s: the estimates would be wrong, so they are not written into %s", strings.Join(mistaken, " "), t.shown())
	}
	var edits []scenarios.Edit
	var taken []string
	for i := range x.Stations {
		s := &x.Stations[i]
		if of := t.edits(x, s); len(of) > 0 {
			edits, taken = append(edits, of...), append(taken, s.Name)
		}
	}
	if len(taken) == 0 {
		return desk.Wrong("nothing of %s can be written into %s: its stations are %s, and those of %s are %s",
			x.Log.StopFile.Name, t.shown(), say.List(x.Log.Names()), t.shown(), say.List(t.names()))
	}
	var err error
	if t.edited, err = scenarios.Edited(t.shown(), t.text, edits); err != nil {
		return t.refused(e, err)
	}
	sc, err := scenarios.Load(t.shown(), t.edited)
	if err != nil {
		return err
	}
	t.said = slices.Concat([]string{"Estimated in it: " + say.List(taken) + "."}, t.strangers(x), t.left(x), t.besides(x, sc.Line, taken))
	return nil
}

// edits returns what is written of a station: nothing if the scenario does not have it, or if
// nothing but zero is known.
func (t *target) edits(x *fitting, s *study.FitStation) (edits []scenarios.Edit) {
	if s.As.Name == "" || t.kindOf(s.Name) != s.As.Name {
		return nil
	}
	entries, _ := x.rateEntries(s)
	if t.fedEnvelopes() { // then their misfeeds are those of their feeder
		entries = slices.DeleteFunc(entries, func(e entry) bool { return e.key == "envelope_misfeed" })
	}
	if s.Clearing.Chosen != nil {
		entries = append(entries, clearEntry(s))
	}
	if len(entries) > 0 {
		entries = append(entries, x.sourceEntry(s))
	}
	for _, e := range entries {
		edits = append(edits, scenarios.Edit{Path: "stations." + s.Name + "." + e.key, Value: e.value, Comment: e.comment})
	}
	return edits
}

func (t *target) fedEnvelopes() bool {
	return slices.ContainsFunc(t.stations, func(s targetStation) bool { return s.Kind == "envelope feeder" })
}

func (t *target) names() (all []string) {
	for _, s := range t.stations {
		all = append(all, s.Name)
	}
	return all
}

// commands returns what can be done with a scenario that was written.
func (o *fitFlags) commands(log string) string {
	run := "netrate run " + desk.Quoted(o.Data)
	text := "To run it:\n  " + run + "\n"
	if log != "-" && o.counts != "-" {
		m := o.mappingFlags
		m.kinds = nil // the scenario has them
		text += "  " + run + " --against " + desk.Quoted(log) + " --counts " + desk.Quoted(o.counts) + m.again() + "\n"
	}
	return text
}
