package present

import (
	"fmt"
	"time"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/study"
	"netrate/model/trace"
	"netrate/plots"
	"netrate/sim"
)

// TraceText returns what was traced of something called so on a screen: of one shift, one job or one
// line group, which begins at the given moment, the stops of one of its hours too, counted from 1; 0 for
// all of them.
func TraceText(name string, a *study.TraceAnswer, begins time.Time, hour int) string {
	one := &a.Traced[0]
	switch {
	case len(a.Traced) > 1:
		return shiftsText(name, a)
	case one.Job != nil:
		return jobText(one, begins, hour)
	case len(one.Shifts) > 1:
		return groupText(name, one.Shifts, begins, hour)
	}
	return oneShiftText(one.Shifts[0], begins, hour)
}

// oneShiftText returns one shift: what came of it, hour by hour, and its stops.
func oneShiftText(s *trace.Shift, begins time.Time, hour int) string {
	title := fmt.Sprintf("%s: shift %s of seed %d, %s from %s", s.Line.Name, say.Thousands(s.Replication), s.Seed,
		page.Hours(s.Lasts()), begins.Format("2006-01-02 15:04"))
	return Screen(title, shiftFinding(s), hoursTable(s, begins), hourStops([]*trace.Shift{s}, begins, hour))
}

// shiftFinding says in sentences what came of a shift.
func shiftFinding(s *trace.Shift) string {
	o, t := &s.Outcome, s.Outcome.Stopped()
	text := fmt.Sprintf("%s good envelopes of %s sets, %s an hour: %s diverted, %s outsorted, %s spoiled, %s delivered defective, %s on the line at the end. ",
		say.Thousands(o.Sets.Good), say.Thousands(o.Sets.Started), say.Rounded(o.NetRate(), 0), say.Thousands(o.Sets.Diverted),
		say.Thousands(o.Sets.Outsorted), say.Thousands(o.Sets.Spoiled), say.Thousands(o.Sets.Defective), say.Thousands(o.Sets.OnLine))
	text += fmt.Sprintf("%s, for %s of %s minutes: %s waiting and walking, %s with an operator at work, %s restarting", say.Plural(t.Count, "stop"),
		minutes(t.Total()), minutes(o.Time.Shift), minutes(t.Waiting), minutes(t.Working), minutes(t.Restarting))
	if t.Starved > 0 {
		text += fmt.Sprintf(", %s without documents", minutes(t.Starved))
	}
	return text + "."
}

func minutes(t sim.Seconds) string { return say.Rounded(float64(t)/60, -1) }

const hourLength = sim.Seconds(3600)

// hoursTable returns what each hour of a shift brought.
func hoursTable(s *trace.Shift, begins time.Time) plots.Table {
	t := plots.Table{
		Name: "hours", Caption: "Hour by hour: stops by when they began, minutes by when the line stood.",
		Columns: []plots.Column{
			{Title: "Hour"},
			{Title: "From"},
			{Title: "Good", Kind: plots.Number},
			{Title: "Not good", Kind: plots.Number},
			{Title: "Stops", Kind: plots.Number},
			{Title: "Stood", Unit: "min", Kind: plots.Number, Decimals: 1},
			{Title: "Wait and walk", Unit: "min", Kind: plots.Number, Decimals: 1},
		},
		Names: 2,
	}
	for from := sim.Seconds(0); from < s.Lasts(); from += hourLength {
		to := min(from+hourLength, s.Lasts())
		stops, stood, waited, lost := 0, sim.Seconds(0), sim.Seconds(0), 0
		for i := range s.Stops {
			if x := s.Stops[i].From; x >= from && x < to {
				stops++
			}
		}
		for _, x := range s.Stood {
			within := max(0, min(x.To, to)-max(x.From, from))
			if stood += within; x.Phase == model.Waiting {
				waited += within
			}
		}
		for i := range s.Sets {
			if x := &s.Sets[i]; !x.Good && x.Fate != model.OnLine {
				if at := s.Moment(x.Cycle); at > from && at <= to {
					lost++
				}
			}
		}
		hour := len(t.Rows) + 1
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(fmt.Sprint(hour)), page.Words(after(begins, from).Format("15:04")), page.Value(float64(s.Good(to) - s.Good(from))),
			page.Value(float64(lost)), page.Value(float64(stops)), page.Value(float64(stood / 60)), page.Value(float64(waited / 60)),
		})
	}
	return t
}

func after(begins time.Time, at sim.Seconds) time.Time {
	return begins.Add(time.Duration(float64(at) * float64(time.Second)))
}
