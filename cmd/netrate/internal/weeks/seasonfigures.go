package weeks

import (
	"fmt"
	"slices"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/plots"
	"netrate/sim"
)

var seasonRuns = plots.Runs{One: "season", Many: "seasons"}

// backlog draws what is left at the end of each week.
func (x *seasonRun) backlog(sample string) (*plots.Figure, error) {
	d := plots.FanData{Time: "end of the week", Axis: "sets not done", Zero: "all done", Of: seasonRuns}
	most, at := 0.0, 0
	for i := range x.study.Weeks {
		left := x.study.Weeks[i].Backlog
		d.Points = append(d.Points, plots.FanPoint{Time: float64(i + 1), Name: weekName(x.season, i), Spread: page.SpreadOf(left)})
		if q := left.Quantile(0.5); q > most {
			most, at = q, i
		}
	}
	title := fmt.Sprintf("%s: in the median season all is done at the end of each week", say.Capital(x.call()))
	if most > 0 {
		title = fmt.Sprintf("%s: most is left at the end of week %d, %s sets in the median season", say.Capital(x.call()), at+1, say.Rounded(most, 0))
	}
	d.Head = plots.Head{Title: title, Subtitle: "Sets not done at the end of each week, of that week and those before, without overtime; " + sample}
	return plots.Fan(d)
}

// mostCompletions is how many jobs have room in one figure.
const mostCompletions = 15

// completion draws when the jobs are finished that are in time least often.
func (x *seasonRun) completion(sample string) (*plots.Figure, error) {
	jobs := page.All(len(x.study.Jobs))
	slices.SortStableFunc(jobs, func(a, b int) int { return int(1e6 * (x.jobInTime(a) - x.jobInTime(b))) })
	worst := jobs[0]
	jobs = jobs[:min(len(jobs), mostCompletions)]
	slices.Sort(jobs)
	d := plots.CompletionData{Axis: "hours of working time from the start of the job's week", Of: seasonRuns}
	for _, n := range jobs {
		j := x.study.Jobs[n]
		from := float64(j.Week) * x.study.Hours
		finished := make(sim.Sample, len(j.Finished))
		for r := range finished {
			finished[r] = j.Finished[r] - from
		}
		d.Jobs = append(d.Jobs, plots.Finish{
			Box: plots.Box{Name: x.jobName(n), Min: finished.Quantile(0), Spread: page.SpreadOf(finished), Max: finished.Quantile(1)},
			Due: x.study.Hours, Note: "in time in " + often(x.jobInTime(n)),
		})
	}
	title := fmt.Sprintf("%s: %s is in time in %s of the seasons, no job less often", say.Capital(x.call()), x.jobName(worst), often(x.jobInTime(worst)))
	if x.jobInTime(worst) == 1 {
		title = fmt.Sprintf("%s: every job is finished before its week ends", say.Capital(x.call()))
	}
	d.Head = plots.Head{Title: title, Subtitle: "When the jobs are finished that are in time least often, without overtime; due at the end of their week; " + sample}
	return plots.Completion(d)
}

// jobInTime returns the share of the seasons in which a job is finished in its week.
func (x *seasonRun) jobInTime(n int) float64 {
	j := x.study.Jobs[n]
	due, in := float64(j.Week+1)*x.study.Hours, 0
	for _, finished := range j.Finished {
		if finished <= due {
			in++
		}
	}
	return float64(in) / float64(len(j.Finished))
}

func (x *seasonRun) jobName(n int) string {
	j := x.study.Jobs[n]
	return fmt.Sprintf("%s, week %d", x.season.Products[j.Product].Name, j.Week+1)
}

