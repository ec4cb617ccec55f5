package present

import (
	"fmt"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/seasons"
	"netrate/model/study"
	"netrate/plots"
)

// SeasonsTightest draws the tightest week of the season that is nearest to the median, a lane a
// day. The seed is that of the seasons.
func SeasonsTightest(x *study.SeasonsLine, seed uint64) (*plots.Figure, error) {
	week, replication := x.Tightest, x.Median
	d := plots.WeekData{Axis: "time of day", Length: 24}
	for h := 0; h <= 24; h += 4 {
		d.Ticks = append(d.Ticks, plots.Tick{At: float64(h), Name: fmt.Sprintf("%02d:00", h)})
	}
	d.Lanes = seasonsDays(x.Study.Season.Calendar, x.Stints(week, replication))
	left := x.Study.Weeks[week].Backlog[replication]
	title := fmt.Sprintf("%s: in week %d of the median season all is done in time", say.Capital(seasonsCall(x)), week+1)
	if left > 0 {
		title = fmt.Sprintf("%s: %s sets are left when week %d of the median season ends", say.Capital(seasonsCall(x)), say.Rounded(left, 0), week+1)
	}
	d.Head = plots.Head{
		Title: title,
		Subtitle: fmt.Sprintf("The week that is in time least often, in the season whose work is nearest to the median: %s h (number %s of seed %d); breaks and maintenance alike stand as breaks",
			say.Rounded(x.Works()[replication], -1), say.Thousands(replication), seed),
	}
	return plots.Week(d)
}

// seasonsActivities are the activities of a line as they are drawn.
var seasonsActivities = map[study.SeasonsActivity]plots.Activity{
	study.SeasonsProducing: plots.Producing, study.SeasonsChanging: plots.ChangingOver, study.SeasonsRemaking: plots.Remaking,
	study.SeasonsAwaiting: plots.Awaiting, study.SeasonsIdling: plots.Idling, study.SeasonsPausing: plots.Pausing,
}

// seasonsDays returns a lane for each day on which anybody works. What goes on after midnight is
// on the next.
func seasonsDays(c *seasons.Calendar, stints []study.SeasonsStint) []plots.Roster {
	var lanes []plots.Roster
	for day := range 8 {
		from, to := float64(24*day), float64(24*day+24)
		lane := plots.Roster{Name: study.SeasonsWeekdays[day%7]}
		if day == 7 {
			lane.Name = "after Sun"
		}
		for _, s := range stints {
			if begin, end := max(s.From, from), min(s.To, to); begin < end {
				lane.Stints = append(lane.Stints, plots.Stint{From: begin - from, To: end - from, Activity: seasonsActivities[s.Activity], Job: s.Job})
			}
		}
		manned := seasons.Calendar{Days: c.Days, Shifts: c.Shifts}
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
