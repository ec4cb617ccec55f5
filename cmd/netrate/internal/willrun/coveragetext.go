package willrun

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
)

const (
	widestJob = 24 // characters of the names of jobs
	mostCells = 3  // configurations beside each other
)

// text returns the table of jobs and lines, and below it what is to be said of it.
func (c *Coverage) text() string {
	var b strings.Builder
	names := 0
	for _, p := range c.jobs {
		names = max(names, utf8.RuneCountInString(p.Name))
	}
	names = max(say.LeastName, min(names, widestJob))
	for from := 0; from < len(c.columns); from += mostCells {
		columns := page.All(len(c.columns))[from:min(from+mostCells, len(c.columns))]
		wide := (rulesWidth - names - 2*len(columns)) / len(columns)
		widths, rows := []int{names}, [][]string{{"Will it run?"}}
		for _, k := range columns {
			widths = append(widths, wide)
			rows[0] = append(rows[0], c.columns[k].name)
		}
		for i, p := range c.jobs {
			row := []string{p.Name}
			for _, k := range columns {
				row = append(row, c.cell(i, k))
			}
			rows = append(rows, row)
		}
		b.WriteString(say.Grid(rows, widths) + "\n")
	}
	return b.String() + c.likewise() + c.listed(true) + c.listed(false)
}

// cell returns what is said of a job on a line.
func (c *Coverage) cell(job, column int) string {
	fit := c.columns[column].fits[job]
	switch {
	case fit == nil:
		return "–"
	case fit.Runs:
		return say.Exact(fit.Speed) + "/h: " + strings.Join(fit.LimitedBy, ", ")
	}
	return "cannot: " + strings.Join(c.letters(job, column), " ")
}

// letters returns the letters of the reasons why a line cannot run a job.
func (c *Coverage) letters(job, column int) []string {
	var letters []string
	for n, r := range c.reasons {
		if r.refuse && r.where[job][column] {
			letters = append(letters, letter(n))
		}
	}
	return letters
}

// letter returns the letter of the n-th of many, from 0: after z come aa, ab and so on.
func letter(n int) string {
	last := string(rune('a' + n%26))
	if n < 26 {
		return last
	}
	return letter(n/26-1) + last
}

// likewise names the variants that have no column of their own.
func (c *Coverage) likewise() string {
	var b strings.Builder
	for _, x := range c.columns {
		if len(x.alike) > 0 {
			b.WriteString(say.Wrapped(say.Capital("in "+say.List(x.alike)+" all jobs run as in "+x.name+"."), rulesWidth))
		}
	}
	if b.Len() > 0 {
		b.WriteString("\n")
	}
	return b.String()
}

// listed returns the reasons, or the notes, a paragraph each.
func (c *Coverage) listed(refuse bool) string {
	var b strings.Builder
	for n, r := range c.reasons {
		switch {
		case r.refuse != refuse:
		case refuse:
			b.WriteString(note(fmt.Sprintf("%-3s", letter(n)), c.trueOf(r)+": "+r.text) + "\n")
		default:
			b.WriteString(note("–  ", c.trueOf(r)+": "+r.text) + "\n")
		}
	}
	switch {
	case b.Len() == 0:
		return ""
	case refuse:
		return "Why not\n" + b.String() + "\n"
	}
	return "To know besides\n" + b.String() + "\n"
}

// trueOf names the jobs and the lines that a reason is true of; lines only where it is not
// true of all that have the job.
func (c *Coverage) trueOf(r reason) string {
	var lines []string            // in order
	jobs := map[string][]string{} // by where they have that reason
	for i, p := range c.jobs {
		if slices.Contains(r.where[i], true) {
			on := c.linesOf(r, i)
			if jobs[on] == nil {
				lines = append(lines, on)
			}
			jobs[on] = append(jobs[on], p.Name)
		}
	}
	var parts []string
	for _, on := range lines {
		parts = append(parts, say.List(jobs[on])+on)
	}
	return strings.Join(parts, "; ")
}

// linesOf returns where a reason is true of a job.
func (c *Coverage) linesOf(r reason, job int) string {
	var on []string
	everywhere := true
	for k, x := range c.columns {
		if r.where[job][k] {
			on = append(on, x.name)
		} else if x.fits[job] != nil {
			everywhere = false
		}
	}
	if everywhere {
		return ""
	}
	return " on " + say.List(on)
}

// canRun reports whether any line can run the job.
func (c *Coverage) canRun(job int) bool {
	return slices.ContainsFunc(c.columns, func(x configuration) bool { return runs(x.fits[job]) })
}

func runs(f *model.Fit) bool { return f != nil && f.Runs }

// finding returns in a sentence how many jobs can be run.
func (c *Coverage) finding() string {
	var not []string
	for i, p := range c.jobs {
		if !c.canRun(i) {
			not = append(not, p.Name)
		}
	}
	where := "the line"
	if len(c.columns) > 1 {
		where = "one line or another"
	}
	switch len(not) {
	case 0:
		return fmt.Sprintf("All %s can be run on %s.", say.Plural(len(c.jobs), "job"), where)
	case len(c.jobs):
		return "None of the jobs can be run."
	}
	return fmt.Sprintf("%d of %s can be run on %s. No line runs %s.", len(c.jobs)-len(not), say.Plural(len(c.jobs), "job"), where, say.List(not))
}
