package runs

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"netrate/model"
	"netrate/sim"
	"netrate/sim/output"
)

// UncertaintyStudy is what a line comes to if what is not known of it is drawn anew again and again.
type UncertaintyStudy struct {
	*Study             // all replications: Each of the first draw, then those of the next
	Values [][]float64 // that each draw has found for the uncertain inputs of the line, in their order

	ByJob []*UncertaintyStudy // of a line at several jobs, those of each; else nil
}

// RunUncertain draws several lines anew, as many times as the plan has replications at most, and
// runs each replications of each draw: at least two. An unknown that two of the lines share is the
// same in both, and they have common random numbers. After each draw, in order, it calls watch, if
// there is one. It returns a study of each line, in the same order, the same for any number of
// workers; where ctx was done before the end, of the draws until then.
func RunUncertain(ctx context.Context, lines []*model.Line, plan sim.Plan, each int, watch func(draw int)) ([]*UncertaintyStudy, sim.Ending, error) {
	var all []uncertainRun
	for _, l := range lines {
		all = append(all, uncertainLine{l})
	}
	return runUncertain(ctx, all, plan, each, watch)
}

// RunUncertainLineGroups is RunUncertain of line groups. A study is that of all lines of a line group together, as
// [Gathered] has them.
func RunUncertainLineGroups(ctx context.Context, groups []*model.LineGroup, plan sim.Plan, each int, watch func(draw int)) ([]*UncertaintyStudy, sim.Ending, error) {
	var all []uncertainRun
	for _, h := range groups {
		all = append(all, uncertainLineGroup{h})
	}
	return runUncertain(ctx, all, plan, each, watch)
}

// RunUncertainMixed is RunUncertain of lines at several jobs each: see [Mixed]. What is uncertain
// of a line is the same in all its jobs.
func RunUncertainMixed(ctx context.Context, mixes []*Mix, plan sim.Plan, each int, watch func(draw int)) ([]*UncertaintyStudy, sim.Ending, error) {
	var lines []*model.Line
	for _, m := range mixes {
		lines = append(lines, m.Lines()...)
	}
	jobs, ending, err := RunUncertain(ctx, lines, plan, each, watch)
	if err != nil {
		return nil, 0, err
	}
	studies := make([]*UncertaintyStudy, len(mixes))
	for i, m := range mixes {
		own := jobs[:len(m.Setups)]
		jobs = jobs[len(m.Setups):]
		var asStudies []*Study
		for _, j := range own {
			asStudies = append(asStudies, j.Study)
		}
		s := &UncertaintyStudy{Study: Mixed(m.Line, asStudies, m.Shares), ByJob: own}
		for draw := range own[0].Values {
			_, values := m.Line.Drawn(plan.Seed, draw)
			s.Values = append(s.Values, values)
		}
		studies[i] = s
	}
	return studies, ending, nil
}

// uncertainRun is what can be drawn anew: a line, or a line group.
type uncertainRun interface {
	// lines returns the lines that are run.
	lines() []*model.Line
	// drawn returns the values of one draw, and what runs a replication of it.
	drawn(seed uint64, number int) (values []float64, run func(number int, each []replication) error, err error)
	// gathered returns one study of those of the lines.
	gathered(studies []*Study) *Study
}

type uncertainLine struct{ *model.Line }

func (l uncertainLine) lines() []*model.Line { return []*model.Line{l.Line} }

func (l uncertainLine) drawn(seed uint64, number int) ([]float64, func(int, []replication) error, error) {
	drawn, values := l.Drawn(seed, number)
	line, err := newReady(drawn)
	if err != nil {
		return nil, nil, err
	}
	return values, func(number int, each []replication) error { return line.run(seed, number, &each[0]) }, nil
}

func (l uncertainLine) gathered(studies []*Study) *Study { return studies[0] }

type uncertainLineGroup struct{ *model.LineGroup }

func (h uncertainLineGroup) lines() []*model.Line {
	return Work{Group: h.LineGroup}.Lines()
}

