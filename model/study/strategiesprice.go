package study

import (
	"slices"

	"netrate/model"
	"netrate/model/runs"
	"netrate/sim"
)

// StrategiesPrice is what it costs never to answer so: how much more the line would deliver,
// within the same limit, if that one response were allowed and the others stayed forbidden.
type StrategiesPrice struct {
	Answer    string      `json:"answer"`              // such as double=ship
	Otherwise string      `json:"otherwise,omitempty"` // what the strategy with it answers otherwise than the line's own; "" if none is better on paper
	NetRate   *NetRate    `json:"net_rate,omitempty"`  // of that strategy; nil if none is better on paper
	Price     *Difference `json:"price,omitempty"`     // good envelopes an hour that it delivers more than the best that is allowed
	Defective *Risk       `json:"defective,omitempty"` // of that strategy

	ShipsUnread bool `json:"ships_unread"` // that strategy lets sets go that could not be read or matched, which are not counted as defective

	Study *runs.Study `json:"-"`
}

// tempting returns, for each response that is forbidden, the strategy with it that is the best
// on paper within the limit; one without a Strategy where it would change nothing.
func (q *Strategies) tempting() []model.Candidate {
	var all []model.Candidate
	for k, x := range q.Never {
		found := q.work().SearchStrategies(q.with(x), q.limit(), 0)
		all = append(all, model.Candidate{})
		if found.Best < 0 {
			continue
		}
		if best := found.Candidates[found.Best]; q.uses(best.Strategy, x) {
			all[k] = best
		}
	}
	return all
}

// with returns the decisions with one response that is forbidden, also where otherwise it would
// not be looked at since it lets unread sets go.
func (q *Strategies) with(x model.Forbidden) []model.Decision {
	all := q.decisions()
	for k, d := range q.work().Decisions() {
		if d.Fault == x.Fault && slices.Contains(d.Responses, x.Response) {
			all[k].Responses = slices.Sorted(slices.Values(append(all[k].Responses, x.Response)))
		}
	}
	return all
}

// uses reports whether a strategy answers so anywhere.
func (q *Strategies) uses(s model.Strategy, x model.Forbidden) bool {
	for k, d := range q.work().Decisions() {
		if d.Fault == x.Fault && s[k] == x.Response {
			return true
		}
	}
	return false
}

// prices returns what is forbidden with its price; the studies are of the tempting strategies.
func (q *Strategies) prices(tempting []model.Candidate, studies []*runs.Study, best *StrategiesOne) []StrategiesPrice {
	all := []StrategiesPrice{}
	for k, x := range q.Never {
		one := StrategiesPrice{Answer: x.String()}
		if tempting[k].Strategy != nil {
			s := studies[0]
			studies = studies[1:]
			rate, risk := NetRateOf(s), RiskOf(q.own(s))
			one.Otherwise = q.work().StrategyWords(tempting[k].Strategy, q.work().Strategy())
			one.NetRate, one.Defective, one.Study = &rate, &risk, s
			one.ShipsUnread = q.work().ShipsUnread(tempting[k].Strategy)
			one.Price = DifferenceOf(Pairwise([]sim.Sample{best.Study.NetRates(), s.NetRates()})[0][1])
		}
		all = append(all, one)
	}
	return all
}
