package present

import (
	"fmt"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/plots"
	"netrate/scenarios/stoplog"
	"netrate/sim"
)

// Report returns the comparison as a page.
func (p Replay) Report(version string) (*page.Report, error) {
	partial := ""
	if p.Ending == sim.Cancelled {
		partial = "PARTIAL ANSWER: the run was interrupted. "
	}
	r := page.NewReport(version, page.Opening{
		Title: p.Origin.Scenario.Name + " against " + p.Log.StopFile.Name + stoplog.Taken(p.Log.Log), Question: "Does the model reproduce the log?",
		Answer: p.Finding(), Lead: fmt.Sprintf("%sSimulated: %s of %s.", partial, say.Plural(len(p.Drawn), "record"), say.Plural(len(p.Periods), p.Period)),
		Command: p.again(), Origins: []page.Origin{p.Origin},
		Plan: &p.Plan, Word: "record", Most: len(p.Drawn), Assumptions: page.AssumedOf(p.Origin.Scenario),
	})
	r.Add(plots.Section{
		Heading: "Is the log one of these?", Text: strings.Join(p.readingNotes(), " "),
		Figures: []*plots.Figure{r.Figure("periods")(p.figure())}, Tables: []plots.Table{p.Figures()},
	})
	r.Add(plots.Section{Heading: "Stations and faults", Tables: []plots.Table{p.Stops(), p.Times()}})
	r.Add(plots.Section{Heading: "What was compared", Text: strings.Join(slices.Concat(p.workNotes(), p.leftOutNotes()), " ")})
	r.Add(plots.Section{Heading: "What was read as what", Text: strings.ReplaceAll(p.Log.read(), "\n", "\n\n")})
	return r.Done()
}

// figure draws how the periods of the log stand among simulated ones.
func (p Replay) figure() (*plots.Figure, error) {
	title := fmt.Sprintf("The %ss of the log lie among simulated ones", p.Period)
	if out := len(p.Contradicted()); out > 0 {
		title = fmt.Sprintf("The model does not reproduce the log: it is out of line in %d of %s tests", out, numeral(len(p.Tests)))
	}
	var steps []plots.BandStep
	for _, s := range p.Band() {
		steps = append(steps, plots.BandStep(s))
	}
	return plots.Cumulative(plots.CumulativeData{
		Head:   plots.Head{Title: title, Subtitle: fmt.Sprintf("Seconds stood for each 1,000 sets, %s; %s", say.Plural(len(p.Periods), p.Period), say.Plural(len(p.Drawn), "simulated record"))},
		Axis:   "seconds for each 1,000 sets",
		Of:     plots.Runs{One: p.Period, Many: p.Period + "s"},
		Curves: []plots.Values{{Name: "the log", Values: p.StoodIn(p.Logged)}},
		Band:   plots.Band{Name: "95 % of simulated records, at each value", Steps: steps},
	})
}