// gantt draws the tightest week of the season that is nearest to the median, a lane a day.
func (x *seasonRun) gantt(plan sim.Plan) (*plots.Figure, error) {
	week, replication := x.tightest(), x.median()
	stints := x.stints(week, replication)
	d := plots.WeekData{Axis: "time of day", Length: 24}
	for h := 0; h <= 24; h += 4 {
		d.Ticks = append(d.Ticks, plots.Tick{At: float64(h), Name: fmt.Sprintf("%02d:00", h)})
	}
	d.Lanes = days(x.season.Calendar, stints)
	left := x.study.Weeks[week].Backlog[replication]
	title := fmt.Sprintf("%s: in week %d of the median season all is done in time", say.Capital(x.call()), week+1)
	if left > 0 {
		title = fmt.Sprintf("%s: %s sets are left when week %d of the median season ends", say.Capital(x.call()), say.Rounded(left, 0), week+1)
	}
	d.Head = plots.Head{
		Title: title,
		Subtitle: fmt.Sprintf("The week that is in time least often, in the season whose work is nearest to the median: %s h (number %s of seed %d); breaks and maintenance alike stand as breaks",
			say.Rounded(x.work()[replication], -1), say.Thousands(replication), plan.Seed),
	}
	return plots.Week(d)
}

// stints returns what the line does in a week of one replication, in hours on the clock on
// the wall, from the start of the week.
func (x *seasonRun) stints(week, replication int) []plots.Stint {
	from := float64(week) * x.study.Hours
	var stints []plots.Stint
	add := func(begin, end float64, activity plots.Activity, job string) {
		for _, s := range onTheWall(x.season.Calendar.Windows(), begin-from, end-from) {
			stints = append(stints, plots.Stint{From: s.From, To: s.To, Activity: activity, Job: job})
		}
	}
	at := from // up to where the line has something to do
	for _, j := range x.study.Jobs {
		begun, finished := j.Begun[replication], j.Finished[replication]
		if finished <= from || begun >= from+x.study.Hours {
			continue
		}
		name := x.season.Products[j.Product].Name
		add(at, begun, plots.Idling, "")
		add(begun, begun+j.Change[replication], plots.ChangingOver, name)
		add(begun+j.Change[replication], finished, plots.Producing, name)
		at = finished
	}
	add(max(at, from), from+x.study.Hours, plots.Idling, "")
	stints = append(stints, pauses(x.season.Calendar)...)
	slices.SortStableFunc(stints, func(a, b plots.Stint) int { return sign(a.From - b.From) })
	return stints
}

func sign(x float64) int {
	switch {
	case x < 0:
		return -1
	case x > 0:
		return 1
	}
	return 0
}

// onTheWall returns when a stretch of the working time of a week is, in hours from the
// start of the week. What lies before or after its working time is left out.
func onTheWall(windows []model.Window, from, to float64) []plots.Span {
	var spans []plots.Span
	before := 0.0 // working time
	for _, w := range windows {
		begin, length := float64(w.From)/3600, float64(w.To-w.From)/3600
		a, b := max(from-before, 0), min(to-before, length)
		if a < b {
			spans = append(spans, plots.Span{From: begin + a, To: begin + b})
		}
		before += length
	}
	return spans
}

// pauses returns the time within shifts that is not working time.
func pauses(c *model.Calendar) []plots.Stint {
	var stints []plots.Stint
	manned := model.Calendar{Days: c.Days, Shifts: c.Shifts}
	for _, shift := range manned.Windows() {
		at := shift.From
		for _, w := range append(c.Windows(), model.Window{From: shift.To, To: shift.To}) {
			if w.To < shift.From || w.From > shift.To {
				continue
			}
			if w.From > at {
				stints = append(stints, plots.Stint{From: float64(at) / 3600, To: float64(w.From) / 3600, Activity: plots.Pausing})
			}
			at = max(at, w.To)
		}
	}
	return stints
}

// days returns a lane for each day on which anybody works. What goes on after midnight is
// on the next.
func days(c *model.Calendar, stints []plots.Stint) []plots.Roster {
	var lanes []plots.Roster
	for day := range 8 {
		from, to := float64(24*day), float64(24*day+24)
		lane := plots.Roster{Name: weekdays[day%7]}
		if day == 7 {
			lane.Name = "after Sun"
		}
		for _, s := range stints {
			if begin, end := max(s.From, from), min(s.To, to); begin < end {
				s.From, s.To = begin-from, end-from
				lane.Stints = append(lane.Stints, s)
			}
		}
		manned := model.Calendar{Days: c.Days, Shifts: c.Shifts}
		for _, w := range manned.Windows() {
			if end := float64(w.To) / 3600; end > from && end <= to {
				lane.Ends = append(lane.Ends, end-from)
			}
		}
		if len(lane.Stints) > 0 {
			lanes = append(lanes, lane)
		}
	}
	return lanes
}
