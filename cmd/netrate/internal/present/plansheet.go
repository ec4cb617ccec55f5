package present

import (
	"fmt"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// mostOnSheet is how many jobs, and how many stretches of a crew, a sheet of paper has room for beside its chart.
const (
	mostOnSheet = 13
	mostCrews   = 6
)

// sheet returns the plan on one sheet of paper: the chart, the jobs with their dates, who is there, and cautions.
func (s Plans) sheet(x *study.PlansPlan, chart *plots.Figure) *plots.Decision {
	t := s.Jobs(x)
	start := slices.IndexFunc(t.Columns, func(c plots.Column) bool { return c.Title == "Start by" })
	t.Caption, t.Columns = "What each line does, in its order. When jobs begin and end are medians; kept: how often its date is", t.Columns[:start]
	if more := len(t.Rows) - mostOnSheet; more > 0 {
		t.Rows = t.Rows[:mostOnSheet]
		t.Caption += "; " + say.Plural(more, "job") + " more in the appendix"
	}
	for i := range t.Rows {
		t.Rows[i] = t.Rows[i][:start]
	}
	return &plots.Decision{
		Picture: chart, Table: t, MattersHead: "Who is there", Matters: s.crews(x),
		CautionsHead: "Before it is worked by", Cautions: briefCautions(),
	}
}

// briefCautions returns the cautions without their standards, which stand at the end of the report.
func briefCautions() []string {
	all := plots.Cautions()
	all[0], _, _ = strings.Cut(all[0], " In the United States")
	return all
}

// crews says how many operators are there from when to when, shifts of as many in a row as one.
func (s Plans) crews(x *study.PlansPlan) (all []string) {
	windows, there := x.Made.Horizon.Windows(x.Last.P90.At)
	for i := 0; i < len(windows); {
		k := i
		for k+1 < len(windows) && there[k+1] == there[i] {
			k++
		}
		if len(all) == mostCrews {
			return append(all, "and so on: the table of people has all shifts")
		}
		from, to := study.PlansMoment{At: windows[i].From}, study.PlansMoment{At: windows[k].To}
		all = append(all, fmt.Sprintf("%s in the shifts from %s to %s", say.Plural(there[i], "operator"), s.Moment(from), s.Moment(to)))
		i = k + 1
	}
	return all
}
