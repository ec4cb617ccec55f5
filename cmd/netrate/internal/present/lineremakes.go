package present

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/runs"
	"netrate/model/study"
	"netrate/plots"
	"netrate/plots/terminal"
)

// lostName says at which station sets were lost to which fault.
func lostName(x study.RemakesLoss) string { return x.Station + ", " + x.Fault.String() }

// remakeCauses returns what makes most remakes necessary, on one line of a screen, or "" if none was.
func remakeCauses(s *runs.Study) string {
	text, rest, others := "", s.Total.Remakes(), 0
	n := float64(len(s.Shifts))
	mean := func(k int64) string { return say.Rough(float64(k)/n, 2*math.Sqrt(float64(k))/n) }
	for _, x := range study.RemakesByFault(&s.Total) {
		part := fmt.Sprintf("%s %s; ", lostName(x), mean(x.Remakes))
		switch {
		case x.Remakes == 0:
			continue
		case others > 0 || terminal.Width(text+part) > say.Screen()-factIndent-len("9,999 others 9,999.99"):
			others++
			continue
		}
		text += part
		rest -= x.Remakes
	}
	if others > 0 {
		return text + fmt.Sprintf("%s %s", say.Plural(others, "other"), mean(rest))
	}
	return strings.TrimSuffix(text, "; ")
}

const lostText = "A personalised set that is not delivered good is a remake. It is counted with the first fault that made it wrong: " +
	"a catch-up set, which is taken off to put a stream in step again, with the misfeed or double by which the stream came out of step."

// lostSection tells what sets were lost to, and what the stations noticed.
func lostSection(r *page.Report, x study.LineAnswer) plots.Section {
	s := plots.Section{
		Heading: "What must be made again, and why", Text: lostText,
		Tables: []plots.Table{lostTable(x), stationsTable(x)},
	}
	if seen := x.Scenes; seen != nil && seen[0].Incident != nil {
		s.Figures = append(s.Figures, r.Figure("incident")(IncidentFigure(seen[0].Incident, "The line")))
	}
	return s
}

// stationsTable returns what went wrong at each station, and what of it nobody noticed.
func stationsTable(x study.LineAnswer) plots.Table {
	word := page.Period(x.Study.Line)
	t := plots.Table{Name: "Stations " + x.Name, Caption: "What went wrong, means of a " + word + ": " + x.Name, Columns: []plots.Column{{Title: "Station"}}}
	for _, title := range []string{"Tries", "Misfeeds", "unnoticed", "Doubles", "missed", "False calls", "Jams", "No-reads", "Alarms", "False alarms"} {
		t.Columns = append(t.Columns, plots.Column{Title: title, Kind: plots.Number, Decimals: 2})
	}
	errors := errorsIn(x.Study)
	for _, f := range errors {
		t.Columns = append(t.Columns, plots.Column{Title: errorTitles[f], Kind: plots.Number, Decimals: 2})
	}
	n := float64(len(x.Study.Shifts))
	for i, s := range x.Study.Line.Stations {
		o := &x.Study.Total.Stations[i]
		if s.Counts() == nil {
			continue
		}
		row := []plots.Entry{page.Words(o.Name)}
		for _, k := range []int64{
			o.Attempts, o.Faults[model.Misfeed] + o.Faults[model.EnvelopeMisfeed], o.Unnoticed, o.Faults[model.Double], o.Missed, o.FalseCalls,
			o.Faults[model.Jam] + o.Faults[model.InsertionJam], o.Faults[model.NoRead], o.Faults[model.Mismatch], o.Faults[model.FalseAlarm],
		} {
			row = append(row, page.Value(float64(k)/n))
		}
		for _, f := range errors {
			row = append(row, page.Value(float64(o.Faults[f])/n))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// errorTitles are what people and readers err in, as a table has it.
var errorTitles = map[model.Fault]string{
	model.Misread: "Misreads", model.WrongRepair: "Put right wrongly", model.WrongRealign: "Realigned wrongly", model.WrongStock: "Wrong stock",
}

// errorsIn returns the errors of people and readers that a study had.
func errorsIn(s *runs.Study) []model.Fault {
	return slices.DeleteFunc(model.Errors(), func(f model.Fault) bool {
		return !slices.ContainsFunc(s.Total.Stations, func(o model.StationOutcome) bool { return o.Faults[f] > 0 })
	})
}

// fates draws what became of the sets that were not delivered good.
func fates(sample string, xs []study.LineAnswer) (*plots.Figure, error) {
	d := plots.FatesData{
		Head:  plots.Head{Title: "Sets of a thousand that are not delivered good", Subtitle: "Sets in a thousand started, by what became of them, means; " + sample},
		Axis:  "sets in a thousand started",
		Parts: []plots.Part{{Fate: "defective"}, {Fate: "diverted"}, {Fate: "outsorted"}, {Fate: "spoiled"}},
	}
	for _, x := range xs {
		all := study.Total(x.Study, study.Started)
		bar := plots.FateBar{Name: x.Name}
		for _, fate := range []func(*runs.Shift) float64{
			func(s *runs.Shift) float64 { return s.Defective },
			func(s *runs.Shift) float64 { return s.Diverted },
			func(s *runs.Shift) float64 { return s.Outsorted },
			func(s *runs.Shift) float64 { return s.Spoiled },
		} {
			bar.Amounts = append(bar.Amounts, 1000*study.Total(x.Study, fate)/all)
		}
		d.Bars = append(d.Bars, bar)
	}
	return plots.Fates(d)
}

// lostTable returns what the sets that were not delivered good were lost to.
func lostTable(x study.LineAnswer) plots.Table {
	count := func(title, unit string) plots.Column {
		return plots.Column{Title: title, Unit: unit, Kind: plots.Number, Decimals: 2}
	}
	word := page.Period(x.Study.Line)
	t := plots.Table{
		Name: "Lost " + x.Name, Caption: "Sets not delivered good, by the first fault that each was lost to, means: " + x.Name,
		Columns: []plots.Column{{Title: "Station and fault"}, count("Sets", "a "+word), count("Remakes", "a "+word), count("Remakes", "per 1,000")},
	}
	n, started := float64(len(x.Study.Shifts)), float64(max(1, x.Study.Total.Sets.Started))
	for _, l := range study.RemakesByFault(&x.Study.Total) {
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(lostName(l)), page.Value(float64(l.Sets) / n), page.Value(float64(l.Remakes) / n), page.Value(1000 * float64(l.Remakes) / started),
		})
	}
	return t
}
