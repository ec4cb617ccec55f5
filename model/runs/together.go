package runs

import (
	"context"

	"netrate/model"
	"netrate/sim"
	"netrate/sim/output"
)

// Together runs the same replications of several lines, so that a station that two of them
// have has common random numbers in both, and returns a study of each, in the same order:
// see [TogetherWork].
func Together(ctx context.Context, lines []*model.Line, plan sim.Plan, selection *output.Selection, watch func(replication int, soFar []*Study)) ([]*Study, error) {
	var works []Work
	for _, l := range lines {
		works = append(works, Work{Line: l})
	}
	var each func(int, [][]*Study)
	if watch != nil {
		each = func(replication int, soFar [][]*Study) { watch(replication, firsts(soFar)) }
	}
	studies, err := TogetherWork(ctx, works, plan, selection, each)
	if err != nil {
		return nil, err
	}
	return firsts(studies), nil
}

// firsts returns the first study of each work.
func firsts(studies [][]*Study) (all []*Study) {
	for _, own := range studies {
		all = append(all, own[0])
	}
	return all
}

// TogetherWork runs the same replications of several works and returns the studies of the lines of each,
// in the same order.
//
// Without a selection all run until the net rate of the first is as precise as the plan
// asks. With one, the selection is fed the net rates, works that it drops are not run in later
// batches and their studies end there, and all ends with the selection: the ending is then
// [sim.Precise] if its promise is reached. After each replication, in order, watch is
// called, if there is one, with the studies so far, which go on to grow: see [Study.Kept].
func TogetherWork(ctx context.Context, works []Work, plan sim.Plan, selection *output.Selection, watch func(replication int, soFar [][]*Study)) ([][]*Study, error) {
	studies := make([][]*Study, len(works))
	for i, w := range works {
		studies[i] = w.Begun()
	}
	if err := FurtherWork(ctx, works, studies, plan, selection, watch); err != nil {
		return nil, err
	}
	return studies, nil
}

// FurtherWork runs more replications of works that ran together before, and adds them to the studies
// of their lines, which become what they would be if all had been run at once with this plan. It wants
// the seed and, with a selection, a new one that is like that of before.
func FurtherWork(ctx context.Context, works []Work, studies [][]*Study, plan sim.Plan, selection *output.Selection, watch func(replication int, soFar [][]*Study)) error {
	n := 0
	for _, own := range studies {
		n += len(own)
	}
	if err := within(n, plan); err != nil {
		return err
	}
	ctx, end := context.WithCancel(ctx)
	defer end()
	t := &together{works: works, studies: studies, selection: selection, rates: make([]float64, len(works))}
	before := t.again()
	t.each(func(s *Study) { s.Plan = plan })
	if selection != nil && selection.Over() {
		end()
	}
	fold := func(number int, each *workReplications) float64 {
		t.begins(number)
		t.take(*each)
		if selection != nil && !selection.Add(t.rates) {
			end()
		}
		if watch != nil {
			watch(number, studies)
		}
		return t.rates[0]
	}
	_, ending, err := sim.Resume(ctx, plan, before, func() (func(int, *workReplications) error, error) { return t.worker(plan.Seed) }, fold, selection != nil)
	if err != nil {
		return err
	}
	if selection != nil && selection.Over() {
		ending = sim.AtMost
		if _, promised := selection.Best(); promised {
			ending = sim.Precise
		}
	}
	t.each(func(s *Study) { s.Ending = ending })
	return nil
}

// together is works that run the same replications.
type together struct {
	works     []Work
	studies   [][]*Study        // of each of their lines
	selection *output.Selection // nil without one
	rates     []float64         // net rates of the last replication; of a work that is dropped of its last
	parts     []float64         // those of the lines of one work

	// A batch that was cut short is run to its end by all works that began it.
	until int    // the first replication after it
	began []bool // by work
	ran   []bool // by work: it is run in the batch that is folded
}

// each calls a function with every study.
func (t *together) each(call func(*Study)) {
	for _, own := range t.studies {
		for _, s := range own {
			call(s)
		}
	}
}

// again takes the replications done before as they were taken then, and returns the net rates
// of the first work.
func (t *together) again() []float64 {
	done := 0
	for _, own := range t.studies {
		done = max(done, len(own[0].Shifts))
	}
	t.until = (done + sim.Batch - 1) / sim.Batch * sim.Batch
	for _, own := range t.studies {
		t.began = append(t.began, len(own[0].Shifts) == done)
	}
	first := make([]float64, done)
	for r := range first {
		for i, own := range t.studies {
			if r < len(own[0].Shifts) {
				t.parts = t.parts[:0]
				for _, s := range own {
					t.parts = append(t.parts, s.Shifts[r].NetRate)
				}
				t.rates[i] = t.works[i].Rate(t.parts)
			}
		}
		first[r] = t.rates[0]
		if t.selection != nil {
			t.selection.Add(t.rates)
		}
	}
	return first
}

// take takes in a replication of all works that ran it.
func (t *together) take(each [][]replication) {
	for i, own := range t.studies {
		if !t.ran[i] {
			continue
		}
		t.parts = t.parts[:0]
		for k, s := range own {
			t.parts = append(t.parts, s.takeFigured(&each[i][k]))
		}
		t.rates[i] = t.works[i].Rate(t.parts)
	}
}

// begins finds which works are run in a batch, when its first replication is folded: of what is recorded
// there may be more.
func (t *together) begins(number int) {
	if t.ran != nil && number%sim.Batch > 0 {
		return
	}
	t.ran = make([]bool, len(t.studies))
	for i := range t.ran {
		t.ran[i] = t.runs(i, number)
	}
}

// runs reports whether a work runs a replication: if it is still in the selection.
func (t *together) runs(work, replication int) bool {
	return t.selection == nil || replication < t.until && t.began[work] || replication >= t.until && t.selection.Remains(work)
}

// worker returns a worker that runs one replication of every work that is still in the selection. The
// outcome of one that is not has no time in it.
func (t *together) worker(seed uint64) (func(int, *workReplications) error, error) {
	run := make([]func(uint64, int, []replication) error, len(t.works))
	for i, w := range t.works {
		var err error
		if run[i], err = w.readyWork(); err != nil {
			return nil, err
		}
	}
	return func(number int, all *workReplications) error {
		if *all == nil {
			*all = make(workReplications, len(run))
			for i, own := range t.studies {
				(*all)[i] = make([]replication, len(own))
			}
		}
		for i := range run {
			each := (*all)[i]
			for k := range each {
				each[k].Time = model.Time{}
			}
			if !t.runs(i, number) {
				continue
			}
			if err := run[i](seed, number, each); err != nil {
				return err
			}
			for k, s := range t.studies[i] {
				each[k].figure(s.Line)
			}
		}
		return nil
	}, nil
}
