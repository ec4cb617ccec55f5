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
		return desk.Wrong("%s has no jobs, so there is nothing to say of what runs: add some under jobs", desk.ShownFile(files[0]))
	case o.rules:
		return desk.Wrong("--rules goes with none of --json, --report, --xlsx and --plots")
	}
	if err := wrongToRun(about.Scenario); err != nil {
		return err
	}
	defer o.Drop()
	if err := o.Begin(e); err != nil {
		return err
	}
	c := present.Coverage{CoverageAnswer: covered(about.Scenario), Origin: page.OriginOf(about), Command: about.Again}
	a := page.Delivered(c)
	a.Text = func(to io.Writer) error {
		_, err := fmt.Fprintf(to, "%s%s\n%s", present.Checked(page.OriginOf(about)), slips(about.Scenario), c.Text())
		return err
	}
	return o.Deliver(e, a)
}

// covered returns which jobs of a scenario run on its lines and on those of its variants.
func covered(sc *scenarios.Scenario) *study.CoverageAnswer {
	return study.Coverage{Alternatives: page.AlternativesOf(sc)}.Ask()
}
