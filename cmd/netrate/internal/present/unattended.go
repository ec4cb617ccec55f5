package present

import (
	"fmt"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
)

// mostUnattended is how many kinds of work are named that nobody may do, and how many shifts of each.
const mostUnattended = 3

// unattended is some work that nobody may do, and the shifts in which.
type unattended struct {
	text   string
	shifts []string
}

// sentences says what waits since nobody who is there may do it; nothing if all can be done.
func unattendedSentences(apart []unattended) (text string) {
	var all []unattended
	for _, u := range apart { // what waits in the same shifts is said once
		if i := slices.IndexFunc(all, func(v unattended) bool { return slices.Equal(v.shifts, u.shifts) }); i >= 0 {
			all[i].text += ", or " + u.text
		} else {
			all = append(all, u)
		}
	}
	for i, u := range all {
		if i == mostUnattended {
			return text + "There is " + say.Plural(len(all)-i, "other sort of work") + " of which the same holds: --json has all, under unattended. "
		}
		shifts, in := u.shifts, "In the shift from "
		if len(shifts) > 1 {
			in = "In the shifts from "
		}
		if more := len(shifts) - mostUnattended; more > 0 {
			shifts = append(shifts[:mostUnattended:mostUnattended], say.Plural(more, "other"))
		}
		text += in + say.List(shifts) + " nobody who is there may " + u.text + ": what needs it waits. "
	}
	return text
}

// unattended says what of a plan waits since nobody who is there may do it.
func (s Plans) unattended(x *study.PlansPlan) string {
	var all []unattended
	for i := range x.Unattended {
		all = addUnattended(all, x.Unattended[i].Text, s.Moment(x.Unattended[i].From))
	}
	return unattendedSentences(all) + s.waits(x) + s.idleDowns(x) + s.idleBreaks(x) + idleItems(x.Made.Plan) + shortRests(x.Made.Plan.ShortRests(), s.Moment)
}

// leastWait is how many hours a job waits that are told, as they are to a tenth.
const leastWait = 0.05

// waits says which jobs wait for somebody who may change over, from when and for how long.
func (s Plans) waits(x *study.PlansPlan) (text string) {
	for _, j := range inOrder(x) {
		if !tellsWait(j) {
			continue
		}
		text += say.Capital(called(j.Name)) + " " + s.waitOf(j.Waits) + ". "
	}
	return text
}

// tellsWait reports whether a job waits for so long that it is told.
func tellsWait(j *study.PlansJob) bool {
	return j.Waits != nil && j.Waits.Hours >= leastWait && !j.Waits.From.Never()
}

// waitOf says of a job that waits how it does.
func (s Plans) waitOf(w *study.PlansWait) string {
	often := ""
	if w.Share < 1 {
		often = ", in " + SeasonsOften(w.Share) + " of the replications"
	}
	within := ""
	if w.Within >= leastWait {
		within = ", " + say.Rounded(float64(w.Within), -1) + " h of these after its changeover has begun"
	}
	return fmt.Sprintf("waits %s h of working time, from %s on, for somebody who may change over%s%s", say.Rounded(float64(w.Hours), -1), s.Moment(w.From), within, often)
}

// seasonsUnattended says the same of a season in the base.
func seasonsUnattended(a *study.SeasonsAnswer) string {
	var all []unattended
	for _, u := range a.Lines[0].Unattended {
		all = addUnattended(all, u.Text, fmt.Sprintf("week %d day %d shift %d", u.Week, u.Day, u.Shift))
	}
	text := unattendedSentences(all)
	if study := a.Lines[0].Study; study != nil {
		text += strings.Join(append(idleBreaks(study.Season.IdleBreaks()), ""), " ")
	}
	return strings.TrimSuffix(" "+text, " ")
}

// plansSkills says what a plan knows of who does what.
func plansSkills(x *study.PlansPlan) string {
	if x.Made.Plan.Crew.People == nil {
		return "All operators may do all."
	}
	return "On paper each job has all the crew at its line: what waits for somebody who may do it is in the simulated dates, and in the one factor."
}

func addUnattended(all []unattended, text, shift string) []unattended {
	i := slices.IndexFunc(all, func(u unattended) bool { return u.text == text })
	if i < 0 {
		return append(all, unattended{text, []string{shift}})
	}
	all[i].shifts = append(all[i].shifts, shift)
	return all
}
