package present

import (
	"fmt"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/runs"
	"netrate/plots"
)

// Target is a net rate that is to be reached; nil if none is.
type Target struct {
	Rate float64 // good envelopes an hour
}

// threshold returns how the target is marked in a figure of net rates.
func (t *Target) threshold() *plots.Threshold {
	if t == nil {
		return nil
	}
	return &plots.Threshold{At: t.Rate, Name: "target " + say.Exact(t.Rate)}
}

// met returns the share of the replications that reach the target.
func (t *Target) met(s *runs.Study) float64 {
	n := 0
	for _, x := range s.NetRates() {
		if x >= t.Rate {
			n++
		}
	}
	return float64(n) / float64(len(s.NetRates()))
}

// beyond says how many shifts reach the target; nothing without one.
func (t *Target) beyond(s *runs.Study) string {
	if t == nil {
		return ""
	}
	return fmt.Sprintf("%s of %ss reach it", say.Percent(t.met(s), 0.01), page.Period(s.Line))
}
