package willrun

import (
	"fmt"
	"io"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/model/study"
	"netrate/scenarios"
)

// covers writes which jobs of a file run on which lines, in the forms that are asked for.
func (o *checkFlags) covers(e desk.Env, files []string) error {
	if len(files) != 1 {
		return desk.Wrong("--json, --report, --xlsx and --plots are about one file, found %d", len(files))
	}
	about, err := o.Read(e, files[0])
	switch {
	case err != nil:
		return err
	case len(about.Products) == 0:
		return desk.Wrong("%s has no jobs, so there is nothing to say of what runs: write some below jobs", desk.ShownFile(files[0]))
	case o.rules:
		return desk.Wrong("--rules goes with none of --json, --report, --xlsx and --plots")
	}
	defer o.Drop()
	if err := o.Begin(e); err != nil {
		return err
	}
	sc, a := about.Scenario, covered(about.Scenario)
	return o.Deliver(e, desk.Answer{
		Text: func(to io.Writer) error {
			summary(to, sc)
			fmt.Fprint(to, slips(sc))
			_, err := fmt.Fprintf(to, "\n%s", present.CoverageText(a))
			return err
		},
		Document: page.Document(func() any {
			return coverageDocument{page.JSONVersion, desk.Version(), page.ScenarioOf(sc, about.Source), a}
		}),
		Page: page.Made(func() (*page.Report, error) {
			return coverageReport(a, about.Again, page.OriginOf(about))
		}),
	})
}

// covered returns which jobs of a scenario run on its lines and on those of its variants.
func covered(sc *scenarios.Scenario) *study.CoverageAnswer {
	return study.Coverage{Alternatives: page.AlternativesOf(sc)}.Ask()
}

// coverageDocument is what runs where.
type coverageDocument struct {
	Format   int               `json:"netrate_json"`
	Version  string            `json:"version"`
	Scenario page.ScenarioJSON `json:"scenario"`
	*study.CoverageAnswer
}

// coverageReport returns what runs where as a page.
func coverageReport(a *study.CoverageAnswer, command string, from page.Origin) (*page.Report, error) {
	r := page.NewReport(desk.Version(), page.Opening{
		Title: from.Scenario.Name, Question: "Which jobs run on which line, and how fast?", Answer: present.CoverageFinding(a),
		Lead: "Nothing was simulated.", Command: command, Origins: []page.Origin{from},
	})
	r.Add(present.CoverageSection(a, r))
	return r.Done()
}
