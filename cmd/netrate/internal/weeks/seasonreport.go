package weeks

import (
	"fmt"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/cmd/netrate/internal/say"
	"netrate/plots"
)

// report returns the seasons as a page.
func (s *seasons) report() (*page.Report, error) {
	base := &s.runs[0]
	lead := "Simulated: " + s.sample() + "."
	if s.partial() {
		lead = "PARTIAL ANSWER: the run was interrupted. " + lead
	}
	o := page.Opening{
		Title: s.Name, Question: s.Question, Answer: s.finding(), Lead: lead, Command: s.Again + s.flags(),
		Origins: []page.Origin{{Scenario: s.Scenario, Text: s.Source}}, Plan: &s.plan, Word: "season", Most: base.study.Done,
		Assumptions: page.AssumedOf(s.Scenario),
	}
	if o.Question == "" {
		o.Question = "Is the work of each week done when the week ends?"
	}
	r := page.NewReport(desk.Version(), o)
	r.Add(plots.Section{
		Heading: "Is it done in time?", Text: seasonWords,
		Tables: []plots.Table{s.overviewTable(), s.weeksTable()},
	})
	r.Add(s.section(r, base))
	if x := s.other(); x != base {
		r.Add(s.section(r, x))
	}
	r.Add(present.CoverageSection(s.coverage, r))
	r.Add(page.LeftOut())
	return r.Done()
}

// other returns the configuration that is set against the base: the smallest that is in
// time often enough, else the one that is in time most often.
func (s *seasons) other() *seasonRun {
	if s.service > 0 {
		if x := s.smallest(); x != nil {
			return x
		}
	}
	best := s.done()[0]
	for _, x := range s.done()[1:] {
		if x.inTime().share > best.inTime().share {
			best = x
		}
	}
	return best
}

// section shows the season of one configuration.
func (s *seasons) section(r *page.Report, x *seasonRun) plots.Section {
	name := func(figure string) string { return figure + "-" + say.Slug(x.name) }
	sample := say.Plural(x.study.Done, "season")
	return plots.Section{
		Heading: "The season: " + x.name, Text: x.changeoverWords(),
		Figures: []*plots.Figure{
			r.Figure(name("backlog"))(x.backlog(sample)),
			r.Figure(name("week"))(x.gantt(s.plan)),
			r.Figure(name("completion"))(x.completion(sample)),
		},
		Tables: []plots.Table{x.jobsTable()},
	}
}

// overviewTable returns a row for each configuration.
func (s *seasons) overviewTable() plots.Table {
	t := plots.Table{
		Name: "Configurations", Caption: "Each configuration: how often all weeks are done in time, with 95 % intervals, and the overtime that all weeks together need. " + operatorWords,
		Columns: []plots.Column{
			{Title: "Line"},
			{Title: "Crew", Unit: "operators", Kind: plots.Number},
			{Title: "Working time", Unit: "h a week", Kind: plots.Number, Decimals: 1},
			{Title: "Paid hours", Unit: "h a week", Kind: plots.Number, Decimals: 1},
			{Title: "Work", Unit: "h", Kind: plots.Number, Decimals: 1},
			{Title: "±", Unit: "h", Kind: plots.Number, Decimals: 1},
			{Title: "All in time", Unit: "of seasons", Kind: plots.Share, Decimals: 1},
			{Title: "from", Kind: plots.Share, Decimals: 1},
			{Title: "to", Kind: plots.Share, Decimals: 1},
			{Title: "Overtime, 50 %", Unit: "h", Kind: plots.Number, Decimals: 1},
			{Title: "90 %", Unit: "h", Kind: plots.Number, Decimals: 1},
			{Title: "99 %", Unit: "h", Kind: plots.Number, Decimals: 1},
			{Title: "Changeovers", Unit: "h a week", Kind: plots.Number, Decimals: 2},
		},
	}
	for _, x := range s.done() {
		work, over, in := x.work().Interval(say.Level), x.overtime(), x.inTime()
		hours, _ := x.changeHours()
		workEntries := page.MeanAndHalf(work)
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(x.name), page.Value(float64(x.operators())), page.Value(x.study.Hours), page.Value(x.paid()), workEntries[0], workEntries[1],
			page.Value(in.share), page.Value(in.low), page.Value(in.high),
			page.Value(over.Quantile(0.5)), page.Value(over.Quantile(0.9)), page.Value(over.Quantile(0.99)), page.Value(hours),
		})
	}
	return t
}

// weeksTable returns a row for each week of each configuration.
func (s *seasons) weeksTable() plots.Table {
	t := plots.Table{
		Name: "Weeks", Caption: "The weeks of each configuration: work with 95 % intervals, overtime needed, and what is left at the end without it",
		Columns: []plots.Column{
			{Title: "Line"},
			{Title: "Week"},
			{Title: "Sets", Kind: plots.Number},
			{Title: "Work", Unit: "h", Kind: plots.Number, Decimals: 1},
			{Title: "±", Unit: "h", Kind: plots.Number, Decimals: 1},
			{Title: "In time", Unit: "of seasons", Kind: plots.Share, Decimals: 1},
			{Title: "Overtime, 50 %", Unit: "h", Kind: plots.Number, Decimals: 1},
			{Title: "90 %", Unit: "h", Kind: plots.Number, Decimals: 1},
			{Title: "99 %", Unit: "h", Kind: plots.Number, Decimals: 1},
			{Title: "Left, 50 %", Unit: "sets", Kind: plots.Number},
			{Title: "90 %", Unit: "sets", Kind: plots.Number},
		},
	}
	for _, x := range s.done() {
		for i := range x.study.Weeks {
			w := &x.study.Weeks[i]
			work := w.Work.Interval(say.Level)
			t.Rows = append(t.Rows, []plots.Entry{
				page.Words(x.name), page.Words(weekName(x.season, i)), page.Value(float64(setsOf(x.season.Weeks[i]))), page.Value(work.Mean), page.Doubt(work.Half), page.Value(w.InTime()),
				page.Value(w.Overtime.Quantile(0.5)), page.Value(w.Overtime.Quantile(0.9)), page.Value(w.Overtime.Quantile(0.99)),
				page.Value(w.Backlog.Quantile(0.5)), page.Value(w.Backlog.Quantile(0.9)),
			})
		}
	}
	return t
}

// jobsTable returns a row for each job.
func (x *seasonRun) jobsTable() plots.Table {
	t := plots.Table{
		Name: "Jobs " + x.name, Caption: fmt.Sprintf("The jobs of the season in the order in which they are done, without overtime: %s", x.name),
		Columns: []plots.Column{
			{Title: "Week", Kind: plots.Number},
			{Title: "Job"},
			{Title: "Sets", Kind: plots.Number},
			{Title: "Changeover", Unit: "h", Kind: plots.Number, Decimals: 2},
			{Title: "Run", Unit: "h", Kind: plots.Number, Decimals: 1},
			{Title: "In time", Unit: "of seasons", Kind: plots.Share, Decimals: 1},
			{Title: "Finished, median"},
			{Title: "9 times in 10 by"},
		},
	}
	clock := x.season.Calendar.Clock()
	for n, j := range x.study.Jobs {
		t.Rows = append(t.Rows, []plots.Entry{
			page.Value(float64(j.Week + 1)), page.Words(x.season.Products[j.Product].Name), page.Value(float64(j.Sets)),
			page.Value(j.Change.Mean()), page.Value(j.Hours.Mean()), page.Value(x.jobInTime(n)),
			page.Words(moment(clock, j.Finished.Quantile(0.5))), page.Words(moment(clock, j.Finished.Quantile(0.9))),
		})
	}
	return t
}
