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

// DoubtStudy is what a line comes to if what is not known of it is drawn anew again and again.
type DoubtStudy struct {
	Line   *model.Line
	Each   int         // replications of each draw
	Values [][]float64 // that each draw has found for the doubts of the line, in their order
	Shifts []Shift     // Each of the first draw, then those of the next

	Jobs []*DoubtStudy // of a line at several jobs, those of each; else nil
}

// RunDoubted draws several lines anew, as many times as the plan has replications at most, and
// runs so many replications of each draw: at least two. A number that two of the lines doubt
// is the same in both, and so is their luck. After each draw, in order, it calls watch, if
// there is one. It returns a study of each line, in the same order, the same for any number of
// workers; where ctx was done before the end, of the draws until then.
func RunDoubted(ctx context.Context, lines []*model.Line, plan sim.Plan, each int, watch func(draw int)) ([]*DoubtStudy, sim.Ending, error) {
	var all []doubtful
	for _, l := range lines {
		all = append(all, doubtfulLine{l})
	}
	return runDoubted(ctx, all, plan, each, watch)
}

// RunDoubtedHalls is RunDoubted of halls. A study is that of all lines of a hall together, as
// [Gathered] has them.
func RunDoubtedHalls(ctx context.Context, halls []*model.Hall, plan sim.Plan, each int, watch func(draw int)) ([]*DoubtStudy, sim.Ending, error) {
	var all []doubtful
	for _, h := range halls {
		all = append(all, doubtfulHall{h})
	}
	return runDoubted(ctx, all, plan, each, watch)
}

// RunDoubtedMixed is RunDoubted of lines at several jobs each: see [Mixed]. What is in doubt
// of a line is the same in all its jobs.
func RunDoubtedMixed(ctx context.Context, mixes []*Mix, plan sim.Plan, each int, watch func(draw int)) ([]*DoubtStudy, sim.Ending, error) {
	var lines []*model.Line
	for _, m := range mixes {
		for _, s := range m.Setups {
			lines = append(lines, s.Line)
		}
	}
	jobs, ending, err := RunDoubted(ctx, lines, plan, each, watch)
	if err != nil {
		return nil, 0, err
	}
	studies := make([]*DoubtStudy, len(mixes))
	for i, m := range mixes {
		own := jobs[:len(m.Setups)]
		jobs = jobs[len(m.Setups):]
		var asShifts []*Study
		for _, j := range own {
			asShifts = append(asShifts, &Study{Line: j.Line, Shifts: j.Shifts})
		}
		s := &DoubtStudy{Line: m.Line, Each: each, Shifts: Mixed(m.Line, asShifts, m.Shares).Shifts, Jobs: own}
		for draw := range own[0].Values {
			_, values := m.Line.Drawn(plan.Seed, draw)
			s.Values = append(s.Values, values)
		}
		studies[i] = s
	}
	return studies, ending, nil
}

// doubtful is what can be drawn anew: a line, or a hall.
type doubtful interface {
	// standing returns the line that the study has.
	standing() *model.Line
	// drawn returns the values of one draw, and what runs a replication of it.
	drawn(seed uint64, number int) (values []float64, run func(replication int) (Shift, error), err error)
}

type doubtfulLine struct{ *model.Line }

func (l doubtfulLine) standing() *model.Line { return l.Line }

func (l doubtfulLine) drawn(seed uint64, number int) ([]float64, func(int) (Shift, error), error) {
	drawn, values := l.Drawn(seed, number)
	s, err := model.New(drawn)
	if err != nil {
		return nil, nil, err
	}
	var o model.Outcome
	return values, func(replication int) (Shift, error) {
		err := s.Run(seed, replication, &o)
		return shiftOf(&o), err
	}, nil
}

type doubtfulHall struct{ *model.Hall }

func (h doubtfulHall) standing() *model.Line {
	first := h.Lines[0]
	return &model.Line{Name: first.Name, Shift: first.Shift, Crew: h.Crew, Doubts: h.Doubts()}
}

func (h doubtfulHall) drawn(seed uint64, number int) ([]float64, func(int) (Shift, error), error) {
	drawn, values := h.Drawn(seed, number)
	s, err := model.NewHall(drawn)
	if err != nil {
		return nil, nil, err
	}
	outs := make([]model.Outcome, len(h.Lines))
	return values, func(replication int) (all Shift, err error) {
		err = s.Run(seed, replication, outs)
		for i := range outs {
			one := shiftOf(&outs[i])
			all.add(&one)
		}
		return all, err
	}, nil
}

// doubtDraw is one draw of a line or a hall.
type doubtDraw struct {
	values []float64
	shifts []Shift
}

func runDoubted(ctx context.Context, all []doubtful, plan sim.Plan, each int, watch func(draw int)) ([]*DoubtStudy, sim.Ending, error) {
	if each < 2 {
		return nil, 0, fmt.Errorf("each draw is run %d times, want 2 or more", each)
	}
	plan.Min, plan.Precision = plan.Max, 0
	studies := make([]*DoubtStudy, len(all))
	for i, x := range all {
		studies[i] = &DoubtStudy{Line: x.standing(), Each: each}
	}
	worker := func() (func(int, *[]doubtDraw) error, error) {
		return func(draw int, out *[]doubtDraw) (err error) {
			*out, err = drawAll(all, plan.Seed, draw, each)
			return err
		}, nil
	}
	fold := func(draw int, drawn *[]doubtDraw) float64 {
		for i, d := range *drawn {
			studies[i].Values = append(studies[i].Values, d.values)
			studies[i].Shifts = append(studies[i].Shifts, d.shifts...)
		}
		if watch != nil {
			watch(draw)
		}
		return 0
	}
	_, ending, err := sim.Replicate(ctx, plan, worker, fold)
	return studies, ending, err
}

