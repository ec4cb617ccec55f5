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
)

// A file may have a yearly volume of each job. Its lines are then compared at all their work:
// set up for every job, and each job in its share of what is delivered.

// shownJobs is how many jobs the answer has room for: those with most hours or, in a report,
// those that have figures of their own.
const shownJobs = 4

// jobs returns the names of the jobs that are made; nil if the work is not by jobs.
func (c Comparison) jobs() []string {
	var names []string
	if mix := c.Lines[0].Mix; mix != nil {
		for _, s := range mix.Setups {
			names = append(names, s.Product.Name)
		}
	}
	return names
}

// mainJobs returns the numbers of the jobs that the base spends most time on, at most so many,
// in their order.
func (c Comparison) mainJobs(most int) []int {
	jobs := c.Lines[0].Study.Jobs()
	numbers := page.All(len(jobs))
	slices.SortStableFunc(numbers, func(a, b int) int { return cmp.Compare(jobs[b].Time.Mean(), jobs[a].Time.Mean()) })
	numbers = numbers[:min(len(numbers), most)]
	slices.Sort(numbers)
	return numbers
}

// atWork returns an alternative as a figure tells of it: itself, or the line at each of the jobs
// that take most time.
func (c Comparison) atWork(i int) []study.LineAnswer {
	x := c.Lines[i]
	jobs := x.Study.Jobs()
	if jobs == nil {
		return []study.LineAnswer{x}
	}
	var all []study.LineAnswer
	for _, j := range c.mainJobs(shownJobs) {
		s := jobs[j].Study
		name := ", " + s.Line.Name
		of := study.Alternative{Name: x.Name + name, Called: x.Of.InWords() + name, Line: s.Line}
		all = append(all, study.LineAnswer{Name: of.Name, Of: of, Study: s})
	}
	return all
}

// jobsBlock returns what each line delivers of each job and, if there is money, how many hours
// a year it takes.
func (c Comparison) jobsBlock() string {
	if !c.mixed() {
		return ""
	}
	shown := c.mainJobs(shownJobs)
	text := "\n" + c.byJobs("Good an hour, by job", shown, func(i, j int) string {
		e := c.Lines[i].Study.Jobs()[j].Study.NetRates().Interval(say.Level)
		return say.PlusMinus(say.Measured(e.Mean, e.Half))
	})
	if c.Worth != nil {
		text += c.byJobs("Hours a year, by job", shown, func(i, j int) string { return Averaged(c.Worth.Worth.Lines[i].JobHours[j]) })
	}
	if more := len(c.jobs()) - len(shown); more > 0 {
		text += fmt.Sprintf("less time goes into %s: --json and --report have all\n", say.Plural(more, "other job"))
	}
	return text
}

// byJobs returns a table with a row for each line and a column for each of some jobs.
func (c Comparison) byJobs(title string, shown []int, cell func(line, job int) string) string {
	rows := [][]string{{title}}
	for _, j := range shown {
		rows[0] = append(rows[0], say.Shortened(c.jobs()[j], (say.Screen-say.LeastName)/shownJobs-1))
	}
	for _, i := range c.rows() {
		row := []string{c.Lines[i].Name}
		for _, j := range shown {
			row = append(row, cell(i, j))
		}
		rows = append(rows, row)
	}
	return say.Columns(rows)
}

// mixWords says what the net rate of several jobs is; "" of one kind of work.
func (c Comparison) mixWords() string {
	if !c.mixed() {
		return ""
	}
	return "Net rates are of " + say.Plural(len(c.jobs()), "job") + " together, each in its share of the yearly volume, and changeovers are not in it. "
}

// mixStatements returns what the work of an alternative by jobs rests on; nil if it has one kind
// of work.
func mixStatements(x *study.LineAnswer) []study.AssumptionStatement {
	if x.Mix == nil {
		return nil
	}
	var all []study.AssumptionStatement
	state := func(key, value string) { all = append(all, study.AssumptionStatement{Key: key, Value: value}) }
	for i, s := range x.Mix.Setups {
		job := "job " + s.Product.Name + ": "
		state(job+"share of the good envelopes", say.Probability(x.Mix.Shares[i]))
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
	for _, p := range x.Of.Products {
		if _, made := x.Of.Costs.Volumes[p.Name]; !made {
			not = append(not, p.Name)
		}
	}
	if not != nil {
		state("jobs that are not made", say.List(not)+": no volume is given")
	}
	return all
}

// jobsSection says what each line delivers of each job, and how many hours a year it takes.
func (c Comparison) jobsSection() plots.Section {
	t := plots.Table{
		Name:    "Jobs",
		Caption: "Each line at each job: net rates with 95 % intervals, and the part that the job has of the envelopes and of the time",
		Columns: append([]plots.Column{{Title: "Line"}, {Title: "Job"}}, PerHourColumns("Net rate")...),
	}
	t.Columns = append(t.Columns,
		plots.Column{Title: "Share", Unit: "of the envelopes", Kind: plots.Share, Decimals: 1},
		plots.Column{Title: "Share", Unit: "of the time", Kind: plots.Share, Decimals: 1})
	if c.Worth != nil {
		t.Columns = append(t.Columns, MoneyColumn("Hours", "a year", 0))
	}
	for i, x := range c.Lines {
		for j, job := range x.Study.Jobs() {
			row := append([]plots.Entry{page.Words(x.Name), page.Words(job.Study.Line.Name)}, page.MeanAndHalf(job.Study.NetRates().Interval(say.Level))...)
			row = append(row, page.Value(job.Share), page.Value(job.Time.Mean()))
			if c.Worth != nil {
				row = append(row, page.Value(c.Worth.Worth.Lines[i].JobHours[j].Mean()))
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
