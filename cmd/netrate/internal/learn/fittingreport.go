package learn

import (
	"fmt"
	"strings"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/plots"
)

// report returns what was learnt as a page.
func (x *fitting) report(version string) (*page.Report, error) {
	r := page.NewReport(version, page.Opening{
		Title:    "Rates from " + desk.ShownFile(x.logFile) + x.words(),
		Question: "How often does the line fail, and for how long does it stand?",
		Answer:   x.finding(), Lead: "Nothing was simulated.", Command: x.again,
	})
	r.Add(plots.Section{
		Heading: "How often", Text: strings.Join(x.burstNotes(), " "),
		Tables: append([]plots.Table{textTable("Rates", "Faults in feeds, and feeds for each fault with the interval.", "Station and fault", x.rateRows())}, x.divisionTables()...),
	})
	section := plots.Section{Heading: "How long", Text: strings.Join(x.notes(), " ")}
	if rows := x.clearRows(); len(rows) > 1 {
		section.Tables = []plots.Table{textTable("Clearing times", "How long the line stood, ± one standard error.", "Station", rows)}
	}
	for _, l := range x.learnt {
		if l.chosen != nil && l.chosen.Events > 0 {
			section.Figures = append(section.Figures, r.Figure("clear-"+say.Slug(l.name))(l.figure()))
		}
	}
	r.Add(section)
	r.Add(plots.Section{Heading: "What was read as what", Text: strings.ReplaceAll(wasRead(x.records), "\n", "\n\n")})
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
func (x *fitting) divisionTables() []plots.Table {
	var tables []plots.Table
	alike := [][]string{{"", "groups", "P"}}
	for _, l := range x.learnt {
		for _, f := range l.faults {
			for _, by := range f.divided() {
				caption := l.name + ", " + f.called + ". " + by.difference.Finding()
				growing := f.growth != nil && f.growth.Low > 0 && f.speeds == by.division
				if !(by.difference.P < usualP || growing) {
					alike = append(alike, []string{l.name + ", " + f.called + ", by " + by.word, say.Thousands(len(by.groups)), probability(by.difference.P)})
					continue
				}
				if growing {
					caption += " " + f.growth.Finding()
				}
				tables = append(tables, textTable(l.name+" "+f.called+" by "+by.word, caption, say.Capital(by.word), x.groupRows(by.division)))
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

// figure draws the lengths of the stops of a station against the fit.
func (l *learnt) figure() (*plots.Figure, error) {
	title := fmt.Sprintf("%s: the line stood for %s s on average, spread like the %s", l.name, say.Rough(float64(l.chosen.Mean()), float64(l.chosen.MeanSE())), l.chosen.Kind)
	if g := l.chosen.Goodness; g.Tested && g.P < usualP {
		title = l.name + ": no kind of distribution fits how long the line stood"
	}
	about := say.Plural(l.chosen.Events, "stop")
	if l.cut > 0 {
		about += ", those cut off left out"
	}
	return plots.Cumulative(plots.CumulativeData{
		Head:   plots.Head{Title: title, Subtitle: "Share of stops at or below a length, seconds; " + about},
		Axis:   "seconds",
		Of:     plots.Runs{One: "stop", Many: "stops"},
		Curves: []plots.Values{{Name: "the log", Values: seconds(l.lengths)}, {Name: l.chosen.Kind.String(), Values: spreadLike(l.chosen.Fitted, curvePoints)}},
	})
}
