package willrun

import (
	"fmt"
	"io"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/model"
	"netrate/plots"
	"netrate/scenarios"
)

// covers writes which jobs of a file run on which lines, in the forms that are asked for.
func (o *checkFlags) covers(e desk.Env, files []string) error {
	if len(files) != 1 {
		return desk.Wrong("--json, --report, --xlsx and --plots are about one file, found %d", len(files))
	}
	sc, text, err := o.load(e, files[0])
	switch {
	case err != nil:
		return err
	case len(sc.Products) == 0:
		return desk.Wrong("%s has no jobs, so there is nothing to say of what runs: write some below jobs", desk.ShownFile(files[0]))
	case o.rules:
		return desk.Wrong("--rules goes with none of --json, --report, --xlsx and --plots")
	}
	defer o.Drop()
	if err := o.Begin(); err != nil {
		return err
	}
	c := Covered(sc)
	says := io.Writer(e.Out)
	if o.json {
		says = e.Err
		err = page.WriteDocument(e.Out, c.document(sc, text))
	} else {
		summary(e.Out, sc)
		fmt.Fprint(e.Out, slipNotes(sc))
		willItRun(e.Out, sc)
	}
	if err != nil || !o.Wanted() {
		return err
	}
	r, err := c.report(desk.Version(), o.command(files[0]), page.Origin{Scenario: sc, Text: text})
	if err != nil {
		return err
	}
	return o.Write(says, r.Page, r.Tables, r.Figures)
}

// coverageDocument is what runs where.
type coverageDocument struct {
	Format    int               `json:"netrate_json"`
	Version   string            `json:"version"`
	Scenario  page.ScenarioJSON `json:"scenario"`
	Lines     []string          `json:"lines"` // as the scenario has them and, where that makes a difference, as variants do
	Jobs      []jobFitsJSON     `json:"jobs"`
	Envelopes []envelopeJSON    `json:"envelopes"`
}

type jobFitsJSON struct {
	Name string    `json:"name"`
	Fits []fitJSON `json:"fits"` // on each line; null if it has no such job
}

type fitJSON struct {
	Line      string            `json:"line"`
	Alike     []string          `json:"alike,omitempty"` // variants in which the line runs all jobs in the same way
	Runs      bool              `json:"runs"`
	Speed     page.Number       `json:"speed_per_h"`
	LimitedBy []string          `json:"limited_by,omitempty"`
	Feeders   map[string]string `json:"feeders,omitempty"` // of each insert
	Reasons   []string          `json:"reasons,omitempty"`
	Notes     []string          `json:"notes,omitempty"`
}

type envelopeJSON struct {
	Name      string      `json:"name"`
	Height    page.Number `json:"height_mm"`
	Length    page.Number `json:"length_mm"`
	Least     page.Number `json:"set_least_mm"`
	Most      page.Number `json:"set_most_mm"`
	AllKnown  bool        `json:"set_thickness_known"`
	USMail    string      `json:"us_mail"` // by size and thickness, for sets of up to 3.5 oz
	USReasons []string    `json:"us_mail_reasons,omitempty"`
	Jobs      []string    `json:"jobs"`
}

func (c *Coverage) document(sc *scenarios.Scenario, text []byte) *coverageDocument {
	doc := &coverageDocument{
		Format: page.JSONVersion, Version: desk.Version(),
		Scenario: page.ScenarioOf(sc, text),
	}
	for _, x := range c.columns {
		doc.Lines = append(doc.Lines, x.name)
	}
	for i, p := range c.jobs {
		job := jobFitsJSON{Name: p.Name}
		for _, x := range c.columns {
			if f := x.fits[i]; f != nil {
				job.Fits = append(job.Fits, fitJSON{x.name, x.alike, f.Runs, page.Number(f.Speed), f.LimitedBy, feedersOf(f), f.Reasons, f.Notes})
			}
		}
		doc.Jobs = append(doc.Jobs, job)
	}
	for _, m := range mailpieces(c.jobs) {
		doc.Envelopes = append(doc.Envelopes, envelopeJSON{
			m.envelope.Name, page.Number(m.envelope.Height), page.Number(m.envelope.Length),
			page.Number(m.least), page.Number(m.most), m.known, m.class.Name, m.class.Reasons, m.jobs,
		})
	}
	return doc
}

func feedersOf(f *model.Fit) map[string]string {
	feeders := map[string]string{}
	for _, x := range f.Feeders {
		feeders[x.Insert] = x.Feeder
	}
	return feeders
}

// report returns what runs where as a page.
func (c *Coverage) report(version, command string, from page.Origin) (*page.Report, error) {
	r := page.NewReport(version, page.Opening{
		Title: from.Scenario.Name, Question: "Which jobs run on which line, and how fast?", Answer: c.finding(),
		Lead: "Nothing was simulated.", Command: command, Origins: []page.Origin{from},
	})
	r.Add(c.Section(r))
	return r.Done()
}

// Section tells which jobs run where.
func (c *Coverage) Section(r *page.Report) plots.Section {
	s := plots.Section{
		Heading: "Will it run?",
		Text:    fmt.Sprintf("%s\n\nThe line of each job is set up for it: the feeders, readers and channels that it has no use for do not count.", c.finding()),
		Tables:  []plots.Table{c.table(), c.reasonsTable(), mailTable(mailpieces(c.jobs))},
	}
	if len(c.columns) <= mostCovered {
		s.Figures = []*plots.Figure{r.Figure("coverage")(c.figure())}
	}
	return s
}

// mostCovered is how many lines have room in the picture.
const mostCovered = 8
