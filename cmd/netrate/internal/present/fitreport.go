package present

import (
	"fmt"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
	"netrate/scenarios/stoplog"
)

// Report returns what was learnt as a page.
func (f Fit) Report(version string) (*page.Report, error) {
	r := page.NewReport(version, page.Opening{
		Title:    "Rates from " + f.Log.StopFile.Name + stoplog.Taken(f.Log.Log),
		Question: "How often does the line fail, and for how long does it stand?",
		Answer:   f.Finding(), Lead: f.partial(". ") + "Nothing was simulated.", Command: f.Command,
	})
	shown, alike := f.Divisions()
	often := plots.Section{
		Heading: "How often", Text: strings.TrimSpace(strings.Join(slices.Concat([]string{f.divided()}, f.spreadNotes(), f.burstNotes()), " ")),
		Tables: append([]plots.Table{f.Rates()}, shown...),
	}
	often.Figures = append(often.Figures, r.Figure("rates")(f.ratesFigure()))
	if len(alike.Rows) > 0 {
		often.Tables = append(often.Tables, alike)
	}
	if days := f.SpreadTable(); len(days.Rows) > 0 {
		often.Tables = append(often.Tables, days)
	}
	if bursts := f.BurstTable(); len(bursts.Rows) > 0 {
		often.Tables = append(often.Tables, bursts)
	}
	for i := range f.Stations {
		if s := &f.Stations[i]; s.InBursts() {
			often.Figures = append(often.Figures, r.Figure("bursts-"+say.Slug(s.Name))(burstFigure(s)))
			if len(s.Found) > 0 && !s.Found[0].Dated {
				often.Figures = append(often.Figures, r.Figure("burst-times-"+say.Slug(s.Name))(burstTimes(s)))
			}
		}
	}
	r.Add(often)
	section := plots.Section{Heading: "How long", Text: strings.Join(f.Notes(), " ")}
	if times := f.ClearingTimes(); len(times.Rows) > 0 {
		section.Tables = []plots.Table{times}
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

// mostQuantiles is how many dots a figure of quantiles has, evenly chosen.
const mostQuantiles = 200

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
	d := plots.QuantilesData{
		Head:     plots.Head{Title: title, Subtitle: "Lengths of the stops in the order of their size, against those that the " + c.Kind.String() + " expects, seconds; " + about},
		Seen:     "in the log, seconds",
		Expected: "as the " + c.Kind.String() + " expects, seconds",
	}
	seen := slices.Sorted(slices.Values(s.Clearing.Complete()))
	for k := range min(len(seen), mostQuantiles) {
		i := k * len(seen) / min(len(seen), mostQuantiles)
		d.Points = append(d.Points, plots.QuantilePoint{Seen: seen[i], Expected: float64(c.Quantile((float64(i) + 0.5) / float64(len(seen))))})
	}
	return plots.Quantiles(d)
}

// ratesFigure draws how often each fault comes, those counted and those that were not, on one scale.
func (f Fit) ratesFigure() (*plots.Figure, error) {
	d := plots.RatesData{
		Head: plots.Head{
			Title:    "How often each fault comes, and how sure that is",
			Subtitle: "Faults in a million feeds, with the " + f.Sure() + " interval",
		},
		Axis: "faults in a million feeds",
	}
	for _, s := range f.Stations {
		for _, fault := range s.Faults {
			r := fault.Rate
			row := plots.RateRow{Name: s.Name + ", " + fault.Called, Rate: plots.Range{Value: 1e6 * r.P, Low: 1e6 * r.Low, High: 1e6 * r.High}, Says: "1 in " + say.OneIn(r.P)}
			if r.Faults == 0 {
				row.Rate = plots.Range{High: 1e6 * r.AtMost}
				row.Says = "none in " + say.Grouped(fmt.Sprint(r.Feeds))
			}
			d.Rows = append(d.Rows, row)
		}
	}
	return plots.Rates(d)
}