func (h uncertainLineGroup) drawn(seed uint64, number int) ([]float64, func(int, []replication) error, error) {
	drawn, values := h.Drawn(seed, number)
	run, err := readyGroup(drawn)
	if err != nil {
		return nil, nil, err
	}
	return values, func(number int, each []replication) error { return run(seed, number, each) }, nil
}

func (h uncertainLineGroup) gathered(studies []*Study) *Study {
	all := Gathered(h.Lines[0].Name, studies)
	all.Line.UncertainInputs = h.UncertainInputs()
	return all
}

// uncertaintyDraw is one draw of a line or a line group.
type uncertaintyDraw struct {
	values []float64
	lines  []Study // of its replications
}

func runUncertain(ctx context.Context, all []uncertainRun, plan sim.Plan, each int, watch func(draw int)) ([]*UncertaintyStudy, sim.Ending, error) {
	if each < 2 {
		return nil, 0, fmt.Errorf("each draw is run %d times, want 2 or more", each)
	}
	plan.Min, plan.Precision = plan.Max, 0
	var every []*model.Line
	lines, values := make([][]*Study, len(all)), make([][][]float64, len(all))
	for i, x := range all {
		every = append(every, x.lines()...)
		for _, l := range x.lines() {
			lines[i] = append(lines[i], &Study{Line: l, Plan: sim.Plan{Seed: plan.Seed, Max: plan.Max * each}, Each: each})
		}
	}
	if err := DrawsFit(plan.Max, each, every...); err != nil {
		return nil, 0, err
	}
	worker := func() (func(int, *uncertaintyDraws) error, error) {
		return func(draw int, out *uncertaintyDraws) (err error) {
			*out, err = drawAll(all, plan.Seed, draw, each)
			return err
		}, nil
	}
	fold := func(draw int, drawn *uncertaintyDraws) float64 {
		for i, d := range *drawn {
			values[i] = append(values[i], d.values)
			for k := range d.lines {
				lines[i][k].Shifts = append(lines[i][k].Shifts, d.lines[k].Shifts...)
				lines[i][k].course = append(lines[i][k].course, d.lines[k].course...)
				lines[i][k].Total.Add(&d.lines[k].Total)
			}
		}
		if watch != nil {
			watch(draw)
		}
		return 0
	}
	_, ending, err := sim.Replicate(ctx, plan, worker, fold)
	studies := make([]*UncertaintyStudy, len(all))
	for i, x := range all {
		for _, s := range lines[i] {
			s.Ending = ending
		}
		studies[i] = &UncertaintyStudy{Study: x.gathered(lines[i]), Values: values[i]}
	}
	return studies, ending, err
}

// drawAll runs one draw of all lines or line groups.
func drawAll(all []uncertainRun, seed uint64, draw, each int) ([]uncertaintyDraw, error) {
	out := make([]uncertaintyDraw, len(all))
	for i, x := range all {
		lines := x.lines()
		values, run, err := x.drawn(seed, draw)
		if err != nil {
			return nil, &model.ImpossibleDraw{Line: lines[0].Name, Draw: draw + 1, Why: err}
		}
		out[i] = uncertaintyDraw{values, make([]Study, len(lines))}
		for n, l := range lines {
			out[i].lines[n].Line = l
		}
		one := make([]replication, len(lines))
		for k := range each {
			if err := run(draw*each+k, one); err != nil {
				return nil, fmt.Errorf("%s: %w", lines[0].Name, err)
			}
			for n := range one {
				out[i].lines[n].take(&one[n])
			}
		}
	}
	return out, nil
}

// Draws returns how many times the line was drawn.
func (s *UncertaintyStudy) Draws() int { return len(s.Values) }

// UncertainFigure is how far a figure of a line is known, if what is uncertain is allowed for.
type UncertainFigure struct {
	All     sim.Sample // the figure in every replication, in order
	LongRun sim.Sample // what it is on average over many replications, in each draw
	Parts   output.VarianceComponents
	Sources []UncertaintySource // that the long run depends on, the largest share first; nil if there are too few draws to tell
}

// UncertaintySource is what one uncertainty adds to the uncertainty of a figure.
type UncertaintySource struct {
	UncertainInput model.UncertainInput
	Share          float64 // of the variance of the long run; all shares come to 1 at most
	Slope          float64 // of the figure, for each unit of what is uncertain
}

