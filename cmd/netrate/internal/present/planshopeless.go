package present

import (
	"fmt"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/seasons"
	"netrate/model/study"
	"netrate/sim"
)

// hopeless names the dates that no plan can keep, and says why, with moments in words.
func hopeless(p *seasons.Plan, moment func(study.PlansMoment) string) (text string) {
	for _, x := range p.Hopeless() {
		text += "The date of " + called(x.Job.Name) + " cannot be kept by any plan: "
		due := moment(study.PlansMoment{At: x.Job.Due})
		if x.Job.NotBefore >= x.Job.Due {
			text += fmt.Sprintf("it may not begin before %s, and is due %s. ", moment(study.PlansMoment{At: x.Job.NotBefore}), due)
			continue
		}
		text += fmt.Sprintf("at full speed, without a stop, the fastest line takes %s of working time for its sets, and there are %s until %s. ", shownHours(x.Needs), shownHours(x.There), due)
	}
	return text
}

// shownHours returns a time in hours, to a tenth.
func shownHours(t sim.Seconds) string { return say.Rounded(float64(t)/3600, -1) + " h" }
