package study

import (
	"math"
	"slices"
	"strings"

	"netrate/model"
	"netrate/model/runs"
	"netrate/sim"
	"netrate/sim/output"
)

// Measurement is what counting or timing one uncertain input would take, and what it buys.
type Measurement struct {
	What  string     `json:"what"`  // is counted or timed: feeds, doubles, clearings, …
	Half  MeasuredTo `json:"half"`  // until half of what is not known of it is left
	Tenth MeasuredTo `json:"tenth"` // until a tenth is
}

// MeasuredTo is a measurement up to some precision.
type MeasuredTo struct {
	Observations Number `json:"observations"`
	Hours        Number `json:"hours"` // of the line as it works; null if not known
	LongRun      Number `json:"half"`  // half-width of the long run then, all else as it is
}

// measurement returns what it would take to measure a source; nil if nothing that can be counted or
// timed narrows it.
//
// With the variance v of one observation and the variance σ² of the prior, (k² − 1)·v/σ² more
// observations bring the standard deviation of what is believed to a k-th: the variance of a mean
// and that of the prior go together as their reciprocals do. A count of events has v = p(1 − p), the
// mean of a time with the coefficient of variation c has v = (c·mean)², and c itself c²(½ + c²).
// Where events come in bursts, and so many trials tell no more than fewer independent ones, more of
// them are taken to tell no more either.
//
// Source: Gelman et al., Bayesian Data Analysis (3rd ed. 2013), section 2.5, and the delta method
// (from memory).
func (u *Uncertainty) measurement(x runs.UncertaintySource) *Measurement {
	d := x.UncertainInput
	of, line, out := u.where(d)
	if line == nil {
		return nil
	}
	what, perHour := counted(of, line, d, out)
	if what == "" {
		return nil
	}
	if perHour == 0 {
		perHour = math.NaN() // none was seen: not known
	}
	mean, variance := momentsOf(d)
	if !(variance > 0) {
		return nil
	}
	var one float64
	switch d.Part {
	case model.NoPart:
		one = float64(mean * (1 - mean))
	case model.MeanPart:
		sd := line.CVOf(d) * mean
		one = float64(sd * sd)
	default:
		one = float64(mean * mean * (0.5 + float64(mean*mean)))
	}
	if c, is := d.Of.(output.Counted); is {
		one *= c.Worth()
	}
	to := func(k float64) MeasuredTo {
		n := math.Ceil((float64(k*k) - 1) * one / variance)
		left := math.Sqrt(max(0, 1-float64(x.Share*(1-1/(k*k)))))
		return MeasuredTo{Number(n), Number(n / perHour), Number(u.Half() * left)}
	}
	return &Measurement{what, to(2), to(10)}
}

// momentsOf returns the mean and the variance of a prior.
func momentsOf(d model.UncertainInput) (mean, variance float64) {
	const parts = 1000
	values := make(sim.Sample, parts)
	for i := range values {
		values[i] = d.Of.Quantile((float64(i) + 0.5) / parts)
	}
	return values.Mean(), values.Variance()
}

// where returns the study and the line of an uncertain input, and the outcome of its station in all
// draws; the outcome is nil if it is not known, and the line too if neither of the lines that are
// compared has it. What both have is taken where it is of the one that is ahead, and where a variant has
// another number at the same place, the line is the one whose unknown it is.
func (u *Uncertainty) where(d model.UncertainInput) (*runs.Study, *model.Line, *model.StationOutcome) {
	all := append([]*runs.UncertaintyStudy{u.Study}, u.others...)
	for _, its := range []bool{true, false} {
		for _, s := range all {
			if line, out := placeIn(s.Study, d); line != nil && (!its || unknownOf(line, d)) {
				return s.Study, line, out
			}
		}
	}
	return nil, nil, nil
}

// unknownOf reports whether an uncertain input is one of a line's own.
func unknownOf(l *model.Line, d model.UncertainInput) bool {
	return slices.ContainsFunc(l.UncertainInputs, func(own model.UncertainInput) bool { return own.Unknown() == d.Unknown() })
}

func placeIn(s *runs.Study, d model.UncertainInput) (*model.Line, *model.StationOutcome) {
	for _, own := range s.Lines() {
		if own.Line.Name == d.Line {
			s = own
		}
	}
	d.Line = ""
	if !s.Line.Has(d) {
		return nil, nil
	}
	for i := range s.Total.Stations {
		if s.Total.Stations[i].Name == d.Station {
			return s.Line, &s.Total.Stations[i]
		}
	}
	return s.Line, nil
}

