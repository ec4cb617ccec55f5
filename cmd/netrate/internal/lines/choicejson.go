package lines

import (
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
)

type choiceDocument struct {
	Format int `json:"netrate_strategy_json"`
	page.LineDocument
	Limit      page.Number    `json:"max_defective_per_million"`
	LimitGiven bool           `json:"limit_given"` // if not, it is what the file's own strategy delivers
	Best       string         `json:"best"`        // a strategy; where none is within the limit, what comes nearest
	Within     bool           `json:"within_the_limit"`
	Shown      bool           `json:"shown"` // nothing else within the limit may be as good
	Rivals     []string       `json:"may_be_as_good"`
	OnPaper    searchJSON     `json:"on_paper"`
	Method     string         `json:"method"` // of the differences
	Decisions  []decisionJSON `json:"decisions"`
	Strategies []strategyJSON `json:"strategies"` // the file's own first, then by the risk
}

// searchJSON is how the strategies that were simulated were chosen.
type searchJSON struct {
	Considered  page.Number `json:"considered"`
	Undominated int         `json:"undominated"`
	Near        int         `json:"near_a_frontier"`
	Margin      page.Number `json:"margin"` // share of the net rate that counts as near
	Slack       page.Number `json:"slack"`  // share of each figure that counts as alike
}

type decisionJSON struct {
	Station   string   `json:"station"`
	Fault     string   `json:"fault"`
	Responses []string `json:"responses"` // possible ones
}

type strategyJSON struct {
	Name      string               `json:"name"`
	Otherwise string               `json:"otherwise"` // what it answers otherwise than the file
	Responses []string             `json:"responses"` // one for each decision
	NetRate   page.NetRateJSON     `json:"net_rate"`
	ToOwn     *page.DifferenceJSON `json:"to_own"` // null for the file's own
	ToBest    *page.DifferenceJSON `json:"to_best"`
	Defective riskJSON             `json:"defective"`
	Remakes   *page.MeanJSON       `json:"remakes_per_1000,omitempty"`
	Within    bool                 `json:"within_the_limit"`
	Frontier  bool                 `json:"on_the_frontier"`
	OnPaper   paperJSON            `json:"on_paper"`
}

type riskJSON struct {
	PerMillion page.Number  `json:"per_million"`
	FromCount  bool         `json:"from_count"` // if not, it follows from the rates
	Counted    int64        `json:"counted"`
	Delivered  int64        `json:"delivered"`
	Low        page.Number  `json:"counted_low_per_million"` // exact interval of the count
	High       page.Number  `json:"counted_high_per_million"`
	From       []escapeJSON `json:"from"`
}

type escapeJSON struct {
	Station    string      `json:"station"`
	Fault      string      `json:"fault"`
	Shipped    bool        `json:"shipped"` // it was noticed
	Unfound    bool        `json:"unfound"` // no reader sees the stream out of step
	PerMillion page.Number `json:"per_million"`
}

type paperJSON struct {
	NetRate   page.Number `json:"net_rate"`
	Defective page.Number `json:"defective_per_million"`
	Remakes   page.Number `json:"remakes_per_1000"`
}

func (c *choice) Document() any {
	s := c.found
	doc := choiceDocument{
		Format: page.JSONVersion, LineDocument: page.DocumentOf(&c.Subject, c.contenders[0].study, c.finding()),
		Limit: page.Number(c.limit), LimitGiven: c.asked != nil,
		Best: c.among.entrants[c.best].name, Within: !c.none(), Shown: !c.none() && c.certain(), Rivals: []string{},
		OnPaper: searchJSON{page.Number(s.Considered), s.Undominated, s.Near, model.Margin, page.Number(s.Slack)},
		Method:  pairsMethod,
	}
	for _, i := range c.rivals {
		doc.Rivals = append(doc.Rivals, c.among.entrants[i].name)
	}
	for _, d := range c.Line.Decisions() {
		one := decisionJSON{Station: c.Line.Stations[d.Station].Where().Name, Fault: d.Fault.String()}
		for _, r := range d.Responses {
			one.Responses = append(one.Responses, r.String())
		}
		doc.Decisions = append(doc.Decisions, one)
	}
	for i := range c.contenders {
		doc.Strategies = append(doc.Strategies, c.strategyJSON(i))
	}
	return doc
}

func (c *choice) strategyJSON(i int) strategyJSON {
	x := &c.contenders[i]
	doc := strategyJSON{
		Name: c.among.entrants[i].name, Otherwise: x.words,
		NetRate: page.NetRateOf(x.study), Defective: x.document(), Within: c.accepted(i), Frontier: x.frontier,
		OnPaper: paperJSON{page.Number(x.NetRate), page.Number(1e6 * x.Defective), page.Number(1000 * x.Remakes)},
	}
	for _, r := range x.Strategy {
		doc.Responses = append(doc.Responses, r.String())
	}
	if i != 0 {
		doc.ToOwn = page.DifferenceOf(c.among.pairs[0][i])
	}
	if i != c.best {
		doc.ToBest = page.DifferenceOf(c.among.pairs[c.best][i])
	}
	if c.Line.Personalised() {
		e := remade(x.study)
		doc.Remakes = new(page.MeanOf(e))
	}
	return doc
}

func (r *risk) document() riskJSON {
	doc := riskJSON{
		PerMillion: page.Number(r.perMillion), FromCount: r.counted, Counted: r.escapes.Counted, Delivered: r.escapes.Delivered,
		High: 1e6, From: []escapeJSON{},
	}
	if r.escapes.Delivered > 0 {
		low, high := r.escapes.Count(say.Level)
		doc.Low, doc.High = page.Number(low), page.Number(high)
	}
	for _, e := range r.escapes.From {
		doc.From = append(doc.From, escapeJSON{e.Station, e.Fault.String(), e.Shipped, e.Unfound, page.Number(e.PerMillion)})
	}
	return doc
}
