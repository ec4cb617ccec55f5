package present

import (
	"cmp"
	"fmt"
	"slices"

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

// widestJob is how much of the name of a job heads a column.
const widestJob = 16

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

// mainJobs returns the numbers of the jobs that the base spends most time on, at most most,
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
		at := study.LineAnswer{Name: of.Name, Of: of, Study: s}
		if x.Scenes != nil {
			at.Scenes = x.Scenes[j : j+1]
		}
		all = append(all, at)
	}
	return all
}

// jobsBlock returns what each line delivers of each job and, if there is money, how many hours
// a year it takes.
func (c Comparison) jobsBlock() string {
	if !c.mixed() {
		return ""
	}
	text := "\n" + brief(c.jobTables(c.rows(), c.mainJobs(shownJobs))...)
	if more := len(c.jobs()) - shownJobs; more > 0 {
		text += fmt.Sprintf("less time goes into %s: --json and --report have all\n", say.Plural(more, "other job"))
	}
	return text
}

// jobTables returns what some of the lines deliver of some of the jobs and, if there is money, how
// many hours a year they take.
func (c Comparison) jobTables(lines, jobs []int) []plots.Table {
	rates := c.byJobs("Good an hour, by job", "Net rates of single jobs, "+page.PerHour+", with 95 % intervals", lines, jobs, func(line, job int) plots.Entry {
		return estimated(c.Lines[line].Jobs[job].NetRate.Estimate())[0]
	})
	if c.Money == nil {
		return []plots.Table{rates}
	}
	hours := c.byJobs("Hours a year, by job", "Hours of a year that go into each job, means of the draws", lines, jobs, func(line, job int) plots.Entry {
		mean := c.Money.Worth.Lines[line].JobHours[job].Mean()
		return plots.Entry{Number: mean, Shown: say.Rounded(mean, 0)} // whole, all of them
	})
	return []plots.Table{rates, hours}
}

// byJobs returns a table with a row for each of some lines and a column for each of some jobs.
func (c Comparison) byJobs(name, caption string, lines, jobs []int, entry func(line, job int) plots.Entry) plots.Table {
	t := plots.Table{Name: name, Caption: caption, Columns: []plots.Column{{Title: "Line", Brief: name}}}
	for _, j := range jobs {
		job := c.jobs()[j]
		t.Columns = append(t.Columns, plots.Column{Title: job, Kind: plots.Number, Brief: say.Shortened(job, widestJob)})
	}
	for _, i := range lines {
		row := []plots.Entry{page.Words(c.Lines[i].Name)}
		for _, j := range jobs {
			row = append(row, entry(i, j))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// mixWords says what the net rate of several jobs is; "" of one kind of work.
func (c Comparison) mixWords() string {
	if !c.mixed() {
		return ""
	}
	return "Net rates are of " + say.Plural(len(c.jobs()), "job") + " together, each in its share of the yearly volume, and changeovers are not in it. "
}

// jobsSection says what each line delivers of each job, and how many hours a year it takes.
func (c Comparison) jobsSection() plots.Section {
	return plots.Section{
		Heading: "Job by job",
		Text: "Every line is set up for every job, and runs the same shifts of it with the same random events. All other figures of a line are of its jobs together: " +
			"of a shift whose time the jobs share so that each makes its share of the yearly volume. " +
			"Changeovers between jobs are not included; netrate season has them.",
		Tables: append(c.jobTables(page.All(len(c.Lines)), page.All(len(c.jobs()))), c.jobShares()),
	}
}

// jobShares returns what part of the work of each line is each job.
func (c Comparison) jobShares() plots.Table {
	t := plots.Table{
		Name: "Jobs", Caption: "The part that each job has of the envelopes of a line, and of its time", Names: 2,
		Columns: []plots.Column{
			{Title: "Line"},
			{Title: "Job"},
			{Title: "Share", Unit: "of the envelopes", Kind: plots.Share, Decimals: 1},
			{Title: "Share", Unit: "of the time", Kind: plots.Share, Decimals: 1},
		},
	}
	for _, x := range c.Lines {
		for _, job := range x.Study.Jobs() {
			t.Rows = append(t.Rows, []plots.Entry{page.Words(x.Name), page.Words(job.Study.Line.Name), page.Value(job.Share), page.Value(job.Time.Mean())})
		}
	}
	return t
}
