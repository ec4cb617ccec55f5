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

// Season is the work of some weeks on one line: a number of sets of each product in each week.
//
// The work of a week may begin when the week does, job after job, and what is left of
// earlier weeks comes first. Between jobs the line is changed over. A job is finished when
// its last remake is closed. The next one begins then or, where remakes are made by hand beside the
// line, when the line is free: the remakes of jobs before come first at the one bench, which works in
// the working time of the calendar. The line starts each job with full hoppers, at a level, or with what
// the job before has left of the same pieces. Nights, breaks and the end of a shift leave all as it
// is: hoppers, the track, a stop and who is at it.
type Season struct {
	Line     *model.Line
	Calendar *Calendar
	Products []*setup.Product
	Weeks    []Week
	Change   *setup.Changeover
	Best     bool         // the jobs of a week in the order of least changeover, rather than as given
	Closing  model.Job    // how remakes are closed; its Sets do not count
	Begins   model.Begins // how each job does
	Staff    []Staffed    // who is there in some shifts instead of the crew, one at least; of several that speak of a shift the last holds
	Draws    bool         // whether what is uncertain is drawn anew in each replication, for all of its weeks; else it is at its means

	// Which piece of [Used] those of a station are, from 0, -1 for none; nil if it is not kept what weeks use.
	Priced func(model.Station) int
}

// Week is the work of one week: the sets of each product, in the order of the products; 0
// for none.
type Week struct {
	Name string
	Sets []int64
}

// SeasonStudy is what the replications of a season came to. Times are working time: breaks
// and nights are not in it.
type SeasonStudy struct {
	Season *Season
	Ending sim.Ending
	Hours  float64     // working time of a week
	Jobs   []SeasonJob // in the order in which they are done
	Weeks  []SeasonWeek
	Total  model.Outcome // of all jobs and replications
	Done   int           // replications
}

// SeasonJob is one job of a season.
type SeasonJob struct {
	Week, Product int
	Sets          int64
	Change        sim.Sample // hours of changeover before it, from when that begins
	Waits         sim.Sample // hours for which that waits, before it begins, while nobody is there who may do any piece of it; nil unless people are stated
	Hours         sim.Sample // from its first set to its last remake
	Begun         sim.Sample // hours of working time from the start of the season until its changeover begins
	Free          sim.Sample // and until the line is free for the next; nil if that is when it is finished
	Finished      sim.Sample // and until it is finished, without overtime
	Stood         sim.Sample // hours, of Hours, for which the line stands while its remakes are made by hand; nil if it stands for none
	Lacks         float64    // sets of it of which no envelope is delivered, good or not, in all replications
	Late          float64    // likewise, sets of it that are not done when its week ends, without overtime
}

// LineFree returns when the line was free for the next job.
func (j *SeasonJob) LineFree() sim.Sample {
	if j.Free == nil {
		return j.Finished
	}
	return j.Free
}

// Running returns its hours without those for which the line stood.
func (j *SeasonJob) Running() sim.Sample {
	if j.Stood == nil {
		return j.Hours
	}
	own := make(sim.Sample, len(j.Hours))
	for r, hours := range j.Hours {
		own[r] = hours - j.Stood[r]
	}
	return own
}

// SeasonWeek is how one week ended.
type SeasonWeek struct {
	Work     sim.Sample // hours that the work of the week takes on the line
	Backlog  sim.Sample // sets not finished at its end, of this week and earlier ones, without overtime
	Overtime sim.Sample // hours beyond the working time if the work of every week is finished in it
	Used     []Used     // by its jobs, also where they are done later; nil if it is not kept
}

// InTime returns the share of the replications in which the work of a week, and all before
// it, was finished when the week ended.
func (w *SeasonWeek) InTime() float64 {
	n := 0
	for _, b := range w.Backlog {
		if b == 0 {
			n++
		}
	}
	return float64(n) / float64(len(w.Backlog))
}

// seasonPlan is the jobs of a season in order, and the lines that do them.
type seasonPlan struct {
	*Season
	setups []*setup.Setup   // for each product that is ever made; nil for others
	items  [][][]setup.Item // of the changeover from each product, one row down, or nothing, to each
	stays  [][][]int        // likewise, which pieces stay in their hoppers; nil where jobs begin with full ones
	jobs   []SeasonJob
	hours  sim.Seconds // working time of a week
	varies bool        // something is uncertain, and drawn
}

