package lines

import (
	"io"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/sim/output"
)

// compareDocument is what a comparison came to.
type compareDocument struct {
	Format    int                 `json:"netrate_json"`
	Version   string              `json:"version"`
	Scenarios []page.ScenarioJSON `json:"scenarios"`
	Settings  page.SettingsJSON   `json:"settings"`
	Lines     []lineJSON          `json:"lines"` // the base first
	Best      bestJSON            `json:"best"`
	Pairs     *pairsJSON          `json:"pairs,omitempty"`
	Leads     *leadsJSON          `json:"leads,omitempty"`
	Race      *raceJSON           `json:"race,omitempty"`
	Doubt     *compareDoubtJSON   `json:"doubt,omitempty"` // if something is in doubt, and was drawn
	Money     *moneyJSON          `json:"money,omitempty"`
}

type lineJSON struct {
	Name      string           `json:"name"`
	Note      string           `json:"note,omitempty"`
	Changes   []string         `json:"changes,omitempty"`
	File      string           `json:"file"`
	NetRate   page.NetRateJSON `json:"net_rate"`
	Defective page.Number      `json:"defective_per_million"`
	CanBe     bool             `json:"can_be_defective"`
	Remakes   *page.MeanJSON   `json:"remakes_per_1000,omitempty"` // of a personalised line
	CrewBusy  page.MeanJSON    `json:"crew_busy_share"`
	Rated     page.Number      `json:"rated_per_h"`
	Losses    []lossJSON       `json:"losses_per_h"`
	Jobs      []mixedJobJSON   `json:"jobs,omitempty"` // if they have yearly volumes
}

type lossJSON struct {
	Name    string      `json:"name"`
	PerHour page.Number `json:"per_h"`
}

type bestJSON struct {
	Name       string   `json:"name"`
	Shown      bool     `json:"shown"`                // nothing else may be as good
	Candidates []string `json:"candidates,omitempty"` // nothing is shown to be better than these
}

// pairsJSON is every line against every other, all intervals right at once.
type pairsJSON struct {
	Method string      `json:"method"`
	Level  page.Number `json:"level"` // of all at once
	Pairs  []pairJSON  `json:"pairs"`
}

type pairJSON struct {
	Of            string        `json:"of"`
	Against       string        `json:"against"`
	Difference    page.MeanJSON `json:"difference_per_h"`
	Level         page.Number   `json:"level"` // of this one
	Shown         bool          `json:"shown"`
	Wins          page.Number   `json:"wins"` // share of the shifts
	Narrowing     page.Number   `json:"narrowing"`
	VarianceRatio page.Number   `json:"variance_ratio"`
}

// leadsJSON is every line against the best of the others.
type leadsJSON struct {
	Method string      `json:"method"`
	Level  page.Number `json:"level"`
	Leads  []leadJSON  `json:"leads"`
}

type leadJSON struct {
	Name string      `json:"name"`
	Mean page.Number `json:"mean_per_h"`
	Low  page.Number `json:"low_per_h"`
	High page.Number `json:"high_per_h"`
}

type raceJSON struct {
	Method     string      `json:"method"`
	Worth      page.Number `json:"worth_per_h"`
	Confidence page.Number `json:"confidence"`
	Promised   bool        `json:"promised"`
	Done       int         `json:"done"`
	Most       int         `json:"most"`
	Dropped    []dropJSON  `json:"dropped"`
}

type dropJSON struct {
	Name string `json:"name"`
	By   string `json:"by"`
	At   int    `json:"at"`
	Tie  bool   `json:"tie,omitempty"`
}

// The methods.
const (
	pairsMethod = "paired t, Bonferroni over all pairs"
	leadsMethod = "comparisons with the best of the others (Hsu), each pair's own variance, Bonferroni"
	raceMethod  = "fully sequential selection (Kim and Nelson 2001), c = 1"
)

func writeCompareJSON(to io.Writer, version string, c *contest) error {
	s := c.entrants[c.best].study
	doc := compareDocument{
		Format: page.JSONVersion, Version: version,
		Settings: page.SettingsOf(s.Plan, len(s.Shifts), s.Ending),
		Best:     bestJSON{Name: c.entrants[c.best].name, Shown: c.certain()},
	}
	for _, o := range c.origins {
		doc.Scenarios = append(doc.Scenarios, page.ScenarioOf(o.Scenario, o.Text))
	}
	for i, x := range c.entrants {
		line := lineOf(x)
		line.Jobs = c.jobsDocument(i)
		doc.Lines = append(doc.Lines, line)
	}
	doc.Doubt, doc.Money = c.doubtDocument(), c.moneyDocument()
	if c.race != nil {
		doc.Race = c.raceDocument()
	} else {
		doc.Pairs, doc.Leads = c.pairsDocument(), c.leadsDocument()
		for _, i := range c.candidates() {
			doc.Best.Candidates = append(doc.Best.Candidates, c.entrants[i].name)
		}
	}
	return page.WriteDocument(to, doc)
}

func lineOf(x entrant) lineJSON {
	busy := crewBusy(x.study)
	rated, losses, _ := x.study.Losses()
	doc := lineJSON{
		Name: x.name, Note: x.note, Changes: x.changes, File: x.scenario.File,
		NetRate:   page.NetRateOf(x.study),
		Defective: page.Number(defectRate(x.study)), CanBe: canShipDefective(x.study),
		CrewBusy: page.MeanOf(busy), Rated: page.Number(rated),
	}
	if x.personalised() {
		e := study.RemakesIn(x.study)
		doc.Remakes = new(page.MeanOf(e))
	}
	for _, l := range losses {
		doc.Losses = append(doc.Losses, lossJSON{l.Name, page.Number(l.PerHour)})
	}
	return doc
}

func (c *contest) pairsDocument() *pairsJSON {
	doc := &pairsJSON{Method: pairsMethod, Level: say.Level}
	for _, pair := range output.AllPairs(len(c.entrants)) {
		p := c.pairs[pair[0]][pair[1]]
		d := p.Difference
		doc.Pairs = append(doc.Pairs, pairJSON{
			c.entrants[pair[1]].name, c.entrants[pair[0]].name,
			page.MeanOf(d),
			page.Number(d.Level), say.Differs(d),
			page.Number(p.Wins), page.Number(p.Narrowing), page.Number(p.VarianceRatio),
		})
	}
	return doc
}

func (c *contest) leadsDocument() *leadsJSON {
	if c.leads == nil {
		return nil
	}
	doc := &leadsJSON{Method: leadsMethod, Level: say.Level}
	for i, l := range c.leads {
		doc.Leads = append(doc.Leads, leadJSON{c.entrants[i].name, page.Number(l.Mean), page.Number(l.Low), page.Number(l.High)})
	}
	return doc
}

func (c *contest) raceDocument() *raceJSON {
	_, promised := c.race.Best()
	doc := &raceJSON{
		Method: raceMethod, Worth: page.Number(c.race.worth), Confidence: page.Number(c.race.confidence),
		Promised: promised, Done: c.race.Done(), Most: c.race.cap, Dropped: []dropJSON{},
	}
	for _, d := range c.race.Dropped() {
		doc.Dropped = append(doc.Dropped, dropJSON{c.entrants[d.System].name, c.entrants[d.By].name, d.At, d.Tie})
	}
	return doc
}
