package seasons

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"

	"netrate/model"
	"netrate/model/setup"
	"netrate/sim"
)

// Together is some weeks of work on several lines that share a crew: which line does which job, and
// in which order. Its times are working time from the start, the same for all lines; what is not
// worked by one of them is in Down.
//
// A line starts each job with full hoppers, at a level, or with what the job before has left of the same
// pieces. The crew changes the lines
// over: see model.GroupAtJobs.
type Together struct {
	Lines    []*model.Line // each with a name of its own, unless there is one
	Crew     model.Crew    // of all of them; their own do not count
	Products []*setup.Product
	Change   *setup.Changeover // nil if there is nothing to do
	Closing  model.Job         // how remakes are closed; its Sets do not count
	Begins   model.Begins      // how each job does
	Staff    []model.Staffing  // how many operators are there; the crew until the first
	Down     [][]model.Stretch // of each line; nil if none is ever down
	Jobs     []Job
	Order    [][]int     // of each line, the jobs that it does, one after the other: each job once in all
	InHand   []int       // the product of the job that each line is at, -1 for none; it needs no changeover; nil for none
	Bench    sim.Seconds // for so long the bench beside the lines is at remakes that lie there at the start
	Draws    bool        // whether what is uncertain is drawn anew in each replication; else it is at its means

	// Which piece of [Used] those of a station are, as in a Season; nil if it is not kept what is used.
	Priced func(model.Station) int

	endsWith int  // the line, from 1, with whose last job all ends: others need not be done; 0 for none
	cut      bool // some jobs are not done
}

// Job is one job of several.
type Job struct {
	Product   int
	Sets      int64
	NotBefore sim.Seconds // its changeover does not begin before
	AtBench   sim.Seconds // when the last of its remakes is made that lie at the bench at the start; 0 for none
}

// TogetherStudy is what the replications came to. Its times are in seconds of working time from the start:
// to the last bit, so that what ends with a shift is not taken to end in the next.
type TogetherStudy struct {
	Together *Together
	Ending   sim.Ending
	Done     int
	Jobs     []TogetherJob
	Finished sim.Sample // when the last job was
	ByHand   sim.Sample // work at remakes that are made by hand, those that lay at the bench too
	Free     sim.Sample // when the last line was free

	Used []Used // nil if it is not kept what is used
}

// TogetherJob is when a job was done, replication by replication.
type TogetherJob struct {
	Begun    sim.Sample // its changeover
	First    sim.Sample // its first set
	Free     sim.Sample // the line is free for the next; when the job is finished unless remakes are made beside the line
	Finished sim.Sample // its last remake
	Lacks    float64    // sets of it of which no envelope is delivered, good or not, in all replications
	Barred   Barred     // when its changeover waits, whatever the crew has to do
}

// Check returns everything that is wrong with the work.
func (t *Together) Check() error {
	_, err := t.setUp()
	return err
}

// togetherPlan is the work with its lines set up.
type togetherPlan struct {
	*Together
	setups [][]*setup.Setup // of each line, for each product; nil where it makes none
	number [][]int          // of each line and product, which set-up of the line it is
	items  [][][]setup.Item // of each line, before each of its jobs
	at     [][][]string     // the stations of those pieces that people do; nil where all may do all
	stays  [][][]int        // of each line, for each of its jobs: what stays in the hoppers from the one before; nil for nothing
	varies bool             // something is uncertain, and drawn
}

// setUp sets all lines up for what they make, or says everything that is wrong.
func (t *Together) setUp() (*togetherPlan, error) {
	if err := t.ordered(); err != nil {
		return nil, err
	}
	p := &togetherPlan{Together: t}
	var errs []error
	for i, line := range t.Lines {
		own := line.AttendedBy(t.Crew)
		setups, number := make([]*setup.Setup, len(t.Products)), make([]int, len(t.Products))
		before, made := t.inHand(i), 0
		var items [][]setup.Item
		var stays [][]int
		var at [][]string
		unfit := make([]bool, len(t.Products))
		for _, j := range t.Order[i] {
			k := t.Jobs[j].Product
			if unfit[k] {
				continue
			}
			if setups[k] == nil {
				s, reasons := (&Season{Line: own, Closing: t.Closing, Begins: t.Begins}).setUp(t.Products[k])
				if errs = append(errs, reasons...); len(reasons) > 0 {
					unfit[k] = true
					continue
				}
				t.name(s.Line, line)
				p.varies = p.varies || t.Draws && len(s.Line.UncertainInputs) > 0
				setups[k], number[k], made = s, made, made+1
			}
			var work []setup.Item
			if len(items) > 0 || t.InHand == nil || t.InHand[i] != k {
				work = t.items(before, setups[k])
			}
			var stay []int
			if len(items) > 0 && setups[k].Line.Begins.Kept {
				stay = setup.Stays(before, setups[k])
			}
			items, stays, before = append(items, work), append(stays, stay), setups[k]
			at = append(at, t.at(work))
		}
		p.setups, p.number = append(p.setups, setups), append(p.number, number)
		p.items, p.stays, p.at = append(p.items, items), append(p.stays, stays), append(p.at, at)
	}
	return p, errors.Join(errs...)
}

