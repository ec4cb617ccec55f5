package study

import (
	"math"

	"netrate/model"
	"netrate/model/runs"
)

// How what is uncertain is drawn.
const (
	UncertaintyDraws = 500 // usual number of draws
	UncertaintyLeast = 40  // fewer draws say nothing of 95 %
	UncertaintyEach  = 4   // replications of each draw: more draws of few tell best what replications vary by
)

// Uncertainty is how far a figure of a line is known, where inputs are uncertain: they are drawn
// anew again and again.
type Uncertainty struct {
	Draws   int                 `json:"draws"`
	Each    int                 `json:"replications_each"`
	Figure  string              `json:"figure"` // what all that follows is of: net_rate, or finish of a job
	Unit    string              `json:"unit"`
	LongRun Interval            `json:"long_run"` // of the mean of many replications
	P5      Number              `json:"p5"`       // of single replications
	P95     Number              `json:"p95"`
	Share   Proportion          `json:"share_of_variance"`        // of single replications that is not chance
	Twice   Number              `json:"half_with_twice_the_data"` // half-width of LongRun, if all data were twice as many; not known if the draws were too few
	Sources []UncertaintySource `json:"sources"`                  // the largest share first; empty if the draws were too few

	Job             bool                   `json:"-"` // the figure is when a job is finished
	Study           *runs.UncertaintyStudy `json:"-"` // of which it is; of a difference that of the one that is ahead
	UncertainFigure *runs.UncertainFigure  `json:"-"`

	others []*runs.UncertaintyStudy // from which a difference is
}

// UncertaintySource is one uncertain input, and what it adds.
type UncertaintySource struct {
	Path     string   `json:"path"`
	Owner    string   `json:"of,omitempty"` // the variant or the file that sets it; "" for the first file without its variants
	Nominal  Number   `json:"nominal"`
	Range    Interval `json:"range"`
	FromData bool     `json:"from_data"` // more observations would narrow it
	Share    Number   `json:"share"`     // of the variance of the long run
	Slope    Number   `json:"slope"`     // of the figure, for each unit of the input

	Measure *Measurement `json:"measure,omitempty"` // nil if nothing that can be counted or timed narrows it

	Input model.UncertainInput `json:"-"`
}

// UncertaintyOf returns how far a line is known by the figure it is judged by: its net rate or,
// of a job, the time until it is finished. It returns nil of nil.
func UncertaintyOf(s *runs.UncertaintyStudy) *Uncertainty {
	switch {
	case s == nil:
		return nil
	case s.Line.Job.Sets > 0:
		u := uncertaintyIn(s, s.Of(Finish))
		u.Job, u.Figure, u.Unit = true, "finish", "h"
		return u
	}
	return uncertaintyIn(s, s.Of(netRate))
}

func netRate(s *runs.Shift) float64 { return s.NetRate }

// uncertaintyIn returns how far a net rate, or a difference of two, is known.
func uncertaintyIn(s *runs.UncertaintyStudy, d *runs.UncertainFigure, others ...*runs.UncertaintyStudy) *Uncertainty {
	low, high := d.Parts.ShareInterval(Level)
	u := &Uncertainty{
		Figure: "net_rate", Unit: "envelopes/h", Draws: s.Draws(), Each: s.Each, LongRun: intervalOf(d.Interval(Level)),
		P5: Number(d.All.Quantile(0.05)), P95: Number(d.All.Quantile(0.95)),
		Share:   Proportion{Number(d.Parts.Share()), Number(low), Number(high), Level},
		Sources: []UncertaintySource{}, Study: s, UncertainFigure: d, others: others,
	}
	u.Twice = Number(math.NaN())
	if len(d.Sources) > 0 {
		u.Twice = Number(u.Half() * d.Narrowed(2, everything))
	}
	for _, x := range d.Sources {
		source := uncertaintySource(x)
		source.Measure = u.measurement(x)
		u.Sources = append(u.Sources, source)
	}
	return u
}

func everything(model.UncertainInput) bool { return true }

// Half returns half of the width of the interval of the long run.
func (u *Uncertainty) Half() float64 { return float64(u.LongRun.High-u.LongRun.Low) / 2 }

// UncertaintyAhead is how far it is known what a line delivers more than another.
type UncertaintyAhead struct {
	*Uncertainty
	Sure Number `json:"sure_to_be_ahead"` // probability that it delivers more in the long run
}

// UncertaintyOver sets a line against another, draw by draw: what both have as uncertain, they
// find to be the same.
func UncertaintyOver(other, s *runs.UncertaintyStudy) UncertaintyAhead {
	a := UncertaintyAhead{Uncertainty: uncertaintyIn(s, other.Ahead(s, netRate), other)}
	for _, x := range a.UncertainFigure.LongRun {
		if x > 0 {
			a.Sure++
		}
	}
	a.Sure /= Number(len(a.UncertainFigure.LongRun))
	return a
}

// Inputs returns the sources or, where the draws were too few to tell what each adds, all
// uncertain inputs with a Share of NaN.
func (u *Uncertainty) Inputs() []UncertaintySource {
	if len(u.Sources) > 0 {
		return u.Sources
	}
	var all []UncertaintySource
	for _, x := range u.Study.Line.UncertainInputs {
		all = append(all, uncertaintySource(runs.UncertaintySource{UncertainInput: x, Share: math.NaN()}))
	}
	return all
}

func uncertaintySource(x runs.UncertaintySource) UncertaintySource {
	of := x.UncertainInput.Of
	return UncertaintySource{
		Path: x.UncertainInput.Path(), Owner: x.UncertainInput.Unknown().Owner, Nominal: Number(of.Nominal()), Range: intervalOf(of.Quantile((1-Level)/2), of.Quantile((1+Level)/2)),
		FromData: of.FromData(), Share: Number(x.Share), Slope: Number(x.Slope), Input: x.UncertainInput,
	}
}
