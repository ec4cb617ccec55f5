package sweeps

import (
	"cmp"
	"errors"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/scenarios"
)

// SweepVerb returns the verb sweep.
func SweepVerb() desk.Verb {
	return desk.Verb{
		Name: "sweep", Takes: "FILE", About: "run a scenario at several values of one parameter, or of two",
		Simulates: true,
		More: `--vary says what takes which values: evenly spaced ones, or those of a list.

  netrate sweep my-line.yaml --vary line.speed=12000/h:18000/h:7
  netrate sweep my-line.yaml --vary crew.operators=1:4:4 --vary "crew.walk=5 s:30 s:6"
  netrate sweep my-line.yaml --vary policy.misfeed=stop,divert

A path is written as in the file: stations.NAME.KEY for a station. All values run the
same shifts with the same random events. Costs, such as costs.price=100000:200000:5, answer
with money, and the line is simulated once. --reps, --seed and --workers may also be set by
NETRATE_REPS and so on. FILE may be -, which is standard input.`,
		Prepare: func(flags *pflag.FlagSet) desk.Action {
			o := &sweepFlags{}
			flags.StringArrayVar(&o.vary, "vary", nil, "what to vary, given once or twice: `RANGE` is PATH=LOW:HIGH:STEPS or PATH=a,b,c")
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
	if ofCosts(o.vary) > 0 {
		return o.runCosts(e, args)
	}
	about, err := o.Work(e, args)
	if err != nil {
		return err
	}
	question, err := newSweep(about, o.vary)
	if err != nil {
		return err
	}
	if n := len(question.Groups); n > 0 {
		o.Premise += desk.SpeedNotes(study.Alternative{Name: about.Name, Group: question.Groups[n-1]})
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
	s := present.Sweep{SweepAnswer: answer, Origin: page.OriginOf(about), Command: about.Again + asAsked(o.vary)}
	return errors.Join(ended, page.Tell(e, o.Outputs, s))
}

// asAsked returns ranges as the command line has them.
func asAsked(ranges []string) string {
	var text strings.Builder
	for _, asked := range ranges {
		text.WriteString(" --vary " + desk.Quoted(asked))
	}
	return text.String()
}

// newSweep reads the ranges and returns the question, with a line for each point.
func newSweep(about desk.Subject, ranges []string) (*study.Sweep, error) {
	vary, err := parameters(ranges)
	if err != nil {
		return nil, err
	}
	q := &study.Sweep{Vary: vary}
	return q, eachPoint(vary, func(settings []scenarios.Setting) error {
		a, err := about.With(settings)
		if err != nil {
			return err
		}
		if a.Group != nil {
			q.Groups = append(q.Groups, a.Group)
			return nil
		}
		mix, err := a.Mix()
		if q.Lines = append(q.Lines, a.Line); mix != nil {
			q.Mixes = append(q.Mixes, mix)
		}
		return err
	})
}

// parameters reads the ranges.
func parameters(ranges []string) ([]study.SweepParameter, error) {
	if len(ranges) < 1 || len(ranges) > 2 {
		return nil, desk.Wrong("sweep varies one thing or two, found %d: --vary PATH=LOW:HIGH:STEPS", len(ranges))
	}
	var vary []study.SweepParameter
	points := 1
	for _, text := range ranges {
		r, err := scenarios.ParseRange(text)
		if err != nil {
			return nil, desk.Wrong("--vary %v", err)
		}
		vary = append(vary, parameter(r))
		points *= len(r.Values)
	}
	if len(vary) == 2 && vary[0].Path == vary[1].Path {
		return nil, desk.Wrong("--vary %s is given twice: want two paths, or one with all values", vary[0].Path)
	}
	if points > study.MostSweepPoints {
		return nil, desk.Wrong("--vary asks for %s points, want at most %d", say.Thousands(points), study.MostSweepPoints)
	}
	return vary, nil
}

// eachPoint calls add with the settings of each point: of each value of the first parameter or, if
// there are two, of each value of the second in each of these.
func eachPoint(vary []study.SweepParameter, add func([]scenarios.Setting) error) error {
	at := func(settings []scenarios.Setting) error {
		if err := add(settings); err != nil {
			var at []string
			for _, x := range settings {
				at = append(at, x.Path+" "+x.Value)
			}
			return desk.Wrong("%v (at %s)", err, strings.Join(at, ", "))
		}
		return nil
	}
	for _, v := range vary[0].Values {
		first := scenarios.Setting{Path: vary[0].Path, Value: v.Text}
		if len(vary) == 1 {
			if err := at([]scenarios.Setting{first}); err != nil {
				return err
			}
			continue
		}
		for _, v := range vary[1].Values {
			if err := at([]scenarios.Setting{first, {Path: vary[1].Path, Value: v.Text}}); err != nil {
				return err
			}
		}
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
