package weeks

import (
	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// report returns the seasons as a page.
func (s *simulated) report() (*page.Report, error) {
	a := s.answer
	lead := "Simulated: " + s.sample() + "."
	if a.Settings.Partial {
		lead = "PARTIAL ANSWER: the run was interrupted. " + lead
	}
	o := page.Opening{
		Title: s.Name, Question: s.Question, Answer: present.SeasonsFinding(a), Lead: lead, Command: s.Again + s.flags(),
		Origins: []page.Origin{{Scenario: s.Scenario, Text: s.Source}}, Plan: &s.plan, Word: "season", Most: a.Settings.Reps,
		Assumptions: page.AssumedOf(s.Scenario),
	}
	if o.Question == "" {
		o.Question = "Is the work of each week done when the week ends?"
	}
	r := page.NewReport(desk.Version(), o)
	r.Add(plots.Section{
		Heading: "Is it done in time?", Text: present.SeasonsNotes,
		Tables: []plots.Table{present.SeasonsOverview(a), present.SeasonsWeeks(present.SeasonsAll(a)...)},
	})
	r.Add(s.section(r, &a.Lines[0]))
	if a.Other != 0 {
		r.Add(s.section(r, &a.Lines[a.Other]))
	}
	r.Add(present.CoverageSection(s.coverage, r))
	r.Add(page.LeftOut())
	return r.Done()
}

// section shows the season of one configuration.
func (s *simulated) section(r *page.Report, x *study.SeasonsLine) plots.Section {
	name := func(figure string) string { return figure + "-" + say.Slug(x.Name) }
	return plots.Section{
		Heading: "The season: " + x.Name, Text: present.SeasonsChangeovers(x),
		Figures: []*plots.Figure{
			r.Figure(name("backlog"))(present.SeasonsBacklog(x)),
			r.Figure(name("week"))(present.SeasonsTightest(x, s.plan.Seed)),
			r.Figure(name("completion"))(present.SeasonsCompletion(x)),
		},
		Tables: []plots.Table{present.SeasonsJobs(x, len(x.Jobs))},
	}
}
