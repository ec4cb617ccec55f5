package willrun

import (
	"reflect"
	"slices"

	"netrate/cmd/netrate/internal/page"
	"netrate/model"
	"netrate/scenarios"
)

// Coverage is how the jobs of a scenario fit its lines and those of its variants.
type Coverage struct {
	jobs    []*model.Product // each once, by its name
	columns []configuration
	reasons []reason // why a job cannot be run, and what is not known: each once
}

// configuration is a line as it stands in the scenario or in a variant.
type configuration struct {
	name  string
	line  string       // its name where there are several, else ""
	alike []string     // variants in which it runs all jobs in the same way
	fits  []*model.Fit // of each job; nil if it has no such job
}

// reason is a sentence, and the jobs and configurations that it is true of.
type reason struct {
	text   string
	refuse bool     // it is why they cannot be run; else it is a note on those that can
	where  [][]bool // by job and column
}

// Covered returns the coverage of a scenario. Variants in which a line runs everything as
// before have no column of their own.
func Covered(sc *scenarios.Scenario) *Coverage {
	c := &Coverage{}
	c.enter("", page.Attended(sc.Line, sc.Hall), sc.Products)
	for i := range sc.Variants {
		v := &sc.Variants[i]
		c.enter(v.Name, page.Attended(v.Line, v.Hall), v.Products)
	}
	for i := range c.columns { // jobs that only a later variant has
		for len(c.columns[i].fits) < len(c.jobs) {
			c.columns[i].fits = append(c.columns[i].fits, nil)
		}
	}
	c.explain()
	return c
}

// enter adds the lines of a variant, or of the base if its name is "".
func (c *Coverage) enter(variant string, lines []*model.Line, products []*model.Product) {
	table := model.Cover(lines, products)
	for k, l := range lines {
		x := configuration{name: scenarios.BaseName, fits: make([]*model.Fit, len(c.jobs))}
		if variant != "" {
			x.name = variant
		}
		if len(lines) > 1 {
			x.line = l.Name
			if x.name = l.Name; variant != "" {
				x.name = variant + ": " + l.Name
			}
		}
		for i, p := range products {
			at := c.row(p)
			for len(x.fits) <= at {
				x.fits = append(x.fits, nil)
			}
			x.fits[at] = table[i][k]
		}
		c.add(x, variant)
	}
}

// row returns the row of a job, a new one if it has none yet.
func (c *Coverage) row(p *model.Product) int {
	at := slices.IndexFunc(c.jobs, func(q *model.Product) bool { return q.Name == p.Name })
	if at < 0 {
		at = len(c.jobs)
		c.jobs = append(c.jobs, p)
	}
	return at
}

// add adds a column, unless there is one of the same line that is no different.
func (c *Coverage) add(x configuration, variant string) {
	for i := range c.columns {
		if old := &c.columns[i]; old.line == x.line && slices.EqualFunc(old.fits, x.fits, sameFit) {
			old.alike = append(old.alike, variant)
			return
		}
	}
	c.columns = append(c.columns, x)
}

// sameFit reports whether two fits say the same to those who plan.
func sameFit(a, b *model.Fit) bool {
	if a == nil || b == nil {
		return a == b
	}
	x, y := *a, *b
	x.Feeders, y.Feeders = nil, nil
	return reflect.DeepEqual(x, y)
}

// explain collects the reasons, in the order in which the table is read.
func (c *Coverage) explain() {
	for i := range c.jobs {
		for k := range c.columns {
			fit := c.columns[k].fits[i]
			if fit == nil {
				continue
			}
			for _, text := range fit.Reasons {
				c.because(text, true, i, k)
			}
			for _, text := range fit.Notes {
				c.because(text, false, i, k)
			}
		}
	}
	slices.SortStableFunc(c.reasons, func(a, b reason) int {
		switch {
		case a.refuse == b.refuse:
			return 0
		case a.refuse:
			return -1
		}
		return 1
	})
}

func (c *Coverage) because(text string, refuse bool, job, column int) {
	at := slices.IndexFunc(c.reasons, func(r reason) bool { return r.text == text && r.refuse == refuse })
	if at < 0 {
		at = len(c.reasons)
		r := reason{text: text, refuse: refuse, where: make([][]bool, len(c.jobs))}
		for i := range r.where {
			r.where[i] = make([]bool, len(c.columns))
		}
		c.reasons = append(c.reasons, r)
	}
	c.reasons[at].where[job][column] = true
}
