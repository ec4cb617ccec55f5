package sweeps

import (
	"cmp"
	"context"
	"errors"
	"slices"
	"unicode"
	"unicode/utf8"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/scenarios"
	"netrate/sim"
	"netrate/sim/output"
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
same shifts on the same luck. --reps, --seed and --workers may also be set by
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
	s, lines, err := newSweep(about, o.vary)
	if err != nil {
		return err
	}
	if s.plan, err = o.Fixed(e, about.Run, desk.UsualReps); err != nil {
		return err
	}
	if err := o.Begin(); err != nil {
		return err
	}
	defer o.Drop()
	ended := desk.Watched(e, s.plan.Max, page.Period(about.Line), func(ctx context.Context, watch func(int)) (int, sim.Ending, error) {
		err := s.simulate(ctx, lines, watch)
		return s.shifts, s.ending, err
	})
	if s.shifts == 0 {
		return ended
	}
	return errors.Join(ended, page.Tell(e, o.LineFlags, s))
}

// sweep is a scenario at many values of one path, or of two.
type sweep struct {
	desk.Subject
	asked  []string          // the ranges as they were given
	vary   []scenarios.Range // one or two, their values rising
	plan   sim.Plan
	ending sim.Ending
	shifts int // simulated at each point

	// The points: one for each value of the first path and, if there are two, in each of
	// these one for each value of the second.
	points []point
	best   int                 // the point with the highest mean
	behind []output.Comparison // each point with the best: all but the best itself right at once
	curve  *curve              // of one path
}

// point is what one value, or one of each path, comes to.
type point struct {
	values []scenarios.RangeValue
	study  *model.Study
	rates  sim.Sample
}

// mostPoints bounds what is kept in memory at a time.
const mostPoints = 400

// newSweep reads the ranges and returns the sweep with a line for each of its points.
func newSweep(about desk.Subject, ranges []string) (*sweep, []*model.Line, error) {
	s := &sweep{Subject: about, asked: ranges}
	if len(ranges) < 1 || len(ranges) > 2 {
		return nil, nil, desk.Wrong("sweep varies one thing or two, found %d: --vary PATH=LOW:HIGH:STEPS", len(ranges))
	}
	for _, text := range ranges {
		r, err := scenarios.ParseRange(text)
		if err != nil {
			return nil, nil, desk.Wrong("--vary %v", err)
		}
		slices.SortStableFunc(r.Values, func(a, b scenarios.RangeValue) int { return cmp.Compare(a.Number, b.Number) })
		s.vary = append(s.vary, r)
	}
	if len(s.vary) == 2 && s.vary[0].Path == s.vary[1].Path {
		return nil, nil, desk.Wrong("--vary %s is given twice: want two paths, or one with all values", s.vary[0].Path)
	}
	for _, v := range s.vary[0].Values {
		if len(s.vary) == 1 {
			s.points = append(s.points, point{values: []scenarios.RangeValue{v}})
			continue
		}
		for _, w := range s.vary[1].Values {
			s.points = append(s.points, point{values: []scenarios.RangeValue{v, w}})
		}
	}
	if n := len(s.points); n > mostPoints {
		return nil, nil, desk.Wrong("--vary asks for %s points, want at most %d", say.Thousands(n), mostPoints)
	}
	lines, err := s.lines()
	return s, lines, err
}

// lines returns the line of each point.
func (s *sweep) lines() ([]*model.Line, error) {
	var lines []*model.Line
	for _, p := range s.points {
		var settings []scenarios.Setting
		for i, v := range p.values {
			settings = append(settings, scenarios.Setting{Path: s.vary[i].Path, Value: v.Text})
		}
		l, err := s.WithAll(settings)
		if err != nil {
			return nil, desk.Wrong("%v (at %s)", err, s.label(p))
		}
		lines = append(lines, l)
	}
	return lines, nil
}

// simulate runs all points on the same luck and compares them.
func (s *sweep) simulate(ctx context.Context, lines []*model.Line, watch func(replication int)) error {
	studies, err := model.Together(ctx, lines, s.plan, nil, model.Counting(watch))
	if err != nil {
		return err
	}
	s.ending, s.shifts = studies[0].Ending, len(studies[0].Shifts)
	if s.shifts == 0 {
		return nil
	}
	for i, study := range studies {
		s.points[i].study, s.points[i].rates = study, study.NetRates()
		if s.points[i].rates.Mean() > s.points[s.best].rates.Mean() {
			s.best = i
		}
	}
	s.compare()
	return nil
}

// compare sets each point against the best. The truly best point is the best of these shifts
// or not shown to be worse with the confidence of all intervals, though it is the shifts
// that say which one is the best: for it to be neither, one of the intervals of the others
// against it would have to be wrong, and there are no more of them than pairs here.
func (s *sweep) compare() {
	var pairs [][2]int
	for i := range s.points {
		if i != s.best {
			pairs = append(pairs, [2]int{s.best, i})
		}
	}
	s.behind = slices.Insert(output.Pairwise(s.samples(), pairs, say.Level), s.best, output.Comparison{})
	if len(s.vary) == 1 {
		s.curve = newCurve(s)
	}
}

// rival reports whether the point is the best, or not shown to be worse.
func (s *sweep) rival(i int) bool { return i == s.best || !say.Differs(s.behind[i].Difference) }

func (s *sweep) samples() []sim.Sample {
	var all []sim.Sample
	for i := range s.points {
		all = append(all, s.points[i].rates)
	}
	return all
}

// ofWords reports whether the values of a range are words, such as stop and divert.
func ofWords(r scenarios.Range) bool {
	first, _ := utf8.DecodeRuneInString(r.Values[0].Text)
	return unicode.IsLetter(first)
}

// ofCounts reports whether the values of a range are whole numbers, such as operators.
func ofCounts(r scenarios.Range) bool {
	return r.Unit == "" && !ofWords(r) && !slices.ContainsFunc(r.Values, func(v scenarios.RangeValue) bool {
		return v.Number != float64(int64(v.Number))
	})
}
