package present

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
)

const (
	widestJob = 24 // characters of the names of jobs
	mostCells = 3  // lines beside each other
)

// CoverageText returns what is said of coverage on a screen.
func CoverageText(a *study.CoverageAnswer) string {
	return say.Wrapped(CoverageFinding(a), CoverageWidth) + "\n" + coverageGrid(a) + coverageLikewise(a) +
		coverageListed(a, true) + coverageListed(a, false) + envelopesText(a)
}

// coverageGrid returns the table of jobs and lines.
func coverageGrid(a *study.CoverageAnswer) string {
	var b strings.Builder
	names := 0
	for _, job := range a.Jobs {
		names = max(names, utf8.RuneCountInString(job.Name))
	}
	names = max(say.LeastName, min(names, widestJob))
	for from := 0; from < len(a.Columns); from += mostCells {
		columns := page.All(len(a.Columns))[from:min(from+mostCells, len(a.Columns))]
		wide := (CoverageWidth - names - 2*len(columns)) / len(columns)
		widths, rows := []int{names}, [][]string{{"Will it run?"}}
		for _, k := range columns {
			widths = append(widths, wide)
			rows[0] = append(rows[0], a.Lines[k])
		}
		for i, job := range a.Jobs {
			row := []string{job.Name}
			for _, k := range columns {
				row = append(row, coverageCell(a, i, k))
			}
			rows = append(rows, row)
		}
		b.WriteString(say.Grid(rows, widths) + "\n")
	}
	return b.String()
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
	for _, x := range a.Columns {
		if len(x.Alike) > 0 {
			b.WriteString(say.Wrapped(say.Capital("in "+say.List(x.Alike)+" all jobs run as in "+x.Name+"."), CoverageWidth))
		}
	}
	if b.Len() > 0 {
		b.WriteString("\n")
	}
	return b.String()
}

// coverageListed returns the reasons, or the notes, a paragraph each.
func coverageListed(a *study.CoverageAnswer, refuse bool) string {
	var b strings.Builder
	for n := range a.Reasons {
		r := &a.Reasons[n]
		switch text := coverageTrueOf(a, r) + ": " + r.Text; {
		case r.Refuse != refuse:
		case refuse:
			b.WriteString(say.Hanging(fmt.Sprintf("%-3s", letter(n)), text, CoverageWidth) + "\n")
		default:
			b.WriteString(say.Hanging("–  ", text, CoverageWidth) + "\n")
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
