package present

import (
	"fmt"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/setup"
	"netrate/model/study"
	"netrate/plots"
)

// mostCovered is how many lines have room in the picture.
const mostCovered = 8

// CoverageFinding returns in a sentence how many jobs can be run.
func CoverageFinding(a *study.CoverageAnswer) string {
	where := "the line"
	if len(a.Columns) > 1 {
		where = "one line or another"
	}
	all, not := say.Plural(len(a.Jobs), "job"), a.CannotRun()
	switch one := len(a.Jobs) == 1; {
	case len(not) == 0 && one:
		return fmt.Sprintf("The job can be run on %s.", where)
	case len(not) == 0:
		return fmt.Sprintf("All %s can be run on %s.", all, where)
	case one:
		return "The job cannot be run."
	case len(not) == len(a.Jobs):
		return "None of the jobs can be run."
	}
	return fmt.Sprintf("%d of %s can be run on %s. No line runs %s.", len(a.Jobs)-len(not), all, where, say.List(not))
}

// CoverageSection tells in a report which jobs run where.
func CoverageSection(a *study.CoverageAnswer, r *page.Report) plots.Section {
	s := plots.Section{
		Heading: "Will it run?",
		Text:    fmt.Sprintf("%s\n\nThe line of each job is set up for it: the feeders, readers and channels that it has no use for do not count.", CoverageFinding(a)),
		Tables:  slices.Concat([]plots.Table{coverageGrid(a)}, coverageWhy(a), []plots.Table{coverageTable(a), envelopesTable(a)}),
	}
	if len(a.Columns) <= mostCovered {
		s.Figures = []*plots.Figure{r.Figure("coverage")(coverageFigure(a))}
	}
	return s
}

// coverageFigure draws which jobs run on which lines.
func coverageFigure(a *study.CoverageAnswer) (*plots.Figure, error) {
	d := plots.CoverageData{
		Head: plots.Head{
			Title:    strings.TrimSuffix(CoverageFinding(a), "."),
			Subtitle: "The speed at which each line runs each job, cycles an hour, and what limits it; or why it cannot",
		},
		Lines: a.Lines,
	}
	for _, job := range a.Jobs {
		d.Jobs = append(d.Jobs, job.Name)
		var cells []plots.Ability
		for _, f := range job.On {
			cells = append(cells, coverageAbility(f))
		}
		d.Cells = append(d.Cells, cells)
	}
	return plots.Coverage(d)
}

func coverageAbility(f *setup.Fit) plots.Ability {
	switch {
	case f == nil:
		return plots.Ability{Why: "no such job"}
	case f.Runs:
		return plots.Ability{Runs: true, Says: say.Exact(f.Speed) + "/h", Why: strings.Join(f.LimitedBy, ", ")}
	}
	return plots.Ability{Why: strings.Join(f.Reasons, "; ")}
}

// coverageTable returns how each line runs each job.
func coverageTable(a *study.CoverageAnswer) plots.Table {
	t := plots.Table{
		Name: "Set up", Caption: "How each line is set up for each job: its speed, and which feeder takes which insert",
		Columns: []plots.Column{
			{Title: "Job"},
			{Title: "Line"},
			{Title: "Speed", Unit: "an hour", Kind: plots.Number},
			{Title: "Limited by"},
			{Title: "Inserts in feeders"},
		},
	}
	for _, job := range a.Jobs {
		for k, f := range job.On {
			if f == nil {
				continue
			}
			row := []plots.Entry{page.Words(job.Name), page.Words(a.Lines[k]), page.Value(f.Speed), page.Words(strings.Join(f.LimitedBy, ", ")), {}}
			if !f.Runs {
				row[2] = page.Words("cannot")
			}
			var loaded []string
			for _, l := range f.Feeders {
				loaded = append(loaded, l.Insert+" in "+l.Feeder)
			}
			row[4] = page.Words(strings.Join(loaded, ", "))
			t.Rows = append(t.Rows, row)
		}
	}
	return t
}