// plan orders the jobs of the season, or says everything that is wrong with it.
func (s *Season) plan() (*seasonPlan, error) {
	p := &seasonPlan{Season: s, setups: make([]*setup.Setup, len(s.Products))}
	errs := append(s.Calendar.Check(), s.checkStaff()...)
	if len(s.Weeks) == 0 {
		errs = append(errs, errors.New("the season has no week"))
	}
	for w, week := range s.Weeks {
		if len(week.Sets) != len(s.Products) {
			errs = append(errs, fmt.Errorf("week %d has sets of %d products, want %d", w+1, len(week.Sets), len(s.Products)))
			continue
		}
		for i, sets := range week.Sets {
			if sets < 0 {
				errs = append(errs, fmt.Errorf("week %d has %d sets of %s", w+1, sets, s.Products[i].Name))
			}
			if sets > 0 && p.setups[i] == nil {
				setup, reasons := s.setUp(s.Products[i])
				errs = append(errs, reasons...)
				p.setups[i] = setup
				p.varies = p.varies || s.Draws && setup.Line != nil && len(setup.Line.UncertainInputs) > 0
			}
		}
	}
	if len(errs) > 0 {
		return nil, errors.Join(errs...)
	}
	p.hours = s.Calendar.Working()
	p.changeovers()
	p.order()
	return p, errors.Join(s.never(p)...)
}

// drawn returns the line set up for a product with what is uncertain as a draw has it, or at its means.
func (p *seasonPlan) drawn(made *setup.Setup, seed uint64, draw int) *model.Line {
	line := made.Line.AtMeans()
	if p.varies {
		line, _ = made.Line.Drawn(seed, draw)
	}
	own := *line
	// Jobs of one week have random streams of their own: that of two products is not the same.
	own.Random = own.Name
	return &own
}

// Uncertain returns what is uncertain of the line as it is set up for the products that are made, each
// number as often as there are products that have it.
func (s *Season) Uncertain() (all []model.UncertainInput) {
	for i, product := range s.Products {
		if !slices.ContainsFunc(s.Weeks, func(w Week) bool { return i < len(w.Sets) && w.Sets[i] > 0 }) {
			continue
		}
		if made, errs := s.setUp(product); len(errs) == 0 {
			all = append(all, made.Line.UncertainInputs...)
		}
	}
	return all
}

// impossible returns the error of a draw of which no line can be made.
func (p *seasonPlan) impossible(draw int, err error) error {
	if err == nil || !p.varies {
		return err
	}
	return &model.ImpossibleDraw{Line: cmp.Or(p.Line.Name, "the line"), Draw: draw + 1, Why: err}
}

// Unfit is the error of a season with a product that its line cannot make.
type Unfit struct{ Product, Reason string }

// Error returns the reason.
func (u *Unfit) Error() string { return u.Product + ": " + u.Reason }

// setUp returns the line set up for a product, as it works for a job.
func (s *Season) setUp(product *setup.Product) (*setup.Setup, []error) {
	line, fit := setup.Fitted(s.Line, product)
	setup := &setup.Setup{Product: product, Line: line, Fit: fit}
	if !fit.Runs {
		var errs []error
		for _, reason := range fit.Reasons {
			errs = append(errs, &Unfit{product.Name, reason})
		}
		return setup, errs
	}
	line.Name, line.Shift, line.Job, line.Begins = product.Name, 0, s.Closing, s.Begins
	if !line.Personalised() {
		line.Job = model.Job{} // nothing is made again
	}
	line.Job.Sets = 1 // how many it is is said for each week
	return setup, line.Check()
}

// RunSeason runs replications of a season until the work of all its weeks is known as
// precisely as the plan asks, or its limits are reached, or ctx is done. After each replication,
// in order, watch is called, if there is one, with the study so far, which goes on to grow: see
// [SeasonStudy.Kept].
func RunSeason(ctx context.Context, s *Season, plan sim.Plan, watch func(replication int, soFar *SeasonStudy)) (*SeasonStudy, error) {
	p, err := s.plan()
	if err != nil {
		return nil, err
	}
	study := p.study()
	worker := func() (func(int, *seasonRun) error, error) {
		if s.byShift() {
			r := p.staffedRunner(plan.Seed)
			return r.run, r.make(0)
		}
		r := p.runner(plan.Seed)
		return r.run, r.make(0)
	}
	fold := func(replication int, r *seasonRun) float64 {
		work := study.fold(p, r)
		if watch != nil {
			watch(replication, study)
		}
		return work
	}
	if _, study.Ending, err = sim.Replicate(ctx, plan, worker, fold); err != nil {
		return nil, err
	}
	return study, nil
}

// Work returns the hours that the work of all weeks took, season by season.
func (s *SeasonStudy) Work() sim.Sample {
	all := make(sim.Sample, s.Done)
	for w := range s.Weeks {
		for k, hours := range s.Weeks[w].Work {
			all[k] += hours
		}
	}
	return all
}

// Kept returns a copy of a study that goes on to grow, as if it had been cancelled here.
func (s *SeasonStudy) Kept() *SeasonStudy {
	kept := *s
	kept.Ending = sim.Cancelled
	kept.Jobs, kept.Weeks = slices.Clone(s.Jobs), slices.Clone(s.Weeks)
	return &kept
}

// study returns the study of no replication.
func (p *seasonPlan) study() *SeasonStudy {
	return &SeasonStudy{
		Season: p.Season, Hours: float64(p.hours) / 3600,
		Jobs: append([]SeasonJob(nil), p.jobs...), Weeks: make([]SeasonWeek, len(p.Weeks)),
	}
}