// counted returns what is to be counted or timed for an uncertain input, and how many come an hour
// of a study; NaN if that is not known, and "" if it cannot be counted.
func counted(s *runs.Study, line *model.Line, d model.UncertainInput, out *model.StationOutcome) (what string, perHour float64) {
	hours := Length(s) / 3600 * float64(len(s.Shifts))
	of := func(n int64) float64 { return float64(n) / hours }
	if out == nil {
		out, hours = &model.StationOutcome{}, math.NaN()
	}
	switch word, _, _ := strings.Cut(d.Name, "."); {
	case slices.Contains([]string{"growth", "material"}, d.Name):
		return "", 0
	case d.Name == "caught":
		return "doubles", of(out.Faults[model.Double] + out.Missed)
	case d.Name == "noticed" || word == "streak":
		return "misfeeds", of(out.Faults[model.Misfeed] + out.Unnoticed)
	case d.Name == "misread":
		return "wrong sets read", math.NaN()
	case d.Name == "crew.wrong_repair":
		return "sets put right", stopsFor(s, model.CauseMisfeed, model.CauseDouble, model.CauseStreak)
	case d.Name == "crew.wrong_realign":
		return "streams realigned", stopsFor(s, model.CauseMismatch)
	case strings.HasPrefix(d.Name, "line.attributes."):
		return "sets", float64(s.Total.Sets.Started) / (Length(s) / 3600 * float64(len(s.Shifts)))
	case d.Name == "wrong_stock.per_refill":
		return "refills", of(out.Stock.Calls)
	case d.Part == model.NoPart:
		return trialsOf(line, d), of(out.Attempts)
	case d.Name == "clear":
		return "clearings", of(out.Clearing.Calls)
	case word == "clear":
		return "clearings", of(cleared(out, d.Name))
	case slices.Contains([]string{"hopper", "bin", "belt"}, word):
		return "refills", of(out.Stock.Calls)
	case d.Name == model.CrewWalk:
		calls := s.Total.Crew()
		return "walks", float64(calls.Clearing.Calls+calls.Stock.Calls) / (Length(s) / 3600 * float64(len(s.Shifts)))
	case d.Name == "line.restart":
		return "restarts", float64(s.Total.Stopped().Count) / (Length(s) / 3600 * float64(len(s.Shifts)))
	}
	return "times", math.NaN()
}

// stopsFor returns how many stops an hour there are for some causes.
func stopsFor(s *runs.Study, causes ...model.Cause) float64 {
	n := int64(0)
	for i := range s.Total.Stations {
		for _, c := range causes {
			n += s.Total.Stations[i].Stops[c].Count
		}
	}
	return float64(n) / (Length(s) / 3600 * float64(len(s.Shifts)))
}

// cleared returns how many faults of a kind an operator cleared: those for which the line stopped,
// or, of a channel, which stops by itself, all that were seen.
func cleared(out *model.StationOutcome, name string) (n int64) {
	for _, f := range model.ClearedAs(name) {
		n += out.Stops[f].Count
	}
	if n == 0 {
		for _, f := range model.ClearedAs(name) {
			n += out.Faults[f]
		}
	}
	return n
}

// trialsOf returns what a rate of a station is a share of.
func trialsOf(l *model.Line, d model.UncertainInput) string {
	for _, s := range l.Stations {
		if s.Where().Name != d.Station {
			continue
		}
		switch s.Kind().Role {
		case model.Gathers:
			return "documents"
		case model.Inserts:
			return "insertions"
		case model.Reads:
			return "readings"
		default:
		}
	}
	return "feeds"
}

// Measured returns the sources that can be measured and matter, the first to measure first: by what
// is left of the interval when half of what is not known of each is.
func (u *Uncertainty) Measured(least float64) []UncertaintySource {
	var all []UncertaintySource
	for _, s := range u.Sources {
		if s.Measure != nil && float64(s.Share) >= least {
			all = append(all, s)
		}
	}
	return all
}

// HalfMeasured returns the half-width of the long run if half of what is not known of some sources is
// left.
func (u *Uncertainty) HalfMeasured(some []UncertaintySource) float64 {
	left := 1.0
	for _, s := range some {
		left -= float64(float64(s.Share) * 0.75)
	}
	return u.Half() * math.Sqrt(max(0, left))
}
