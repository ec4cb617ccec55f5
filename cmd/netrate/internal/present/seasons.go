package present

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
	"netrate/sim"
)

// Seasons is what the weeks of a scenario came to in each of its configurations, as it is said and
// drawn.
type Seasons struct {
	*study.SeasonsAnswer
	Coverage *study.CoverageAnswer // which of its jobs run where
	Origin   page.Origin
	Plan     sim.Plan
	Order    string // of the jobs that was asked for; "" for that of the file
	Command  string // that does it again, without the seed, the number of replications and what the answer or Order says
}

// shownFinishes is how many jobs are listed with the time at which they are finished.
const shownFinishes = 24

// Text returns what the seasons came to: of the configurations that have every week done in
// time in every season, the base apart, the weeks are in the report alone.
func (s Seasons) Text() string {
	a := s.SeasonsAnswer
	var tables []plots.Table
	if a.Asked > 1 {
		tables = append(tables, SeasonsOverview(a))
	}
	tables = append(tables, SeasonsMoney(a)...)
	lines := SeasonsAll(a)
	lines = slices.DeleteFunc(lines, func(x *study.SeasonsLine) bool { return x != lines[0] && x.InTime.Share == 1 })
	shown := s.shown()
	tables = append(tables, SeasonsWeeks(lines...), SeasonsJobs(shown, min(len(shown.Jobs), shownFinishes)))
	return Screen(s.title(), SeasonsFinding(a), tables...) +
		"\n" + say.Wrapped(SeasonsChangeovers(shown), say.Prose()) +
		"\n" + say.Wrapped(SeasonsNotes(a)+seasonsCostsNote(a), say.Prose()) + page.BasisNote(a.Basis) +
		say.Wrapped(s.ending()+" To repeat it:", say.Prose()) + "  " + s.again() + "\n" + page.Caution()
}

// ending returns why no more seasons were run.
func (s Seasons) ending() string {
	asked, work := "± "+say.Exact(100*s.Plan.Precision)+" %", s.Lines[0].Study.Work()
	of := "the work of all weeks"
	if s.Basis.Draws > 0 { // what single seasons differ by is more
		of = "the mean work of all weeks"
	}
	switch {
	case s.Settings.Partial:
		return fmt.Sprintf("Interrupted after %s of the base.", say.Plural(s.Settings.Reps, "season"))
	case s.Lines[0].Study.Ending == sim.Precise:
		return "Stopped when " + of + " was known to " + precisionOf(work) + " (asked for: " + asked + ")."
	case s.Plan.Precision > 0:
		return "NOT KNOWN TO " + asked + " AS ASKED: stopped at the maximum number of seasons" + butReached(work) + "."
	}
	return "Stopped after the number of seasons asked for."
}

// shown returns the configuration whose jobs are listed.
func (s Seasons) shown() *study.SeasonsLine { return seasonsNamed(s.SeasonsAnswer) }

func (s Seasons) title() string {
	text := ""
	if s.Settings.Partial {
		text = "PARTIAL ANSWER, interrupted: "
	}
	return text + say.Shortened(s.Origin.Scenario.Name, 40) + " (" + s.sample() + ")"
}

// sample returns how many seasons of how many weeks were simulated.
func (s Seasons) sample() string {
	text := say.Plural(s.Settings.Reps, "season") + " of " + say.Plural(len(s.Origin.Scenario.Season.Weeks), "week")
	if len(s.Lines) > 1 {
		text += ", " + say.Plural(len(s.Lines), "configuration")
	}
	return text
}

// again returns the command that does it again.
func (s Seasons) again() string {
	text := fmt.Sprintf("%s --seed %d --reps %d", s.Command, s.Plan.Seed, s.Settings.Reps)
	if s.Order != "" {
		text += " --order " + s.Order
	}
	if v := s.Service; v != nil {
		text += " --service " + say.Exact(100*float64(v.Asked)) + "%"
	}
	return text
}

// Rows returns a row for each season and week of each configuration, under the names that programs
// know.
func (s Seasons) Rows() plots.Table {
	var all []study.SeasonsRow
	for i := range s.Lines {
		x := &s.Lines[i]
		for replication := range x.Study.Done {
			all = append(all, x.Rows(replication)...)
		}
	}
	return SeasonsRows(all)
}

// Document returns the seasons as JSON has them.
func (s Seasons) Document(version string) any {
	return page.DocumentOf(version, s.Origin, s.SeasonsAnswer)
}

// Report returns the seasons as a page.
func (s Seasons) Report(version string) (*page.Report, error) {
	a, about := s.SeasonsAnswer, s.Origin.Scenario
	lead := "Simulated: " + s.sample() + "."
	if a.Settings.Partial {
		lead = "PARTIAL ANSWER: the run was interrupted. " + lead
	}
	r := page.NewReport(version, page.Opening{
		Title: about.Name, Question: cmp.Or(about.Question, "Is the work of each week done when the week ends?"),
		Answer: SeasonsFinding(a), Lead: lead, Command: s.again(), Origins: []page.Origin{s.Origin}, Plan: &s.Plan, Word: "season", Most: a.Settings.Reps,
		Assumptions: page.AssumedOf(about),
	})
	r.Add(plots.Section{
		Heading: "Is it done in time?", Text: SeasonsNotes(a),
		Tables: []plots.Table{SeasonsOverview(a), SeasonsWeeks(SeasonsAll(a)...)},
	})
	left := page.LeftOut()
	if money := SeasonsMoney(a); money != nil {
		left = page.LeftOutOf("Money is that of the season alone: what is paid once or by the year, such as the price of a line and its upkeep, is not in it, and the volume of a year does not count.")
		r.Add(plots.Section{Heading: "What does it cost?", Text: strings.TrimSpace(seasonsCostsNote(a)), Tables: money})
	}
	r.Add(s.section(r, &a.Lines[0]))
	if a.Other != 0 {
		r.Add(s.section(r, &a.Lines[a.Other]))
	}
	r.Add(CoverageSection(s.Coverage, r))
	r.Add(left)
	return r.Done()
}

// section shows the season of one configuration.
func (s Seasons) section(r *page.Report, x *study.SeasonsLine) plots.Section {
	name := func(figure string) string { return figure + "-" + say.Slug(x.Name) }
	return plots.Section{
		Heading: "The season: " + x.Name, Text: SeasonsChangeovers(x),
		Figures: []*plots.Figure{
			r.Figure(name("backlog"))(SeasonsBacklog(x)),
			r.Figure(name("week"))(SeasonsTightest(x, s.Plan.Seed)),
			r.Figure(name("completion"))(SeasonsCompletion(x)),
		},
		Tables: []plots.Table{SeasonsJobs(x, len(x.Jobs))},
	}
}