// Of returns how far a figure is known.
func (s *UncertaintyStudy) Of(figure func(*Shift) float64) *UncertainFigure {
	return s.uncertainFigure(s.Sample(figure))
}

// Ahead returns how far it is known what another study, in the same draws, is ahead of this
// one in a figure. An unknown that both have is a source once.
func (s *UncertaintyStudy) Ahead(other *UncertaintyStudy, figure func(*Shift) float64) *UncertainFigure {
	ahead := other.Sample(figure)
	for i, x := range s.Sample(figure) {
		ahead[i] -= x
	}
	both := &UncertaintyStudy{Study: &Study{Line: &model.Line{UncertainInputs: slices.Concat(s.Line.UncertainInputs, other.Line.UncertainInputs)}, Each: s.Each}}
	for j := range s.Values {
		both.Values = append(both.Values, slices.Concat(s.Values[j], other.Values[j]))
	}
	return both.uncertainFigure(ahead)
}

// unknowns returns the uncertain inputs that are unknowns of their own, the first of those that are
// one, and what each draw has found for them.
func (s *UncertaintyStudy) unknowns() (inputs []model.UncertainInput, values [][]float64) {
	known := map[model.Unknown]bool{}
	var kept []int
	for k, d := range s.Line.UncertainInputs {
		if u := d.Unknown(); !known[u] {
			known[u] = true
			kept, inputs = append(kept, k), append(inputs, d)
		}
	}
	for _, all := range s.Values {
		own := make([]float64, len(kept))
		for i, k := range kept {
			own[i] = all[k]
		}
		values = append(values, own)
	}
	return inputs, values
}

func (s *UncertaintyStudy) uncertainFigure(all sim.Sample) *UncertainFigure {
	groups := slices.Collect(slices.Chunk(all, s.Each))
	d := &UncertainFigure{All: all, Parts: s.parts(groups)}
	d.LongRun = d.Parts.LongRun(groups)
	means := make(sim.Sample, len(groups))
	for j, g := range groups {
		means[j] = g.Mean()
	}
	inputs, values := s.unknowns()
	parts, ok := output.Contributions(values, means)
	if !ok {
		return d
	}
	whole := 0.0
	for _, p := range parts {
		whole += p.Variance
	}
	whole = max(whole, d.Parts.Lasting)
	for k, p := range parts {
		source := UncertaintySource{UncertainInput: inputs[k], Slope: p.Slope}
		if whole > 0 {
			source.Share = p.Variance / whole
		}
		d.Sources = append(d.Sources, source)
	}
	slices.SortStableFunc(d.Sources, func(a, b UncertaintySource) int { return cmp.Compare(b.Share, a.Share) })
	return d
}

// Interval returns an interval of the long run that holds another draw with the probability
// level.
func (d *UncertainFigure) Interval(level float64) (low, high float64) {
	return output.Another(d.LongRun, level)
}

// settled returns the long run of each draw, of a figure of every replication.
func (s *Study) settled(figures sim.Sample) sim.Sample {
	groups := slices.Collect(slices.Chunk(figures, s.Each))
	return s.parts(groups).LongRun(groups)
}

// parts returns what the figures of draws vary by. Where nothing of the line is uncertain each draw is of
// the same line, beside another that is not, and all is chance.
func (s *Study) parts(groups []sim.Sample) output.VarianceComponents {
	parts := output.ANOVA(groups)
	if len(s.Line.UncertainInputs) == 0 {
		parts.Lasting = 0
	}
	return parts
}

// Narrowed returns how many times as wide the interval of the long run would be if the chosen
// uncertain inputs from data had come of that many times as many observations: their variances
// fall as the observations grow. Those that do not come of observations stay as they are.
func (d *UncertainFigure) Narrowed(times float64, chosen func(model.UncertainInput) bool) float64 {
	variance := 1.0
	for _, s := range d.Sources {
		if s.UncertainInput.Of.FromData() && chosen(s.UncertainInput) {
			variance -= float64(s.Share * (1 - 1/times))
		}
	}
	return math.Sqrt(max(0, variance))
}
