package runs

import (
	"context"
	"fmt"

	"netrate/model"
	"netrate/sim"
	"netrate/sim/output"
)

// Together runs the same replications of several lines, so that a station that two of them
// have has common random numbers in both, and returns a study of each, in the same order.
//
// Without a selection all lines run until the net rate of the first is as precise as the plan
// asks. With one, the selection is fed the net rates, lines that it drops are not run in later
// batches and their studies end there, and all ends with the selection: the ending is then
// [sim.Precise] if its promise is reached. After each replication, in order, watch is
// called, if there is one, with the studies so far, which go on to grow: see [Study.Kept].
func Together(ctx context.Context, lines []*model.Line, plan sim.Plan, selection *output.Selection, watch func(replication int, soFar []*Study)) ([]*Study, error) {
	studies := make([]*Study, len(lines))
	for i, l := range lines {
		studies[i] = &Study{Line: l}
	}
	if err := Further(ctx, studies, plan, selection, watch); err != nil {
		return nil, err
	}
	return studies, nil
}

// Further runs more replications of lines that ran together before, and adds them to their
// studies, which become what they would be if all had been run at once with this plan. It wants
// the seed and, with a selection, a new one that is like that of before.
func Further(ctx context.Context, studies []*Study, plan sim.Plan, selection *output.Selection, watch func(replication int, soFar []*Study)) error {
	if err := within(len(studies), plan); err != nil {
		return err
	}
	ctx, end := context.WithCancel(ctx)
	defer end()
	t := &together{studies: studies, selection: selection, rates: make([]float64, len(studies))}
	before := t.again()
	for _, s := range studies {
		s.Plan = plan
	}
	if selection != nil && selection.Over() {
		end()
	}
	fold := func(number int, each *replications) float64 {
		t.begins(number)
		for i, s := range studies {
			if t.ran[i] {
				t.rates[i] = s.takeFigured(&(*each)[i])
			}
		}
		if selection != nil && !selection.Add(t.rates) {
			end()
		}
		if watch != nil {
			watch(number, studies)
		}
		return t.rates[0]
	}
	_, ending, err := sim.Resume(ctx, plan, before, func() (func(int, *replications) error, error) { return t.worker(plan.Seed) }, fold, selection != nil)
	if err != nil {
		return err
	}
	if selection != nil && selection.Over() {
		ending = sim.AtMost
		if _, promised := selection.Best(); promised {
			ending = sim.Precise
		}
	}
	for _, s := range studies {
		s.Ending = ending
	}
	return nil
}

// Counting returns what is to be called with the studies so far from what is to be called with
// the number of the replication alone; nil from nil.
func Counting(watch func(replication int)) func(int, []*Study) {
	if watch == nil {
		return nil
	}
	return func(replication int, _ []*Study) { watch(replication) }
}

// together is lines that run the same replications.
type together struct {
	studies   []*Study
	selection *output.Selection // nil without one
	rates     []float64         // net rates of the last replication; of a line that is dropped of its last

	// A batch that was cut short is run to its end by all lines that began it.
	until int    // the first replication after it
	began []bool // by line
	ran   []bool // by line: it is run in the batch that is folded
}

// again takes the replications done before as they were taken then, and returns the net rates
// of the first line.
func (t *together) again() []float64 {
	done := 0
	for _, s := range t.studies {
		done = max(done, len(s.Shifts))
	}
	t.until = (done + sim.Batch - 1) / sim.Batch * sim.Batch
	for _, s := range t.studies {
		t.began = append(t.began, len(s.Shifts) == done)
	}
	first := make([]float64, done)
	for r := range first {
		for i, s := range t.studies {
			if r < len(s.Shifts) {
				t.rates[i] = s.Shifts[r].NetRate
			}
		}
		first[r] = t.rates[0]
		if t.selection != nil {
			t.selection.Add(t.rates)
		}
	}
	return first
}

// begins finds which lines are run in a batch, when its first replication is folded: of what is recorded
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

// runs reports whether a line runs a replication: if it is still in the selection.
func (t *together) runs(line, replication int) bool {
	return t.selection == nil || replication < t.until && t.began[line] || replication >= t.until && t.selection.Remains(line)
}

// worker returns a worker that runs one replication of every line that is still in the selection. The
// outcome of a line that is not has no time in it.
func (t *together) worker(seed uint64) (func(int, *replications) error, error) {
	lines := make([]ready, len(t.studies))
	for i, s := range t.studies {
		one, err := newReady(s.Line)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", s.Line.Name, err)
		}
		lines[i] = one
	}
	return func(number int, each *replications) error {
		if *each == nil {
			*each = make(replications, len(lines))
		}
		for i, line := range lines {
			r := &(*each)[i]
			r.Time = model.Time{}
			if !t.runs(i, number) {
				continue
			}
			if err := line.run(seed, number, r); err != nil {
				return fmt.Errorf("%s: %w", t.studies[i].Line.Name, err)
			}
			r.figure(t.studies[i].Line)
		}
		return nil
	}, nil
}
