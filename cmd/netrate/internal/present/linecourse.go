package present

import (
	"cmp"
	"fmt"
	"slices"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/study"
	"netrate/plots"
)

// The figures that show how a shift goes.

// CourseFigure draws what a line that is called so delivers in the course of its shifts, on a scale
// on which others have room too.
func CourseFigure(a *study.CourseAnswer, name string, others ...*study.CourseAnswer) (*plots.Figure, error) {
	stretch := say.Exact(float64(a.Window)/60) + " minutes"
	d := plots.FanData{
		Head: plots.Head{
			Title: fmt.Sprintf("%s: in nine of ten stretches of %s it delivers at a rate of %s to %s an hour", name, stretch,
				say.Rough(float64(a.P5), 50), say.Rough(float64(a.P95), 50)),
			Subtitle: fmt.Sprintf("Rate in each %s of the shift, %s; %s", stretch, page.PerHour, say.Plural(a.Shifts, "shift")),
		},
		Time: "hours from the start of the shift", Axis: page.PerHour,
	}
	for _, w := range a.Windows {
		spread := plots.Percentiles{P5: float64(w.P5), P25: float64(w.P25), P50: float64(w.P50), P75: float64(w.P75), P95: float64(w.P95)}
		d.Points = append(d.Points, plots.FanPoint{Time: float64(w.Middle) / 3600, Spread: spread})
	}
	for _, other := range others {
		for _, w := range other.Windows {
			d.Also = append(d.Also, float64(w.P5), float64(w.P95))
		}
	}
	return plots.Fan(d)
}

// mostLanes is how many causes have a lane of their own.
const mostLanes = 6

// MedianShiftFigure draws the median shift of a line that is called so.
func MedianShiftFigure(a *study.MedianShiftAnswer, name string) (*plots.Figure, error) {
	return plots.Timeline(plots.TimelineData{
		Head: plots.Head{
			Title: fmt.Sprintf("%s: in the median shift the line stands %s times, %s of %s minutes", name,
				say.Thousands(a.Stops), say.Rounded(float64(a.Stood)/60, 0), say.Rounded(float64(a.Length)/60, 0)),
			Subtitle: fmt.Sprintf("One shift, the one with the net rate nearest to the median: %s %s (number %s of seed %d)",
				say.Rounded(float64(a.NetRate), 0), page.PerHour, say.Thousands(a.Replication), a.Seed),
		},
		Axis: "hours from the start of the shift", Length: float64(a.Length) / 3600,
		Lanes: medianShiftLanes(a)[:1], Close: typicalHour(a),
	})
}

// typicalHour returns the hour that is typical of the shift, with what the line stood for, what each
// operator did and how many calls waited; of a short shift all of it.
func typicalHour(a *study.MedianShiftAnswer) *plots.Closeup {
	from, to := float64(a.Hour)/3600, float64(a.Hour)/3600+1
	axis := "hours from the start of the shift: the hour in which the line stands neither long nor short, enlarged"
	if float64(a.Length) < 2*3600 {
		from, to, axis = 0, float64(a.Length)/3600, "hours from the start of the shift"
	}
	lanes := medianShiftLanes(a)
	for i := range lanes[1:] {
		lanes[i+1].Note += " in all"
	}
	lanes = append(lanes, operatorLanes(a)...)
	queue := queueOf(a)
	return &plots.Closeup{From: from, To: to, Axis: axis, Lanes: append(lanes, plots.Lane{Name: "calls that wait", Note: longestWait(a, queue), Queue: queue})}
}

// StocksFigure draws what is left in the stocks of a line in its median shift.
func StocksFigure(a *study.MedianShiftAnswer, name string) (*plots.Figure, error) {
	d := plots.LevelsData{Axis: "hours from the start of the shift", Length: float64(a.Length) / 3600}
	var empty []string
	for i := range a.Stocks {
		x := &a.Stocks[i]
		s := plots.StockLevels{Name: x.Station, Capacity: float64(x.Capacity), Warn: float64(x.Warn), Note: "least " + say.Percent(x.Least(), 0.01)}
		if n := x.Emptied(); n > 0 {
			s.Note = fmt.Sprintf("%s %s", x.UsedUp, times(n))
			empty = append(empty, fmt.Sprintf("%s at %s %s", x.UsedUp, x.Station, times(n)))
		}
		for _, l := range x.Levels {
			s.Levels = append(s.Levels, plots.LevelAt{At: float64(l.At) / 3600, Before: float64(l.Before), After: float64(l.After)})
		}
		d.Stocks = append(d.Stocks, s)
	}
	found := "no stock is used up or full"
	if empty != nil {
		found = say.List(empty)
	}
	d.Head = plots.Head{
		Title: fmt.Sprintf("%s: in the median shift %s", name, found),
		Subtitle: fmt.Sprintf("What is left in hoppers, bins and on the belt, in the shift with the net rate nearest to the median (number %s of seed %d)",
			say.Thousands(a.Replication), a.Seed),
	}
	return plots.Levels(d)
}

// times returns "once", "twice" or "5 times".
func times(n int) string {
	switch n {
	case 1:
		return "once"
	case 2:
		return "twice"
	}
	return say.Thousands(n) + " times"
}

