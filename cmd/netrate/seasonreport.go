package main

import (
	"fmt"

	"netrate/plots"
)

// report returns the seasons as a page.
func (s *seasons) report() (*report, error) {
	base := &s.runs[0]
	lead := "Simulated: " + s.sample() + "."
	if s.partial() {
		lead = "PARTIAL ANSWER: the run was interrupted. " + lead
	}
	o := opening{
		title: s.Name, question: s.Question, answer: s.finding(), lead: lead, command: s.again + s.flags(),
		origins: []origin{{s.Scenario, s.source}}, plan: &s.plan, word: "season", most: base.study.Done,
		assumptions: assumedOf(s.Scenario),
	}
	if o.question == "" {
		o.question = "Is the work of each week done when the week ends?"
	}
	r := newReport(version(), o)
	r.add(plots.Section{
		Heading: "Is it done in time?", Text: seasonWords,
		Tables: []plots.Table{s.overviewTable(), s.weeksTable()},
	})
	r.add(s.section(r, base))
	if x := s.other(); x != base {
		r.add(s.section(r, x))
	}
	r.add(s.coverage.section(r))
	r.add(leftOut())
	return r.done()
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
func (s *seasons) section(r *report, x *seasonRun) plots.Section {
	name := func(figure string) string { return figure + "-" + slug(x.name) }
	sample := plural(x.study.Done, "season")
	return plots.Section{
		Heading: "The season: " + x.name, Text: x.changeoverWords(),
		Figures: []*plots.Figure{
			r.figure(name("backlog"))(x.backlog(sample)),
			r.figure(name("week"))(x.gantt(s.plan)),
			r.figure(name("completion"))(x.completion(sample)),
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
		work, over, in := x.work().Interval(level), x.overtime(), x.inTime()
		hours, _ := x.changeHours()
		workEntries := meanAndHalf(work)
		t.Rows = append(t.Rows, []plots.Entry{
			words(x.name), figure(float64(x.operators())), figure(x.study.Hours), figure(x.paid()), workEntries[0], workEntries[1],
			figure(in.share), figure(in.low), figure(in.high),
			figure(over.Quantile(0.5)), figure(over.Quantile(0.9)), figure(over.Quantile(0.99)), figure(hours),
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
			work := w.Work.Interval(level)
			t.Rows = append(t.Rows, []plots.Entry{
				words(x.name), words(weekName(x.season, i)), figure(float64(setsOf(x.season.Weeks[i]))), figure(work.Mean), doubtEntry(work.Half), figure(w.InTime()),
				figure(w.Overtime.Quantile(0.5)), figure(w.Overtime.Quantile(0.9)), figure(w.Overtime.Quantile(0.99)),
				figure(w.Backlog.Quantile(0.5)), figure(w.Backlog.Quantile(0.9)),
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
			figure(float64(j.Week + 1)), words(x.season.Products[j.Product].Name), figure(float64(j.Sets)),
			figure(j.Change.Mean()), figure(j.Hours.Mean()), figure(x.jobInTime(n)),
			words(moment(clock, j.Finished.Quantile(0.5))), words(moment(clock, j.Finished.Quantile(0.9))),
		})
	}
	return t
}
