package present

import (
	"fmt"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
	"netrate/sim/fit"
)

// Report returns what was learnt as a page.
func (f Fit) Report(version string) (*page.Report, error) {
	r := page.NewReport(version, page.Opening{
		Title:    "Rates from " + f.Log.StopFile.Name + f.Log.Words(),
		Question: "How often does the line fail, and for how long does it stand?",
		Answer:   f.Finding(), Lead: "Nothing was simulated.", Command: f.Command,
	})
	r.Add(plots.Section{
		Heading: "How often", Text: strings.Join(f.burstNotes(), " "),
		Tables: append([]plots.Table{textTable("Rates", "Faults in feeds, and feeds for each fault with the interval.", "Station and fault", f.rateRows())}, f.divisionTables()...),
	})
	section := plots.Section{Heading: "How long", Text: strings.Join(f.Notes(), " ")}
	if rows := f.clearRows(); len(rows) > 1 {
		section.Tables = []plots.Table{textTable("Clearing times", "How long the line stood, ± one standard error.", "Station", rows)}
	}
	for i := range f.Stations {
		if s := &f.Stations[i]; s.Clearing.Chosen != nil && s.Clearing.Chosen.Events > 0 {
			section.Figures = append(section.Figures, r.Figure("clear-"+say.Slug(s.Name))(clearingFigure(s)))
		}
	}
	r.Add(section)
	r.Add(plots.Section{Heading: "What was read as what", Text: strings.ReplaceAll(f.Log.read(), "\n", "\n\n")})
	return r.Done()
}

// textTable returns rows, of which the first has the headings, as a table.
func textTable(name, caption, first string, rows [][]string) plots.Table {
	t := plots.Table{Name: name, Caption: caption, Names: 1}
	for i, heading := range rows[0] {
		c := plots.Column{Title: heading}
		if c.Kind = plots.Number; i == 0 {
			c.Title, c.Kind = first, plots.Text
		}
		t.Columns = append(t.Columns, c)
	}
	for _, row := range rows[1:] {
		var entries []plots.Entry
		for _, cell := range row {
			entries = append(entries, plots.Entry{Text: cell})
		}
		t.Rows = append(t.Rows, entries)
	}
	return t
}

// divisionTables returns a table of each fault that differs between jobs or speeds or grows
// with the speed, and one of all that were compared and do not.
func (f Fit) divisionTables() []plots.Table {
	var tables []plots.Table
	alike := [][]string{{"", "groups", "P"}}
	for _, s := range f.Stations {
		for i := range s.Faults {
			fault := &s.Faults[i]
			for _, d := range fault.Divided() {
				caption := s.Name + ", " + fault.Called + ". " + d.Difference.Finding()
				growing := fault.Grows() && fault.Speeds == d
				if !d.Differs() && !growing {
					alike = append(alike, []string{s.Name + ", " + fault.Called + ", by " + d.By, say.Thousands(len(d.Groups)), probability(d.Difference.P)})
					continue
				}
				if growing {
					caption += " " + fault.Growth.Finding()
				}
				tables = append(tables, textTable(s.Name+" "+fault.Called+" by "+d.By, caption, say.Capital(d.By), f.groupRows(d)))
			}
		}
	}
	if len(alike) > 1 {
		tables = append(tables, textTable("No difference shown", "P is how often chance alone would set jobs or speeds so far apart.", "Station and fault", alike))
	}
	return tables
}

// curvePoints are enough for a curve that looks smooth.
const curvePoints = 400

// clearingFigure draws the lengths of the stops of a station against the fit.
func clearingFigure(s *study.FitStation) (*plots.Figure, error) {
	c := s.Clearing.Chosen
	title := fmt.Sprintf("%s: the line stood for %s s on average, spread like the %s", s.Name, say.Rough(float64(c.Mean()), float64(c.MeanSE())), c.Kind)
	if s.Clearing.Misfits() {
		title = s.Name + ": no kind of distribution fits how long the line stood"
	}
	about := say.Plural(c.Events, "stop")
	if s.Clearing.CutOff > 0 {
		about += ", those cut off left out"
	}
	return plots.Cumulative(plots.CumulativeData{
		Head:   plots.Head{Title: title, Subtitle: "Share of stops at or below a length, seconds; " + about},
		Axis:   "seconds",
		Of:     plots.Runs{One: "stop", Many: "stops"},
		Curves: []plots.Values{{Name: "the log", Values: complete(s.Clearing.Lengths)}, {Name: c.Kind.String(), Values: spreadLike(c.Fitted, curvePoints)}},
	})
}

// spreadLike returns so many durations that are spread as a fit says.
func spreadLike(f fit.Fitted, n int) []float64 {
	xs := make([]float64, n)
	for i := range xs {
		xs[i] = float64(f.Quantile((float64(i) + 0.5) / float64(n)))
	}
	return xs
}

// complete returns the lengths of the stops that were not cut off, seconds.
func complete(lengths []fit.Observation) (all []float64) {
	for _, x := range lengths {
		if !x.Censored {
			all = append(all, float64(x.Seconds))
		}
	}
	return all
}
