package study

import (
	"context"
	"errors"
	"maps"
	"slices"
	"strings"

	"netrate/model"
	"netrate/model/runs"
	"netrate/sim"
)

// A design is looked at as it runs: at one kind of work or, where its costs have yearly volumes of jobs, at
// all of them. Each job counts in its share of the year, as in a comparison, and has random streams of its own.
// A shift of a design is then the same shift of each job, and its figure what these come to together.

// made returns a combination as it runs, with each uncertain input at its mean; or why it cannot be, in a
// sentence.
func (s *designSearch) made(choices []uint8) (*tried, error) {
	a, err := s.Line(wide(choices))
	if err != nil {
		return nil, err
	}
	if a.Line == nil {
		return nil, errors.New("a design is searched for one line, and there are several")
	}
	t := &tried{Alternative: a, means: true}
	if s.base != nil && !maps.Equal(a.volumes(), s.base.volumes()) {
		return nil, errors.New("it has other yearly volumes of jobs than the line as it is")
	}
	if len(a.volumes()) > 0 {
		jobs, shares := a.Costs.Shares()
		if t.mix, err = runs.NewMix(a.Line, a.Products, jobs, shares); err != nil {
			return nil, errors.New(strings.ReplaceAll(err.Error(), "\n", "; "))
		}
	}
	return t, meansFit(workOf(t.Line, t.mix, nil).Lines()...)
}

// designOnPaper is what a design comes to on paper.
type designOnPaper struct {
	rate, ceiling float64 // good envelopes an hour
	defective     float64 // share of the envelopes delivered
}

// onPaperOf returns what a work comes to on paper. The ceilings of its jobs, each in its share, are one of
// their work together: that rate rises with each of theirs, and where they vary its mean is below that at their
// means.
func onPaperOf(w runs.Work) designOnPaper {
	var rates, ceilings []float64
	defective, delivered := 0.0, 0.0
	for i, l := range w.Lines() {
		paper, all := l.Analytic(), 1.0
		if w.Mix != nil { // its share is of the good ones
			all = w.Mix.Shares[i] / (1 - paper.Defective)
		}
		rates, ceilings = append(rates, paper.NetRate), append(ceilings, l.Ceiling())
		defective, delivered = defective+float64(all*paper.Defective), delivered+all
	}
	return designOnPaper{w.Rate(rates), w.Rate(ceilings), defective / delivered}
}

// jobs returns of how many lines a design is: one for each of its jobs.
func (s *designSearch) jobs() int { return len(workOf(s.base.Line, s.base.mix, nil).Lines()) }

// designRun runs designs job by job, and joins the jobs of each.
type designRun struct {
	search *designSearch
	some   []*candidate
	made   []*tried      // of each job of each design, from when it is run until it was taken
	own    []*runs.Study // of the jobs of a design, so far
}

// line returns a line by its number: the jobs of the first design, then those of the next.
func (r *designRun) line(number int) (*model.Line, error) {
	jobs := r.search.jobs()
	t, err := r.search.made(r.some[number/jobs].choices)
	if err != nil {
		return nil, err
	}
	r.made[number] = t
	return t.work().Lines()[number%jobs], nil
}

// take takes the study of a line, and returns that of the design when all its jobs are there; else nil.
func (r *designRun) take(number int, study *runs.Study) (*tried, *runs.Study) {
	t, jobs := r.made[number], r.search.jobs()
	r.made[number] = nil
	if jobs > 1 { // it is kept until the others are there
		one := *study
		one.Shifts = slices.Clone(study.Shifts)
		study = &one
	}
	if r.own = append(r.own, study); len(r.own) < jobs {
		return nil, nil
	}
	joined := workOf(t.Line, t.mix, nil).Joined(t.Name, r.own)
	r.own = r.own[:0]
	return t, joined
}

// simulate runs the shifts of a plan from first to the one before last of some designs, and calls take
// with the figure of each shift, the larger the better, design after design. It must keep neither.
func (s *designSearch) simulate(ctx context.Context, plan sim.Plan, some []*candidate, first, last int, take func(i int, study *runs.Study, scores sim.Sample)) error {
	jobs := s.jobs()
	r := &designRun{search: s, some: some, made: make([]*tried, len(some)*jobs)}
	var failed error
	_, err := runs.Systems{Number: len(r.made), Line: r.line}.Run(ctx, plan, first, last, func(number int, study *runs.Study) {
		t, joined := r.take(number, study)
		if joined == nil {
			return
		}
		scores, err := s.scores(joined, t.Costs)
		if err != nil {
			failed = err
			return
		}
		s.counts.Shifts += Number(len(scores) * jobs)
		take(number/jobs, joined, scores)
	})
	if err == nil {
		err = failed
	}
	return err
}
