package present

import (
	"cmp"
	"fmt"
	"hash/crc32"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	ics "github.com/arran4/golang-ical"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/seasons"
	"netrate/model/study"
	"netrate/plots"
	"netrate/sim"
)

// Rows returns a row for each job of the plan that is handed on, under the names that programs know.
func (s Plans) Rows() plots.Table {
	t := plots.Table{Name: "plan", Columns: rowColumns()}
	at := func(m *study.PlansMoment) plots.Entry {
		switch {
		case m == nil || m.Never():
			return page.Words("")
		case s.Starts.IsZero():
			return page.Words(s.Moment(*m))
		}
		return page.Words(m.Time(s.Starts).Format("2006-01-02T15:04"))
	}
	chosen, partial := page.Words(strings.Join(s.chosenItems(s.shown()), "; ")), page.Words(strconv.FormatBool(s.Settings.Partial))
	for _, line := range s.shown().Lines {
		for k, j := range line.Jobs {
			kept, late := plots.Entry{Number: math.NaN()}, []plots.Entry{value(j.Late), value(j.Priority), value(weighted(&j)), value(j.LateCost)}
			for k := range late {
				if math.IsInf(late[k].Number, 1) { // it has no end
					late[k] = plots.Entry{Number: math.NaN()}
				}
			}
			if j.InTime != nil {
				kept = value(j.InTime.Share)
			}
			from, waits := page.Words(""), page.Value(0)
			if j.Waits != nil {
				from, waits = at(&j.Waits.From), value(j.Waits.Hours*j.Waits.Share)
			}
			t.Rows = append(t.Rows, append(append([]plots.Entry{
				page.Words(line.Name), page.Value(float64(k + 1)), page.Words(j.Name), page.Words(j.Product), page.Value(float64(j.Sets)),
				at(&j.Begun.P50), at(&j.Begun.P90), at(&j.First), from, waits,
				at(&j.Finished.P5), at(&j.Finished.P50), at(&j.Finished.P90), at(&j.Finished.P95), at(j.Due), kept, at(j.StartBy),
			}, late...), value(j.LateSets), value(j.Lacks), chosen, partial))
		}
	}
	return t
}

// rowColumns returns the columns of those rows.
func rowColumns() []plots.Column {
	return []plots.Column{
		{Title: "line"},
		{Title: "place", Kind: plots.Number},
		{Title: "name"},
		{Title: "job"},
		{Title: "sets", Kind: plots.Number},
		{Title: "begun_p50"},
		{Title: "begun_p90"},
		{Title: "first_set_p50"},
		{Title: "waits_from_p50"},
		{Title: "waits_h", Kind: plots.Number, Decimals: 3},
		{Title: "finished_p5"},
		{Title: "finished_p50"},
		{Title: "finished_p90"},
		{Title: "finished_p95"},
		{Title: "due"},
		{Title: "date_kept", Kind: plots.Number, Decimals: 4},
		{Title: "start_by_for_90"},
		{Title: "late_h", Kind: plots.Number, Decimals: 3},
		{Title: "priority", Kind: plots.Number},
		{Title: "late_h_times_priority", Kind: plots.Number, Decimals: 3},
		{Title: "late_cost", Kind: plots.Number, Decimals: 2},
		{Title: "late_sets", Kind: plots.Number, Decimals: 1},
		{Title: "not_delivered", Kind: plots.Number, Decimals: 1},
		{Title: "chosen"},
		{Title: "partial"},
	}
}

// weighted returns for how many hours a job is late, times its priority; what has no weight is not late.
func weighted(j *study.PlansJob) study.Number {
	if j.Priority == 0 {
		return 0
	}
	return j.Priority * j.Late
}

