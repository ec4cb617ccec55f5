package present

import (
	"fmt"
	"math"
	"slices"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/runs"
	"netrate/plots"
	"netrate/sim"
)

// The figures that tell how a shift goes. They run some shifts once more, to look on.

// The fan.
const (
	fanShifts = 200
	fanWindow = sim.Seconds(1800)
)

// fan draws what the line delivers in the course of the shift.
func fan(name string, s *runs.Study) (*plots.Figure, error) {
	windows := max(4, int(math.Round(float64(s.Line.Shift/fanWindow))))
	course, err := runs.CourseOf(s.Line, s.Plan.Seed, min(fanShifts, len(s.Shifts)), windows)
	if err != nil {
		return nil, err
	}
	d := plots.FanData{Time: "hours from the start of the shift", Axis: page.PerHour}
	var all sim.Sample
	for i, rates := range course.Rates {
		middle := (float64(i) + 0.5) * float64(course.Window) / 3600
		d.Points = append(d.Points, plots.FanPoint{Time: middle, Spread: page.SpreadOf(rates)})
		all = append(all, rates...)
	}
	stretch := say.Exact(float64(course.Window)/60) + " minutes"
	d.Head = plots.Head{
		Title: fmt.Sprintf("%s: in %s, nine times in ten, it delivers at a rate of %s to %s an hour", name, stretch,
			say.Rough(all.Quantile(0.05), 50), say.Rough(all.Quantile(0.95), 50)),
		Subtitle: fmt.Sprintf("Rate in each %s of the shift, %s; %s", stretch, page.PerHour, say.Plural(len(course.Rates[0]), "shift")),
	}
	return plots.Fan(d)
}

// mostLanes is how many causes have a lane of their own.
const mostLanes = 10

// timeline draws the shift whose net rate is nearest to the median.
func timeline(name string, s *runs.Study) (*plots.Figure, error) {
	replication := medianShift(s)
	running, err := model.New(s.Line)
	if err != nil {
		return nil, err
	}
	var o model.Outcome
	stood, _, err := running.Record(s.Plan.Seed, replication, nil, &o)
	if err != nil {
		return nil, err
	}
	one := runs.Study{Line: s.Line, Shifts: s.Shifts[replication : replication+1], Total: o}
	total := o.Stopped()
	return plots.Timeline(plots.TimelineData{
		Head: plots.Head{
			Title: fmt.Sprintf("%s: in the median shift the line stands %s times, %s of %s minutes", name,
				say.Thousands(total.Count), say.Rounded(float64(total.Total())/60, 0), say.Rounded(float64(s.Line.Shift)/60, 0)),
			Subtitle: fmt.Sprintf("One shift, the one with the net rate nearest to the median: %s %s (number %s of seed %d)",
				say.Rounded(o.NetRate(), 0), page.PerHour, say.Thousands(replication), s.Plan.Seed),
		},
		Axis: "hours from the start of the shift", Length: float64(s.Line.Shift) / 3600,
		Lanes: lanes(&one, stood),
	})
}

// medianShift returns the number of the shift whose net rate is nearest to the median.
func medianShift(s *runs.Study) int {
	rates := s.NetRates()
	median, nearest := rates.Quantile(0.5), 0
	for i, rate := range rates {
		if math.Abs(rate-median) < math.Abs(rates[nearest]-median) {
			nearest = i
		}
	}
	return nearest
}

// lanes returns the lane of the line, and one for each of the causes that cost most.
func lanes(one *runs.Study, stood []model.Span) []plots.Lane {
	line := plots.Lane{Name: "the line"}
	costs := one.StopCosts()
	shown := costs[:min(len(costs), mostLanes)]
	others := make([]plots.Span, 0)
	spans := map[string][]plots.Span{}
	at := 0.0
	for _, s := range stood {
		span := plots.Span{From: float64(s.From) / 3600, To: float64(s.To) / 3600, State: stateOf(s.Phase)}
		if span.From > at {
			line.Spans = append(line.Spans, plots.Span{From: at, To: span.From})
		}
		at = span.To
		line.Spans = append(line.Spans, span)
		name := s.Station + ", " + s.Cause
		if slices.ContainsFunc(shown, func(c runs.StopCost) bool { return c.Name == name }) {
			spans[name] = append(spans[name], span)
		} else {
			others = append(others, span)
		}
	}
	if end := float64(one.Line.Shift) / 3600; end > at {
		line.Spans = append(line.Spans, plots.Span{From: at, To: end})
	}
	all := []plots.Lane{line}
	for _, c := range shown {
		all = append(all, plots.Lane{Name: c.Name, Note: stopsAndMinutes(c.StopTotal), Spans: spans[c.Name]})
	}
	if rest := costs[len(shown):]; len(rest) > 0 {
		var sum model.StopTotal
		for _, c := range rest {
			sum.Count += c.Count
			sum.Waiting += c.Total()
		}
		all = append(all, plots.Lane{Name: "other causes", Note: stopsAndMinutes(sum), Spans: others})
	}
	return all
}

func stopsAndMinutes(t model.StopTotal) string {
	return fmt.Sprintf("%s, %s min", say.Plural(t.Count, "stop"), say.TwoDigitsOr0(float64(t.Total())/60))
}

func stateOf(p model.Phase) plots.State {
	switch p {
	case model.Waiting:
		return plots.Waiting
	case model.Working:
		return plots.Working
	case model.Restarting:
		return plots.Restarting
	case model.Starving:
		return plots.Starved
	}
	panic("netrate: a stop in no phase")
}
