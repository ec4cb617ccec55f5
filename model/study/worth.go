package study

import (
	"errors"
	"fmt"
	"slices"

	"netrate/model/runs"
	"netrate/model/worth"
)

// Worth asks what compared lines cost a year, and what each is worth against the first.
type Worth struct {
	Comparison *ComparisonAnswer // its alternatives have costs
	Costs      []*worth.Costs    // of each alternative, instead of its own: nothing is simulated for them; nil for its own
	Draws      int               // of shifts and of the ranges of the costs; 0 for [WorthDraws]
}

// WorthDraws is how often what lines are worth is drawn, unless a question says otherwise:
// enough to know a probability to 3 in a hundred.
const WorthDraws = 1000

// Ask works out what the lines are worth, and puts into the answer of the comparison how many
// hours a year each job takes; nil if no line has costs. Where lines cannot be weighed against each
// other, the error is a [worth.Aside], which states why as data.
func (q Worth) Ask() (*WorthAnswer, error) {
	if q.Comparison == nil {
		return nil, errors.New("the worth is asked of no comparison")
	}
	var studies []*runs.Study
	var costs []*worth.Costs
	var drawn []*runs.UncertaintyStudy
	for i := range q.Comparison.Lines {
		x := &q.Comparison.Lines[i]
		studies, costs = append(studies, x.Study), append(costs, x.Of.Costs)
		if x.Draws != nil {
			drawn = append(drawn, x.Draws)
		}
	}
	if q.Costs != nil {
		costs = q.Costs
	}
	if !slices.ContainsFunc(costs, func(x *worth.Costs) bool { return x != nil }) {
		return nil, nil
	}
	if q.Comparison.Selection != nil {
		return nil, &worth.Aside{Why: worth.ShiftsDiffer} // that is how the best is looked for
	}
	draws := q.Draws
	if draws == 0 {
		draws = WorthDraws
	}
	w, err := worth.Weigh(studies, costs, draws, studies[0].Plan.Seed, drawn...)
	if err != nil {
		return nil, err
	}
	for i := range q.Comparison.Lines {
		jobs := q.Comparison.Lines[i].Jobs
		for j := range jobs {
			jobs[j].Hours = new(SpreadOf(w.Lines[i].JobHours[j]))
		}
	}
	lines := slices.Clone(q.Comparison.Lines)
	for i := range lines {
		lines[i].Of.Costs = costs[i]
	}
	a := WorthOf(lines, w)
	if !q.Comparison.asked {
		q.Comparison.Explain(a.Recommended())
	}
	return a, nil
}

// evaluate puts into the answer what the lines are worth, or why that is not stated.
func (a *ComparisonAnswer) evaluate() error {
	var err error
	a.Money, err = Worth{Comparison: a}.Ask()
	if errors.As(err, &a.Aside) {
		return nil
	}
	return err
}

// costsRight returns what is wrong with the costs of alternatives.
func costsRight(all []*tried) error {
	var errs []error
	for _, t := range all {
		if t.Costs == nil {
			continue
		}
		if err := t.Costs.Check(); err != nil {
			errs = append(errs, fmt.Errorf("costs of %s: %w", t.InWords(), err))
		}
	}
	return errors.Join(errs...)
}

// WorthOf returns what is known of the worth of some lines.
func WorthOf(lines []LineAnswer, w *worth.Worth) *WorthAnswer {
	a := &WorthAnswer{
		Currency: w.Currency, Life: w.Life, Rate: Number(w.Rate), Draws: w.Draws,
		Mixed: lines[0].Mix != nil, Uncertain: lines[0].Draws != nil, Worth: w,
	}
	a.Ranges = slices.ContainsFunc(lines, func(x LineAnswer) bool { return x.Of.Costs != nil && x.Of.Costs.HasRanges() })
	a.Shared = lines[0].Of.Group != nil
	a.ByLine = a.Shared && len(lines[0].Of.Costs.Volumes) > 0
	if a.Cautions = []WorthCaution{WorthEstimate, WorthMedians}; a.Mixed {
		a.Cautions = append(a.Cautions, WorthNoChangeovers)
	}
	if a.ByLine {
		a.Cautions = append(a.Cautions, WorthSideBySide)
	}
	for i := range lines {
		y := &w.Lines[i]
		line := WorthLine{
			Name: lines[i].Name, Price: SpreadOf(y.Price), Hours: SpreadOf(y.Hours), Cost: SpreadOf(y.Cost),
			PerThousand: SpreadOf(y.PerThousand), Annual: SpreadOf(y.Annual), Of: lines[i].Of,
			HourRate: Number(w.Volume.Mean() / y.Hours.Mean()),
			Most:     Number(HoursOfAYear / y.Hours.Mean() * w.Volume.Mean()),
			Overfull: y.Hours.Mean() > HoursOfAYear, rate: float64(lines[i].NetRate.Mean),
		}
		for p, s := range y.Parts {
			line.Parts = append(line.Parts, WorthPart{worth.CostPart(p).String(), SpreadOf(s)})
		}
		if a.ByLine {
			names, _ := lines[i].Of.Costs.Shares()
			for k, name := range names {
				line.LineHours = append(line.LineHours, WorthHours{name, SpreadOf(y.JobHours[k])})
			}
		}
		if i > 0 {
			line.Against = worthGain(&w.Gains[i], float64(line.Most))
			if a.Favourite == 0 || w.Gains[i].NPV.Mean() > w.Gains[a.Favourite].NPV.Mean() {
				a.Favourite = i
			}
		}
		a.Lines = append(a.Lines, line)
	}
	a.offers(w)
	return a
}