// WriteCalendar writes the plan as an iCalendar file (RFC 5545): an event for each job on its line,
// from the median of its begin to that of its line being free, in UTC, so that a change to summer time leaves
// the times on the wall as they are. A job keeps its event when it is planned anew, and has none if it
// is not finished in half of the replications. The dates of the plan must be known.
//
// DTSTAMP is when the file was made, since it has a METHOD (section 3.8.7.2). SEQUENCE is how many plans came
// before, each promised for the next (3.8.7.4): of two files the later one holds by either (RFC 5546,
// section 2.1.5).
//
// What a run has come to that was interrupted is tentative (3.8.1.11), and its summary says so too, which is what most
// programs show.
func (s Plans) WriteCalendar(to io.Writer) error {
	cal := ics.NewCalendarFor("netrate plan")
	cal.SetMethod(ics.MethodPublish)
	notRemade, needs := s.shown().NotRemade, s.needs()
	for _, line := range s.shown().Lines {
		for _, j := range line.Jobs {
			if j.LineFree().Never() || j.Finished.P50.Never() {
				continue
			}
			name := cmp.Or(line.Name, "line")
			// Of two names that are alike but for their signs the sum is another.
			e := cal.AddEvent(fmt.Sprintf("%s-%s-%08x@netrate.invalid", s.Starts.Format(time.DateOnly), say.Slug(j.Name), crc32.ChecksumIEEE([]byte(j.Name))))
			e.SetDtStampTime(s.Made.UTC())
			e.SetSequence(s.Revision)
			e.SetStartAt(j.Begun.P50.Time(s.Starts).UTC())
			e.SetEndAt(j.LineFree().Time(s.Starts).UTC())
			summary := name + ": " + j.Name
			if s.Settings.Partial {
				e.SetStatus(ics.ObjectStatusTentative)
				summary += " (partial answer)"
			}
			e.SetSummary(summary)
			e.SetLocation(name)
			text := fmt.Sprintf("%s, %s.", j.Product, say.Plural(int(j.Sets), "set"))
			if tellsWait(&j) {
				text += " It " + s.waitOf(j.Waits) + "."
			}
			if j.Free != nil && !slices.Contains(notRemade, j.Name) {
				text += fmt.Sprintf(" Its last remake is made by %s.", s.Moment(j.Finished.P50))
			}
			if j.Finished.P90.Never() {
				text += fmt.Sprintf(" Not finished in %s of the replications.", SeasonsOften(j.Unfinished))
			} else {
				text += fmt.Sprintf(" Finished 9 times in 10 by %s.", s.Moment(j.Finished.P90))
			}
			if j.InTime != nil {
				text += fmt.Sprintf(" Due %s: kept in %s.", s.Moment(*j.Due), SeasonsOften(j.InTime.Share))
			}
			e.SetDescription(text + needs)
		}
	}
	return cal.SerializeTo(to, ics.WithNewLineWindows)
}

// needs says on what the dates rest, after a space: that the plan is not whole, and what is chosen in it.
func (s Plans) needs() (text string) {
	if s.Settings.Partial {
		text = " The run was interrupted: a partial answer."
	}
	if chosen := s.chosenItems(s.shown()); chosen != nil {
		text += " The plan has " + say.List(chosen) + map[bool]string{true: ", which is chosen.", false: ", which are chosen."}[len(chosen) == 1]
	}
	return text
}

// gantt draws which line does what when, by medians, and below who is there, if people says so. Nights
// are left out of its axis.
func (s Plans) gantt(x *study.PlansPlan, people bool) plots.WeekData {
	h := x.Made.Horizon
	worked := func(m study.PlansMoment) float64 { return float64(h.Worked(m.At)) / 3600 }
	length := 0.0
	for _, j := range x.Jobs() {
		length = max(length, worked(j.Finished.P90))
	}
	d := plots.WeekData{Axis: "hours of working time", Length: length}
	windows, _ := h.Windows(h.At(sim.Seconds(3600 * length)))
	d.Ticks = s.ticks(windows, worked)
	for _, line := range x.Lines {
		lane := plots.Roster{Name: cmp.Or(line.Name, "the line"), Note: say.Plural(len(line.Jobs), "job")}
		at := 0.0
		for _, j := range line.Jobs {
			begun, first, end := worked(j.Begun.P50), worked(j.First), worked(j.LineFree())
			begun = max(begun, at)
			first, end = max(first, begun), max(end, first, begun)
			for _, b := range []plots.Stint{{From: at, To: begun, Activity: plots.Idling}, {From: begun, To: first, Activity: plots.ChangingOver, Job: j.Name}, {From: first, To: end, Activity: plots.Producing, Job: j.Name}} {
				for _, piece := range withoutDown(b, line.Down()) {
					if piece.Activity == plots.Idling || piece.Activity == plots.ChangingOver {
						lane.Stints = append(lane.Stints, without(piece, j.Waiting(), plots.Awaiting)...)
					} else {
						lane.Stints = append(lane.Stints, piece)
					}
				}
			}
			at = end
		}
		d.Lanes = append(d.Lanes, lane)
	}
	if people {
		d.People = attended(x, worked, length)
	}
	title := fmt.Sprintf("%s: the last job is finished by %s in the median", s.name(x), s.Moment(x.Last.P50))
	if x.Last.P50.Never() {
		title = s.name(x) + ": not all jobs are finished"
	}
	end := "its end"
	if x.Hand != nil && x.Hand.Beside {
		end = "when its line is free; remakes may be made beside it for longer"
	}
	d.Head = plots.Head{
		Title:    title,
		Subtitle: "Each job from the median of its begin to that of " + end + "; nights, breaks and shifts without people are left out",
	}
	if people {
		d.Subtitle += ". " + peopleNote(x)
	}
	return d
}

