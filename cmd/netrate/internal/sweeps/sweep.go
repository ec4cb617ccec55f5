package sweeps

import (
	"cmp"
	"errors"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/scenarios"
)

// SweepVerb returns the verb sweep.
func SweepVerb() desk.Verb {
	return desk.Verb{
		Name: "sweep", Takes: "FILE", About: "run a scenario at many values of one thing, or of two",
		More: `--vary says what takes which values: evenly spaced ones, or those of a list.

  netrate sweep my-line.yaml --vary line.speed=12000/h:18000/h:7
  netrate sweep my-line.yaml --vary crew.operators=1:4:4 --vary "crew.walk=5 s:30 s:6"
  netrate sweep my-line.yaml --vary policy.misfeed=stop,divert

A path is written as in the file: stations.NAME.KEY for a station. All values run the
same shifts with the same random events. --reps, --seed and --workers may also be set by
NETRATE_REPS and so on. FILE may be -, which is standard input.`,
		Prepare: func(flags *pflag.FlagSet) desk.Action {
			o := &sweepFlags{}
			flags.StringArrayVar(&o.vary, "vary", nil, "what to vary, once or twice: `RANGE` is PATH=LOW:HIGH:STEPS or PATH=a,b,c")
			o.LineFlags = desk.NewLineFlags("sweep", flags)
			return o.run
		},
	}
}

// sweepFlags is the command line of a sweep.
type sweepFlags struct {
	*desk.LineFlags
	vary []string
}

func (o *sweepFlags) run(e desk.Env, args []string) error {
	about, err := o.Line(e, args)
	if err != nil {
		return err
	}
	question, err := newSweep(about, o.vary)
	if err != nil {
		return err
	}
	if question.Plan, err = o.Fixed(e, about.Run, desk.UsualReps); err != nil {
		return err
	}
	defer o.Drop()
	if err := o.Begin(e); err != nil {
		return err
	}
	answer, ended := desk.Asked(e, page.Period(about.Line), question.Ask,
		func(a *study.SweepAnswer) study.Settings { return a.Settings })
	if answer == nil {
		return ended
	}
	return errors.Join(ended, tell(e, o.LineFlags, &sweep{about, o.vary, answer}))
}

// sweep is what a sweep of a scenario came to.
type sweep struct {
	desk.Subject
	asked []string // the ranges as they were given
	*study.SweepAnswer
}

// newSweep reads the ranges and returns the question, with a line for each point.
func newSweep(about desk.Subject, ranges []string) (*study.Sweep, error) {
	q := &study.Sweep{}
	if len(ranges) < 1 || len(ranges) > 2 {
		return nil, desk.Wrong("sweep varies one thing or two, found %d: --vary PATH=LOW:HIGH:STEPS", len(ranges))
	}
	points := 1
	for _, text := range ranges {
		r, err := scenarios.ParseRange(text)
		if err != nil {
			return nil, desk.Wrong("--vary %v", err)
		}
		q.Vary = append(q.Vary, parameter(r))
		points *= len(r.Values)
	}
	if len(q.Vary) == 2 && q.Vary[0].Path == q.Vary[1].Path {
		return nil, desk.Wrong("--vary %s is given twice: want two paths, or one with all values", q.Vary[0].Path)
	}
	if points > study.MostSweepPoints {
		return nil, desk.Wrong("--vary asks for %s points, want at most %d", say.Thousands(points), study.MostSweepPoints)
	}
	for _, v := range q.Vary[0].Values {
		settings := []scenarios.Setting{{Path: q.Vary[0].Path, Value: v.Text}}
		if err := addLines(q, about, settings); err != nil {
			return nil, err
		}
	}
	return q, nil
}

// addLines adds the line with the first parameter set, or one for each value of the second.
func addLines(q *study.Sweep, about desk.Subject, first []scenarios.Setting) error {
	all := [][]scenarios.Setting{first}
	if len(q.Vary) == 2 {
		all = nil
		for _, v := range q.Vary[1].Values {
			all = append(all, []scenarios.Setting{first[0], {Path: q.Vary[1].Path, Value: v.Text}})
		}
	}
	for _, settings := range all {
		a, err := about.With(settings)
		if err != nil {
			var at []string
			for _, x := range settings {
				at = append(at, x.Path+" "+x.Value)
			}
			return desk.Wrong("%v (at %s)", err, strings.Join(at, ", "))
		}
		q.Lines = append(q.Lines, a.Line)
	}
	return nil
}

// speedPath is the path of the speed at which a line is asked to run.
const speedPath = "line.speed"

// parameter returns what a range varies, its values rising.
func parameter(r scenarios.Range) study.SweepParameter {
	p := study.SweepParameter{Path: r.Path, Unit: r.Unit, Speed: r.Path == speedPath}
	for _, v := range r.Values {
		p.Values = append(p.Values, study.SweepValue{Text: v.Text, Number: study.Number(v.Number)})
	}
	slices.SortStableFunc(p.Values, func(a, b study.SweepValue) int { return cmp.Compare(a.Number, b.Number) })
	return p
}
