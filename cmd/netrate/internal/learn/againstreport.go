package learn

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/plots"
	"netrate/sim"
)

// report returns the comparison as a page.
func (x *against) report(version string) (*page.Report, error) {
	partial := ""
	if x.ending == sim.Cancelled {
		partial = "PARTIAL ANSWER: the run was interrupted. "
	}
	r := page.NewReport(version, page.Opening{
		Title: x.Name + " against " + desk.ShownFile(x.records.logFile) + x.records.words(), Question: "Does the model reproduce the log?",
		Answer: x.finding(), Lead: fmt.Sprintf("%sSimulated: %s of %s.", partial, say.Plural(len(x.drawn), "record"), say.Plural(len(x.periods), x.word)),
		Command: fmt.Sprintf("%s --seed %d --reps %d", x.again, x.plan.Seed, len(x.drawn)), Origins: []page.Origin{{Scenario: x.Scenario, Text: x.source}},
		Plan: &x.plan, Word: "record", Most: len(x.drawn), Assumptions: page.AssumedOf(x.Scenario),
	})
	r.Add(plots.Section{
		Heading: "Is the log one of these?", Text: strings.Join(x.readingNotes(), " "),
		Figures: []*plots.Figure{r.Figure("periods")(x.figure())}, Tables: []plots.Table{x.testTable()},
	})
	r.Add(plots.Section{Heading: "Stations and faults", Tables: []plots.Table{x.causeTable()}})
	r.Add(plots.Section{Heading: "What was compared", Text: strings.Join(slices.Concat(x.workNotes(), x.leftOutNotes()), " ")})
	r.Add(plots.Section{Heading: "What was read as what", Text: strings.ReplaceAll(wasRead(x.records), "\n", "\n\n")})
	return r.Done()
}

// simulatedColumns are the columns of a figure of the log and of the simulated records.
func simulatedColumns(of, unit string) (all []plots.Column) {
	for _, title := range []string{of + " of the log", "Simulated " + strings.ToLower(of), "95 % from", "95 % to"} {
		all = append(all, plots.Column{Title: title, Unit: unit, Kind: plots.Number})
	}
	return all
}

func simulatedEntries(log float64, simulated sim.Sample, write func(float64) string) (all []plots.Entry) {
	low, high := middle(simulated)
	for _, v := range []float64{log, simulated.Mean(), low, high} {
		all = append(all, plots.Entry{Number: v, Shown: write(v)})
	}
	return all
}

// testTable returns a row for each test.
func (x *against) testTable() plots.Table {
	t := plots.Table{
		Name: "Tests", Caption: "The log among simulated records. Where periods differ, 1 is what chance makes on average.",
		Columns: slices.Concat([]plots.Column{{Title: "Test"}}, simulatedColumns("Figure", ""),
			[]plots.Column{{Title: "P", Kind: plots.Number}, {Title: "Out of line"}}),
	}
	for _, test := range x.tests {
		t.Rows = append(t.Rows, slices.Concat([]plots.Entry{page.Words(x.testName(test.Figure))}, simulatedEntries(test.Log, test.Simulated, writing(test.Figure)),
			[]plots.Entry{{Number: test.P, Shown: probability(test.P)}, page.Words(yesOrNo(test.Out))}))
	}
	return t
}

// causeTable returns a row for each station and cause.
func (x *against) causeTable() plots.Table {
	t := plots.Table{
		Name: "Stops", Caption: "Stops of the log, and of simulated records.",
		Columns: slices.Concat([]plots.Column{{Title: "Station and cause"}}, simulatedColumns("Stops", ""),
			[]plots.Column{{Title: "Outside"}}, simulatedColumns("Time", "s")),
	}
	for _, r := range x.rows() {
		t.Rows = append(t.Rows, slices.Concat([]plots.Entry{page.Words(r.name())}, simulatedEntries(float64(r.log.Stops), r.stops, amount),
			[]plots.Entry{page.Words(yesOrNo(r.outside() != ""))}, simulatedEntries(float64(r.log.Seconds), r.seconds, amount)))
	}
	return t
}

func yesOrNo(is bool) string {
	if is {
		return "yes"
	}
	return "no"
}

// figure draws how the periods of the log stand among simulated ones.
func (x *against) figure() (*plots.Figure, error) {
	title := fmt.Sprintf("The %ss of the log lie among simulated ones", x.word)
	out := 0
	for _, t := range x.tests {
		if t.Out {
			out++
		}
	}
	if out > 0 {
		title = fmt.Sprintf("The model does not reproduce the log: it is out of line in %d of %s tests", out, numeral(len(x.tests)))
	}
	log := x.stoodOf(x.log)
	return plots.Cumulative(plots.CumulativeData{
		Head:   plots.Head{Title: title, Subtitle: fmt.Sprintf("Seconds stood for each 1,000 sets, %s; %s", say.Plural(len(x.periods), x.word), say.Plural(len(x.drawn), "simulated record"))},
		Axis:   "seconds for each 1,000 sets",
		Of:     plots.Runs{One: x.word, Many: x.word + "s"},
		Curves: []plots.Values{{Name: "the log", Values: log}},
		Band:   plots.Band{Name: "95 % of simulated records, at each value", Steps: x.band(log)},
	})
}

// stoodOf returns for how many seconds the line stood in each period, for 1,000 sets, in
// rising order.
func (x *against) stoodOf(r model.Replica) []float64 {
	var stood []float64
	for i, p := range x.periods {
		stood = append(stood, 1000*float64(r.Periods[i].Seconds)/float64(p.Sets))
	}
	slices.Sort(stood)
	return stood
}

// bandSteps are enough for a band that looks smooth.
const bandSteps = 200

// band returns between which shares 95 % of the simulated records have their periods at or
// below each value.
func (x *against) band(log []float64) (steps []plots.BandStep) {
	var replicas [][]float64
	var all sim.Sample
	for _, r := range x.drawn {
		stood := x.stoodOf(r)
		replicas, all = append(replicas, stood), append(all, stood...)
	}
	low, high := min(log[0], all.Quantile(0.001)), max(log[len(log)-1], all.Quantile(0.999))
	for k := range bandSteps + 1 {
		at := low + (high-low)*float64(k)/bandSteps
		var shares sim.Sample
		for _, stood := range replicas {
			below := sort.Search(len(stood), func(i int) bool { return stood[i] > at })
			shares = append(shares, float64(below)/float64(len(stood)))
		}
		least, most := middle(shares)
		if n := len(steps); n > 0 && steps[n-1].Low == least && steps[n-1].High == most {
			continue
		}
		steps = append(steps, plots.BandStep{From: at, Low: least, High: most})
	}
	return steps
}
