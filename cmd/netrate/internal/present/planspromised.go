package present

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// bought says what was chosen in the plan that was promised, and is in force.
func (s Plans) bought() string {
	var names []string
	paid := 0.0
	for i := range s.Bought {
		p := &s.Bought[i]
		names, paid = append(names, s.priced(p)), paid+float64(p.Each*study.Number(p.Times))
	}
	if len(names) == 0 {
		return s.notBought()
	}
	text := say.Capital(say.List(names)) + " was bought with the plan that was promised, and stays"
	if len(names) > 1 {
		text = say.Capital(say.List(names)) + " were bought with the plan that was promised, and stay"
	}
	switch {
	case paid == 0 && s.shown().Costs != nil:
		text += map[bool]string{true: "; its", false: "; their"}[len(names) == 1] + " wages are in no cost below"
	case paid > 0:
		text += fmt.Sprintf(": %s, which no cost below has in it", s.withUnit(exactSum(paid)))
	}
	return text + ". " + s.notBought()
}

// notBought says what came nearest in the plan that was promised, and that nobody decided on it.
func (s Plans) notBought() string {
	if len(s.Open) == 0 {
		return ""
	}
	var set []string
	for _, name := range s.Open {
		set = append(set, "--set "+desk.Quoted("plan.staff."+name+".optional=false"))
	}
	return fmt.Sprintf("No choice had the service in the plan that was promised: %s, which came nearest, is not taken as bought, and what was promised is its base. If it was bought, say so: %s. ",
		say.List(s.Open), strings.Join(set, " "))
}

// promised says what became of the dates that were promised: which slip, by how much.
func (s Plans) promised() string {
	if s.Promised == nil {
		return ""
	}
	var later []study.PlansPromisedJob
	done, none := 0, []string(nil)
	for _, j := range s.Promised.Jobs {
		switch {
		case j.State == study.PlansDone:
			done++
		case math.IsInf(float64(j.Later), 1):
			none = append(none, j.Name)
		case j.Slips:
			later = append(later, j)
		}
	}
	slices.SortStableFunc(later, func(a, b study.PlansPromisedJob) int { return int(math.Copysign(1, float64(b.Later-a.Later))) })
	text := fmt.Sprintf(" Of %s that were promised %d %s done", say.Plural(len(s.Promised.Jobs), "job"), done, map[bool]string{true: "is", false: "are"}[done == 1])
	switch {
	case len(none) > 0:
		text += "; of " + say.List(none) + " no end is known any more"
	case len(later) == 0:
		text += ", and none is shown to be finished later than it was promised 9 times in 10"
	default:
		text += fmt.Sprintf(", and %d slip by more than chance explains, %s most: promised 9 times in 10 by %s, it is finished so by %s", len(later), later[0].Name, s.Moment(later[0].Was), s.Moment(*later[0].Is)) + stillKept(&later[0])
	}
	if len(s.Promised.New) > 0 {
		text += "; " + say.List(s.Promised.New) + map[bool]string{true: " is", false: " are"}[len(s.Promised.New) == 1] + " new"
	}
	return text + "."
}

// stillKept says how likely the date of a job that slips is kept.
func stillKept(j *study.PlansPromisedJob) string {
	if j.Kept == nil {
		return ""
	}
	return ", and its date is kept in " + SeasonsOften(*j.Kept)
}

// promises returns a row for each job that was promised.
func (s Plans) promises() plots.Table {
	t := plots.Table{
		Name: "Promised", Names: 1, Caption: "What was promised, and what is left of it: when each job is finished 9 times in 10, then and now, by how much that is later by the clock on the wall, and how likely its date is kept, then and now",
		Columns: []plots.Column{
			{Title: "Job"},
			{Title: "Promised by"},
			{Title: "Now by"},
			{Title: "Later", Unit: "h", Kind: plots.Number, Decimals: 1},
			{Title: "Due"},
			{Title: "Kept then", Kind: plots.Share, Decimals: 1},
			{Title: "Kept now", Kind: plots.Share, Decimals: 1},
		},
	}
	share := func(n *study.Number) plots.Entry {
		if n == nil {
			return plots.Entry{Number: math.NaN()}
		}
		return plots.Entry{Number: float64(*n), Shown: SeasonsOften(*n)}
	}
	for _, j := range s.Promised.Jobs {
		now, later, due := page.Words(j.State), plots.Entry{Number: math.NaN()}, page.Words("none")
		if j.Is != nil {
			if now = page.Words(s.Moment(*j.Is)); !math.IsInf(float64(j.Later), 0) && !math.IsNaN(float64(j.Later)) {
				later = hours(j.Later)
			}
		}
		if j.Due != nil {
			due = page.Words(s.Moment(*j.Due))
		}
		t.Rows = append(t.Rows, []plots.Entry{page.Words(j.Name), page.Words(s.Moment(j.Was)), now, later, due, share(j.Had), share(j.Kept)})
	}
	return t
}