// mostDays is how many days a chart has ticks for: of a longer plan each week has one.
const mostDays = 12

// ticks returns where days, or weeks, begin in working time.
func (s Plans) ticks(windows []seasons.Window, worked func(study.PlansMoment) float64) []plots.Tick {
	var days, weeks []plots.Tick
	day, week := "", 0
	for _, w := range windows {
		from := study.PlansMoment{At: w.From}
		name := s.Day(from)
		if name == day {
			continue
		}
		day = name
		days = append(days, plots.Tick{At: worked(from), Name: name})
		if n, _, _, _ := from.Parts(); n != week {
			week = n
			if !s.Starts.IsZero() {
				name = from.Time(s.Starts).Format("2 Jan")
			}
			weeks = append(weeks, plots.Tick{At: worked(from), Name: name})
		}
	}
	if len(days) > mostDays {
		return weeks
	}
	return days
}

// withoutDown returns a stint in pieces, where its line is down as down.
func withoutDown(b plots.Stint, down [][2]float64) []plots.Stint {
	return without(b, down, plots.Broken)
}

// without returns a stint in pieces, in some stretches of time as another activity.
func without(b plots.Stint, stretches [][2]float64, other plots.Activity) (all []plots.Stint) {
	add := func(to float64, activity plots.Activity, job string) {
		if to > b.From {
			all = append(all, plots.Stint{From: b.From, To: to, Activity: activity, Job: job})
			b.From = to
		}
	}
	for _, d := range stretches {
		add(min(d[0], b.To), b.Activity, b.Job)
		add(min(d[1], b.To), other, "")
	}
	add(b.To, b.Activity, b.Job)
	return all
}

// people returns a row for each shift that begins before the last job ends, 9 times in 10: to its end, as people are paid.
func (s Plans) people(x *study.PlansPlan) plots.Table {
	t := plots.Table{
		Name: "People", Names: 1, Caption: "Who is there in the shifts that begin before the last job ends, 9 times in 10, each to its end", Most: 60,
		Columns: []plots.Column{{Title: "From"}, {Title: "To"}, {Title: "Operators", Kind: plots.Number}, {Title: "Who", Data: x.Made.Plan.Crew.People == nil}},
	}
	there := map[[2]study.PlansMoment][]string{}
	var shifts [][2]study.PlansMoment
	for i := range x.People {
		for _, shift := range x.People[i].Shifts {
			if at := [2]study.PlansMoment{shift.From, shift.To}; shift.Presence != study.PlansAbsent {
				if there[at] == nil {
					shifts = append(shifts, at)
				}
				there[at] = append(there[at], x.People[i].Name)
			}
		}
	}
	slices.SortFunc(shifts, func(a, b [2]study.PlansMoment) int { return cmp.Compare(a[0].At, b[0].At) })
	for _, at := range shifts {
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(s.Moment(at[0])), page.Words(s.Moment(at[1])), page.Value(float64(len(there[at]))), page.Words(strings.Join(there[at], ", ")),
		})
	}
	return t
}
