package lines

import (
	"math"

	"netrate/cmd/netrate/internal/say"
	"netrate/model"
)

// risk is how many of a million envelopes delivered are defective.
type risk struct {
	perMillion float64
	counted    bool    // it is what the shifts delivered; if not, what the rates in the file lead to
	low, high  float64 // the interval, if it is counted
	escapes    model.Escapes
}

// surely is the confidence with which a count must exceed what the rates lead to, for the
// count to be taken: so high that luck hardly ever does it, in any of many strategies.
const surely = 0.9999

// riskOf returns the mean that the rates lead to, or the count if that is worth more.
func riskOf(s *model.Study) risk {
	e := s.Escapes()
	r := risk{perMillion: e.PerMillion, escapes: e}
	if e.Delivered == 0 {
		return r
	}
	more, _ := e.Count(surely)
	switch {
	case e.Unfound: // they come in long runs: shifts are independent, envelopes are not
		shifts := s.Sample(func(s *model.Shift) float64 { return 1e6 * s.Defective / max(1, s.Good+s.Defective) }).Interval(say.Level)
		r = risk{shifts.Mean, true, max(0, shifts.Low()), shifts.High(), e}
	case more > e.PerMillion:
		r = risk{perMillion: 1e6 * float64(e.Counted) / float64(e.Delivered), counted: true, escapes: e}
		r.low, r.high = e.Count(say.Level)
	}
	return r
}

// within reports whether a risk is accepted: of a count, whether all of its interval is.
func (r risk) within(limit float64) bool { return max(r.perMillion, r.high) <= limit }

// text returns the risk for a table.
func (r risk) text() string {
	if r.counted && !math.IsInf(r.high, 1) {
		return say.Rough(r.perMillion, max(r.high-r.perMillion, r.perMillion-r.low))
	}
	return say.FewDigits(r.perMillion)
}
