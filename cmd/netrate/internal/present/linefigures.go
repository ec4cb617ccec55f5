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

// mostRidges is how many lines find room in one figure.
const mostRidges = 12

// distribution draws how the net rates of single shifts spread.
func distribution(title, sample string, xs []study.LineAnswer) (*plots.Figure, error) {
	d := plots.DistributionData{
		Head: plots.Head{Title: title, Subtitle: "Net rate of single " + page.Period(xs[0].Study.Line) + "s, " + page.PerHour + "; " + sample},
		Axis: page.PerHour,
	}
	for _, x := range xs[:min(len(xs), mostRidges)] {
		rates := x.Study.NetRates()
		d.Variants = append(d.Variants, plots.Variant{Name: x.Name, Values: rates, Spread: page.SpreadOf(rates), Mean: x.Study.IntervalOf(rates, say.Level)})
	}
	return plots.Distribution(d)
}

// cumulative draws the share of shifts that stay below a net rate. The title compares one
// line with another, or tells of one if they are the same.
func cumulative(sample string, xs []study.LineAnswer, best, rival *study.LineAnswer) (*plots.Figure, error) {
	word := page.Period(xs[0].Study.Line)
	title := fmt.Sprintf("Nine %ss in ten exceed %s an hour", word, tenth(best))
	if best != rival {
		title += fmt.Sprintf(" with %s, %s with %s", best.Of.InWords(), tenth(rival), rival.Of.InWords())
	}
	d := plots.CumulativeData{
		Head: plots.Head{Title: title, Subtitle: "Share of " + word + "s at or below a net rate, " + page.PerHour + "; " + sample},
		Axis: page.PerHour,
	}
	for _, x := range xs[:min(len(xs), mostRidges)] {
		d.Curves = append(d.Curves, plots.Values{Name: x.Name, Values: x.Study.NetRates()})
	}
	return plots.Cumulative(d)
}

// tenth returns the net rate that nine shifts in ten exceed.
func tenth(x *study.LineAnswer) string {
	rates := x.Study.NetRates()
	return say.Rough(rates.Quantile(0.1), x.Study.IntervalOf(rates, say.Level).Half)
}

// boxes draws how much shifts differ.
func boxes(sample string, xs []study.LineAnswer) (*plots.Figure, error) {
	d := plots.BoxesData{Axis: page.PerHour}
	word := page.Period(xs[0].Study.Line)
	least, most := math.Inf(1), 0.0
	for _, x := range xs {
		rates := x.Study.NetRates()
		spread := page.SpreadOf(rates)
		least, most = min(least, spread.P95-spread.P5), max(most, spread.P95-spread.P5)
		d.Rows = append(d.Rows, plots.Box{Name: x.Name, Spread: spread, Min: rates.Quantile(0), Max: rates.Quantile(1)})
	}
	width := say.TwoDigitsOr0(least)
	if to := say.TwoDigitsOr0(most); to != width {
		width += " to " + to
	}
	d.Head = plots.Head{
		Title:    "Chance alone moves nine " + word + "s in ten over a range of " + width + " an hour",
		Subtitle: "Net rate of single " + word + "s, " + page.PerHour + "; " + sample,
	}
	return plots.Boxes(d)
}

// waterfall draws how a line comes from its rated speed to its net rate.
func waterfall(name, sample string, s *runs.Study) (*plots.Figure, error) {
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
	arrives := rateOf(study.NetRateOf(s)).Shown // as all of the page has it
	steps = append(steps, plots.Step{Name: "net rate", Amount: net, Total: true, Says: arrives})
	return plots.Waterfall(plots.WaterfallData{
		Head: plots.Head{
			Title: fmt.Sprintf("%s: of %s an hour, %s arrive good; the largest loss is %s, %s",
				name, say.Rounded(rated, 0), arrives, worst.Name, say.Rounded(worst.PerHour, 0)),
			Subtitle: "Envelopes an hour from the lowest rated speed of the stations to the net rate, means; " + sample,
		},
		Axis:  "envelopes an hour",
		Steps: steps,
	})
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