// drawAll runs one draw of all lines or halls.
func drawAll(all []doubtful, seed uint64, draw, each int) ([]doubtDraw, error) {
	out := make([]doubtDraw, len(all))
	for i, x := range all {
		values, run, err := x.drawn(seed, draw)
		if err != nil {
			return nil, &model.ImpossibleDraw{Line: x.standing().Name, Draw: draw + 1, Why: err}
		}
		out[i].values = values
		for k := range each {
			shift, err := run(draw*each + k)
			if err != nil {
				return nil, fmt.Errorf("%s: %w", x.standing().Name, err)
			}
			out[i].shifts = append(out[i].shifts, shift)
		}
	}
	return out, nil
}

// Draws returns how many times the line was drawn.
func (s *DoubtStudy) Draws() int { return len(s.Values) }

// Sample returns one figure of every replication, in order.
func (s *DoubtStudy) Sample(figure func(*Shift) float64) sim.Sample {
	return (&Study{Shifts: s.Shifts}).Sample(figure)
}

// Doubted is how far a figure of a line is known, if what is in doubt is allowed for.
type Doubted struct {
	All     sim.Sample // the figure in every replication, in order
	LongRun sim.Sample // what it is on average over many replications, in each draw
	Parts   output.Components
	Sources []DoubtSource // that the long run depends on, the largest share first; nil if there are too few draws to tell
}

// DoubtSource is what one doubt adds to the doubt of a figure.
type DoubtSource struct {
	Doubt model.Doubt
	Share float64 // of the variance of the long run; all shares come to 1 at most
	Slope float64 // of the figure, for each unit of what is in doubt
}

// Of returns how far a figure is known.
func (s *DoubtStudy) Of(figure func(*Shift) float64) *Doubted {
	return s.doubted(s.Sample(figure))
}

// Ahead returns how far it is known what another study, in the same draws, is ahead of this
// one in a figure. What both doubt, and so with the same luck, is told as a source once.
func (s *DoubtStudy) Ahead(other *DoubtStudy, figure func(*Shift) float64) *Doubted {
	ahead := other.Sample(figure)
	for i, x := range s.Sample(figure) {
		ahead[i] -= x
	}
	both := &DoubtStudy{Line: &model.Line{Doubts: slices.Clone(s.Line.Doubts)}, Each: s.Each}
	for _, own := range s.Values {
		both.Values = append(both.Values, slices.Clone(own))
	}
	for k, d := range other.Line.Doubts {
		if slices.ContainsFunc(s.Line.Doubts, func(x model.Doubt) bool { return x.Path() == d.Path() }) {
			continue
		}
		both.Line.Doubts = append(both.Line.Doubts, d)
		for j := range both.Values {
			both.Values[j] = append(both.Values[j], other.Values[j][k])
		}
	}
	return both.doubted(ahead)
}

func (s *DoubtStudy) doubted(all sim.Sample) *Doubted {
	groups := slices.Collect(slices.Chunk(all, s.Each))
	d := &Doubted{All: all, Parts: output.Split(groups)}
	d.LongRun = d.Parts.Settled(groups)
	means := make(sim.Sample, len(groups))
	for j, g := range groups {
		means[j] = g.Mean()
	}
	parts, ok := output.Contributions(s.Values, means)
	if !ok {
		return d
	}
	whole := 0.0
	for _, p := range parts {
		whole += p.Variance
	}
	whole = max(whole, d.Parts.Between)
	for k, p := range parts {
		source := DoubtSource{Doubt: s.Line.Doubts[k], Slope: p.Slope}
		if whole > 0 {
			source.Share = p.Variance / whole
		}
		d.Sources = append(d.Sources, source)
	}
	slices.SortStableFunc(d.Sources, func(a, b DoubtSource) int { return cmp.Compare(b.Share, a.Share) })
	return d
}

// Interval returns an interval of the long run that holds another draw with the probability
// level, as nearly as there are draws for it.
func (d *Doubted) Interval(level float64) (low, high float64) {
	n := float64(len(d.LongRun))
	at := func(p float64) float64 { // the draws divide the line into n + 1 parts, equally likely
		return d.LongRun.Quantile(min(1, max(0, (float64(p*(n+1))-1)/(n-1))))
	}
	return at((1 - level) / 2), at((1 + level) / 2)
}

// Narrowed returns how many times as wide the interval of the long run would be if the chosen
// doubts had come of so many times as many observations: variances of what was learnt fall as
// the observations grow. Doubts that do not come of observations stay as they are.
func (d *Doubted) Narrowed(times float64, chosen func(model.Doubt) bool) float64 {
	variance := 1.0
	for _, s := range d.Sources {
		if s.Doubt.Of.Learnt() && chosen(s.Doubt) {
			variance -= float64(s.Share * (1 - 1/times))
		}
	}
	return math.Sqrt(max(0, variance))
}
