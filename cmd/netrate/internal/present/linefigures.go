package present

import (
	"fmt"
	"math"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/runs"
	"netrate/model/study"
	"netrate/plots"
)

// The figures of the reports. Each says in its title what it shows; what it is drawn from
// is said below that.

// mostRidges is how many lines are drawn by the shape of their spread; more have boxes, which need
// less room.
const mostRidges = 6

// roleOf returns the role of the i-th line of a report that recommends one of them.
func roleOf(i, recommended int) plots.Role {
	switch {
	case i == recommended:
		return plots.Recommended
	case i == 0:
		return plots.Base
	case recommended > 0 && i > recommended:
		i--
	}
	return plots.Other(i - 1)
}

// spreads draws how the net rates of single shifts spread, of all lines given, and how many of them
// reach their target. There is room for some other rates.
func spreads(title, sample string, xs []study.LineAnswer, recommended int, room ...float64) (*plots.Figure, error) {
	head := plots.Head{Title: title, Subtitle: "Net rate of single " + page.Period(xs[0].Study.Line) + "s, " + page.PerHour + "; " + sample}
	if len(xs) > mostRidges {
		return boxes(head, xs, recommended)
	}
	d := plots.DistributionData{Head: head, Axis: page.PerHour, Mark: threshold(xs[0].Target), Room: room}
	for i, x := range xs {
		rates := x.Study.NetRates()
		d.Variants = append(d.Variants, plots.Variant{
			Name: x.Name, Role: roleOf(i, recommended), Values: rates, Spread: page.SpreadOf(rates), Mean: x.Study.IntervalOf(rates, say.Level), Beyond: beyond(&x),
		})
	}
	return plots.Distribution(d)
}

// boxes draws how much shifts differ.
func boxes(head plots.Head, xs []study.LineAnswer, recommended int) (*plots.Figure, error) {
	d := plots.BoxesData{Head: head, Axis: page.PerHour}
	for i, x := range xs {
		rates := x.Study.NetRates()
		d.Rows = append(d.Rows, plots.Box{Name: x.Name, Role: roleOf(i, recommended), Spread: page.SpreadOf(rates), Min: rates.Quantile(0), Max: rates.Quantile(1)})
	}
	return plots.Boxes(d)
}

// waterfall draws how a line comes from its rated speed to its net rate, on a scale on which others
// have room too.
func waterfall(name, sample string, s *runs.Study, others ...*runs.Study) (*plots.Figure, error) {
	rated, losses, net := s.Losses()
	steps := []plots.Step{{Name: "rated speed", Amount: rated, Total: true}}
	worst, small := runs.Loss{Name: "nothing"}, 0.0
	for i, l := range losses {
		if i > 0 && l.PerHour > worst.PerHour { // the first is the speed asked for
			worst = l
		}
		if math.Abs(l.PerHour) < 0.0005*rated {
			small += l.PerHour
			continue
		}
		steps = append(steps, plots.Step{Name: l.Name, Amount: -l.PerHour})
	}
	if small != 0 {
		steps = append(steps, plots.Step{Name: "all else", Amount: -small})
	}
	var also []float64
	for _, other := range others {
		from, _, _ := other.Losses()
		also = append(also, from)
	}
	arrives := rateOf(study.NetRateOf(s)).Shown // as all of the page has it
	steps = append(steps, plots.Step{Name: "net rate", Amount: net, Total: true, Says: arrives})
	return plots.Waterfall(plots.WaterfallData{
		Head: plots.Head{
			Title: fmt.Sprintf("%s: of %s an hour, %s arrive good; the largest loss is %s, %s",
				name, say.Rounded(rated, 0), arrives, worst.Name, say.Rounded(worst.PerHour, 0)),
			Subtitle: "Envelopes an hour from the lowest rated speed of the stations to the net rate, means; " + sample,
		},
		Axis:  "envelopes an hour",
		Steps: steps, Also: also,
	})
}

