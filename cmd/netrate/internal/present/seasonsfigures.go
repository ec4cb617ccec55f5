package present

import (
	"fmt"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
	"netrate/sim"
)

var seasonsRuns = plots.Runs{One: "season", Many: "seasons"}

// SeasonsBacklog draws what is left at the end of each week.
func SeasonsBacklog(x *study.SeasonsLine) (*plots.Figure, error) {
	d := plots.FanData{Time: "end of the week", Axis: "sets not done", Zero: "all done", Of: seasonsRuns}
	for i := range x.Weeks {
		left := x.Study.Weeks[i].Backlog
		d.Points = append(d.Points, plots.FanPoint{Time: float64(i + 1), Name: SeasonsWeek(x, i), Spread: page.SpreadOf(left)})
	}
	title := fmt.Sprintf("%s: in the median season all is done at the end of each week", say.Capital(seasonsCall(x)))
	if n := x.Fullest; n >= 0 {
		title = fmt.Sprintf("%s: most is left at the end of week %d, %s sets in the median season", say.Capital(seasonsCall(x)), n+1, say.Rounded(float64(x.Weeks[n].Backlog.P50), 0))
	}
	d.Head = plots.Head{Title: title, Subtitle: "Sets not done at the end of each week, of that week and those before, without overtime; " + seasonsSample(x)}
	return plots.Fan(d)
}

func seasonsSample(x *study.SeasonsLine) string { return say.Plural(x.Study.Done, "season") }

// mostCompletions is how many jobs have room in one figure.
const mostCompletions = 15

// SeasonsCompletion draws when the jobs are finished that are in time least often.
func SeasonsCompletion(x *study.SeasonsLine) (*plots.Figure, error) {
	jobs, worst := x.Latest(mostCompletions)
	d := plots.CompletionData{Axis: "hours of working time from the start of the job's week", Of: seasonsRuns}
	for _, n := range jobs {
		from := float64(float64(x.Jobs[n].Week-1) * x.Study.Hours)
		var finished sim.Sample
		for _, at := range x.Study.Jobs[n].Finished {
			finished = append(finished, at-from)
		}
		d.Jobs = append(d.Jobs, plots.Finish{
			Box: plots.Box{Name: seasonsJob(x, n), Min: finished.Quantile(0), Spread: page.SpreadOf(finished), Max: finished.Quantile(1)},
			Due: x.Study.Hours, Note: "in time in " + SeasonsOften(x.Jobs[n].InTime),
		})
	}
	title := fmt.Sprintf("%s: no job is in time less often than %s: in %s of the seasons", say.Capital(seasonsCall(x)), seasonsJob(x, worst), SeasonsOften(x.Jobs[worst].InTime))
	if x.Jobs[worst].InTime == 1 {
		title = fmt.Sprintf("%s: every job is finished before its week ends", say.Capital(seasonsCall(x)))
	}
	d.Head = plots.Head{Title: title, Subtitle: "When the jobs are finished that are in time least often, without overtime; due at the end of their week; " + seasonsSample(x)}
	return plots.Completion(d)
}

func seasonsJob(x *study.SeasonsLine, n int) string {
	return fmt.Sprintf("%s, week %d", x.Jobs[n].Name, x.Jobs[n].Week)
}
