package present

import (
	"fmt"
	"time"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/trace"
	"netrate/plots"
	"netrate/sim"
)

// ShiftText returns one shift, which begins at the given moment, on a screen: what came of it,
// hour by hour, and the stops that arose in one of its hours, counted from 1; 0 for all of them.
func ShiftText(s *trace.Shift, begins time.Time, hour int) string {
	title := fmt.Sprintf("%s: shift %s of seed %d, %s from %s", s.Line.Name, say.Thousands(s.Replication), s.Seed,
		page.Hours(s.Line.Shift), begins.Format("2006-01-02 15:04"))
	return Screen(title, shiftFinding(s), hoursTable(s, begins), hourStops(s, begins, hour))
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
	for from := sim.Seconds(0); from < s.Line.Shift; from += hourLength {
		to := min(from+hourLength, s.Line.Shift)
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

// hourStops returns the stops that arose in an hour of a shift, or all.
func hourStops(s *trace.Shift, begins time.Time, hour int) plots.Table {
	t := plots.Table{
		Name: "stops", Caption: "The stops of the shift.",
		Columns: []plots.Column{
			{Title: "At"},
			{Title: "Station"},
			{Title: "Cause"},
			{Title: "Wait and walk", Unit: "s", Kind: plots.Number},
			{Title: "Work", Unit: "s", Kind: plots.Number},
			{Title: "Operator"},
		},
		Names: 3,
	}
	from, to := sim.Seconds(0), s.Line.Shift
	if hour > 0 {
		from = sim.Seconds(sim.Seconds(hour-1) * hourLength)
		to = min(from+hourLength, to)
		t.Caption = fmt.Sprintf("The stops of hour %d, from %s on; those of another with --hour, all with --hour 0. The line restarts when the last stop that is open is cleared.",
			hour, after(begins, from).Format("15:04"))
	}
	for i := range s.Stops {
		if x := &s.Stops[i]; x.From >= from && x.From < to {
			t.Rows = append(t.Rows, stopRow(s, begins, x))
		}
	}
	if len(t.Rows) == 0 {
		t.Caption = fmt.Sprintf("No stop began in hour %d of the shift.", hour)
		if hour == 0 {
			t.Caption = "No stop began in the shift."
		}
	}
	return t
}

// stopRow returns a stop as a row.
func stopRow(s *trace.Shift, begins time.Time, x *trace.Stop) []plots.Entry {
	waited, worked, who := x.To-x.From, page.Words("–"), "–"
	if x.Attended {
		waited, worked = x.Arrives-x.From, page.Value(float64(x.Worked()))
		for i := range s.Tasks {
			if t := &s.Tasks[i]; t.Taken && t.Station == x.Station && t.To == x.To {
				who = fmt.Sprint(t.Operator + 1)
			}
		}
	}
	return []plots.Entry{
		page.Words(after(begins, x.From).Format("15:04:05")), page.Words(s.Name(x.Station)), page.Words(x.Cause.Name(s.Line.Stations[x.Station])),
		page.Value(float64(waited)), worked, page.Words(who),
	}
}

// ShiftsText returns several shifts, a row each.
func ShiftsText(all []*trace.Shift) string {
	first, last := all[0], all[len(all)-1]
	t := plots.Table{
		Name: "shifts", Caption: "Each of them; netrate trace --shift shows one in full.",
		Columns: []plots.Column{
			{Title: "Shift", Kind: plots.Number},
			{Title: "Net rate", Unit: "good/h", Kind: plots.Number},
			{Title: "Good", Kind: plots.Number},
			{Title: "Not good", Kind: plots.Number},
			{Title: "Stops", Kind: plots.Number},
			{Title: "Stood", Unit: "min", Kind: plots.Number, Decimals: 1},
		},
		Names: 1,
	}
	good, stops := int64(0), int64(0)
	for _, s := range all {
		o, stopped := &s.Outcome, s.Outcome.Stopped()
		lost := o.Sets.Started - o.Sets.Good - o.Sets.OnLine
		t.Rows = append(t.Rows, []plots.Entry{
			page.Value(float64(s.Replication)), page.Value(o.NetRate()), page.Value(float64(o.Sets.Good)), page.Value(float64(lost)),
			page.Value(float64(stopped.Count)), page.Value(float64(stopped.Total() / 60)),
		})
		good += o.Sets.Good
		stops += stopped.Count
	}
	title := fmt.Sprintf("%s: shifts %s to %s of seed %d, %s each", first.Line.Name, say.Thousands(first.Replication), say.Thousands(last.Replication), first.Seed, page.Hours(first.Line.Shift))
	return Screen(title, fmt.Sprintf("%s good envelopes and %s in %s.", say.Thousands(good), say.Plural(stops, "stop"), say.Plural(len(all), "shift")), t)
}
