package present

import (
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// CoverageText returns what is said of coverage on a screen.
func CoverageText(a *study.CoverageAnswer) string {
	parts := []string{say.Wrapped(CoverageFinding(a), say.Prose()), brief(coverageGrid(a))}
	if likewise := coverageLikewise(a); likewise != "" {
		parts = append(parts, likewise)
	}
	for _, t := range coverageWhy(a) {
		parts = append(parts, brief(t))
	}
	return strings.Join(append(parts, brief(envelopesTable(a))+say.Wrapped(envelopesCaption, say.Prose())), "\n")
}

// coverageWhy returns the tables of reasons and of notes, if there are any.
func coverageWhy(a *study.CoverageAnswer) (tables []plots.Table) {
	for _, t := range []plots.Table{coverageReasons(a), coverageNotes(a)} {
		if len(t.Rows) > 0 {
			tables = append(tables, t)
		}
	}
	return tables
}

// coverageGrid returns the table of jobs and lines: how each line runs each job, or why not.
func coverageGrid(a *study.CoverageAnswer) plots.Table {
	t := plots.Table{
		Name: "Will it run", Caption: "How fast each line runs each job, envelopes an hour, and what limits it; the reasons why not stand below by their letters",
		Columns: []plots.Column{{Title: "Job", Brief: "Will it run?"}},
	}
	for _, line := range a.Lines {
		t.Columns = append(t.Columns, plots.Column{Title: line, Brief: line})
	}
	for i, job := range a.Jobs {
		row := []plots.Entry{page.Words(job.Name)}
		for k := range a.Lines {
			row = append(row, page.Words(coverageCell(a, i, k)))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// coverageCell returns what is said of a job on a line.
func coverageCell(a *study.CoverageAnswer, job, column int) string {
	fit := a.Jobs[job].On[column]
	switch {
	case fit == nil:
		return "–"
	case fit.Runs:
		return say.Exact(fit.Speed) + "/h: " + strings.Join(fit.LimitedBy, ", ")
	}
	var letters []string
	for _, n := range a.ReasonsOf(job, column) {
		letters = append(letters, letter(n))
	}
	return "cannot: " + strings.Join(letters, " ")
}

// letter returns the letter of the n-th of many, from 0: after z come aa, ab and so on.
func letter(n int) string {
	last := string(rune('a' + n%26))
	if n < 26 {
		return last
	}
	return letter(n/26-1) + last
}

// coverageLikewise names the variants that have no column of their own.
func coverageLikewise(a *study.CoverageAnswer) string {
	var b strings.Builder
	var of []string // lines of the base, in which the same variants are alike
	for i, x := range a.Columns {
		base := x.Line != "" && x.Name == x.Line
		switch {
		case len(x.Alike) == 0:
			continue
		case !base:
			b.WriteString(say.Wrapped(say.Capital("in "+say.List(x.Alike)+" all jobs run as in "+x.Name+"."), say.Prose()))
			continue
		}
		if of = append(of, x.Line); i+1 < len(a.Columns) && slices.Equal(a.Columns[i+1].Alike, x.Alike) && a.Columns[i+1].Name == a.Columns[i+1].Line {
			continue
		}
		b.WriteString(say.Wrapped(say.Capital("in "+say.List(x.Alike)+" all jobs run on "+say.List(of)+" as in the base."), say.Prose()))
		of = nil
	}
	return b.String()
}

// coverageReasons returns why jobs cannot be run, by their letters.
func coverageReasons(a *study.CoverageAnswer) plots.Table {
	t := plots.Table{
		Name: "Reasons", Caption: "Why jobs cannot be run",
		Columns: []plots.Column{{Title: "Letter", Brief: "Key"}, {Title: "What cannot run, and why", Brief: "what cannot run, and why"}},
	}
	for n := range a.Reasons {
		if r := &a.Reasons[n]; r.Refuse {
			t.Rows = append(t.Rows, []plots.Entry{page.Words(letter(n)), page.Words(coverageTrueOf(a, r) + ": " + r.Text)})
		}
	}
	return t
}

// coverageNotes returns what is to be known of jobs that can be run.
func coverageNotes(a *study.CoverageAnswer) plots.Table {
	t := plots.Table{
		Name: "Notes", Caption: "What is to be known of jobs that can be run",
		Columns: []plots.Column{{Title: "To know besides", Brief: "To know besides"}},
	}
	for n := range a.Reasons {
		if r := &a.Reasons[n]; !r.Refuse {
			t.Rows = append(t.Rows, []plots.Entry{page.Words(coverageTrueOf(a, r) + ": " + r.Text)})
		}
	}
	return t
}

// coverageTrueOf names the jobs and the lines that a reason is true of; lines only where it is
// not true of all that have the job.
func coverageTrueOf(a *study.CoverageAnswer, r *study.CoverageReason) string {
	var parts []string
	for _, p := range a.Places(r) {
		part := say.List(p.Jobs)
		if p.On != nil {
			part += " on " + say.List(p.On)
		}
		parts = append(parts, part)
	}
	return strings.Join(parts, "; ")
}
