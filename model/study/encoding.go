package study

import (
	"bytes"
	"encoding/json"
	"math"
	"strconv"

	"netrate/model/runs"
	"netrate/sim"
	"netrate/sim/output"
)

// Level is the confidence of every interval, unless its answer says another.
const Level = 0.95

// Number is a figure of an answer. It is encoded with at most nine digits, the most that means
// anything, and as null where nothing is known.
type Number float64

// MarshalJSON returns the figure as JSON has it.
func (n Number) MarshalJSON() ([]byte, error) {
	if math.IsInf(float64(n), 0) || math.IsNaN(float64(n)) {
		return []byte("null"), nil
	}
	return strconv.AppendFloat(nil, float64(n), 'g', 9, 64), nil
}

// Index is the number of something in a list, from 0; -1, which is encoded as null, where there is
// none.
type Index int

// MarshalJSON returns the number as JSON has it.
func (i Index) MarshalJSON() ([]byte, error) {
	if i < 0 {
		return []byte("null"), nil
	}
	return strconv.AppendInt(nil, int64(i), 10), nil
}

// unescaped returns JSON in which text stands as it is: it is not for the middle of HTML.
func unescaped(v any) ([]byte, error) {
	var b bytes.Buffer
	encoder := json.NewEncoder(&b)
	encoder.SetEscapeHTML(false)
	err := encoder.Encode(v)
	return b.Bytes(), err
}

// Mean is a mean over the replications.
type Mean struct {
	Mean Number `json:"mean"`
	Half Number `json:"half"` // half-width of its interval, of [Level]; of draws that of the long run
}

// Estimate returns the mean with its interval; of how many observations is not known.
func (m Mean) Estimate() sim.Estimate {
	return sim.Estimate{Mean: float64(m.Mean), Half: float64(m.Half), Level: Level}
}

// MeanOf returns an estimate as answers have it.
func MeanOf(e sim.Estimate) Mean { return Mean{Number(e.Mean), Number(e.Half)} }

// MeanIn returns the mean of one figure of a study's replications.
func MeanIn(s *runs.Study, figure func(*runs.Shift) float64) Mean {
	return MeanOf(s.Interval(figure, Level))
}

// NetRate is a net rate, good envelopes an hour, with the percentiles of single replications.
type NetRate struct {
	Mean  Number `json:"mean"`
	Half  Number `json:"half"` // half-width of the interval of the mean; of draws that of the long run
	Level Number `json:"level"`
	N     int    `json:"n"` // replications
	P5    Number `json:"p5"`
	P50   Number `json:"p50"`
	P95   Number `json:"p95"`
}

// NetRateOf returns the net rate of a study, which has a replication at least.
func NetRateOf(s *runs.Study) NetRate {
	rates := s.NetRates()
	e, sorted := s.IntervalOf(rates, Level), rates.Sorted()
	return NetRate{
		Number(e.Mean), Number(e.Half), Number(e.Level), e.N,
		Number(sorted.Quantile(0.05)), Number(sorted.Quantile(0.5)), Number(sorted.Quantile(0.95)),
	}
}

// Estimate returns the mean with its interval.
func (r NetRate) Estimate() sim.Estimate {
	return sim.Estimate{Mean: float64(r.Mean), Half: float64(r.Half), Level: float64(r.Level), N: r.N}
}

// Difference is a paired difference of net rates, good envelopes an hour.
type Difference struct {
	Mean  Number `json:"mean"`
	Half  Number `json:"half"`
	Level Number `json:"level"`
	Wins  Number `json:"wins"` // share of the replications in which it was above 0
}

// DifferenceOf returns the difference that a comparison shows.
func DifferenceOf(c output.Comparison) *Difference {
	d := c.Difference
	return &Difference{Number(d.Mean), Number(d.Half), Number(d.Level), Number(c.Wins)}
}

// Estimate returns the difference with its interval.
func (d *Difference) Estimate() sim.Estimate {
	return sim.Estimate{Mean: float64(d.Mean), Half: float64(d.Half), Level: float64(d.Level)}
}

// Shown reports whether the difference is shown: its interval does not hold zero.
func (d *Difference) Shown() bool { return d.Estimate().Low() > 0 || d.Estimate().High() < 0 }

// Settings is what was run, and how it ended.
type Settings struct {
	Seed      uint64 `json:"seed"`
	Reps      int    `json:"reps"` // replications done
	Min       int    `json:"min"`
	Max       int    `json:"max"`
	Precision Number `json:"precision"`
	Ending    string `json:"ending"`  // precise, at_most or cancelled
	Partial   bool   `json:"partial"` // it was cancelled, or is an answer so far

	AtNominal bool `json:"at_nominal_values,omitempty"` // of the replications at nominal values, where draws lead: Basis has how many these are
}

// leadBy returns the settings of replications beside draws that lead; nil draws do not.
func (s Settings) leadBy(draws *runs.UncertaintyStudy) Settings {
	s.AtNominal = draws != nil
	return s
}

// SettingsOf returns what was run: the plan, how many replications were done, and why there
// are no more.
func SettingsOf(plan sim.Plan, done int, ending sim.Ending) Settings {
	return Settings{
		Seed: plan.Seed, Reps: done, Min: plan.Min, Max: plan.Max, Precision: Number(plan.Precision), Ending: endingWord(ending), Partial: ending == sim.Cancelled,
	}
}

// endingWord returns the word for an ending.
func endingWord(e sim.Ending) string {
	switch e {
	case sim.Precise:
		return "precise"
	case sim.AtMost:
		return "at_most"
	case sim.Cancelled:
		return "cancelled"
	}
	panic("study: replications without an ending")
}

// Interval is where something lies with a probability of Level.
type Interval struct {
	Level Number `json:"level"`
	Low   Number `json:"low"`
	High  Number `json:"high"`
}

func intervalOf(low, high float64) Interval { return Interval{Level, Number(low), Number(high)} }

// Proportion is a share or a probability, and how far it is known.
type Proportion struct {
	Share Number `json:"share"`
	Low   Number `json:"low"`
	High  Number `json:"high"`
	Level Number `json:"level"`
}

// Spread is a figure as it was drawn.
type Spread struct {
	Mean Number `json:"mean"`
	P5   Number `json:"p5"`
	P50  Number `json:"p50"`
	P95  Number `json:"p95"`
}

// SpreadOf returns the spread of what was drawn.
func SpreadOf(s sim.Sample) Spread {
	x := s.Sorted()
	return Spread{Number(s.Mean()), Number(x.Quantile(0.05)), Number(x.Quantile(0.5)), Number(x.Quantile(0.95))}
}
