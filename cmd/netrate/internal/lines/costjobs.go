package lines

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/runs"
	"netrate/plots"
	"netrate/scenarios"
)

// A file may have a yearly volume of each job. Its lines are then compared at all their work:
// set up for every job, and each job in its share of what is delivered.

// shownJobs is how many jobs the answer has room for: those with most hours or, in a report,
// those that have figures of their own.
const shownJobs = 4

// mixes returns the work of all entrants by jobs; nil if it is not by jobs.
func (f *field) mixes() []*runs.Mix {
	var mixes []*runs.Mix
	for _, x := range f.entrants {
		if x.mix != nil {
			mixes = append(mixes, x.mix)
		}
	}
	return mixes
}

// jobs returns the names of the jobs that are made; nil if the work is not by jobs.
func (f *field) jobs() []string {
	var names []string
	if mix := f.entrants[0].mix; mix != nil {
		for _, s := range mix.Setups {
			names = append(names, s.Product.Name)
		}
	}
	return names
}

// mainJobs returns the numbers of the jobs that the base spends most time on, at most so many,
// in their order.
func (f *field) mainJobs(most int) []int {
	jobs := f.entrants[0].study.Jobs()
	numbers := page.All(len(jobs))
	slices.SortStableFunc(numbers, func(a, b int) int { return cmp.Compare(jobs[b].Time.Mean(), jobs[a].Time.Mean()) })
	numbers = numbers[:min(len(numbers), most)]
	slices.Sort(numbers)
	return numbers
}

// atWork returns an entrant as a figure tells of it: itself, or the line at each of the jobs
// that take most time.
func (f *field) atWork(i int) []entrant {
	x := f.entrants[i]
	x.called = f.call(i)
	jobs := x.study.Jobs()
	if jobs == nil {
		return []entrant{x}
	}
	var all []entrant
	for _, j := range f.mainJobs(shownJobs) {
		s := jobs[j].Study
		name := ", " + s.Line.Name
		all = append(all, entrant{name: x.name + name, called: x.called + name, scenario: x.scenario, line: s.Line, study: s})
	}
	return all
}

// linesOf returns the lines that were simulated for an entrant: one for each job, or one.
func (x *entrant) linesOf() []*model.Line {
	if x.mix == nil {
		return []*model.Line{x.line}
	}
	var lines []*model.Line
	for _, s := range x.mix.Setups {
		lines = append(lines, s.Line)
	}
	return lines
}

// jobsBlock returns what each line delivers of each job and, if there is money, how many hours
// a year it takes.
func (c *contest) jobsBlock() string {
	if c.mixes() == nil {
		return ""
	}
	shown := c.mainJobs(shownJobs)
	text := "\n" + c.byJobs("Good an hour, by job", shown, func(i, j int) string {
		e := c.entrants[i].study.Jobs()[j].Study.NetRates().Interval(say.Level)
		return say.PlusMinus(say.Measured(e.Mean, e.Half))
	})
	if c.worth != nil {
		text += c.byJobs("Hours a year, by job", shown, func(i, j int) string { return present.Averaged(c.worth.Worth.Lines[i].JobHours[j]) })
	}
	if more := len(c.jobs()) - len(shown); more > 0 {
		text += fmt.Sprintf("less time goes into %s: --json and --report have all\n", say.Plural(more, "other job"))
	}
	return text
}

// byJobs returns a table with a row for each line and a column for each of some jobs.
func (c *contest) byJobs(title string, shown []int, cell func(line, job int) string) string {
	rows := [][]string{{title}}
	for _, j := range shown {
		rows[0] = append(rows[0], say.Shortened(c.jobs()[j], (say.Screen-say.LeastName)/shownJobs-1))
	}
	for _, i := range c.rows() {
		row := []string{c.entrants[i].name}
		for _, j := range shown {
			row = append(row, cell(i, j))
		}
		rows = append(rows, row)
	}
	return say.Columns(rows)
}

// mixWords says what the net rate of several jobs is; "" of one kind of work.
func (c *contest) mixWords() string {
	if c.mixes() == nil {
		return ""
	}
	return "Net rates are of " + say.Plural(len(c.jobs()), "job") + " together, each in its share of the yearly volume, and changeovers are not in it. "
}

// mixStatements returns what the work of an entrant by jobs rests on; nil if it has one kind
// of work.
func mixStatements(x entrant) []scenarios.Statement {
	if x.mix == nil {
		return nil
	}
	var all []scenarios.Statement
	state := func(key, value string) { all = append(all, scenarios.Statement{Key: key, Value: value}) }
	for i, s := range x.mix.Setups {
		job := "job " + s.Product.Name + ": "
		state(job+"share of the good envelopes", say.Probability(x.mix.Shares[i]))
		state(job+"speed, as it runs", say.Exact(s.Line.RunSpeed())+"/h, set by "+strings.Join(s.Fit.LimitedBy, ", "))
		var loaded []string
		for _, l := range s.Fit.Feeders {
			loaded = append(loaded, l.Insert+" in "+l.Feeder)
		}
		if loaded != nil {
			state(job+"feeders", strings.Join(loaded, ", "))
		}
		for _, note := range s.Fit.Notes {
			state(job+"set up", note)
		}
	}
	var not []string
	for _, p := range x.products {
		if _, made := x.costs.Volumes[p.Name]; !made {
			not = append(not, p.Name)
		}
	}
	if not != nil {
		state("jobs that are not made", say.List(not)+": no volume is given")
	}
	return all
}

// jobsSection says what each line delivers of each job, and how many hours a year it takes.
func (c *contest) jobsSection() plots.Section {
	t := plots.Table{
		Name:    "Jobs",
		Caption: "Each line at each job: net rates with 95 % intervals, and the part that the job has of the envelopes and of the time",
		Columns: append([]plots.Column{{Title: "Line"}, {Title: "Job"}}, present.PerHourColumns("Net rate")...),
	}
	t.Columns = append(t.Columns,
		plots.Column{Title: "Share", Unit: "of the envelopes", Kind: plots.Share, Decimals: 1},
		plots.Column{Title: "Share", Unit: "of the time", Kind: plots.Share, Decimals: 1})
	if c.worth != nil {
		t.Columns = append(t.Columns, present.MoneyColumn("Hours", "a year", 0))
	}
	for i, x := range c.entrants {
		for j, job := range x.study.Jobs() {
			row := append([]plots.Entry{page.Words(x.name), page.Words(job.Study.Line.Name)}, page.MeanAndHalf(job.Study.NetRates().Interval(say.Level))...)
			row = append(row, page.Value(job.Share), page.Value(job.Time.Mean()))
			if c.worth != nil {
				row = append(row, page.Value(c.worth.Worth.Lines[i].JobHours[j].Mean()))
			}
			t.Rows = append(t.Rows, row)
		}
	}
	return plots.Section{
		Heading: "Job by job",
		Text: "Every line is set up for every job, and runs the same shifts of it with the same random events. All other figures of a line are of its jobs together: " +
			"of a shift whose time the jobs share so that each makes its share of the yearly volume. " +
			"Changeovers between jobs are not in it: netrate season has them.",
		Tables: []plots.Table{t},
	}
}