// ordered returns an error unless each job is done once, of products that there are.
func (t *Together) ordered() error {
	if len(t.Order) != len(t.Lines) || t.InHand != nil && len(t.InHand) != len(t.Lines) {
		return fmt.Errorf("there are %d lines, and it is said of %d what they do", len(t.Lines), len(t.Order))
	}
	done := make([]int, len(t.Jobs))
	for _, j := range slices.Concat(t.Order...) {
		if j < 0 || j >= len(t.Jobs) {
			return fmt.Errorf("there is no job %d", j)
		}
		done[j]++
	}
	for j, n := range done {
		if k := t.Jobs[j].Product; n != 1 && (n != 0 || !t.cut) || k < 0 || k >= len(t.Products) || t.Jobs[j].Sets < 1 {
			return fmt.Errorf("job %d, %d sets of product %d, is done %d times, want once", j, t.Jobs[j].Sets, k, n)
		}
	}
	return nil
}

// inHand returns what a line is set up for by the job that it is at; nil for nothing.
func (t *Together) inHand(line int) *setup.Setup {
	if t.InHand == nil || t.InHand[line] < 0 {
		return nil
	}
	made, fit := setup.Fitted(t.Lines[line], t.Products[t.InHand[line]])
	if !fit.Runs {
		return nil
	}
	return &setup.Setup{Product: t.Products[t.InHand[line]], Line: made, Fit: fit}
}

// items returns the work of a changeover, what takes longest first, as a crew takes it.
func (t *Together) items(from, to *setup.Setup) []setup.Item {
	if t.Change == nil {
		return nil
	}
	items := t.Change.Items(from, to)
	setup.LongestFirst(items)
	return items
}

// at returns the stations that the pieces of a changeover are of which people do; nil where all may do all.
func (t *Together) at(items []setup.Item) []string {
	if t.Crew.People == nil {
		return nil
	}
	return stationsOf(items)
}

// stationsOf returns the stations that the pieces of a changeover are of which people do, "" for the line as a
// whole.
func stationsOf(items []setup.Item) []string {
	all := []string{}
	for _, i := range items {
		if !i.Automatic {
			all = append(all, i.Station)
		}
	}
	return all
}

// name gives a line set up for a product the names of its random streams: of several lines each has
// its own, and so have unknowns of their stations.
func (t *Together) name(made, line *model.Line) {
	product := made.Name
	if made.Random = product; len(t.Lines) == 1 {
		return
	}
	made.Random = line.Name + ", " + product
	made.UncertainInputs = slices.Clone(made.UncertainInputs)
	for i := range made.UncertainInputs {
		if d := &made.UncertainInputs[i]; !model.OfCrew(d.Station, d.Name) {
			d.Line = line.Name
		}
	}
}

// RunTogether runs replications until it is known when the last job is finished as precisely as the
// plan asks, or its limits are reached, or ctx is done. After each, in order, watch is called, if
// there is one, with the study so far.
func RunTogether(ctx context.Context, t *Together, plan sim.Plan, watch func(soFar *TogetherStudy)) (*TogetherStudy, error) {
	p, err := t.setUp()
	if err != nil {
		return nil, err
	}
	study := &TogetherStudy{Together: t, Jobs: make([]TogetherJob, len(t.Jobs))}
	for i, order := range t.Order {
		for k, j := range order {
			study.Jobs[j].Barred = p.barred(i, k)
		}
	}
	fold := func(_ int, work *togetherWork) float64 {
		study.fold(work)
		if watch != nil {
			watch(study)
		}
		return study.Finished[study.Done-1]
	}
	if _, study.Ending, err = sim.Replicate(ctx, plan, p.worker(plan.Seed), fold); err != nil {
		return nil, err
	}
	return study, nil
}

