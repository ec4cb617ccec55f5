package present

import (
	"fmt"
	"math"
	"slices"
	"time"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// closest returns the burst that lies farthest above what was expected, and its station; nil if
// none is found.
func (f Fit) closest() (at *study.FitStation, most *study.FitBurst) {
	for i := range f.Stations {
		s := &f.Stations[i]
		for k := range s.Found {
			if b := &s.Found[k]; most == nil || float64(b.Stops)-b.Expected > float64(most.Stops)-most.Expected {
				at, most = s, b
			}
		}
	}
	return at, most
}

// burstAt returns when a burst was, and in which work.
func burstAt(b *study.FitBurst) string {
	layout, text := "2006-01-02 15:04", b.From.Format("2006-01-02 15:04")+" to "+b.To.Format("15:04")
	if b.Dated {
		layout, text = time.DateOnly, b.From.Format(time.DateOnly)
	}
	if b.To.Format(time.DateOnly) != b.From.Format(time.DateOnly) {
		text = b.From.Format(layout) + " to " + b.To.Format(layout)
	}
	for _, word := range []string{b.Shift, b.Job, study.LogSpeed(b.Speed)} {
		if word != "" {
			text += ", " + word
		}
	}
	return text
}

// BurstTable returns a row for each burst that was found; none if none was.
func (f Fit) BurstTable() plots.Table {
	t := plots.Table{
		Name: "Bursts", Caption: "When stops came closest together, and how many were expected in that time of a job at a speed.",
		Columns: []plots.Column{{Title: "Station"}, {Title: "When"}, {Title: "Stops", Kind: plots.Number}, {Title: "Expected", Kind: plots.Number}},
	}
	for _, s := range f.Stations {
		for k := range s.Found {
			b := &s.Found[k]
			t.Rows = append(t.Rows, []plots.Entry{
				page.Words(s.Name), page.Words(burstAt(b)), page.Value(float64(b.Stops)), {Number: b.Expected, Shown: say.FewDigits(b.Expected)},
			})
		}
	}
	return t
}

// burstFigure draws the stops of a station in bursts, one after the other, beside as many that
// come evenly in each job and at each speed.
func burstFigure(s *study.FitStation) (*plots.Figure, error) {
	title := s.Name + ": stops come in bursts"
	if len(s.Found) > 0 {
		b := &s.Found[0]
		for k := range s.Found {
			if float64(s.Found[k].Stops)-s.Found[k].Expected > float64(b.Stops)-b.Expected {
				b = &s.Found[k]
			}
		}
		title = fmt.Sprintf("%s: %s, %s for %s expected", s.Name, burstAt(b), say.Plural(b.Stops, "stop"), say.FewDigits(b.Expected))
	}
	log, even := s.Course()
	return plots.Cumulative(plots.CumulativeData{
		Head: plots.Head{Title: title, Subtitle: "Share of the stops, by the feeds of the station until then: where the line rises steeply they come in a burst"},
		Axis: "feeds of the station", Share: "share of its stops until then", Of: plots.Runs{One: "stop", Many: "stops"},
		Curves: []plots.Values{{Name: "the log", Values: log}, {Name: "evenly, job by job", Role: plots.Base, Values: even}},
	})
}

// mostBurstDays is how many days have a row.
const mostBurstDays = 20

// burstTimes draws when the stops of a station were, day by day, and its bursts; of many days only
// those with a burst.
func burstTimes(s *study.FitStation) (*plots.Figure, error) {
	const day = 24 * time.Hour
	var days []time.Time
	rows := map[time.Time]*plots.RasterRow{}
	row := func(at time.Time) (*plots.RasterRow, float64) {
		y, m, d := at.Date()
		first := time.Date(y, m, d, 0, 0, 0, 0, at.Location())
		if rows[first] == nil {
			rows[first] = &plots.RasterRow{Name: first.Format(time.DateOnly)}
			days = append(days, first)
		}
		return rows[first], at.Sub(first).Hours()
	}
	low, high := day.Hours(), 0.0
	for _, at := range whenStopped(s) {
		r, hour := row(at)
		r.At = append(r.At, hour)
		low, high = min(low, math.Floor(hour)), max(high, math.Ceil(hour))
	}
	for k := range s.Found {
		b := &s.Found[k]
		from, begins := row(b.From)
		to, ends := row(lastOf(s, b))
		name := fmt.Sprintf("%s, %s", burstAt(b), say.Plural(b.Stops, "stop"))
		if from == to && ends < begins { // a night, of which the counts call all hours those of its first day
			from.Spans = append(from.Spans, plots.PlannedRange{Low: begins, High: high, Name: name}, plots.PlannedRange{Low: low, High: ends, Name: name})
			continue
		}
		if from == to {
			from.Spans = append(from.Spans, plots.PlannedRange{Low: begins, High: ends, Name: name})
			continue
		}
		from.Spans = append(from.Spans, plots.PlannedRange{Low: begins, High: high, Name: name})
		to.Spans = append(to.Spans, plots.PlannedRange{Low: low, High: ends, Name: name})
		for _, between := range rows {
			if between.Name > from.Name && between.Name < to.Name { // dates, as ISO 8601 writes them
				between.Spans = append(between.Spans, plots.PlannedRange{Low: low, High: high, Name: name})
			}
		}
	}
	slices.SortFunc(days, time.Time.Compare)
	d := plots.RasterData{
		Head: plots.Head{
			Title:    fmt.Sprintf("%s: %s shown, with %s of %s", s.Name, say.Plural(len(s.Found), "burst"), say.Thousands(inBursts(s)), say.Plural(len(s.Stops), "stop")),
			Subtitle: drawnAs(s) + "; shaded are stops that lie closer together than chance explains, others may be bursts too",
		},
		Axis: "time of day, h", From: low, To: max(high, low+1), Once: "a stop", Span: "a burst",
	}
	for _, at := range days {
		r := rows[at]
		if len(days) > mostBurstDays && r.Spans == nil {
			d.LeftOut++
			continue
		}
		r.Note = say.Plural(len(r.At), "stop")
		d.Rows = append(d.Rows, *r)
	}
	return plots.Raster(d)
}

// lastOf returns the last moment of a burst: hours end before that of the next, which may be of another day.
func lastOf(s *study.FitStation, b *study.FitBurst) time.Time {
	if s.ByPeriod != nil {
		return b.To.Add(-time.Nanosecond)
	}
	return b.To
}

// drawnAs says what the marks of a station's stops stand for.
func drawnAs(s *study.FitStation) string {
	if s.ByPeriod != nil {
		return "The stops of each hour, day by day, evenly in it as the log names no moment"
	}
	return "When each stop of the station began, day by day"
}

// whenStopped returns when the stops of a station began; where they name only the hour, evenly in it.
func whenStopped(s *study.FitStation) (all []time.Time) {
	of := map[time.Time]int{}
	for _, stop := range s.Stops {
		of[stop.When]++
	}
	met := map[time.Time]int{}
	for _, stop := range s.Stops {
		at := stop.When
		if s.ByPeriod != nil {
			at = at.Add(time.Duration((float64(met[at]) + 0.5) / float64(of[at]) * float64(s.ByPeriod.Long)))
			met[stop.When]++
		}
		all = append(all, at)
	}
	return all
}

// inBursts returns how many stops of a station are in bursts.
func inBursts(s *study.FitStation) (n int) {
	for k := range s.Found {
		n += s.Found[k].Stops
	}
	return n
}

// burstNotes returns whether the stops of stations come in bursts.
func (f Fit) burstNotes() []string {
	var text, quiet []string
	for i := range f.Stations {
		s := &f.Stations[i]
		switch {
		case s.Bursts == nil:
		case s.Overall():
			text = append(text, s.Name+": "+s.Bursts.Finding())
		case s.InBursts():
			text = append(text, s.Name+": Some stops lie closer together than independent ones do, though all of them together do not look so.")
		default:
			quiet = append(quiet, fmt.Sprintf("%s (%s)", s.Name, say.Plural(s.Bursts.Stops, "stop")))
		}
	}
	if len(quiet) > 0 {
		text = append(text, "No bursts are shown at "+say.Or(quiet)+". The model takes faults as independent.")
	}
	timed := slices.ContainsFunc(f.Stations, func(s study.FitStation) bool { return s.Bursts != nil && s.ByPeriod == nil })
	if period := f.periodOfBursts(); period != "" {
		text = append(text, "Bursts were looked for within each job and speed, "+period+" by "+period+", in the numbers of stops, as the log names no moments: what is much shorter is not seen. In one log of twenty without bursts some are found.")
	}
	if timed {
		within := ""
		if f.WholeMinutes() {
			within = " The log is in whole minutes: where in them stops lie was drawn as independent ones do."
		}
		text = append(text, "Bursts were looked for within each job and speed, in the time for which the line ran between stops, as the log has no feeds; pauses are guessed."+within+" In one log of twenty without bursts some are found.")
	}
	return text
}

// periodOfBursts returns what the periods are called in which bursts were looked for; "" if there are none.
func (f Fit) periodOfBursts() string {
	for i := range f.Stations {
		if p := f.Stations[i].ByPeriod; p != nil && p.Clocked {
			return "hour"
		} else if p != nil {
			return "shift"
		}
	}
	return ""
}

// unseenBursts says at which stations bursts could not be looked for, or only shift by shift, as stops name
// no moments, and what that may do.
func (f Fit) unseenBursts() (text []string) {
	byShift, not := []string{}, map[string][]string{}
	var reasons []string
	for i := range f.Stations {
		s := &f.Stations[i]
		switch why := s.Unseen(); {
		case why != "":
			if not[why] == nil {
				reasons = append(reasons, why)
			}
			not[why] = append(not[why], s.Name)
		case s.ByPeriod != nil && !s.ByPeriod.Clocked && !s.InBursts():
			byShift = append(byShift, s.Name)
		}
	}
	if len(byShift) > 0 {
		text = append(text, "At "+say.List(byShift)+" bursts were looked for shift by shift only, and none are shown: a bad pallet of an hour or two may go unseen, and the intervals of the rates are too narrow then.")
	}
	for _, why := range reasons {
		text = append(text, "Bursts were not looked for at "+say.List(not[why])+" ("+why+"): if there are any, the intervals of the rates are too narrow.")
	}
	return text
}