// SettlingFigure draws how the mean of a line's net rate settled as shifts, or jobs, were added.
func SettlingFigure(all []study.SettlingMean, word string) (*plots.Figure, error) {
	last := all[len(all)-1]
	quarter := all[0]
	for _, x := range all {
		if 4*x.Replications <= last.Replications {
			quarter = x
		}
	}
	known := func(x study.SettlingMean) string {
		return fmt.Sprintf("± %s after %s", say.TwoDigitsOr0(float64(x.Mean.Half)), say.Plural(x.Replications, word))
	}
	curve := plots.SweepCurve{Name: "mean"}
	for _, x := range all {
		curve.Points = append(curve.Points, plots.SweepPoint{X: float64(x.Replications), Y: x.Mean.Estimate()})
	}
	return plots.Sweep(plots.SweepData{
		Head: plots.Head{
			Title:    fmt.Sprintf("The mean is known to %s; it was %s", known(last), known(quarter)),
			Subtitle: "Mean of the net rate of the first " + word + "s, " + page.PerHour + ", with the 95 % interval as it was then",
		},
		Parameter: word + "s simulated", Axis: page.PerHour, Curves: []plots.SweepCurve{curve},
	})
}

// operatorLanes returns a lane for each operator and technician: walking and at work.
func operatorLanes(a *study.MedianShiftAnswer) []plots.Lane {
	lanes := map[string]*plots.Lane{}
	var names []string
	busy := map[string]float64{}
	for i := range a.Tasks {
		t := &a.Tasks[i]
		if t.Operator == 0 {
			continue
		}
		name := fmt.Sprintf("operator %d", t.Operator)
		if t.Repair {
			name = fmt.Sprintf("technician %d", t.Operator)
		}
		if lanes[name] == nil {
			lanes[name] = &plots.Lane{Name: name}
			names = append(names, name)
		}
		hours := func(x study.Number) float64 { return float64(x) / 3600 }
		at, end := min(t.Arrives, t.To), min(t.To, a.Length)
		at = min(at, end)
		lanes[name].Spans = append(lanes[name].Spans,
			plots.Span{From: hours(t.From), To: hours(at), State: plots.Waiting}, plots.Span{From: hours(at), To: hours(end), State: plots.Working})
		busy[name] += float64(end - t.From)
	}
	slices.Sort(names)
	var all []plots.Lane
	for _, name := range names {
		l := *lanes[name]
		l.Note = "busy " + say.Percent(busy[name]/float64(a.Length), 0.01)
		all = append(all, l)
	}
	return all
}

// queueOf returns how many calls wait for somebody to set off, from one moment to the next.
func queueOf(a *study.MedianShiftAnswer) []plots.Count {
	type step struct {
		at float64
		by int
	}
	var steps []step
	for i := range a.Tasks {
		t := &a.Tasks[i]
		steps = append(steps, step{float64(t.Called), 1})
		if t.Operator > 0 {
			steps = append(steps, step{float64(t.From), -1})
		}
	}
	slices.SortStableFunc(steps, func(x, y step) int { return cmp.Or(cmp.Compare(x.at, y.at), cmp.Compare(x.by, y.by)) })
	var counts []plots.Count
	n := 0
	for i, s := range steps {
		n += s.by
		if i+1 == len(steps) || steps[i+1].at > s.at {
			counts = append(counts, plots.Count{At: s.at / 3600, Number: max(0, n)})
		}
	}
	return counts
}

// longestWait says how many calls waited together, at most, and how long the longest of the shift did.
func longestWait(a *study.MedianShiftAnswer, queue []plots.Count) string {
	most := 0
	for _, c := range queue {
		most = max(most, c.Number)
	}
	longest := 0.0
	for i := range a.Tasks {
		if t := &a.Tasks[i]; t.Operator > 0 {
			longest = max(longest, float64(t.From-t.Called))
		}
	}
	return fmt.Sprintf("up to %d, longest %s s", most, say.TwoDigitsOr0(longest))
}

// medianShiftLanes returns the lane of the line, and one for each of the causes that cost most.
func medianShiftLanes(a *study.MedianShiftAnswer) []plots.Lane {
	line := plots.Lane{Name: "the line"}
	shown := a.Causes[:min(len(a.Causes), mostLanes)]
	others := make([]plots.Span, 0)
	spans := map[string][]plots.Span{}
	at := 0.0
	for i := range a.Stretches {
		x := &a.Stretches[i]
		span := plots.Span{From: float64(x.From) / 3600, To: float64(x.To) / 3600, State: stateOf(x.Phase)}
		if span.From > at {
			line.Spans = append(line.Spans, plots.Span{From: at, To: span.From})
		}
		at = span.To
		line.Spans = append(line.Spans, span)
		if name := x.Name(); slices.ContainsFunc(shown, func(c study.MedianShiftCause) bool { return c.Name == name }) {
			spans[name] = append(spans[name], span)
		} else {
			others = append(others, span)
		}
	}
	if end := float64(a.Length) / 3600; end > at {
		line.Spans = append(line.Spans, plots.Span{From: at, To: end})
	}
	all := []plots.Lane{line}
	for _, c := range shown {
		all = append(all, plots.Lane{Name: c.Name, Note: stopsAndMinutes(c.Stops, c.Stood), Spans: spans[c.Name]})
	}
	if rest := a.Causes[len(shown):]; len(rest) > 0 {
		var stops int64
		var stood study.Number
		for _, c := range rest {
			stops += c.Stops
			stood += c.Stood
		}
		all = append(all, plots.Lane{Name: "other causes", Note: stopsAndMinutes(stops, stood), Spans: others})
	}
	return all
}

func stopsAndMinutes(stops int64, stood study.Number) string {
	return fmt.Sprintf("%s, %s min", say.Plural(stops, "stop"), say.TwoDigitsOr0(float64(stood)/60))
}

// stateOf returns how a phase of a stop is drawn.
func stateOf(phase string) plots.State {
	switch phase {
	case model.Waiting.String():
		return plots.Waiting
	case model.Working.String():
		return plots.Working
	case model.Restarting.String():
		return plots.Restarting
	case model.Starving.String():
		return plots.Starved
	}
	panic("present: a stop in no phase: " + phase)
}