// fold adds a replication.
func (s *TogetherStudy) fold(work *togetherWork) {
	s.Done++
	last, free, made := 0.0, 0.0, int64(0)
	for i, order := range s.Together.Order {
		for k, j := range order {
			r, x := &work.lines[i][k], &s.Jobs[j]
			x.Begun = append(x.Begun, float64(r.Begun))
			x.First = append(x.First, float64(r.First))
			x.Free = append(x.Free, float64(r.Free))
			x.Finished = append(x.Finished, float64(r.Finished))
			x.Lacks += lacks(s.Together.Jobs[j].Sets, &r.Outcome)
			last, free = max(last, float64(r.Finished)), max(free, float64(r.Free))
			made += r.Outcome.Job.ByHand
		}
	}
	hand := float64(s.Together.Bench)
	if made > 0 {
		hand += float64(float64(made) * 3600 / s.Together.Closing.PerHour)
	}
	s.Finished, s.Free, s.ByHand = append(s.Finished, last), append(s.Free, free), append(s.ByHand, hand)
	if s.Together.Priced != nil {
		s.Used = append(s.Used, work.used.kept())
	}
}

// Kept returns a copy of a study that goes on to grow, as if it had been cancelled here.
func (s *TogetherStudy) Kept() *TogetherStudy {
	kept := *s
	kept.Ending = sim.Cancelled
	kept.Jobs = slices.Clone(s.Jobs)
	return &kept
}

// togetherRunner runs replications, one after the other.
type togetherRunner struct {
	plan *togetherPlan
	seed uint64
	sim  *model.GroupAtJobsSim
}

// worker returns what makes a worker that runs replications.
func (p *togetherPlan) worker(seed uint64) func() (func(int, *togetherWork) error, error) {
	return func() (func(int, *togetherWork) error, error) {
		r := &togetherRunner{plan: p, seed: seed}
		return r.run, r.make(0)
	}
}

// make makes the lines ready, with what is uncertain as a draw has it.
func (r *togetherRunner) make(draw int) error {
	p := r.plan
	g := &model.GroupAtJobs{Crew: p.Crew, Staff: p.Staff, Down: p.Down, BenchBusy: p.Bench, EndsWith: p.endsWith, Setups: make([][]*model.Line, len(p.Lines))}
	for i, line := range p.Lines {
		g.Names = append(g.Names, cmp.Or(line.Name, "the line"))
		g.Setups[i] = make([]*model.Line, 0, len(p.Products))
		for _, j := range p.Order[i] {
			k := p.Jobs[j].Product
			if p.number[i][k] < len(g.Setups[i]) {
				continue
			}
			made := p.setups[i][k].Line
			if p.varies {
				made, _ = made.Drawn(r.seed, draw)
			} else {
				made = made.AtMeans()
			}
			g.Setups[i], g.Crew = append(g.Setups[i], made), made.Crew
			g.Crew.People = p.Crew.People // of all lines and stations
		}
	}
	var err error
	if r.sim, err = model.NewGroupAtJobs(g); err != nil && p.varies {
		return &model.ImpossibleDraw{Line: impossible(g), Draw: draw + 1, Why: err}
	}
	return err
}

// impossible returns the name of the first line that cannot be.
func impossible(g *model.GroupAtJobs) string {
	i := slices.IndexFunc(g.Setups, func(setups []*model.Line) bool {
		return slices.ContainsFunc(setups, func(l *model.Line) bool { return len(l.Check()) > 0 })
	})
	return g.Names[max(i, 0)]
}

// run runs one replication.
func (r *togetherRunner) run(replication int, work *togetherWork) error {
	p := r.plan
	if p.varies {
		if err := r.make(replication); err != nil {
			return err
		}
	}
	if work.lines == nil {
		work.lines = make([][]model.JobRun, len(p.Lines))
		for i := range p.Lines {
			work.lines[i] = make([]model.JobRun, len(p.Order[i]))
		}
	}
	for i, order := range p.Order {
		for k, j := range order {
			x, job := &work.lines[i][k], &p.Jobs[j]
			x.Setup, x.Sets, x.NotBefore, x.AtBench = p.number[i][job.Product], job.Sets, job.NotBefore, job.AtBench
			x.Replication = replication*len(p.Jobs) + j
			x.Change, x.ChangeAt, x.Automatic, x.Stays = x.Change[:0], p.at[i][k], 0, p.stays[i][k]
			for _, item := range p.items[i][k] {
				if time := item.Drawn(r.seed, x.Replication); item.Automatic {
					x.Automatic = max(x.Automatic, time)
				} else {
					x.Change = append(x.Change, time)
				}
			}
		}
	}
	if err := r.sim.Run(r.seed, work.lines); err != nil || p.Priced == nil {
		return err
	}
	work.used.clear()
	for i, order := range p.Order {
		for k, j := range order {
			work.used.add(p.setups[i][p.Jobs[j].Product].Line, &work.lines[i][k].Outcome, p.Priced)
		}
	}
	return nil
}