// differenceFall draws what makes the difference between two lines, from none on.
func (c Comparison) differenceFall(sample string) (*plots.Figure, error) {
	from, to := &c.Lines[c.From], &c.Lines[c.To]
	var steps []plots.Step
	small := 0.0
	for _, s := range c.Steps {
		if math.Abs(s.Change) < 0.0005*float64(from.NetRate.Mean) {
			small += s.Change
			continue
		}
		steps = append(steps, plots.Step{Name: s.Name, Amount: s.Change, Says: say.Signed(s.Change)})
	}
	whole := float64(to.NetRate.Mean - from.NetRate.Mean)
	sum := small
	for _, s := range steps {
		sum += s.Amount
	}
	small += whole - sum // of draws, what the steps at nominal values leave
	if math.Abs(small) > 1e-6*math.Abs(whole) {
		steps = append(steps, plots.Step{Name: "all else", Amount: small, Says: say.Signed(small)})
	}
	steps = append(steps, plots.Step{Name: "net rate", Amount: whole, Total: true, Says: gainOf(c.ComparisonAnswer).Shown})
	return plots.Waterfall(plots.WaterfallData{
		Head: plots.Head{
			Title:    ComparisonWhy(c.ComparisonAnswer),
			Subtitle: fmt.Sprintf("From %s to %s: what is gained and lost, good envelopes an hour, means; %s", c.called(c.From), c.called(c.To), sample),
		},
		Axis: "more or less than " + c.called(c.From) + ", good envelopes an hour", Steps: steps,
	})
}

// stopsBeside draws what lines stand for, side by side.
func stopsBeside(sample string, xs []study.LineAnswer, roles []plots.Role) (*plots.Figure, error) {
	word := page.Period(xs[0].Study.Line)
	d := plots.StopsData{Axis: "minutes a " + word}
	stands := make([]float64, len(xs))
	at := map[string]int{}
	for i, x := range xs {
		d.Lines = append(d.Lines, plots.Named{Name: x.Name, Role: roles[i]})
		n := float64(len(x.Study.Shifts))
		for _, c := range x.Study.StopCosts() {
			k, known := at[c.Name]
			if !known {
				k = len(d.Causes)
				at[c.Name] = k
				d.Causes = append(d.Causes, plots.StopCause{Name: c.Name, Amounts: make([]float64, len(xs)), Details: make([]string, len(xs))})
			}
			minutes := float64(c.Total()) / 60 / n
			stands[i] += minutes
			d.Causes[k].Amounts[i], d.Causes[k].Details[i] = minutes, say.TwoDigitsOr0(float64(c.Count)/n)+" stops"
		}
	}
	var says []string
	for i, x := range xs {
		says = append(says, fmt.Sprintf("%s %s", x.Name, say.Rounded(stands[i], 0)))
	}
	d.Head = plots.Head{
		Title:    fmt.Sprintf("Minutes of a %s that the line stands: %s", word, say.List(says)),
		Subtitle: "By station and cause, waiting and restart included, means; " + sample,
	}
	return plots.Stops(d)
}

// states draws how lines spend their time.
func states(sample string, xs []study.LineAnswer) (*plots.Figure, error) {
	word := page.Period(xs[0].Study.Line)
	d := plots.StatesData{Axis: "minutes a " + word}
	for _, x := range xs {
		times := map[plots.State]float64{}
		for state, of := range map[plots.State]func(*runs.Shift) float64{
			plots.Running:    func(s *runs.Shift) float64 { return s.Running },
			plots.Waiting:    func(s *runs.Shift) float64 { return s.Waiting },
			plots.Working:    func(s *runs.Shift) float64 { return s.Working },
			plots.Restarting: func(s *runs.Shift) float64 { return s.Restarting },
			plots.Starved:    func(s *runs.Shift) float64 { return s.Starved },
		} {
			times[state] = x.Study.Sample(of).Mean() / 60
		}
		d.Rows = append(d.Rows, plots.StatesRow{Name: x.Name, Times: times})
	}
	d.Head = plots.Head{
		Title:    "How the lines spend the time of a " + word,
		Subtitle: "Minutes a " + word + " in each state, means; " + sample,
	}
	return plots.States(d)
}

// pareto draws what the line stands for.
func pareto(name, sample string, s *runs.Study) (*plots.Figure, error) {
	word := page.Period(s.Line)
	d := plots.ParetoData{Axis: "minutes a " + word}
	n, whole := float64(len(s.Shifts)), 0.0
	costs := s.StopCosts()
	for _, c := range costs {
		minutes := float64(c.Total()) / 60 / n
		whole += minutes
		d.Causes = append(d.Causes, plots.Cause{Name: c.Name, Amount: minutes, Detail: say.TwoDigitsOr0(float64(c.Count)/n) + " stops"})
	}
	title := name + ": the line never stops"
	if len(costs) > 0 {
		title = fmt.Sprintf("%s: %s costs most, %s of %s minutes a %s that the line stands", name, costs[0].Name,
			say.TwoDigitsOr0(d.Causes[0].Amount), say.Rounded(whole, 0), word)
	}
	d.Head = plots.Head{Title: title, Subtitle: "Standing time by station and cause, minutes a " + word + ", waiting and restart included, means; " + sample}
	return plots.Pareto(d)
}
