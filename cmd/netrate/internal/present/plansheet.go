package present

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/seasons"
	"netrate/model/study"
	"netrate/plots"
)

// mostOnSheet is how many jobs a sheet of paper has room for beside its chart.
const mostOnSheet = 18

// sheet returns the plan on one sheet of paper: the chart, the jobs with their dates, who is there, and cautions.
func (s Plans) sheet(x *study.PlansPlan, chart *plots.Figure, letter func(job string) string) *plots.Decision {
	t := s.Jobs(x)
	start := slices.IndexFunc(t.Columns, func(c plots.Column) bool { return c.Title == "Start by" })
	t.Caption, t.Columns = "What each line does, in its order. When jobs begin and end are medians; 9 in 10 by: by then it is finished 9 times in 10; kept: how often its date is; before a job its letter in the chart", t.Columns[:start]
	if more := len(t.Rows) - mostOnSheet; more > 0 {
		t.Rows = t.Rows[:mostOnSheet]
		t.Caption += "; " + say.Plural(more, "job") + " more in the appendix"
	}
	for i := range t.Rows {
		t.Rows[i] = t.Rows[i][:start]
		if name := &t.Rows[i][1]; letter(name.Text) != "" {
			*name = page.Words(letter(name.Text) + "\u2002" + name.Text)
		}
	}
	return &plots.Decision{
		Picture: chart, Table: t, Second: s.there(x), MattersHead: "To be known besides", Matters: slices.Concat(s.downs(x), s.twice(x), unneeded(x)),
		CautionsHead: "Before it is worked by", Cautions: briefCautions(),
	}
}

// How much of a finding the sheet has room for beside chart, jobs and cautions, in bytes.
const (
	mostHead = 260 // in large letters
	mostBody = 400
)

// onSheet returns of what is found, and of what that costs, what stands on the sheet, in two paragraphs, and the
// rest; how the order was found is of neither.
func (s Plans) onSheet(x *study.PlansPlan) (answer, rest, how string) {
	how = s.found(x)
	found, more, said := strings.Cut(s.Finding(), how)
	if !said {
		how = ""
	}
	answer, rest = headAndBody(s.partial() + strings.TrimSpace(strings.TrimSpace(found)+more+s.Costs(x)))
	return answer, rest, how
}

// partial says that the run was interrupted; "" if it was not.
func (s Plans) partial() string {
	if !s.Settings.Partial {
		return ""
	}
	return "PARTIAL ANSWER: the run was interrupted. "
}

// headAndBody returns the first sentences of a finding, as many as the sheet has room for, and the rest.
func headAndBody(finding string) (answer, rest string) {
	sentences := strings.SplitAfter(finding, ". ")
	head, body := "", ""
	for i, s := range sentences {
		switch {
		case body == "" && head != "" && (strings.HasPrefix(s, "The last job is") || len(head)+len(s) > mostHead), body != "" && len(body)+len(s) <= mostBody:
			body += s
		case body == "":
			head += s
		default:
			return strings.TrimSpace(head) + "\n\n" + strings.TrimSpace(body) + " More is in the appendix.", strings.Join(sentences[i:], "")
		}
	}
	return strings.TrimSpace(strings.TrimSpace(head) + "\n\n" + strings.TrimSpace(body)), ""
}

// briefCautions returns the cautions without their standards, which stand at the end of the report.
func briefCautions() []string {
	all := plots.Cautions()
	all[0], _, _ = strings.Cut(all[0], " In the United States")
	return all
}

// downs says when lines cannot be used until the last job is finished; nothing if they always can.
func (s Plans) downs(x *study.PlansPlan) []string {
	var all []string
	for _, d := range x.Made.Plan.Down {
		if last := x.Last.P90; d.From >= last.At || d.To <= x.Made.Plan.From {
			continue
		}
		from, to := study.PlansMoment{At: d.From}, study.PlansMoment{At: d.To}
		until := s.clock(to)
		if day := dayNumber(to); day != dayNumber(from) {
			until = s.day(day) + ", " + until
		}
		all = append(all, fmt.Sprintf("%s, %s, %s to %s", x.Lines[d.Line].Name, s.day(dayNumber(from)), s.clock(from), until))
	}
	if all == nil {
		return nil
	}
	return []string{"Not to be used: " + strings.Join(all, "; ")}
}

// twice says who, of people who have names, is there in two shifts of a day, which may be a slip of a rota or what overtime
// comes to; nothing if nobody is.
func (s Plans) twice(x *study.PlansPlan) []string {
	if x.Made.Plan.Crew.People == nil {
		return nil
	}
	who := map[int][]int{} // by day
	for n := range x.People {
		last := -1
		for _, shift := range x.People[n].Shifts {
			if shift.Presence == study.PlansAbsent {
				continue
			}
			if day := dayNumber(shift.From); day != last {
				last = day
			} else if !slices.Contains(who[day], n) {
				who[day] = append(who[day], n)
			}
		}
	}
	places, days := map[string][]int{}, plansDays(x)
	var order []string
	for _, day := range slices.Sorted(maps.Keys(who)) {
		names := plansNames(x, who[day])
		if places[names] == nil {
			order = append(order, names)
		}
		places[names] = append(places[names], slices.Index(days, day))
	}
	for i, names := range order {
		order[i] = names + ", " + s.stretches(days, places[names])
	}
	if order == nil {
		return nil
	}
	return []string{"In two shifts of a day: " + strings.Join(order, "; ")}
}

// unneeded says what is chosen and begins when all is done: a lane of the chart has nothing of it.
func unneeded(x *study.PlansPlan) (all []string) {
	p := x.Made.Plan
	for _, s := range p.Staffed {
		if s.Chosen && !slices.ContainsFunc(p.Attendance(x.Last.P90.At), func(a seasons.Attendance) bool { return a.By == s.Name }) {
			all = append(all, s.Name+" is chosen, and all is done before it, 9 times in 10")
		}
	}
	return all
}
