package study

import (
	"reflect"
	"slices"

	"netrate/model/setup"
)

// Coverage asks which jobs run on which lines, and how. Nothing is simulated for it.
type Coverage struct {
	// Alternatives are the lines as they stand, then as each variant has them. Those of one
	// name in two alternatives are the same line, changed.
	Alternatives []Alternative
}

// CoverageAnswer is how the jobs of some alternatives fit their lines.
type CoverageAnswer struct {
	Lines     []string           `json:"lines"` // the names of the columns
	Jobs      []CoverageJob      `json:"jobs"`
	Envelopes []CoverageEnvelope `json:"envelopes"`

	Columns []CoverageColumn `json:"columns"`
	Reasons []CoverageReason `json:"reasons,omitempty"` // why a job cannot be run, then what is not known: each once
}

// CoverageJob is a job, once by its name.
type CoverageJob struct {
	Name string        `json:"name"`
	Fits []CoverageFit `json:"fits"` // on each line whose alternative has the job

	Product *setup.Product `json:"-"`
	On      []*setup.Fit   `json:"-"` // on each line; nil where its alternative has no such job
}

// CoverageFit is how a job fits a line.
type CoverageFit struct {
	Line      string            `json:"line"`
	Alike     []string          `json:"alike,omitempty"` // alternatives in which the line runs all jobs in the same way
	Runs      bool              `json:"runs"`
	Speed     Number            `json:"speed_per_h"`
	LimitedBy []string          `json:"limited_by,omitempty"`
	Feeders   map[string]string `json:"feeders,omitempty"` // of each insert
	Reasons   []string          `json:"reasons,omitempty"`
	Notes     []string          `json:"notes,omitempty"`
}

// CoverageColumn is a line as it stands in one alternative or in several.
type CoverageColumn struct {
	Name  string   `json:"name"`            // of the alternative, of the line, or of both
	Line  string   `json:"line,omitempty"`  // its name where an alternative has several, else ""
	Alike []string `json:"alike,omitempty"` // further alternatives in which it runs all jobs in the same way

	Fits []*setup.Fit `json:"-"` // of each job; nil if its alternative has no such job
}

// CoverageReason is a sentence, and where it is true.
type CoverageReason struct {
	Text   string   `json:"text"`
	Refuse bool     `json:"refuses"` // it is why jobs cannot be run; else it is a note on those that can
	Where  [][]bool `json:"where"`   // by job and column
}

// Ask finds which jobs run where. Alternatives in which a line runs everything as before have
// no column of their own.
func (q Coverage) Ask() *CoverageAnswer {
	c := &covering{}
	for i := range q.Alternatives {
		c.enter(&q.Alternatives[i], i == 0)
	}
	for i := range c.columns { // jobs that only a later alternative has
		for len(c.columns[i].Fits) < len(c.jobs) {
			c.columns[i].Fits = append(c.columns[i].Fits, nil)
		}
	}
	return Covered(c.jobs, c.columns)
}

// covering is a coverage under way.
type covering struct {
	jobs    []*setup.Product // each once, by its name
	columns []CoverageColumn
}

// enter adds the lines of an alternative.
func (c *covering) enter(a *Alternative, first bool) {
	lines := a.Lines()
	table := setup.Cover(lines, a.Products)
	for k, l := range lines {
		x := CoverageColumn{Name: a.Name, Fits: make([]*setup.Fit, len(c.jobs))}
		if len(lines) > 1 {
			x.Line = l.Name
			if x.Name = l.Name; !first {
				x.Name = a.Name + ": " + l.Name
			}
		}
		for i, p := range a.Products {
			at := c.row(p)
			for len(x.Fits) <= at {
				x.Fits = append(x.Fits, nil)
			}
			x.Fits[at] = table[i][k]
		}
		c.add(x, a.Name)
	}
}

// row returns the row of a job, a new one if it has none yet.
func (c *covering) row(p *setup.Product) int {
	at := slices.IndexFunc(c.jobs, func(q *setup.Product) bool { return q.Name == p.Name })
	if at < 0 {
		at = len(c.jobs)
		c.jobs = append(c.jobs, p)
	}
	return at
}

// add adds a column, unless there is one of the same line that is no different.
func (c *covering) add(x CoverageColumn, alternative string) {
	for i := range c.columns {
		if old := &c.columns[i]; old.Line == x.Line && slices.EqualFunc(old.Fits, x.Fits, sameFit) {
			old.Alike = append(old.Alike, alternative)
			return
		}
	}
	c.columns = append(c.columns, x)
}

// sameFit reports whether two fits say the same to those who plan.
func sameFit(a, b *setup.Fit) bool {
	if a == nil || b == nil {
		return a == b
	}
	x, y := *a, *b
	x.Feeders, y.Feeders = nil, nil
	return reflect.DeepEqual(x, y)
}

// Covered puts together how jobs fit lines: each column has a fit for each job.
func Covered(jobs []*setup.Product, columns []CoverageColumn) *CoverageAnswer {
	a := &CoverageAnswer{Columns: columns, Envelopes: coverageEnvelopes(jobs)}
	for _, x := range columns {
		a.Lines = append(a.Lines, x.Name)
	}
	for i, p := range jobs {
		job := CoverageJob{Name: p.Name, Product: p}
		for _, x := range columns {
			f := x.Fits[i]
			job.On = append(job.On, f)
			if f != nil {
				job.Fits = append(job.Fits, CoverageFit{x.Name, x.Alike, f.Runs, Number(f.Speed), f.LimitedBy, feedersOf(f), f.Reasons, f.Notes})
			}
		}
		a.Jobs = append(a.Jobs, job)
	}
	a.explain()
	return a
}

func feedersOf(f *setup.Fit) map[string]string {
	feeders := map[string]string{}
	for _, x := range f.Feeders {
		feeders[x.Insert] = x.Feeder
	}
	return feeders
}

// CanRun reports whether any line can run a job.
func (j *CoverageJob) CanRun() bool {
	return slices.ContainsFunc(j.On, func(f *setup.Fit) bool { return f != nil && f.Runs })
}

// CannotRun returns the names of the jobs that no line can run.
func (a *CoverageAnswer) CannotRun() []string {
	var not []string
	for i := range a.Jobs {
		if !a.Jobs[i].CanRun() {
			not = append(not, a.Jobs[i].Name)
		}
	}
	return not
}
