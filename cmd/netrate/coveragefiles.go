package main

import (
	"fmt"
	"io"

	"netrate/model"
	"netrate/plots"
	"netrate/scenarios"
)

// covers writes which jobs of a file run on which lines, in the forms that are asked for.
func (o *checkFlags) covers(e env, files []string) error {
	if len(files) != 1 {
		return wrong("--json, --report, --xlsx and --plots are about one file, found %d", len(files))
	}
	sc, text, err := o.load(e, files[0])
	switch {
	case err != nil:
		return err
	case len(sc.Products) == 0:
		return wrong("%s has no jobs, so there is nothing to say of what runs: write some below jobs", shownFile(files[0]))
	case o.rules:
		return wrong("--rules goes with none of --json, --report, --xlsx and --plots")
	}
	defer o.drop()
	if err := o.begin(); err != nil {
		return err
	}
	c := covered(sc)
	says := io.Writer(e.out)
	if o.json {
		says = e.err
		err = writeDocument(e.out, c.document(sc, text))
	} else {
		summary(e.out, sc)
		fmt.Fprint(e.out, slipNotes(sc))
		willItRun(e.out, sc)
	}
	if err != nil || !o.wanted() {
		return err
	}
	r, err := c.report(version(), o.command(files[0]), origin{sc, text})
	if err != nil {
		return err
	}
	return o.write(says, r.page, r.tables, r.figures)
}

// coverageDocument is what runs where.
type coverageDocument struct {
	Format    int            `json:"netrate_json"`
	Version   string         `json:"version"`
	Scenario  scenarioJSON   `json:"scenario"`
	Lines     []string       `json:"lines"` // as the scenario has them and, where that makes a difference, as variants do
	Jobs      []jobFitsJSON  `json:"jobs"`
	Envelopes []envelopeJSON `json:"envelopes"`
}

type jobFitsJSON struct {
	Name string    `json:"name"`
	Fits []fitJSON `json:"fits"` // on each line; null if it has no such job
}

type fitJSON struct {
	Line      string            `json:"line"`
	Alike     []string          `json:"alike,omitempty"` // variants in which the line runs all jobs in the same way
	Runs      bool              `json:"runs"`
	Speed     number            `json:"speed_per_h"`
	LimitedBy []string          `json:"limited_by,omitempty"`
	Feeders   map[string]string `json:"feeders,omitempty"` // of each insert
	Reasons   []string          `json:"reasons,omitempty"`
	Notes     []string          `json:"notes,omitempty"`
}

type envelopeJSON struct {
	Name      string   `json:"name"`
	Height    number   `json:"height_mm"`
	Length    number   `json:"length_mm"`
	Least     number   `json:"set_least_mm"`
	Most      number   `json:"set_most_mm"`
	AllKnown  bool     `json:"set_thickness_known"`
	USMail    string   `json:"us_mail"` // by size and thickness, for sets of up to 3.5 oz
	USReasons []string `json:"us_mail_reasons,omitempty"`
	Jobs      []string `json:"jobs"`
}

func (c *coverage) document(sc *scenarios.Scenario, text []byte) *coverageDocument {
	doc := &coverageDocument{
		Format: jsonVersion, Version: version(),
		Scenario: scenarioJSON{sc.Name, sc.Question, sc.File, sc.Digest, string(text)},
	}
	for _, x := range c.columns {
		doc.Lines = append(doc.Lines, x.name)
	}
	for i, p := range c.jobs {
		job := jobFitsJSON{Name: p.Name}
		for _, x := range c.columns {
			if f := x.fits[i]; f != nil {
				job.Fits = append(job.Fits, fitJSON{x.name, x.alike, f.Runs, number(f.Speed), f.LimitedBy, feedersOf(f), f.Reasons, f.Notes})
			}
		}
		doc.Jobs = append(doc.Jobs, job)
	}
	for _, m := range mailpieces(c.jobs) {
		doc.Envelopes = append(doc.Envelopes, envelopeJSON{
			m.envelope.Name, number(m.envelope.Height), number(m.envelope.Length),
			number(m.least), number(m.most), m.known, m.class.Name, m.class.Reasons, m.jobs,
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
func (c *coverage) report(version, command string, from origin) (*report, error) {
	r := newReport(version, opening{
		title: from.scenario.Name, question: "Which jobs run on which line, and how fast?", answer: c.finding(),
		lead: "Nothing was simulated.", command: command, origins: []origin{from},
	})
	r.add(c.section(r))
	return r.done()
}

// section tells which jobs run where.
func (c *coverage) section(r *report) plots.Section {
	s := plots.Section{
		Heading: "Will it run?",
		Text:    fmt.Sprintf("%s\n\nThe line of each job is set up for it: the feeders, readers and channels that it has no use for do not count.", c.finding()),
		Tables:  []plots.Table{c.table(), c.reasonsTable(), mailTable(mailpieces(c.jobs))},
	}
	if len(c.columns) <= mostCovered {
		s.Figures = []*plots.Figure{r.figure("coverage")(c.figure())}
	}
	return s
}

// mostCovered is how many lines have room in the picture.
const mostCovered = 8
