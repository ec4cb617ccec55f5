package learn

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/scenarios"
	"netrate/scenarios/stoplog"
)

// target is a scenario that what is learnt is to be written into.
type target struct {
	*stoplog.Target
	edited []byte   // with what was learnt
	said   []string // of what was written and what was not, in sentences
}

// maxTarget is the size of the largest scenario that can be loaded.
const maxTarget = 1 << 20

// readTarget reads a scenario so far as it says which stations there are.
func readTarget(e desk.Env, file, variant string) (*target, error) {
	var text []byte
	err := fromFile(e, file, func(from io.Reader) (err error) {
		text, err = io.ReadAll(io.LimitReader(from, maxTarget+1))
		return err
	})
	if err != nil {
		return nil, err
	}
	shown := desk.ShownFile(file)
	if len(text) > maxTarget { // and not all was read: it must not be written back
		_, err = scenarios.Load(shown, text)
		return nil, refused(e, shown, err)
	}
	t, err := stoplog.ReadTarget(shown, text, variant)
	switch {
	case errors.Is(err, stoplog.ErrSeveralLines):
		sc, err := scenarios.Load(shown, text)
		if err != nil {
			return nil, refused(e, shown, err)
		}
		return nil, desk.WrongAt(sc, []string{"lines"}, "the file has several lines, and --into is about one")
	case err != nil:
		return nil, refused(e, shown, err)
	}
	return &target{Target: t}, nil
}

// refused writes what is wrong in a scenario and returns it in short.
func refused(e desk.Env, file string, err error) error {
	var problems scenarios.Problems
	if !errors.As(err, &problems) {
		return desk.Wrong("%s cannot take the estimates: %v", file, err)
	}
	fmt.Fprintln(e.Err, problems.Error())
	return desk.Wrong("%s cannot take the estimates: see above", file)
}

// tell tells a log what the stations of the scenario are.
func (t *target) tell(l *study.Log) error {
	if other, is := errors.AsType[stoplog.OtherKind](t.Tell(l)); is {
		return desk.Wrong("--kind says that %s is %s, and in %s it is %s", other.Station, withArticle(other.Told), t.File, withArticle(other.Written))
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
		return desk.Wrong("%s: the estimates would be wrong, so they are not written into %s", strings.Join(mistaken, " "), t.File)
	}
	edited, taken, err := t.Take(x.FitAnswer)
	switch {
	case err != nil:
		return refused(e, t.File, err)
	case len(taken) == 0:
		return desk.Wrong("nothing of %s can be written into %s: its stations are %s, and those of %s are %s",
			x.Log.StopFile.Name, t.File, say.List(x.Log.Names()), t.File, say.List(t.Names()))
	}
	sc, err := scenarios.Load(t.File, edited)
	if err != nil {
		return err
	}
	t.edited = edited
	if t.Variant != "" {
		if sc, err = sc.As(t.Variant); err != nil {
			return err
		}
	}
	t.said = slices.Concat([]string{"Estimated in it: " + say.List(taken) + "."}, t.jobs(x), t.strangers(x), t.left(x), t.besides(x, sc.Line, taken))
	if text := waits(x, sc.Line, taken); text != "" {
		t.said = append(t.said, text)
	}
	return nil
}

// commands returns what can be done with a scenario that was written.
func (o *fitFlags) commands(log string) string {
	run := "netrate run " + desk.Quoted(o.Data)
	if o.variant != "" {
		run += " --variant " + desk.Quoted(o.variant)
	}
	text := "To run it:\n  " + run + "\n"
	if log != "-" && o.counts != "-" {
		m := o.flagged
		m.kinds = slices.DeleteFunc(slices.Clone(m.kinds), func(k string) bool { // the scenario has them
			return !strings.HasSuffix(k, "="+noKind)
		})
		text += "  " + run + " --against " + desk.Quoted(log) + " --counts " + desk.Quoted(o.counts) + m.again() + "\n"
	}
	return text
}
