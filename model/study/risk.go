package study

import "netrate/model/runs"

// Risk is how many of a million envelopes delivered are defective.
type Risk struct {
	PerMillion Number `json:"per_million"`
	Misread    Number `json:"misread_per_million,omitempty"` // of what the rates lead to, what readers let through that misread
	FromCount  bool   `json:"from_count"`                    // it is what the shifts delivered; if not, what the rates lead to
	Counted    int64  `json:"counted"`                       // defective in the shifts
	Delivered  int64  `json:"delivered"`                     // good or defective in the shifts

	// The interval of the count, exact: 0 to a million where nothing was delivered.
	CountedLow  Number `json:"counted_low_per_million"`
	CountedHigh Number `json:"counted_high_per_million"`

	// Below says that PerMillion is worth no more than that: it leaves out what takes two faults
	// at once, which is all or most of it, and of which the count shows no more than CountedHigh.
	Below bool `json:"below_counted_high"`

	From []RiskSource `json:"from"` // what the rates lead to, the most first

	// The interval of PerMillion if it is from the count; 0 and 0 if not, which are not encoded.
	Low  Number `json:"low_per_million,omitempty"`
	High Number `json:"high_per_million,omitempty"`
}

// RiskSource is what one kind of fault at one station delivers defective.
type RiskSource struct {
	Station    string `json:"station"`
	Fault      string `json:"fault"`
	Shipped    bool   `json:"shipped"` // it was noticed
	Unfound    bool   `json:"unfound"` // no reader sees the stream out of step
	PerMillion Number `json:"per_million"`
}

// riskSurely is the confidence with which a count must exceed what the rates lead to, for the
// count to be taken: so high that chance hardly ever does it, in any of many strategies.
const riskSurely = 0.9999

// RiskOf returns the mean that the rates of a line lead to, or the count of its shifts if that
// is worth more: where it shows more, and where defective ones come in long runs. Of several jobs
// it is that of all together: see [riskOfJobs].
func RiskOf(s *runs.Study) Risk {
	if jobs := s.Jobs(); jobs != nil {
		return riskOfJobs(jobs)
	}
	return riskAt(s, Level)
}

// riskAt returns the risk of one kind of work, its intervals with a confidence.
func riskAt(s *runs.Study, level float64) Risk {
	e := s.Escapes()
	r := Risk{PerMillion: Number(e.PerMillion), Misread: Number(e.Misread), Counted: e.Counted, Delivered: e.Delivered, CountedHigh: 1e6, From: []RiskSource{}}
	for _, x := range e.From {
		r.From = append(r.From, RiskSource{x.Station, x.Fault.String(), x.Shipped, x.Unfound, Number(x.PerMillion)})
	}
	if e.Delivered == 0 {
		return r
	}
	low, high := e.Count(level)
	r.CountedLow, r.CountedHigh = Number(low), Number(high)
	more, _ := e.Count(riskSurely)
	switch {
	case e.Unfound: // they come in long runs: shifts are independent, envelopes are not
		shifts := s.Interval(func(s *runs.Shift) float64 { return 1e6 * s.Defective / max(1, s.Good+s.Defective) }, level)
		r.PerMillion, r.FromCount = Number(shifts.Mean), true
		r.Low, r.High = Number(max(0, shifts.Low())), Number(shifts.High())
	case more > e.PerMillion, e.Guarded && low > e.PerMillion:
		r.PerMillion, r.FromCount = Number(1e6*float64(e.Counted)/float64(e.Delivered)), true
		r.Low, r.High = Number(low), Number(high)
	default:
		r.Below = e.Guarded && e.PerMillion < high
	}
	return r
}

// Within reports whether a risk is accepted, limit being in a million: of a count, whether all
// of its interval is.
func (r *Risk) Within(limit float64) bool {
	return max(float64(r.PerMillion), float64(r.High)) <= limit
}
