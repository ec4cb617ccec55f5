package present

import (
	"fmt"
	"time"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/study"
	"netrate/model/trace"
	"netrate/plots"
	"netrate/sim"
)

// jobText returns one job: what came of it, pass by pass, and its stops.
func jobText(t *study.Traced, begins time.Time, hour int) string {
	s, o := t.Shifts[0], t.Job
	title := fmt.Sprintf("%s: job %s of seed %d, %s sets from %s", s.Line.Name, say.Thousands(s.Replication), s.Seed,
		say.Thousands(s.Line.Job.Sets), begins.Format("2006-01-02 15:04"))
	finding := fmt.Sprintf("Finished after %s h, in %s of the line", say.Rounded(float64(o.Job.Finish)/3600, -2), passes(int(o.Job.Passes)))
	if o.Job.Setup > 0 {
		finding += fmt.Sprintf(" with %s minutes of setting up between them", minutes(o.Job.Setup))
	}
	switch {
	case o.Job.ByHand > 0 && s.Line.Job.Closing == model.Beside:
		finding += fmt.Sprintf("; %s made by hand beside the line, for which the job waited %s minutes", say.Plural(int(o.Job.ByHand), "remake"), minutes(o.Job.Hand))
	case o.Job.ByHand > 0:
		finding += fmt.Sprintf("; %s made by hand, %s minutes", say.Plural(int(o.Job.ByHand), "remake"), minutes(o.Job.Hand))
	}
	finding += fmt.Sprintf(": %s good envelopes, %s an hour until then.", say.Thousands(o.Sets.Good), say.Rounded(o.NetRate(), 0))
	table := partsTable(t.Shifts, &part{"Pass", func(s *trace.Shift) string { return fmt.Sprint(s.Pass) }})
	table.Caption = "Pass by pass: a set that is not good is made again in the next one, if it must be."
	return Screen(title, finding, table, hourStops(t.Shifts, begins, hour))
}

func passes(n int) string {
	if n == 1 {
		return "1 pass"
	}
	return say.Thousands(n) + " passes"
}

// groupText returns one shift of several lines that share a crew: what came of each, and their stops.
func groupText(name string, all []*trace.Shift, begins time.Time, hour int) string {
	s := all[0]
	title := fmt.Sprintf("%s: shift %s of seed %d, %s from %s", name, say.Thousands(s.Replication), s.Seed,
		page.Hours(s.Lasts()), begins.Format("2006-01-02 15:04"))
	good, stops := goodAndStops(all)
	finding := fmt.Sprintf("%s good envelopes and %s on %s with one crew.", say.Thousands(good), say.Plural(stops, "stop"), say.Plural(len(all), "line"))
	table := partsTable(all, partOf(all))
	table.Caption = "Each line; waiting is for an operator of all of them."
	return Screen(title, finding, table, hourStops(all, begins, hour))
}

func goodAndStops(all []*trace.Shift) (good int64, stops int) {
	for _, s := range all {
		good += s.Outcome.Sets.Good
		stops += len(s.Stops)
	}
	return good, stops
}

// partsTable returns a row for each part of a replication.
func partsTable(all []*trace.Shift, p *part) plots.Table {
	t := plots.Table{
		Name: "parts",
		Columns: []plots.Column{
			{Title: p.title},
			{Title: "Lasts", Unit: "h", Kind: plots.Number, Decimals: 2},
			{Title: "Good", Kind: plots.Number},
			{Title: "Not good", Kind: plots.Number},
			{Title: "Stops", Kind: plots.Number},
			{Title: "Stood", Unit: "min", Kind: plots.Number, Decimals: 1},
			{Title: "Wait and walk", Unit: "min", Kind: plots.Number, Decimals: 1},
		},
		Names: 1,
	}
	for _, s := range all {
		o, stopped := &s.Outcome, s.Outcome.Stopped()
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(p.of(s)), page.Value(float64(s.Lasts() / 3600)), page.Value(float64(o.Sets.Good)), page.Value(float64(notGood(s))),
			page.Value(float64(stopped.Count)), page.Value(float64(stopped.Total() / 60)), page.Value(float64(stopped.Waiting / 60)),
		})
	}
	return t
}

func notGood(s *trace.Shift) int64 {
	o := &s.Outcome.Sets
	return o.Started - o.Good - o.OnLine
}

// shiftsText returns several replications, a row each.
func shiftsText(name string, a *study.TraceAnswer) string {
	first, last := a.Traced[0].Shifts[0], a.Traced[len(a.Traced)-1].Shifts[0]
	what, each := "shift", page.Hours(first.Lasts())+" each"
	if first.Pass > 0 {
		what, each = "job", say.Thousands(first.Line.Job.Sets)+" sets each"
	} else if len(a.Traced[0].Shifts) == 1 {
		name = first.Line.Name
	}
	t := plots.Table{
		Name: "shifts", Caption: "Each of them; netrate trace --shift shows one in full.",
		Columns: []plots.Column{
			{Title: say.Capital(what), Kind: plots.Number},
			{Title: "Net rate", Unit: "good/h", Kind: plots.Number},
			{Title: "Good", Kind: plots.Number},
			{Title: "Not good", Kind: plots.Number},
			{Title: "Stops", Kind: plots.Number},
			{Title: "Stood", Unit: "min", Kind: plots.Number, Decimals: 1},
		},
		Names: 1,
	}
	allGood, allStops := int64(0), 0
	for i := range a.Traced {
		x := &a.Traced[i]
		good, stops := goodAndStops(x.Shifts)
		lost, stood := int64(0), sim.Seconds(0)
		for _, s := range x.Shifts {
			lost += notGood(s)
			stopped := s.Outcome.Stopped()
			stood += stopped.Total()
		}
		t.Rows = append(t.Rows, []plots.Entry{
			page.Value(float64(x.Number())), page.Value(tracedRate(x)), page.Value(float64(good)), page.Value(float64(lost)),
			page.Value(float64(stops)), page.Value(float64(stood / 60)),
		})
		allGood += good
		allStops += stops
	}
	title := fmt.Sprintf("%s: %ss %s to %s of seed %d, %s", name, what, say.Thousands(first.Replication), say.Thousands(last.Replication), first.Seed, each)
	return Screen(title, fmt.Sprintf("%s good envelopes and %s in %s.", say.Thousands(allGood), say.Plural(allStops, "stop"), say.Plural(len(a.Traced), what)), t)
}

// tracedRate returns the good envelopes an hour of a replication, of all its lines together.
func tracedRate(t *study.Traced) float64 {
	if t.Job != nil {
		return t.Job.NetRate()
	}
	sum := 0.0
	for _, s := range t.Shifts {
		sum += s.Outcome.NetRate()
	}
	return sum
}
